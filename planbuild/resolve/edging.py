"""The edging of a sheet as it is said: which edges get a strip, of what wood, in which order."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from planbuild.core.diagnostics import Diagnostic, Related
from planbuild.core.geometry import TINY, Box, Face, Span1
from planbuild.core.spelling import did_you_mean
from planbuild.core.units import Ruler
from planbuild.joints.base import Board
from planbuild.joints.proportions import length_rule, stepped_share
from planbuild.records.design import EdgingSaid, PartSaid, Said
from planbuild.records.edging import Edging, core_of, edgings_of, laid_on
from planbuild.records.features import Feature
from planbuild.records.stock import Stock
from planbuild.resolve.orientation import Lie
from planbuild.resolve.sayings import Sayings, figure, tried

_NOWHERE = Box(Span1(0, 0), Span1(0, 0), Span1(0, 0))


def edging_on(
    said: PartSaid, lie: Lie, body: Box, wood: Stock, stock: Mapping[str, Stock], sayings: Sayings, ruler: Ruler
) -> tuple[Edging, ...]:
    """The strips of a part.

    Reports `edging-solid`, `edging-edge`, `edging-twice`, `edging-thick`, `edging-narrow`, `stock-missing`, `word-unknown`.
    """
    found: list[Edging] = []
    for each in said.edging:
        if wood.sheet is None:
            at = Said("edging", each.origin)
            hint = "Leave `edging` out, or make the part of a sheet. A board gets a lip with `kind: edge glue`."
            sayings.refuse("edging-solid", at, f'"{wood.id}" is solid wood; edging is for sheets.', hints=(hint,))
            return ()
        found += tried(_strips, each, lie, body, wood, stock, sayings, ruler, found) or []
    return laid_on(found, body, lie.face.axis) if found and _leaves_a_core(found, said, lie, body, sayings) else ()


def _strips(
    said: EdgingSaid, lie: Lie, body: Box, wood: Stock, stock: Mapping[str, Stock], sayings: Sayings, ruler: Ruler,
    before: Sequence[Edging],
) -> list[Edging]:  # fmt: skip
    strip = _stock(said.stock, stock, sayings)
    thickness = float(sayings.size(said.thickness, "The edging"))
    how = sayings.choice(said.how, ("glued", "tongued"), "way to fix an edging") if said.how else "glued"
    corners = sayings.choice(said.corners, ("butted", "mitred"), "way to turn a corner") if said.corners else "butted"
    edges = _edges(said.edges, lie, before, sayings)
    thick = body.size(lie.face.axis)
    if strip.sheet or strip.thickness < thick - TINY:
        message = f'"{strip.id}" gives no strip {figure(thick, sayings.unit)} wide: it is '
        message += "a sheet." if strip.sheet else f"{figure(strip.thickness, sayings.unit)} thick when planed."
        hint = "Strips are ripped from the edge of a board that is at least as thick as the sheet."
        raise sayings.refuse("edging-narrow", said.stock, message, hints=(hint,))
    tongue = (
        (stepped_share("edging_tongue", thick, ruler), length_rule("edging_tongue_long", ruler)) if how == "tongued" else None
    )
    why = said.why.text if said.why else ""
    return [
        Edging(
            id=f"edging.{edge.value}", origin=said.origin, joint="", why=why, edge=edge, strip=_NOWHERE, stock=strip.id,
            wood=strip.species, thickness=thickness, tongue=tongue,
            mitred=tuple(other for other in edges if other.axis is not edge.axis) if corners == "mitred" else (),
        )
        for edge in edges
    ]  # fmt: skip


def _stock(said: Said, stock: Mapping[str, Stock], sayings: Sayings) -> Stock:
    if said.text not in stock:
        expected = f"in this design or its series: {', '.join(stock)}"
        raise sayings.refuse("stock-missing", said, f'No stock "{said.text}".', expected, did_you_mean(said.text, stock))
    return stock[said.text]


def _edges(said: Sequence[Said], lie: Lie, before: Sequence[Edging], sayings: Sayings) -> list[Face]:
    able = [face for face in Face if face.axis is not lie.face.axis]
    found: list[Face] = []
    for each in said:
        faces = able if each.text == "all" else [sayings.face(each)]
        if faces[0] not in able:
            message = f'"{each.text}" is a face of the part, no edge.'
            raise sayings.refuse("edging-edge", each, message, f"one of its edges: {', '.join(f.value for f in able)}, or `all`")
        again = next((face for face in faces if face in found or any(face is strip.edge for strip in before)), None)
        if again:
            raise sayings.refuse("edging-twice", each, f"The {again.value} edge has its strip already.", "one strip on each edge")
        found += faces
    return found


def _leaves_a_core(found: Sequence[Edging], said: PartSaid, lie: Lie, body: Box, sayings: Sayings) -> bool:
    core = core_of(body, found)
    for axis in (lie.grain, lie.width_axis):
        if core.size(axis) < body.size(axis) / 2:
            message = f"The edging leaves {figure(core.size(axis), sayings.unit)} of {figure(body.size(axis), sayings.unit)}."
            sayings.refuse("edging-thick", said.edging[0].thickness, message, "a sheet with edging, at least half of it sheet")
            return False
    return True


def relaid(board: Board, sawn: Box, sayings: Sayings) -> tuple[Feature, ...]:
    """The shapes of a board with its edging as long as what is sawn.  Reports `edging-hidden`."""
    edgings = edgings_of(board.shapes)
    for each in edgings:
        if abs(sawn.at(each.edge) - board.body.at(each.edge)) > TINY:
            message = f'The {each.edge.value} of "{board.id}" goes into another part; an edging there would be hidden.'
            hint = "Leave that edge out of `edges`."
            related = (Related(board.origin, f'"{board.id}" is placed here'),)
            sayings.report.add(Diagnostic("edging-hidden", message, span=each.origin, hints=(hint,), related=related))
    rest = tuple(each for each in board.shapes if not isinstance(each, Edging))
    return (*laid_on(edgings, sawn, board.face.axis), *rest)
