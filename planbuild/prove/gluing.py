"""Glue has wood on both sides: the faces that a joint means to glue lie on each other."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from planbuild.core.diagnostics import Diagnostic, Severity
from planbuild.core.geometry import TINY, Axis, Box, Vec
from planbuild.core.poses import cross, unit
from planbuild.prove.measuring import contacts
from planbuild.prove.standing import Standing
from planbuild.prove.telling import told_area
from planbuild.records.features import Arch, Bevel, Chamfer, Curve, EdgeBevel, Groove, Hole, Rabbet, RoundOver, Taper
from planbuild.records.findings import Findings, Proof
from planbuild.records.piece import Contact, Joint
from planbuild.records.shaped import Dished, Moulding, Sawn, Turned
from planbuild.records.solids import Key

MOST = 0.95
"""Share of the stated glue area that must touch (heuristic: chamfers and rounding take a little)."""

PASSED = 0.5
"""The same where a groove or rabbet of another joint passes the glue faces, as that of a panel must (heuristic).
With a shape on one of the parts what is less than `MOST` but more than this is told and can be built: an eased edge
that runs into a housing."""

LEANING = 0.25
"""A face leaning less than this (sine of the angle) against the way in is beside the way, not before it."""


_SHAPES = (Arch, Bevel, Chamfer, Curve, Dished, EdgeBevel, Hole, Moulding, RoundOver, Sawn, Taper, Turned)
"""What takes wood because the designer says so, not because a joint does."""


@dataclass(frozen=True)
class _Glued:
    """One glued contact: the area that touches where the glue is, against the area the joint states.  Units: mm2."""

    joint: Joint
    contact: Contact
    touching: float

    @property
    def share(self) -> float:
        return self.touching / self.contact.glue_area


def glue_faces_touch(standing: Standing) -> Findings:
    """Reports `joint-glue-open` (error or warning) once for each joint and two parts."""
    found = [_Glued(joint, contact, _holding(standing, contact)) for joint, contact in _glued(standing)]
    faults: dict[tuple[str, str, str], Diagnostic] = {}
    for each in found:
        if each.share < _least(standing, each):
            faults.setdefault((each.joint.id, each.contact.a[0], each.contact.b[0]), _finding(standing, each))
    worst = min(found, key=lambda each: each.share, default=None)
    saying = f"least: {_told(standing, worst)}" if worst else "nothing is glued"
    return Findings(tuple(faults.values()), (Proof("Every glue face lies on its mate", len(found), saying),))


def _least(standing: Standing, glued: _Glued) -> float:
    """The share that must touch: other joints may pass by, with a groove, a rabbet or a bevel."""
    contact = glued.contact
    if any(_is_bevelled(standing, key, but=glued.joint) for key in (contact.a, contact.b)):
        return PASSED
    common = standing.boxes[contact.a].meet(standing.boxes[contact.b])
    voids = (void for key in (contact.a, contact.b) for void in _channels(standing, key, but=glued.joint))
    return PASSED if any(all(void.meet(common).size(axis) > -TINY for axis in Axis) for void in voids) else MOST


def _channels(standing: Standing, key: Key, but: Joint) -> Iterator[Box]:
    for feature in standing.part(key).features:
        if isinstance(feature, Groove | Rabbet) and feature.joint and feature.joint != but.id:
            yield standing.copy(key).motion.box(feature.void)
        if isinstance(feature, Bevel) and feature.joint and feature.joint != but.id:
            yield standing.copy(key).motion.box(feature.room(standing.part(key).body))


def _is_bevelled(standing: Standing, key: Key, but: Joint) -> bool:
    return any(isinstance(each, Bevel) and each.joint not in ("", but.id) for each in standing.part(key).features)


def _glued(standing: Standing) -> Iterator[tuple[Joint, Contact]]:
    for joint in standing.piece.joints:
        for contact in joint.contacts:
            if joint.glue and contact.glue_area > 0:
                yield joint, contact


def _holding(standing: Standing, contact: Contact) -> float:
    """Area in which the two parts touch beside the way in (cheeks, edges, the broad faces of a wedge); in joints that
    are glued face to face, square to it, or in the plane of a slanted shoulder."""
    touching = contacts(standing.faces(contact.a), standing.faces(contact.b))
    way = _out_of(contact) if contact.face_glued and contact.outline else contact.insert
    return sum(float(region.area) for normal, region in touching if _holds(_along(normal, way), contact))


def _out_of(contact: Contact) -> Vec:
    """Square to the plane of a slanted shoulder."""
    first, second, third = contact.outline[:3]
    ways = [(b[0] - a[0], b[1] - a[1], b[2] - a[2]) for a, b in ((first, second), (first, third))]
    return unit(cross(*ways))


def _holds(leaning: float, contact: Contact) -> bool:
    return abs(leaning) > 1 - LEANING if contact.face_glued else abs(leaning) < LEANING


def _along(normal: tuple[float, ...], way: tuple[float, ...]) -> float:
    return sum(a * b for a, b in zip(normal, way, strict=True))


def _told(standing: Standing, glued: _Glued) -> str:
    ruler = standing.ruler
    a, b = (standing.name(key) for key in (glued.contact.a, glued.contact.b))
    return f"{a} in {b} touches over {told_area(ruler, glued.touching)}, {told_area(ruler, glued.contact.glue_area)} stated"


def _finding(standing: Standing, glued: _Glued) -> Diagnostic:
    message = f"Joint {glued.joint.id}: {_told(standing, glued)}."
    hint, severity = "look for another mortise, a groove or a gap where the glue should be", Severity.ERROR
    if glued.share >= PASSED and any(_is_shaped(standing, key) for key in (glued.contact.a, glued.contact.b)):
        hint, severity = "keep chamfers, rounds and other shapes clear of the joint", Severity.WARNING
    expected = "glue faces that touch"
    return Diagnostic("joint-glue-open", message, severity, glued.joint.origin, expected=expected, hints=(hint,))


def _is_shaped(standing: Standing, key: Key) -> bool:
    return any(isinstance(feature, _SHAPES) and not feature.joint for feature in standing.part(key).features)
