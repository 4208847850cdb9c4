"""Shoulders close: where a joint says that two parts touch, faces of their solids lie on each other."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from shapely import Polygon, union_all
from shapely import box as rectangle

from planbuild.core.diagnostics import Diagnostic, Severity
from planbuild.core.geometry import TINY, Axis, Box, Vec
from planbuild.core.poses import Pose, along, cross, dot, rim, same_way, unit
from planbuild.prove.measuring import COPLANAR, FlatFace, contacts, in_plane
from planbuild.prove.standing import Standing
from planbuild.prove.telling import told, told_area
from planbuild.records.features import Groove, Mortise, Rabbet, Tenon
from planbuild.records.findings import Findings, Proof
from planbuild.records.piece import Contact, Joint
from planbuild.records.shaped import goes_in_whole
from planbuild.records.slanted import AngledMortise
from planbuild.records.solids import Key
from planbuild.records.tails import Comb, Tails

ENOUGH = 0.5
"""Share of the shoulder, as the bodies would give it, that must touch (heuristic: eased edges take some of it)."""

WHOLE = 1.0
"""Less shoulder than this is none, mm2."""


@dataclass(frozen=True)
class _Shoulder:
    """What touches at one contact, against what the two bodies offer there.  Units: mm2."""

    joint: Joint
    contact: Contact
    axis: Axis
    touching: float
    offered: float

    @property
    def share(self) -> float:
        return self.touching / self.offered


def shoulders_close(standing: Standing) -> Findings:
    """Reports `joint-open` (nothing touches) and `joint-shoulder-small` (warning)."""
    found = [shoulder for joint in standing.piece.joints for shoulder in _shoulders(standing, joint)]
    told_once = _first_of_each([each for each in found if each.share < ENOUGH])
    worst = min(found, key=lambda each: each.share, default=None)
    saying = _worst(standing, worst) if worst else "no joint has a shoulder"
    diagnostics = tuple(_finding(standing, each) for each in told_once)
    return Findings(diagnostics, (Proof("Every shoulder closes on its mate", len(found), saying),))


def _worst(standing: Standing, worst: _Shoulder) -> str:
    a, b = (standing.name(key) for key in (worst.contact.a, worst.contact.b))
    area = told_area(standing.ruler, worst.touching)
    return f"least: {a} on {b} touches over {area}, {100 * worst.share:.0f} % of what the bodies offer"


def _first_of_each(shoulders: Sequence[_Shoulder]) -> list[_Shoulder]:
    """One for each joint and two parts: mirrored copies share a fault."""
    first: dict[tuple[str, str, str], _Shoulder] = {}
    for each in shoulders:
        first.setdefault((each.joint.id, each.contact.a[0], each.contact.b[0]), each)
    return list(first.values())


def _shoulders(standing: Standing, joint: Joint) -> Iterator[_Shoulder]:
    for contact in joint.contacts:
        if _has_no_shoulder(standing, joint, contact):
            continue
        if contact.outline:
            yield _askew(standing, joint, contact)
            continue
        flat = [axis for axis in Axis if contact.shoulder.size(axis) <= TINY]
        if len(flat) == 1 and not _goes_in_whole(standing, contact, flat[0]):
            axis = flat[0]
            yield _Shoulder(joint, contact, axis, _touching(standing, contact, axis), _offered(standing, contact, axis))


def _has_no_shoulder(standing: Standing, joint: Joint, contact: Contact) -> bool:
    """True for what is turned as thick as its tenon."""
    part = standing.part(contact.a)
    ends = [f for f in part.features if isinstance(f, Tenon) and f.joint == joint.id]
    here = [each for each in ends if same_way(part.way(contact.a[1], each.end), contact.insert)]
    return bool(here) and all(goes_in_whole(part.features, each) for each in here)


def _goes_in_whole(standing: Standing, contact: Contact, axis: Axis) -> bool:
    """True for a tenon without any shoulder, a thin bar let in whole: nothing closes there, how far it goes in is the
    business of its fit."""
    tenons = [_flat(box, axis) for box in _tenons(standing, contact.a) if _reaches(box, contact.shoulder, axis)]
    left = _flat(contact.shoulder, axis).difference(union_all(tenons))
    return bool(tenons) and float(left.area) < WHOLE


def _askew(standing: Standing, joint: Joint, contact: Contact) -> _Shoulder:
    """A shoulder that is no rectangle square to the piece, in the plane of its outline."""
    first, second, third = contact.outline[0], contact.outline[1], contact.outline[2]
    normal = unit(cross(_less(second, first), _less(third, first)))
    faces = [_in_plane(standing.faces(key), normal, dot(normal, first)) for key in (contact.a, contact.b)]
    touching = sum(float(region.area) for _, region in contacts(*faces))
    offered = in_plane(contact.outline, normal).difference(union_all(list(_taken(standing, contact, normal, dot(normal, first)))))
    axis = max(Axis, key=lambda each: abs(normal[each.value]))
    return _Shoulder(joint, contact, axis, touching, max(float(offered.area), 1.0))


def _less(a: Vec, b: Vec) -> Vec:
    return a[0] - b[0], a[1] - b[1], a[2] - b[2]


def _in_plane(faces: Sequence[FlatFace], normal: Vec, offset: float) -> list[FlatFace]:
    """The faces that lie in a plane, whichever way they look."""
    aligned = [(face, dot(face.normal, normal)) for face in faces]
    return [face for face, lie in aligned if abs(lie) > 1 - 1e-9 and abs(face.offset * lie - offset) < COPLANAR]


def _taken(standing: Standing, contact: Contact, normal: Vec, offset: float) -> Iterator[Polygon]:
    """Where tenons and mortises pass through a plane, drawn in it."""
    part = standing.part(contact.a)
    for tenon in (f for f in part.features if isinstance(f, Tenon)):
        yield from _section(rim(tenon.block, tenon.end), tenon.end.normal, part.stands(contact.a[1]), normal, offset)
    mate = standing.part(contact.b)
    for mortise in (f for f in mate.features if isinstance(f, AngledMortise)):
        yield from _section(mortise.rim, mortise.way, mate.stands(contact.b[1]), normal, offset)


def _section(corners: Sequence[Vec], way: Vec, stands: Pose, normal: Vec, offset: float) -> Iterator[Polygon]:
    """A prism cut by a plane, if it comes through it near its end; `way` is along the prism, both in the part's own frame."""
    run, ends = stands.direction(way), [stands.point(corner) for corner in corners]
    steep = dot(run, normal)
    if abs(steep) > 0.1:
        yield in_plane([along(end, run, (offset - dot(normal, end)) / steep) for end in ends], normal)


