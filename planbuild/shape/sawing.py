"""Flat outlines cut square to a face: what lies within is gone, or all that lies around it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from planbuild.core.geometry import TINY, Axis, Box, Span1
from planbuild.core.outlines import Piece, area, pieces
from planbuild.records.shaped import Sawn
from planbuild.shape import kernel
from planbuild.shape.kernel import OVERSHOOT, Fault, Flat, Outline, Shape
from planbuild.shape.workpiece import Cut, Workpiece


def cut_sawn(sawn: Sawn, work: Workpiece) -> Iterator[Cut]:
    """An outline on the rim of the board runs on past it, so that no side of the tool lies on a face of the part."""
    axis = sawn.face.axis
    across = [work.body.along(each) for each in axis.others]
    deep = _depth(sawn, work.body)
    inside = _prism(axis, _past_the_rim(pieces(sawn.corners), across), _reach(sawn, work.body, deep))
    enclosed, region = area(sawn.corners), sawn.region(work.body)
    if not sawn.keeps:
        yield Cut([inside], enclosed * deep, [region], sides=axis if _is_corner(sawn) else None)
        return
    outside = _prism(axis, _lines(_grown(across, 2 * OVERSHOOT)), _reach(sawn, work.body, deep))
    tools = kernel.solids_of(kernel.cut(outside, [inside]).Shape())
    waste = across[0].size * across[1].size - enclosed
    yield Cut(tools, waste * deep, [work.body], sides=axis)


def _is_corner(sawn: Sawn) -> bool:
    """A clipped or rounded corner: its new side belongs to the sides of the board, so that edges are eased along it too."""
    return len(sawn.corners) == 3 and sawn.depth is None


def _depth(sawn: Sawn, body: Box) -> float:
    thick = body.size(sawn.face.axis)
    if sawn.depth is not None and sawn.depth > thick - TINY:
        raise Fault("It is as deep as the part is thick.", "say `through: yes`")
    return thick if sawn.depth is None else sawn.depth


def _reach(sawn: Sawn, body: Box, deep: float) -> Span1:
    """From outside the face to the depth, or out at the other side."""
    whole = body.along(sawn.face.axis)
    if sawn.depth is None:
        return Span1(whole.low - OVERSHOOT, whole.high + OVERSHOOT)
    at = body.at(sawn.face)
    return Span1(*sorted((at + sawn.face.sign * OVERSHOOT, at - sawn.face.sign * deep)))


def _grown(across: Sequence[Span1], by: float) -> list[Flat]:
    x, y = (Span1(span.low - by, span.high + by) for span in across)
    return [(x.low, y.low), (x.high, y.low), (x.high, y.high), (x.low, y.high)]


def _lines(points: Sequence[Flat]) -> list[Piece]:
    return [Piece(one, other) for one, other in zip(points, [*points[1:], points[0]], strict=True)]


def _prism(axis: Axis, run: Sequence[Piece], span: Span1) -> Shape:
    outline = Outline(axis, run[0].start)
    for piece in run:
        if piece.through:
            outline.arc(piece.through, piece.end)
        else:
            outline.to(piece.end)
    return outline.prism(span)


def _past_the_rim(run: Sequence[Piece], across: Sequence[Span1]) -> list[Piece]:
    """The same outline with each line that lies on the rim of the board moved outside."""
    outward = [_outward(piece, across) for piece in run]
    found: list[Piece] = []
    for index, (piece, out) in enumerate(zip(run, outward, strict=True)):
        if out is None:
            found.append(piece)
            continue
        before, after = outward[index - 1], outward[(index + 1) % len(run)]
        start, end = _moved(piece.start, out), _moved(piece.end, out)
        if before is None:
            found.append(Piece(piece.start, start))
        elif before != out:
            start = _moved(start, before)
        if after is not None and after != out:
            end = _moved(end, after)
        found.append(Piece(start, end))
        if after is None:
            found.append(Piece(end, piece.end))
    return found


def _outward(piece: Piece, across: Sequence[Span1]) -> Flat | None:
    """The way out of the board from a line on its rim, None for any other piece."""
    if piece.through:
        return None
    for index, span in enumerate(across):
        for place, way in ((span.low, -OVERSHOOT), (span.high, OVERSHOOT)):
            if abs(piece.start[index] - place) < TINY and abs(piece.end[index] - place) < TINY:
                return (way, 0.0) if index == 0 else (0.0, way)
    return None


def _moved(point: Flat, by: Flat) -> Flat:
    return point[0] + by[0], point[1] + by[1]
