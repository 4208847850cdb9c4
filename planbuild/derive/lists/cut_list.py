"""The cut list: parts by stock, with hands, strips, and what is cut to the same stop."""

from __future__ import annotations

from planbuild.core.geometry import Axis
from planbuild.derive import phrases
from planbuild.derive.lists.blanks import is_from_offcut
from planbuild.derive.lists.edging import edging_text, strip_rows
from planbuild.derive.lists.joints import served
from planbuild.records.edging import edgings_of
from planbuild.records.edition import Edition
from planbuild.records.facts import CutGroup, CutRow
from planbuild.records.features import Tenon
from planbuild.records.findings import Findings
from planbuild.records.piece import Part, Piece, Stock

_CORES = {"veneer": ", veneer core", "lumber": ", lumber core", "mdf": ", MDF core", "particleboard": ", chipboard core"}


def cut_list(piece: Piece, findings: Findings, edition: Edition) -> tuple[CutGroup, ...]:
    """One group a stock, in the order of the stock, sheets after solid wood; parts in the order of the piece.

    Unused stock is left out.
    """
    groups = []
    for stock in sorted(piece.stock, key=lambda each: each.sheet is not None):
        parts = [each for each in piece.parts if each.stock == stock.id]
        strips = strip_rows(piece, stock, edition)
        if parts or strips:
            rows = tuple(CutRow(p.id, _note(piece, findings, edition, p), _matched(piece, edition, p)) for p in parts)
            groups.append(CutGroup(stock.id, stock_title(stock, edition), rows, strips))
    return tuple(groups)


def stock_title(stock: Stock, edition: Edition) -> str:
    """`8/4 white ash, rift sawn, planed to 1 3/4`; `3/4 in birch plywood, 23/32 thick`."""
    thick = edition.ruler.printed(stock.thickness)
    if stock.sheet:
        return f"{board_title(stock)}, {thick} thick{'' if stock.sheet.measured else ' if it is as usual'}"
    leaves = f", resawn into {phrases.counted(stock.leaves, 'leaf')}" if stock.leaves > 1 else ""
    return f"{board_title(stock)}{leaves}, planed to {thick}"


def board_title(stock: Stock) -> str:
    """As it is asked for at the yard: `8/4 white ash, rift sawn`, `3/4 in birch plywood`."""
    if stock.sheet:
        core, good = _CORES.get(stock.sheet.core, ""), {0: ", no good face", 1: ", one good face"}.get(stock.sheet.faces, "")
        return f"{stock.sheet.sold_as} {stock.species}{core}{good}"
    return f"{stock.quarters} {stock.species}, {stock.cut} sawn"


def allowance_note(piece: Piece, edition: Edition) -> str:
    """The rule by which rough sizes were made, as printed under the table."""
    size, practice = edition.ruler.printed, piece.practice
    solid = [p for p in piece.parts if piece.stock_of(p).sheet is None]
    odd = [p for p in solid if (p.rough_length, p.rough_width) != (practice.rough_length, practice.rough_width)]
    tenons = any(isinstance(f, Tenon) for part in piece.parts for f in part.features)
    whole = "lengths include the tenons" if tenons else "sizes include what goes into other parts"
    rule = (
        f"Rough sizes add {size(practice.rough_length)} to the length and "
        f"{size(practice.rough_width)} to the width; rough thickness is that of the board as it is bought."
    )
    own = [f"{phrases.mark(p.id)} {size(p.rough_length)} and {size(p.rough_width)}" for p in odd]
    texts = [
        f"Finished {whole}.",
        rule if solid else "",
        f"Other allowances (length and width): {phrases.listed(own)}." if own else "",
        "Sheet goods are cut to their finished size." if len(solid) < len(piece.parts) else "",
        "The rough size of an edged part is that of its sheet, to which the edging comes." if _any_edged(piece) else "",
        "The rough size of a panel is that of one strip." if any(_is_panel(p) for p in piece.parts) else "",
        "That of a part in layers is that of one layer." if any(p.glue_up and not _is_panel(p) for p in piece.parts) else "",
        _made_note(piece),
    ]
    return " ".join(each for each in texts if each)