# ---------------------------------------------------------------- what touches, what is offered


def _touching(standing: Standing, contact: Contact, axis: Axis) -> float:
    """Area in which faces of the two solids lie on each other at the shoulder plane."""
    plane = contact.shoulder.along(axis).middle
    at_plane = [_square_to(standing.faces(key), axis, plane) for key in (contact.a, contact.b)]
    return sum(float(region.area) for _, region in contacts(*at_plane))


def _square_to(faces: Sequence[FlatFace], axis: Axis, plane: float | None = None) -> list[FlatFace]:
    """The faces square to an axis, at one plane or anywhere."""
    square = [face for face in faces if abs(face.normal[axis.value]) > 1 - 1e-6]
    return square if plane is None else [face for face in square if abs(_place(face, axis) - plane) < COPLANAR]


def _place(face: FlatFace, axis: Axis) -> float:
    return face.offset * face.normal[axis.value]


def _offered(standing: Standing, contact: Contact, axis: Axis) -> float:
    """Area of the shoulder less the openings that the two parts have there, and the tenons that go in."""
    plane = contact.shoulder
    way = contact.insert[axis.value]
    own = [box for box in _openings(standing, contact.a) if _lies_behind(box, plane, axis, -way)]
    mate = [box for box in _openings(standing, contact.b) if _lies_behind(box, plane, axis, way)]
    tenons = [box for box in _tenons(standing, contact.a) if _reaches(box, plane, axis)]
    holes = [_flat(box, axis) for box in (*own, *mate, *tenons)]
    return max(float(_flat(plane, axis).difference(union_all(holes)).area), 1.0)


