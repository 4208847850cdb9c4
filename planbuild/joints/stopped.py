"""Housings that stop short of an edge of the part that stands in them: how far, and the corner that the part then loses."""

from __future__ import annotations

from collections.abc import Mapping

from planbuild.core.geometry import TINY, Axis, Box, Face, Span1
from planbuild.joints.base import Site
from planbuild.joints.faults import refuse
from planbuild.joints.proportions import length_rule
from planbuild.joints.sides import Side
from planbuild.records.design import Said
from planbuild.records.edging import edgings_of
from planbuild.records.features import Rabbet

Stopped = Mapping[str, Said] | Said | None
"""As said: how far inside which face of the part, or just `yes`, for all or for a face."""


def across(side: Side) -> Axis:
    """The way the housing runs: along the side that goes in."""
    return next(axis for axis in side.face.axis.others if axis is not side.board.face.axis)


def stops_of(stopped: Stopped, side: Side, site: Site) -> dict[Face, float] | None:
    """How far inside each face the housing stops.  None after reporting `joint-dado-stop`."""
    if stopped is None:
        return {}
    axis = across(side)
    if isinstance(stopped, Said):
        wanted = site.words.yes(stopped)
        if wanted is None:
            return None
        return {_front(axis): _usual_stop(side, _front(axis), site)} if wanted else {}
    found: dict[Face, float] = {}
    for word, value in stopped.items():
        if value.text == "no":
            continue
        if word not in (axis.low.value, axis.high.value):
            message = f'The housing of "{side.board.id}" runs {axis.words}; it cannot stop at the {word}.'
            refuse(site, "joint-dado-stop", value.span, message, f"{axis.low.value} or {axis.high.value}")
            return None
        stop = _usual_stop(side, Face(word), site) if value.text == "yes" else site.words.length(value)
        if stop is None:
            return None
        found[Face(word)] = stop
    if sum(found.values()) >= side.board.body.size(axis) - TINY:
        message = f'Nothing of the housing for "{side.board.id}" is left between its stops.'
        refuse(site, "joint-dado-stop", side.span, message, f"less than {site.ruler.plain(side.board.body.size(axis))} together")
        return None
    return found


def is_usual(stopped: Stopped) -> bool:
    """Whether it is only said that it stops, and the rule says where."""
    values = [stopped] if isinstance(stopped, Said) else (stopped or {}).values()
    return any(each.text == "yes" for each in values)


def _usual_stop(side: Side, face: Face, site: Site) -> float:
    """Behind the edging of the mate, and behind the part's own, so that neither is cut into; without any as the table says."""
    own = max((each.thickness for each in edgings_of(side.board.shapes) if each.edge is face), default=0.0)
    mates = [_seam(side, copy, face) for copy in range(len(side.homes))]
    return max([own, *mates]) or length_rule("dado_stop", site.ruler)


def _seam(side: Side, copy: int, face: Face) -> float:
    """How far inside a face of the part its mate's edging ends there; 0 if it has none that reaches so far."""
    home, motion = side.homes[copy], side.board.copies[copy].motion
    there, mate = motion.face(face), home.board.copies[home.copy].motion
    seams = [mate.box(each.strip).at(there.opposite) for each in edgings_of(home.board.shapes) if mate.face(each.edge) is there]
    return max((there.sign * (motion.box(side.board.body).at(there) - seam) for seam in seams), default=0.0)


def _front(axis: Axis) -> Face:
    """Where a housing is seen: in front, above, else at the left."""
    return axis.high if axis is Axis.BOTTOM_TOP else axis.low


def stopped_at(whole: Box, stops: Mapping[Face, float]) -> Box:
    """What is left of an end between its stops."""
    for face, stop in stops.items():
        whole = whole.grown(face, -stop)
    return whole


def corner_of(joint: str, side: Side, whole: Box, face: Face, stop: float, why: str) -> Rabbet:
    """What the part loses where the housing stops short of `face`; `whole` is all that the end adds."""
    body = whole.along(face.axis)
    span = Span1(body.low, body.low + stop) if face.sign < 0 else Span1(body.high - stop, body.high)
    id = f"{joint}.{side.face.value}.{face.value}"
    return Rabbet(id, side.span, joint, why, (side.face, face), whole.with_span(face.axis, span))
