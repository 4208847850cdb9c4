"""The cut list: parts by stock, with hands, strips, and what is cut to the same stop."""

from __future__ import annotations

from planbuild.core.geometry import Axis
from planbuild.derive import phrases
from planbuild.derive.lists.blanks import is_from_offcut
from planbuild.derive.lists.joints import served
from planbuild.records.edition import Edition
from planbuild.records.facts import CutGroup, CutRow
from planbuild.records.features import Tenon
from planbuild.records.findings import Findings
from planbuild.records.piece import Part, Piece, Stock


def cut_list(piece: Piece, findings: Findings, edition: Edition) -> tuple[CutGroup, ...]:
    """One group a stock, in the order of the stock; parts in the order of the piece.  Unused stock is left out."""
    groups = []
    for stock in piece.stock:
        parts = [each for each in piece.parts if each.stock == stock.id]
        if parts:
            rows = tuple(CutRow(p.id, _note(piece, findings, edition, p), _matched(piece, edition, p)) for p in parts)
            groups.append(CutGroup(stock.id, stock_title(stock, edition), rows))
    return tuple(groups)


def stock_title(stock: Stock, edition: Edition) -> str:
    """`8/4 white ash, rift sawn, planed to 1 3/4`."""
    return f"{board_title(stock)}, planed to {edition.ruler.printed(stock.thickness)}"


def board_title(stock: Stock) -> str:
    """The board as it is asked for at the yard: `8/4 white ash, rift sawn`."""
    return f"{stock.quarters} {stock.species}, {stock.cut} sawn"


def allowance_note(piece: Piece, edition: Edition) -> str:
    """The rule by which rough sizes were made, as printed under the table."""
    size, practice = edition.ruler.printed, piece.practice
    odd = [p for p in piece.parts if (p.rough_length, p.rough_width) != (practice.rough_length, practice.rough_width)]
    tenons = any(isinstance(f, Tenon) for part in piece.parts for f in part.features)
    whole = "lengths include the tenons" if tenons else "sizes include what goes into other parts"
    rule = (
        f"Finished {whole}. Rough sizes add {size(practice.rough_length)} to the length and "
        f"{size(practice.rough_width)} to the width; rough thickness is that of the board as it is bought."
    )
    own = [f"{phrases.mark(p.id)} {size(p.rough_length)} and {size(p.rough_width)}" for p in odd]
    other = f" Other allowances (length and width): {phrases.listed(own)}." if own else ""
    panels = " The rough size of a panel is that of one strip." if any(p.glue_up for p in piece.parts) else ""
    made = phrases.listed(phrases.mark(p.id) for p in piece.parts if p.made_by) if any(p.made_by for p in piece.parts) else ""
    return rule + other + panels + (f" For {made} it is that of the one piece from which all are sawn." if made else "")


def shoulder_length(part: Part) -> float | None:
    """Between the shoulders of the two ends, None if the part has not a tenon at both.  Units: mm."""
    ends = {f.end for f in part.features if isinstance(f, Tenon)}
    return part.body.size(part.grain) if {part.grain.low, part.grain.high} <= ends else None


def strips_text(part: Part, edition: Edition) -> str:
    """`4 strips of 3 3/4, rings alternate`, "" for a single board."""
    if part.glue_up is None:
        return ""
    return f"{part.glue_up.strips} strips of {edition.ruler.printed(part.glue_up.strip_width)}, rings {part.glue_up.rings}"


def hands_text(findings: Findings, part: Part) -> str:
    """`2 as drawn, 2 mirrored`, "" if all are alike."""
    alike = findings.alike(part.id)
    return f"{len(alike.as_drawn)} as drawn, {len(alike.mirrored)} mirrored" if alike.mirrored else ""


def _note(piece: Piece, findings: Findings, edition: Edition, part: Part) -> str:
    made = [f"for the {served(piece, each)}" for each in piece.joints if each.id == part.made_by]
    notes = [strips_text(part, edition), hands_text(findings, part), *made, _from_one(piece, part)]
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
