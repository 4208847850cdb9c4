"""How each kind of feature is cut: one small function a kind, in a table.

Shapes are cut from the body first, in order of work, then the openings of joints; tenons come last
(`tenons`), so that neither a taper nor a chamfer eats into them.  Every function gives the cuts of one
feature, with the volume its numbers promise.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from typing import Any

from planbuild.core.geometry import TINY, Axis, Box, Face, Span1
from planbuild.joints.touching import near
from planbuild.records.corner_slots import CornerSlot
from planbuild.records.features import (
    Arch,
    Bevel,
    Chamfer,
    Curve,
    EdgeBevel,
    Feature,
    Groove,
    Hole,
    Mortise,
    Rabbet,
    RoundOver,
    Taper,
)
from planbuild.records.pockets import Pocket
from planbuild.records.shaped import Dished, Moulding, Sawn, Turned
from planbuild.records.slanted import AngledMortise, EndCut
from planbuild.records.tails import Sockets, Tails
from planbuild.shape import kernel
from planbuild.shape.corner_slots import cut_corner_slot
from planbuild.shape.edges import cut_chamfer, cut_moulding, cut_round_over
from planbuild.shape.holes import cut_hole
from planbuild.shape.kernel import OVERSHOOT, Fault, Flat, Outline
from planbuild.shape.pockets import cut_pocket
from planbuild.shape.sawing import cut_sawn
from planbuild.shape.slanted import cut_angled_mortise, cut_end
from planbuild.shape.split import opened
from planbuild.shape.tails import cut_sockets, cut_tails
from planbuild.shape.turned import cut_dished, cut_turned
from planbuild.shape.workpiece import Cut, Workpiece, pushed_out


def _third(one: Axis, other: Axis) -> Axis:
    (axis,) = (axis for axis in Axis if axis not in (one, other))
    return axis


def _beyond(span: Span1) -> Span1:
    return Span1(span.low - OVERSHOOT, span.high + OVERSHOOT)


class _Side:
    """The view of a board in which a face is cut to a line: `along` to the right, `face` upward.

    `depth` is counted inward from the face, whichever way that face looks.
    """

    def __init__(self, body: Box, face: Face, along: Axis) -> None:
        self._body, self._face, self._along = body, face, along
        self.through = _third(face.axis, along)

    def at(self, along: float, depth: float) -> Flat:
        places = {self._along: along, self._face.axis: self._body.at(self._face) - self._face.sign * depth}
        return kernel.flat(places, self.through)

    @property
    def thickness(self) -> float:
        return self._body.size(self.through)

    @property
    def span(self) -> Span1:
        return _beyond(self._body.along(self.through))

    def region(self, span: Span1, depth: float) -> Box:
        """The box within which wood is taken: over `span`, `depth` deep."""
        at = self._body.at(self._face)
        ends = sorted((at, at - self._face.sign * depth))
        return self._body.with_span(self._along, span).with_span(self._face.axis, Span1(*ends))


# ---------------------------------------------------------------- shapes


def _sloped(side: _Side, shallow: Flat, deep: Flat, face: Face) -> Cut:
    """A wedge off a face: the surface runs straight from (along, depth) `shallow` to `deep`, depth 0 at the first."""
    (start, _), (end, depth) = shallow, deep
    slope = depth / (end - start)
    onward = math.copysign(OVERSHOOT, end - start)
    outer = (start - OVERSHOOT / slope, -OVERSHOOT)
    inner = (end + onward, depth + slope * onward)
    tool = kernel.polygon(side.through, side.span, [side.at(*outer), side.at(*inner), side.at(inner[0], -OVERSHOOT)])
    volume = depth * abs(end - start) / 2 * side.thickness
    return Cut([tool], volume, [side.region(Span1(min(start, end), max(start, end)), depth)], face)


def cut_taper(taper: Taper, work: Workpiece) -> Iterator[Cut]:
    leaving = dict(taper.leaving)
    if abs(work.body.at(taper.end) - taper.start) <= TINY:
        raise Fault("The taper starts where it ends.", "start it farther from the end")
    for face in taper.faces:
        sharing = sum(other.axis is face.axis for other in taper.faces)
        depth = (work.body.size(face.axis) - leaving[face.axis]) / sharing
        if depth <= TINY:
            raise Fault(f"The taper leaves as much as there is on the {face.value}.", "leave less at the end")
        side = _Side(work.body, face, taper.end.axis)
        yield _sloped(side, (taper.start, 0.0), (work.body.at(taper.end), depth), face)


def cut_bevel(bevel: Bevel, work: Workpiece) -> Iterator[Cut]:
    side = _Side(work.body, bevel.face, bevel.keeps.axis)
    kept, lost = work.body.at(bevel.keeps), work.body.at(bevel.keeps.opposite)
    depth = abs(lost - kept) * math.tan(math.radians(bevel.angle))
    if not 0 < depth < work.body.size(bevel.face.axis):
        raise Fault(f"A bevel of {bevel.angle:g} degrees is as deep as the part.", "use a smaller angle")
    yield _sloped(side, (kept, 0.0), (lost, depth), bevel.face)


def cut_edge_bevel(bevel: EdgeBevel, work: Workpiece) -> Iterator[Cut]:
    side_face, cut_face = bevel.edge
    side, edge = _Side(work.body, cut_face, side_face.axis), work.body.at(side_face)
    if not (0 < bevel.margin < work.body.size(side_face.axis) and 0 < bevel.depth < work.body.size(cut_face.axis)):
        raise Fault("The bevel of the edge is larger than the part.", "a smaller margin or depth")
    inner = edge - side_face.sign * bevel.margin
    if not bevel.step:
        yield _sloped(side, (inner, 0.0), (edge, bevel.depth), cut_face)
        return
    beyond = bevel.depth + (bevel.depth - bevel.step) / bevel.margin * OVERSHOOT
    out = edge + side_face.sign * OVERSHOOT
    rim = [(inner, -OVERSHOOT), (inner, bevel.step), (out, beyond), (out, -OVERSHOOT)]
    tool = kernel.polygon(side.through, side.span, [side.at(*each) for each in rim])
    volume = (bevel.step + bevel.depth) / 2 * bevel.margin * side.thickness
    yield Cut([tool], volume, [side.region(Span1(*sorted((inner, edge))), bevel.depth)])


def cut_arch(arch: Arch, work: Workpiece) -> Iterator[Cut]:
    half = (arch.stop - arch.start) / 2
    if not 0 < arch.rise <= half:
        raise Fault("An arch rises at most half its length.", "lower the rise or lengthen the arch")
    side = _Side(work.body, arch.face, work.part.grain)
    yield _crowned(arch, side, work) if arch.crown else _hollowed(arch, side)


def _segment_area(arch: Arch) -> float:
    """Area between an arc and its chord (plane geometry)."""
    half_angle = math.asin(min(1.0, (arch.stop - arch.start) / 2 / arch.radius))
    return arch.radius**2 * (half_angle - math.sin(half_angle) * math.cos(half_angle))


def _hollowed(arch: Arch, side: _Side) -> Cut:
    """The circle runs on past the face, so that the tool crosses it and does not end on it."""
    middle, to_centre = (arch.start + arch.stop) / 2, arch.radius - arch.rise
    past = min(OVERSHOOT, to_centre)
    reach = math.sqrt(arch.radius**2 - (to_centre - past) ** 2)
    outline = Outline(side.through, side.at(middle - reach, -past))
    outline.arc(side.at(middle, arch.rise), side.at(middle + reach, -past))
    outline.to(side.at(middle + reach, -past - OVERSHOOT), side.at(middle - reach, -past - OVERSHOOT))
    volume = _segment_area(arch) * side.thickness
    return Cut([outline.prism(side.span)], volume, [side.region(Span1(arch.start, arch.stop), arch.rise)], arch.face)


def _crowned(arch: Arch, side: _Side, work: Workpiece) -> Cut:
    """The face is lowered by the rise, but for the arc that stays standing from `start` to `stop`."""
    whole, middle = work.body.along(work.part.grain), (arch.start + arch.stop) / 2
    low, high = min(whole.low, arch.start) - OVERSHOOT, max(whole.high, arch.stop) + OVERSHOOT
    outline = Outline(side.through, side.at(low, arch.rise)).to(side.at(arch.start, arch.rise))
    outline.arc(side.at(middle, 0.0), side.at(arch.stop, arch.rise)).to(side.at(high, arch.rise))
    outline.to(side.at(high, -OVERSHOOT), side.at(low, -OVERSHOOT))
    volume = (whole.size * arch.rise - _segment_area(arch)) * side.thickness
    return Cut([outline.prism(side.span)], volume, [side.region(whole, arch.rise)], arch.face)


def cut_curve(curve: Curve, work: Workpiece) -> Iterator[Cut]:
    """Nothing says its area beforehand: any volume up to twice that at the deepest point will do."""
    if len(curve.points) < 2:
        raise Fault("A curve needs two points or more.")
    side, whole = _Side(work.body, curve.face, work.part.grain), work.body.along(work.part.grain)
    line = [side.at(whole.low + along, depth) for along, depth in curve.points]
    (first, first_depth), (last, last_depth) = curve.points[0], curve.points[-1]
    before = whole.low + first - (OVERSHOOT if first <= TINY else 0.0)
    after = whole.low + last + (OVERSHOOT if last >= whole.size - TINY else 0.0)
    outline = Outline(side.through, side.at(before, -OVERSHOOT))
    outline.to(side.at(before, first_depth), line[0]).fair(line[1:])
    outline.to(side.at(after, last_depth), side.at(after, -OVERSHOOT))
    deepest = max(depth for _, depth in curve.points)
    span = Span1(whole.low + first, whole.low + last)
    volume = deepest * span.size * side.thickness
    yield Cut([outline.prism(side.span)], volume, [side.region(span, deepest)], curve.face, slack=volume)


# ---------------------------------------------------------------- openings


def cut_box(feature: Mortise | Groove | Rabbet, work: Workpiece) -> Iterator[Cut]:
    void = feature.void
    yield Cut([kernel.block(pushed_out(void, work.body))], void.volume, [void])


def cut_mortise(mortise: Mortise, work: Workpiece) -> Iterator[Cut]:
    if mortise.round:
        yield from cut_hole(mortise.hole, work)
        if mortise.flare and mortise.flare_axis:
            yield _opened(mortise, mortise.flare_axis, work)
    elif mortise.rises:
        yield _rising(mortise, mortise.rises, work)
    else:
        yield from _flared(mortise, work) if mortise.flare else cut_box(mortise, work)


def _opened(mortise: Mortise, across: Axis, work: Workpiece) -> Cut:
    """A round hole opened to an oval at its far face."""
    far, near = work.body.at(mortise.face.opposite), work.body.at(mortise.face)
    begin = near if mortise.flare_from is None else mortise.flare_from
    if abs(far - begin) <= TINY:
        raise Fault("The mortise begins to open only at its far face.", "begin inside the post")
    void = mortise.void
    wide = Span1(void.along(across).low - mortise.flare, void.along(across).high + mortise.flare)
    more = void.size(across) * mortise.flare * abs(far - begin)
    return Cut(opened(mortise, begin, far), more, [void.with_span(across, wide)])


def _rising(mortise: Mortise, rises: Face, work: Workpiece) -> Cut:
    """Its floor slopes up to the surface on one side."""
    void, side = mortise.void, _Side(work.body, mortise.face, rises.axis)
    deep, steep, edge = void.size(mortise.face.axis), void.at(rises.opposite), void.at(rises)
    onward = (edge - steep) * OVERSHOOT / deep
    rim = [(steep, -OVERSHOOT), (steep, deep), (edge + onward, -OVERSHOOT)]
    tool = kernel.polygon(side.through, void.along(side.through), [side.at(*point) for point in rim])
    return Cut([tool], void.volume / 2, [void])


def _flared(mortise: Mortise, work: Workpiece) -> Iterator[Cut]:
    """A through mortise that opens along `flare_axis` from a plane inside to the far face."""
    across, along = mortise.flare_axis, mortise.face.axis
    if across is None:
        raise Fault("The mortise opens, but in no direction.")
    far, near = work.body.at(mortise.face.opposite), work.body.at(mortise.face)
    begin = near if mortise.flare_from is None else mortise.flare_from
    if abs(far - begin) <= TINY:
        raise Fault("The mortise begins to open only at its far face.", "begin inside the post")
    onward, slope = -mortise.face.sign * OVERSHOOT, mortise.flare / abs(far - begin)
    opening, wider = mortise.void.along(across), mortise.flare + slope * OVERSHOOT
    side = _Side(work.body, across.high, along)
    top = work.body.at(across.high)
    rim = [(near - onward, opening.low), (begin, opening.low), (far + onward, opening.low - wider)]
    rim += [(far + onward, opening.high + wider), (begin, opening.high), (near - onward, opening.high)]
    tool = kernel.polygon(side.through, mortise.void.along(side.through), [side.at(a, top - c) for a, c in rim])
    volume = mortise.void.volume + mortise.flare * abs(far - begin) * mortise.void.size(side.through)
    wide = Span1(opening.low - mortise.flare, opening.high + mortise.flare)
    yield Cut([tool], volume, [mortise.void.with_span(across, wide)])


Cutting = Callable[[Any, Workpiece], Iterator[Cut]]

SHAPES: dict[type[Feature], Cutting] = {
    Taper: cut_taper,
    Chamfer: cut_chamfer,
    RoundOver: cut_round_over,
    Arch: cut_arch,
    Curve: cut_curve,
    Bevel: cut_bevel,
    EdgeBevel: cut_edge_bevel,
    Sawn: cut_sawn,
    EndCut: cut_end,
    Moulding: cut_moulding,
    Dished: cut_dished,
    Turned: cut_turned,
}
"""What gives the body its form."""

OPENINGS: dict[type[Feature], Cutting] = {
    Mortise: cut_mortise,
    AngledMortise: cut_angled_mortise,
    Groove: cut_box,
    Rabbet: cut_box,
    Hole: cut_hole,
    Tails: cut_tails,
    Sockets: cut_sockets,
    CornerSlot: cut_corner_slot,
    Pocket: cut_pocket,
}
"""What is cut into it for other parts."""


@kernel.guarded
def cut_feature(feature: Feature, work: Workpiece) -> None:
    """Cuts one shape or opening.  Raises Fault; a cut made before the fault stays."""
    for cut in (SHAPES | OPENINGS)[type(feature)](feature, work):
        work.take(cut)


def cut_free_openings(features: Sequence[Feature], work: Workpiece) -> list[Feature]:
    """Cuts in one go all openings that meet no other cut, and gives back those still to be cut one by one.

    One that only touches another waits too: a hole in the floor of a rabbet reaches a little out of its mouth.

    Only a matter of time: where anything is amiss nothing is cut, so that each fault finds its own feature.
    """
    try:
        planned = [(feature, list(OPENINGS[type(feature)](feature, work))) for feature in features]
        free = [(feature, cuts) for feature, cuts in planned if len(cuts) == 1 and not _crossed(cuts[0], planned, work)]
        if len(free) > 1:
            _take_together([cuts[0] for _, cuts in free], work)
            return [feature for feature in features if feature not in [done for done, _ in free]]
    except Fault:
        pass
    return list(features)


def _crossed(cut: Cut, planned: Sequence[tuple[Feature, list[Cut]]], work: Workpiece) -> bool:
    others = [region for _, cuts in planned for each in cuts if each is not cut for region in each.regions]
    return any(near(region, other) for region in cut.regions for other in (*others, *work.cut_before))


@kernel.guarded
def _take_together(cuts: Sequence[Cut], work: Workpiece) -> None:
    tools, regions = [t for cut in cuts for t in cut.tools], [r for cut in cuts for r in cut.regions]
    work.take(Cut(tools, sum(cut.volume for cut in cuts), regions))
