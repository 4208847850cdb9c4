"""Is there wood for what hardware cuts and for the screws that hold it?"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from itertools import combinations
from math import hypot

from planbuild.core.diagnostics import Diagnostic
from planbuild.core.geometry import TINY, Box, Span1
from planbuild.joints.base import Board, Site
from planbuild.joints.proportions import habit_length
from planbuild.records.design import Said
from planbuild.records.features import Feature, Groove, Hole, Mortise, Rabbet
from planbuild.records.hardware import SLIDE, Item
from planbuild.resolve.expressions.faults import Poisoned
from planbuild.resolve.fittings.base import Holder, Put, length_of, out_of, usual
from planbuild.resolve.fittings.knock_down import IN_THE_WOOD


def check_cuts(features: Mapping[str, Sequence[Feature]], joints: Mapping[str, Sequence[Feature]], site: Site) -> None:
    """Reports `hardware-beside`, `hardware-deep`, `hardware-joint`, `holes-meet`, each once for a part and a place."""
    for id, cut in features.items():
        board = site.boards[id]
        found: dict[tuple[str, object], Diagnostic] = {}
        told = (*_single(board, cut, site), *_meeting(board, (*cut, *board.shapes), site))
        for each in (*told, *_in_joints(board, cut, joints.get(id, ()))):
            found.setdefault((each.code, each.span), each)
        for each in found.values():
            site.report.add(each)


def _single(board: Board, cut: Iterable[Feature], site: Site) -> Iterator[Diagnostic]:
    for feature in cut:
        if isinstance(feature, Hole | Groove):
            yield from _outside(board, feature)
            yield from _too_deep(board, feature, site)


def _outside(board: Board, feature: Hole | Groove) -> Iterator[Diagnostic]:
    void = _void(feature, board)
    for axis in feature.face.axis.others:
        within, wood = void.along(axis), board.body.along(axis)
        if within.low < wood.low - TINY or within.high > wood.high + TINY:
            message = f'What is cut for it would run out of the {feature.face.value} face of "{board.id}" {axis.words}.'
            yield Diagnostic("hardware-beside", message, span=feature.origin, hints=("Move it in from the edge.",))


def _too_deep(board: Board, feature: Hole | Groove, site: Site) -> Iterator[Diagnostic]:
    if isinstance(feature, Hole) and feature.depth is None:
        return
    figure, axis = site.ruler.plain, feature.face.axis
    thick, deep, least = board.body.size(axis), _void(feature, board).size(axis), usual("cup_floor", site.ruler)
    if deep > thick - least + TINY:
        how = "goes through" if deep > thick - TINY else f"leaves only {figure(thick - deep)} of"
        what = "hole" if isinstance(feature, Hole) else "recess"
        message = f'A {what} {figure(deep)} deep {how} "{board.id}", {figure(thick)} thick.'
        yield Diagnostic("hardware-deep", message, span=feature.origin, expected=f"at most {figure(thick - least)}")


def _in_joints(board: Board, cut: Iterable[Feature], joints: Iterable[Feature]) -> Iterator[Diagnostic]:
    """Holes of knock-down fittings that break into what a joint cuts: there is no wood left to draw on."""
    others = [each for each in joints if isinstance(each, Mortise | Groove | Rabbet | Hole)]
    for hole in (each for each in cut if isinstance(each, Hole) and each.purpose in IN_THE_WOOD):
        for other in others:
            void = other.void if isinstance(other, Mortise | Rabbet) else _void(other, board)
            if _void(hole, board).meet(void).is_solid:
                message = f'The hole for its {hole.purpose} breaks into the {other.kind} of "{other.joint}" in "{board.id}".'
                yield Diagnostic("hardware-joint", message, span=hole.origin, hints=("Move it along, or the joint.",))


def _void(feature: Hole | Groove, board: Board) -> Box:
    if isinstance(feature, Groove):
        return feature.void
    axis, radius = feature.face.axis, feature.diameter / 2
    deep = board.body.size(axis) if feature.depth is None else feature.depth
    spans = {a: Span1(feature.centre[a.value] - radius, feature.centre[a.value] + radius) for a in axis.others}
    return Box.of({**spans, axis: out_of(feature.face, board.body.at(feature.face), -deep, 0.0)})


def _meeting(board: Board, features: Iterable[Feature], site: Site) -> Iterator[Diagnostic]:
    """Blind holes from both faces of a board that come to each other."""
    holes = [each for each in features if isinstance(each, Hole) and each.depth is not None]
    for one, other in combinations(holes, 2):
        if one.face is not other.face.opposite:
            continue
        thick, apart = board.body.size(one.face.axis), _apart(one, other)
        both = (one.depth or 0.0) + (other.depth or 0.0)
        if both > thick + TINY and apart < (one.diameter + other.diameter) / 2:
            figure = site.ruler.plain
            depths = f"{figure(one.depth or 0.0)} + {figure(other.depth or 0.0)} in {figure(thick)}"
            message = f'Holes from both faces of "{board.id}" meet ({depths}).'
            hint = f"Make them less than {figure(thick / 2)} deep, or shift a row."
            yield Diagnostic("holes-meet", message, span=other.origin, expected="wood between two holes", hints=(hint,))


def _apart(one: Hole, other: Hole) -> float:
    """Between the centre lines of two holes that run alike."""
    first, second = one.face.axis.others
    return hypot(one.centre[first.value] - other.centre[first.value], one.centre[second.value] - other.centre[second.value])


# ---------------------------------------------------------------- screws


def check_screws(item: Item, puts: Sequence[Put], site: Site) -> None:
    """Reports `hardware-screw-long` where the screws of a thing would come out of the wood behind it, or nearly, and then
    raises Poisoned."""
    named = dict(item.fields).get("screws")
    screw = site.words.item(Said(named, item.origin)) if isinstance(named, str) else None
    length = length_of(screw, "length") if screw else None
    if length is None or not puts:
        return
    through, left = _plate(item, site), habit_length("screw_left", site.ruler)
    for holder in puts[0].holders:
        wood = holder.board.standing(holder.copy or 0).size(holder.face.axis) - _sunk(holder, puts[0])
        deep = length - through
        if deep > wood - left + TINY:
            _told(item, length, (through, wood, left), holder, site)
            raise Poisoned


def _plate(item: Item, site: Site) -> float:
    """How much of the thing itself a screw goes through: of a slide the sheet of one member."""
    return usual("slide_member", site.ruler) if item.kind == SLIDE else length_of(item, "thickness") or 0.0


def _sunk(holder: Holder, put: Put) -> float:
    """How deep the thing is let into a holder."""
    cuts = (cut for cut in put.cuts if cut.holder == holder)
    return max((cut.feature.void.size(holder.face.axis) for cut in cuts if isinstance(cut.feature, Groove)), default=0.0)


def _told(item: Item, length: float, sizes: tuple[float, float, float], holder: Holder, site: Site) -> None:
    through, wood, left = sizes
    figure, rest = site.ruler.plain, wood - (length - through)
    where = "it comes out" if rest < TINY else f"only {figure(rest)} is left beyond its point"
    most = figure(through + wood - left)
    message = f'Screw {figure(length)} long of "{item.id}" goes into {figure(wood)} of "{holder.board.id}": {where}.'
    site.report.add(Diagnostic("hardware-screw-long", message, span=item.origin, expected=f"at most {most}"))