def _any_edged(piece: Piece) -> bool:
    return any(edgings_of(part.features) for part in piece.parts)


def _is_panel(part: Part) -> bool:
    return part.glue_up is not None and part.glue_up.strips > 1


def _made_note(piece: Piece) -> str:
    made = [phrases.mark(p.id) for p in piece.parts if p.made_by]
    return f"For {phrases.listed(made)} it is that of the one piece from which all are sawn." if made else ""


def shoulder_length(part: Part) -> float | None:
    """Between the shoulders of the two ends, None if the part has not a tenon at both.  Units: mm."""
    ends = {f.end for f in part.features if isinstance(f, Tenon)}
    return part.body.size(part.grain) if {part.grain.low, part.grain.high} <= ends else None


def strips_text(part: Part, edition: Edition) -> str:
    """`4 strips of 3 3/4, rings alternate`, `two layers of 3/4`, "" for a single board."""
    glue_up, size = part.glue_up, edition.ruler.printed
    if glue_up is None:
        return ""
    count, thick = phrases.number_word(glue_up.layers), size(part.finished[2] / glue_up.layers)
    layers = f"{count} layers of {thick}" if glue_up.layers > 1 else ""
    if glue_up.strips == 1:
        return layers
    match = {"bookmatched": ", bookmatched", "slip": ", slip matched"}.get(glue_up.match, "")
    splines = f", splines {size(glue_up.splines)} thick" if glue_up.splines else ""
    strips = f"{glue_up.strips} strips of {size(glue_up.strip_width)}, rings {glue_up.rings}{match}{splines}"
    return f"{layers}, each of {strips}" if layers else strips


def hands_text(findings: Findings, part: Part) -> str:
    """`2 as drawn, 2 mirrored`, "" if all are alike."""
    alike = findings.alike(part.id)
    return f"{len(alike.as_drawn)} as drawn, {len(alike.mirrored)} mirrored" if alike.mirrored else ""


def _note(piece: Piece, findings: Findings, edition: Edition, part: Part) -> str:
    made = [f"for the {served(piece, each)}" for each in piece.joints if each.id == part.made_by]
    fitted = "measure from the work" if part.fit_to_work else ""
    built = [strips_text(part, edition), edging_text(part, edition.ruler)]
    notes = [*built, hands_text(findings, part), *made, _from_one(piece, part), fitted]
    return "; ".join(each for each in notes if each)


def _from_one(piece: Piece, part: Part) -> str:
    """`all from one strip`: what the count of small parts does not tell."""
    if not part.made_by:
        return ""
    return f"{'all ' if len(part.copies) > 1 else ''}from one {'offcut' if is_from_offcut(piece, part) else 'strip'}"


def _matched(piece: Piece, edition: Edition, part: Part) -> str:
    """Marks of the parts that share its end stop, then of those that share the stop of its shoulders."""
    if part.made_by:
        return ""
    others = [p for p in piece.parts if p is not part and not p.made_by]
    same = [p.mark for p in others if _alike(edition, p.finished[0], part.finished[0])]
    own = shoulder_length(part)
    shoulders = [p.mark for p in others if own and _alike(edition, shoulder_length(p) or 0.0, own) and p.mark not in same]
    texts = [", ".join(same), f"{', '.join(shoulders)} (shoulders)" if shoulders else ""]
    return "; ".join(each for each in texts if each)


def _alike(edition: Edition, a: float, b: float) -> bool:
    """One stop serves both when they print alike and differ by less than any stop can be set."""
    return abs(a - b) < 0.05 and edition.ruler.steps(a) == edition.ruler.steps(b)


def grain_words(part: Part) -> str:
    """Which way the wood runs in the piece; small parts stand every way in it."""
    if part.made_by:
        return "along the length"
    return {Axis.LEFT_RIGHT: "left to right", Axis.FRONT_BACK: "front to back", Axis.BOTTOM_TOP: "up and down"}[part.grain]
