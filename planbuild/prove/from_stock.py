"""Every part comes out of its stated stock: thick and long enough when rough, strips that add up, a solid as large as its box."""

from __future__ import annotations

from collections.abc import Iterator

from planbuild.core.diagnostics import Diagnostic, Severity
from planbuild.core.geometry import TINY, Face
from planbuild.core.thicknesses import sawn_named
from planbuild.prove.standing import Standing
from planbuild.prove.telling import size_of_box, told
from planbuild.records.findings import Findings, Proof
from planbuild.records.piece import Part, Stock
from planbuild.records.slanted import EndCut

LEAST_PLANED = 3 / 16 * 25.4
"""Taken off a rough board, both faces together, where no table knows its thickness (common practice, 3/16 to 1/4 in)."""

LEAST_LEAF = 1.0
"""Planed at least off a resawn leaf, both faces together (mm; heuristic: the saw marks of a sharp band saw)."""


def parts_come_from_stock(standing: Standing) -> Findings:
    """Reports `stock-thin` and `stock-box` (each error or warning), `stock-strips`, `stock-long`, `stock-wide` (warning)."""
    piece = standing.piece
    diagnostics = [d for part in piece.parts for d in _of_part(standing, part, piece.stock_of(part))]
    planed = [part for part in piece.parts if piece.stock_of(part).sheet is None]
    spare = {part.id: piece.stock_of(part).sawn - _thickness(part) for part in planed}
    tightest = min(planed, key=lambda part: spare[part.id], default=None)
    saying = _worst(standing, tightest) if tightest else "sheets only, which are not planed" if piece.parts else "no parts"
    return Findings(tuple(diagnostics), (Proof("Every part comes out of its rough stock", len(piece.parts), saying),))


def _of_part(standing: Standing, part: Part, stock: Stock) -> Iterator[Diagnostic]:
    if stock.sheet is None:
        yield from _thick_enough(standing, part, stock)
        yield from _sold(standing, part, stock)
    yield from _strips(standing, part)
    yield from _as_large_as_stated(standing, part)


def _thickness(part: Part) -> float:
    """Of one board: a part of several layers is glued up of as many."""
    return part.finished[2] / (part.glue_up.layers if part.glue_up else 1)


def _worst(standing: Standing, part: Part) -> str:
    ruler, stock = standing.ruler, standing.piece.stock_of(part)
    rough, left = told(ruler, stock.sawn), told(ruler, stock.sawn - _thickness(part))
    return f"tightest: {part.name}, {told(ruler, _thickness(part))} thick out of {rough} rough, {left} for planing"


def planed_off(stock: Stock) -> float:
    """What planing both faces of a rough board takes at least.  Units: mm.

    Source: core/tables/thickness.csv; core/tables/making.csv for a leaf that is sawn out of a board.
    """
    if stock.leaf:
        return min(stock.leaf - stock.thickness, LEAST_LEAF)
    known = sawn_named(stock.quarters)
    return float(known.rough - known.finished) if known else LEAST_PLANED


def _thick_enough(standing: Standing, part: Part, stock: Stock) -> Iterator[Diagnostic]:
    ruler, needed = standing.piece.ruler, _thickness(part) + planed_off(stock)
    if stock.sawn >= needed - TINY:
        return
    impossible = stock.sawn < _thickness(part) - TINY
    thick, rough = told(ruler, _thickness(part)), told(ruler, stock.sawn)
    message = f"{part.name} is {thick} thick, its stock {stock.id} only {rough} when rough."
    yield Diagnostic(
        "stock-thin",
        message,
        Severity.ERROR if impossible else Severity.WARNING,
        part.origin,
        expected=f"{told(ruler, needed)} or more, so that both faces can be planed",
        hints=("take the next thickness of rough stock, or make the part thinner",),
    )


def _sold(standing: Standing, part: Part, stock: Stock) -> Iterator[Diagnostic]:
    """Boards are sold as long and as wide as the design says."""
    ruler, length = standing.piece.ruler, part.finished[0] + part.rough_length
    wide = (part.glue_up.strip_width if part.glue_up else part.finished[1]) + part.rough_width
    if stock.lengths and length > stock.lengths[-1] + TINY:
        longest = told(ruler, stock.lengths[-1])
        message = f"{part.name} is sawn from a blank {told(ruler, length)} long; {stock.id} is sold {longest} long at most."
        yield Diagnostic("stock-long", message, span=part.origin, expected=f"at most {longest}", hints=("make it of two boards",))
    if stock.widths and wide > stock.widths[1] + TINY:
        widest = told(ruler, stock.widths[1])
        message = f"{part.name} is sawn from a blank {told(ruler, wide)} wide; {stock.id} is sold {widest} wide at most."
        hints = ("glue it up from narrower strips: `glue_up: {widest_strip: ...}`",)
        yield Diagnostic("stock-wide", message, Severity.WARNING, part.origin, expected=f"at most {widest}", hints=hints)


def _strips(standing: Standing, part: Part) -> Iterator[Diagnostic]:
    glue_up, ruler = part.glue_up, standing.piece.ruler
    if glue_up and glue_up.strips * glue_up.strip_width < part.finished[1] - TINY:
        width = told(ruler, glue_up.strips * glue_up.strip_width)
        message = f"The {glue_up.strips} strips of {part.name} make {width}, it is {told(ruler, part.finished[1])} wide."
        yield Diagnostic("stock-strips", message, span=part.origin, hints=("one strip more, or wider ones",))


def _as_large_as_stated(standing: Standing, part: Part) -> Iterator[Diagnostic]:
    """The solid's own box is the one that the cut list states; less is left where shapes take a whole face off."""
    made, stated, ruler = standing.solids.of[part.id].box, part.extent, standing.piece.ruler
    over = max(face.sign * (made.at(face) - stated.at(face)) for face in Face)
    left, sawn = size_of_box(ruler, made), size_of_box(ruler, stated)
    if over > TINY:
        yield Diagnostic("stock-box", f"{part.name} comes out {left} where its numbers say {sawn}.", span=part.origin)
    elif left != sawn and any(face.sign * (stated.at(face) - made.at(face)) > TINY + _off(part, face) for face in Face):
        message = f"{part.name} is sawn to {sawn}, and its shapes leave only {left}."
        hints = ("Make the body smaller if a shape should not take a whole face off.",)
        yield Diagnostic("stock-box", message, Severity.WARNING, part.origin, hints=hints)


def _off(part: Part, face: Face) -> float:
    """What a shape may take off the longest corner of a slanted end, as from the round foot of a leg that leans."""
    return sum(each.beyond(part.body) for each in part.features if isinstance(each, EndCut) and each.end is face)