def _openings(standing: Standing, key: Key) -> Iterator[Box]:
    motion = standing.copy(key).motion
    yield from (motion.box(f.void) for f in standing.part(key).features if isinstance(f, Mortise | Groove | Rabbet))


def _tenons(standing: Standing, key: Key) -> Iterator[Box]:
    motion = standing.copy(key).motion
    tenons = [f for f in standing.part(key).features if isinstance(f, Tenon)]
    yield from (motion.box(f.block) for f in tenons)
    yield from (motion.box(f.haunch.box) for f in tenons if f.haunch)
    yield from (neck for f in standing.part(key).features if isinstance(f, Tails) for neck in _necks(f.comb.moved(motion)))


def _necks(comb: Comb) -> Iterator[Box]:
    """Dovetails where they leave the shoulder."""
    yield from (comb.block.with_span(comb.spread, comb.neck(tail)) for tail in comb.tails)


def _lies_behind(box: Box, plane: Box, axis: Axis, way: float) -> bool:
    """True if an opening takes the wood that backs a plane.  `way` looks from the plane into the wood (0: it may lie on
    either side); what is open before the plane is only the road to it: a housing whose floor it is."""
    span, place = box.along(axis), plane.along(axis).middle
    below, above = span.low < place - TINY, span.high > place + TINY
    meets = span.low < place + TINY and span.high > place - TINY
    return meets and (below if way < 0 else above if way > 0 else below and above)


def _reaches(box: Box, plane: Box, axis: Axis) -> bool:
    return box.along(axis).meet(plane.along(axis)).size > -TINY


def _flat(box: Box, axis: Axis) -> Polygon:
    first, second = (box.along(other) for other in axis.others)
    return rectangle(first.low, second.low, first.high, second.high)


# ---------------------------------------------------------------- telling


def _finding(standing: Standing, shoulder: _Shoulder) -> Diagnostic:
    a, b = (standing.name(key) for key in (shoulder.contact.a, shoulder.contact.b))
    joint = shoulder.joint
    if shoulder.touching == 0:
        message = f"{a} does not touch {b} where joint {joint.id} closes{_how_far(standing, shoulder)}."
        hint = "place the parts so that the shoulder meets the face, or make the part longer"
        return Diagnostic("joint-open", message, span=joint.origin, expected="a shoulder that lies on its mate", hints=(hint,))
    message = f"Only {100 * shoulder.share:.0f} % of the shoulder of {a} lies on {b} (joint {joint.id})."
    hint = "look for a taper, an arch or a groove that runs through the joint"
    return Diagnostic("joint-shoulder-small", message, Severity.WARNING, joint.origin, hints=(hint,))


def _how_far(standing: Standing, shoulder: _Shoulder) -> str:
    """The way to the nearest face that looks back at the shoulder, in words; "" if there is none."""
    axis, contact = shoulder.axis, shoulder.contact
    plane, way = contact.shoulder.along(axis).middle, contact.insert[axis.value]
    own = [_place(f, axis) for f in _square_to(standing.faces(contact.a), axis) if f.normal[axis.value] * way > 0]
    facing = [_place(f, axis) for f in _square_to(standing.faces(contact.b), axis) if f.normal[axis.value] * way < 0]
    if not own or not facing:
        return ""
    shoulder_place = min(own, key=lambda place: abs(place - plane))
    gap = (min(facing, key=lambda place: abs(place - plane)) - shoulder_place) * way
    return f": {told(standing.piece.ruler, abs(gap))} {'short of it' if gap > 0 else 'too far in'}" if abs(gap) > COPLANAR else ""


