"""Hands told apart, from the features: which copies are as drawn, which are mirror images, which parts are alike.

A part is written down as its list of features, seen from its own middle along its grain.  It is then turned
in every way that leaves its blank where it was: the smallest list is its form.  If a mirrored blank can give the
same list, the mirrored copy is only the drawn one turned about.  Sizes count to 0.01 mm; who a feature is for
does not count.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from itertools import combinations, pairwise, product
from typing import Any

from planbuild.core.diagnostics import Diagnostic, Severity
from planbuild.core.geometry import TINY, Axis, Box, Face, Motion
from planbuild.core.poses import along, corners
from planbuild.prove.standing import Standing
from planbuild.records.corner_slots import CornerSlot
from planbuild.records.edging import Edging
from planbuild.records.features import (
    Arch,
    Bevel,
    Chamfer,
    Curve,
    Edge,
    EdgeBevel,
    Feature,
    Groove,
    Hole,
    Mortise,
    Rabbet,
    RoundOver,
    Taper,
    Tenon,
)
from planbuild.records.findings import Findings, Likeness, Proof
from planbuild.records.piece import Part
from planbuild.records.pockets import Pocket
from planbuild.records.shaped import Dished, Moulding, Sawn, Turned
from planbuild.records.slanted import AngledMortise, EndCut
from planbuild.records.tails import Sockets, Tails

Item = tuple[str, tuple[str, ...], tuple[int, ...]]
"""One thing cut, in a way that can be compared: its kind, its faces and directions, its numbers."""

OFF_GRID = 0.0137
"""Hundredths added before rounding, so that no size on a ruler falls on the border between two figures."""


@dataclass(frozen=True)
class Form:
    """A part apart from where it stands: stock and size, and the features as drawn and as in a mirror."""

    stock: str
    size: tuple[int, ...]
    drawn: tuple[Item, ...]
    mirrored: tuple[Item, ...]

    @property
    def has_hands(self) -> bool:
        """True if the mirror image cannot be had by turning the part."""
        return self.drawn != self.mirrored


def hands(standing: Standing) -> Findings:
    """The likeness of every part; notes `parts-alike` and `parts-mirrored` for different parts of one form."""
    parts = standing.piece.parts
    forms = {part.id: form_of(part) for part in parts}
    likeness = tuple(_likeness(part, forms[part.id]) for part in parts)
    counts = [(part, len(like.mirrored)) for part, like in zip(parts, likeness, strict=True) if like.mirrored]
    named = ", ".join(f"{part.name} ({count} of {len(part.copies)})" for part, count in counts)
    saying = f"mirror images, not to be had by turning: {named}" if named else "no copy is a mirror image"
    proof = Proof("Every copy is as drawn or a known mirror image", sum(len(part.copies) for part in parts), saying)
    return Findings(tuple(_alike(parts, forms)), (proof,), likeness)


def form_of(part: Part) -> Form:
    """The form of a part, the same however it stands and whatever it is called."""
    turned = [(motion.mirrors, tuple(sorted(_items(part, motion)))) for motion in _symmetries(part)]
    size = sorted((part.body.size(part.width_axis), part.body.size(part.thickness_axis)))
    drawn = min(items for mirrors, items in turned if not mirrors)
    mirrored = min(items for mirrors, items in turned if mirrors)
    return Form(part.stock, (_figure(part.body.size(part.grain)), *map(_figure, size)), drawn, mirrored)


def _symmetries(part: Part) -> Iterator[Motion]:
    """Every motion that lays the blank along the first axis, wider than thick, with its middle at the origin."""
    width, thickness = part.body.size(part.width_axis), part.body.size(part.thickness_axis)
    orders = []
    if width > thickness - TINY:
        orders.append((part.grain, part.width_axis, part.thickness_axis))
    if thickness > width - TINY:
        orders.append((part.grain, part.thickness_axis, part.width_axis))
    for axes, (a, b, c) in product(orders, product((1, -1), repeat=3)):
        first, second, third = (axis.value for axis in axes)
        turned = Motion((a, b, c), order=(first, second, third))
        x, y, z = (-place for place in turned.point(part.body.centre))
        yield Motion(turned.sign, (x, y, z), turned.order)


def _likeness(part: Part, form: Form) -> Likeness:
    other = tuple(i for i, copy in enumerate(part.copies) if copy.motion.mirrors and form.has_hands)
    return Likeness(part.id, tuple(i for i in range(len(part.copies)) if i not in other), other)


def _alike(parts: Iterable[Part], forms: dict[str, Form]) -> Iterator[Diagnostic]:
    for one, other in combinations(parts, 2):
        a, b = forms[one.id], forms[other.id]
        if (a.stock, a.size) != (b.stock, b.size):
            continue
        if a.drawn == b.drawn:
            message = f"{one.name} and {other.name} are alike: they can be cut to the same stops."
            yield Diagnostic("parts-alike", message, Severity.NOTE, other.origin)
        elif a.drawn == b.mirrored:
            message = f"{other.name} is the mirror image of {one.name}."
            yield Diagnostic("parts-mirrored", message, Severity.NOTE, other.origin)


# ---------------------------------------------------------------- features as they compare


def _figure(number: float) -> int:
    """Hundredths of a millimetre."""
    return round(number * 100 + OFF_GRID)


def _figures(*numbers: float) -> tuple[int, ...]:
    return tuple(_figure(number) for number in numbers)


def _box(box: Box, motion: Motion) -> tuple[int, ...]:
    moved = motion.box(box)
    return _figures(*(end for axis in Axis for end in (moved.along(axis).low, moved.along(axis).high)))


def _place(axis: Axis, place: float, motion: Motion) -> float:
    """Where a place along an axis lies after a motion, along the axis that it became."""
    new = motion.axis(axis).value
    return motion.sign[new] * place + motion.shift[new]


def _faces(faces: Iterable[Face], motion: Motion) -> tuple[str, ...]:
    return tuple(motion.face(face).value for face in faces)


def _items(part: Part, motion: Motion) -> Iterator[Item]:
    for feature in part.features:
        yield from WRITTEN[type(feature)](feature, part, motion)


def _tenon(tenon: Tenon, part: Part, motion: Motion) -> Iterator[Item]:
    round_ = ("round",) if tenon.round else ()
    yield "tenon", (*_faces([tenon.end], motion), *round_), (*_box(tenon.block, motion), _figure(tenon.tip_chamfer))
    if tenon.mitre:
        yield "mitre", _faces([tenon.end, tenon.mitre.short], motion), _figures(tenon.mitre.start)
    if tenon.haunch:
        sloped = ("sloped",) if tenon.haunch.sloped else ()
        yield "haunch", (*_faces([tenon.end, tenon.haunch.face], motion), *sloped), _box(tenon.haunch.box, motion)
    if tenon.keyway:
        way = tenon.keyway
        words = *_faces([tenon.end, way.face], motion), motion.axis(way.across).words
        yield "keyway", words, _figures(_place(way.across, way.plane, motion), way.width, way.start, way.length, way.slope)
    for hole in tenon.pegs:
        words = *_faces([tenon.end], motion), motion.axis(hole.face.axis).words
        yield "peg hole", words, _figures(_place(hole.across, hole.plane, motion), hole.start, hole.diameter, hole.draw)
    if tenon.wedging:
        for kerf in tenon.wedging.kerfs:
            words = *_faces([tenon.end], motion), motion.axis(kerf.across).words
            yield "kerf", words, _figures(_place(kerf.across, kerf.plane, motion), kerf.width, kerf.depth, tenon.wedging.flare)


def _void(feature: Mortise | Groove | Rabbet, part: Part, motion: Motion) -> Iterator[Item]:
    rises = feature.rises if isinstance(feature, Mortise) else None
    round_ = ("round",) if isinstance(feature, Mortise) and feature.round else ()
    yield "void", (*_faces([rises] if rises else [], motion), *round_), _box(feature.void, motion)
    if isinstance(feature, Mortise) and feature.flare and feature.flare_axis:
        begin = part.body.at(feature.face) if feature.flare_from is None else feature.flare_from
        words = *_faces([feature.face], motion), motion.axis(feature.flare_axis).words
        yield "flare", words, (*_box(feature.void, motion), *_figures(feature.flare, _place(feature.face.axis, begin, motion)))


def _angled(mortise: AngledMortise, part: Part, motion: Motion) -> Iterator[Item]:
    """By the corners of its block, the way in told by its face: so it does not matter which side it is turned by.  A round
    one by its middle line."""
    if mortise.round:
        ends = [motion.point(each) for each in (mortise.mouth, along(mortise.mouth, mortise.way, mortise.depth))]
        numbers = [_figure(number) for end in ends for number in end]
        yield "angled bore", _faces([mortise.face], motion), (*numbers, _figure(mortise.breadth))
        return
    places = sorted(_figures(*motion.point(mortise.pose.point(corner))) for corner in corners(mortise.void))
    yield "angled mortise", _faces([mortise.face], motion), tuple(number for place in places for number in place)


def _end_cut(cut: EndCut, part: Part, motion: Motion) -> Iterator[Item]:
    yield "end cut", _faces([cut.end], motion), _figures(*(100 * each for each in motion.direction(cut.normal)))


def _corner_slot(slot: CornerSlot, part: Part, motion: Motion) -> Iterator[Item]:
    moved = slot.moved(motion)
    numbers = _figures(moved.across.low, moved.across.high, slot.start, slot.stop, slot.deep or 0.0)
    yield slot.what, _faces([slot.end, slot.side], motion), numbers


def _pocket(pocket: Pocket, part: Part, motion: Motion) -> Iterator[Item]:
    moved = pocket.moved(motion)
    yield "pocket", (moved.face.value, moved.end.value), _figures(*moved.numbers())


def _edging(edging: Edging, part: Part, motion: Motion) -> Iterator[Item]:
    words = (edging.stock, *sorted(_faces(edging.mitred, motion)))
    yield "edging", words, (*_box(edging.strip, motion), *_figures(*edging.tongue or ()))


def _hole(hole: Hole, part: Part, motion: Motion) -> Iterator[Item]:
    centre, axis = motion.point(hole.centre), motion.axis(hole.face.axis)
    place = _figures(*(centre[each.value] for each in axis.others), hole.diameter)
    if hole.depth is None or hole.depth > part.body.size(hole.face.axis) - TINY:
        yield "hole", (axis.words,), place
    else:
        yield "bore", _faces([hole.face], motion), (*place, _figure(hole.depth))
    if hole.counterbore:
        yield "counterbore", _faces([hole.face], motion), (*place, *_figures(*hole.counterbore))
    if hole.countersink:
        yield "countersink", _faces([hole.face], motion), (*place, *_figures(*hole.countersink))
    if hole.slot:
        yield "slot", (motion.axis(hole.slot.along).words,), (*place, _figure(hole.slot.length))


def _comb(feature: Tails | Sockets, part: Part, motion: Motion) -> Iterator[Item]:
    comb = feature.comb.moved(motion)
    places = _figures(*(end for tail in comb.tails for end in (tail.low, tail.high)), comb.lean)
    slim = (comb.slim.wide.value, comb.slim.side.value) if comb.slim else ()
    narrow = _figures(comb.slim.by) if comb.slim else ()
    yield feature.kind, (comb.tip.value, comb.spread.words, *slim), (*_box(feature.comb.block, motion), *places, *narrow)


def _taper(taper: Taper, part: Part, motion: Motion) -> Iterator[Item]:
    for face in taper.faces:
        sharing = sum(other.axis is face.axis for other in taper.faces)
        depth = (part.body.size(face.axis) - dict(taper.leaving)[face.axis]) / sharing
        yield "taper", _faces([face, taper.end], motion), _figures(_place(taper.end.axis, taper.start, motion), depth)


def _eased(feature: Chamfer | RoundOver, part: Part, motion: Motion) -> Iterator[Item]:
    size = feature.size if isinstance(feature, Chamfer) else feature.radius
    for edge in feature.edges:
        yield feature.kind, tuple(sorted(_faces(edge, motion))), (_figure(size), *_reach(edge, feature.reach, motion))


def _reach(edge: Edge, reach: tuple[float, float] | None, motion: Motion) -> tuple[int, ...]:
    (axis,) = (axis for axis in Axis if axis not in (edge[0].axis, edge[1].axis))
    return tuple(sorted(_figure(_place(axis, end, motion)) for end in reach)) if reach else ()


def _arch(arch: Arch, part: Part, motion: Motion) -> Iterator[Item]:
    ends = sorted(_figure(_place(part.grain, end, motion)) for end in (arch.start, arch.stop))
    yield ("crown" if arch.crown else "arch"), _faces([arch.face], motion), (*ends, _figure(arch.rise))


def _curve(curve: Curve, part: Part, motion: Motion) -> Iterator[Item]:
    low = part.body.along(part.grain).low
    points = sorted((_figure(_place(part.grain, low + along, motion)), _figure(depth)) for along, depth in curve.points)
    yield "curve", _faces([curve.face], motion), tuple(number for point in points for number in point)


def _bevel(bevel: Bevel, part: Part, motion: Motion) -> Iterator[Item]:
    yield "bevel", _faces([bevel.face, bevel.keeps], motion), _figures(bevel.angle)


def _edge_bevel(bevel: EdgeBevel, part: Part, motion: Motion) -> Iterator[Item]:
    yield "edge bevel", _faces(bevel.edge, motion), _figures(bevel.margin, bevel.depth, bevel.step)


def _moulding(moulding: Moulding, part: Part, motion: Motion) -> Iterator[Item]:
    for edge in moulding.edges:
        faces = _faces(edge, motion) if moulding.quirk else tuple(sorted(_faces(edge, motion)))
        yield moulding.form, faces, (*_figures(moulding.size, moulding.quirk), *_reach(edge, moulding.reach, motion))


def _dished(dish: Dished, part: Part, motion: Motion) -> Iterator[Item]:
    centre = motion.point(dish.centre)
    places = (centre[axis.value] for axis in motion.axis(dish.face.axis).others)
    yield "dish", _faces([dish.face], motion), _figures(*places, dish.diameter, dish.depth)


def _turned(turned: Turned, part: Part, motion: Motion) -> Iterator[Item]:
    """Each stretch between two stations, its nearer end first."""
    for one, other in pairwise(turned.stations):
        ends = sorted((_figure(_place(part.grain, each.at, motion)), _figure(each.diameter)) for each in (one, other))
        yield "turned", (other.way,), (*ends[0], *ends[1])


def _sawn(sawn: Sawn, part: Part, motion: Motion) -> Iterator[Item]:
    """As its corners in order of place: an outline is the same wherever one begins to go round it."""
    face = sawn.face.axis.high if sawn.depth is None else sawn.face
    words = (motion.axis(face.axis).words,) if sawn.depth is None else _faces([face], motion)
    corners = sorted(
        _figures(*(_place(axis, at, motion) for axis, at in _by_axis(sawn, corner.at, motion)), corner.radius, corner.arc)
        for corner in sawn.corners
    )
    numbers = tuple(number for corner in corners for number in corner)
    yield ("kept" if sawn.keeps else "sawn"), words, (*numbers, _figure(sawn.depth or 0.0))


def _by_axis(sawn: Sawn, at: tuple[float, float], motion: Motion) -> list[tuple[Axis, float]]:
    """The two places of a corner in the order of the directions that they become."""
    return sorted(zip(sawn.face.axis.others, at, strict=True), key=lambda each: motion.axis(each[0]).value)


WRITTEN: dict[type[Feature], Callable[[Any, Part, Motion], Iterator[Item]]] = {
    Tenon: _tenon,
    Mortise: _void,
    Groove: _void,
    Rabbet: _void,
    Edging: _edging,
    Hole: _hole,
    Tails: _comb,
    Sockets: _comb,
    Taper: _taper,
    Chamfer: _eased,
    RoundOver: _eased,
    Arch: _arch,
    Curve: _curve,
    Bevel: _bevel,
    EdgeBevel: _edge_bevel,
    Sawn: _sawn,
    AngledMortise: _angled,
    EndCut: _end_cut,
    CornerSlot: _corner_slot,
    Pocket: _pocket,
    Moulding: _moulding,
    Dished: _dished,
    Turned: _turned,
}
