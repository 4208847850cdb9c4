"""What the pages before the work show: cover, read me first, the piece, parts at a glance, to buy."""

from __future__ import annotations

from fractions import Fraction

from planbuild.core.units import Ruler, Unit
from planbuild.publish.source import Content, Source, made, picked
from planbuild.records.drawing import Pen, Tint
from planbuild.records.facts import Facts, PieceFacts, Tool

_POUND = 0.45359237
"""kg, exact by definition: the international yard and pound agreement of 1959."""

_OTHER = {Unit.INCH: Ruler(Unit.MM, Fraction(1)), Unit.MM: Ruler(Unit.INCH, Fraction(1, 16))}
"""The second system on the cover, rounded coarsely: it is for the eye, not for the saw."""

LINES = {
    Pen.OUTLINE: "edge you see",
    Pen.VISIBLE: "edge you see",
    Pen.HIDDEN: "edge behind wood",
    Pen.DIMENSION: "size: arrow to arrow",
    Pen.CENTRE: "centre line",
    Pen.CUTTING: "where a section is cut",
    Pen.BREAK: "part left out of the drawing",
    Pen.MOVE: "way a part goes home",
    Pen.GUIDE: "where a part was pulled from",
}
"""What each kind of line means; light construction lines explain themselves."""

TINTS = (
    ("wood", (Tint.UP, Tint.FRONT, Tint.SIDE), "wood: lightest where it looks up"),
    ("new", (Tint.NEW_UP, Tint.NEW_FRONT, Tint.NEW_SIDE), "new in this step"),
    ("standing", (Tint.PALE_UP, Tint.PALE_FRONT, Tint.PALE_SIDE), "already there"),
)


def cover(source: Source) -> Content:
    piece, ruler = source.facts.piece, source.edition.ruler
    return {
        "overall": [_overall(piece, ruler), _overall(piece, _OTHER[ruler.unit])],
        "parts": f"{piece.part_count} pieces in {piece.part_kinds} kinds",
        "change": piece.revisions[-1][2] if piece.revisions else "",
    }


def _overall(piece: PieceFacts, ruler: Ruler) -> str:
    sizes = (ruler.printed(mm) for mm in (piece.width, piece.depth, piece.height))
    return f"{' × '.join(sizes)} {ruler.unit.symbol}"


def read_me(source: Source) -> Content:
    facts = source.facts
    pens = [pen for pen in pens_used(facts) if pen is not Pen.OUTLINE or Pen.VISIBLE not in pens_used(facts)]
    return {
        "samples": [
            *({"figure": f"sample.line.{pen.value}", "words": LINES[pen]} for pen in pens),
            {"figure": "sample.cut", "words": "cut wood, with its grain"},
            *({"figure": f"sample.tint.{name}", "words": words} for name, _, words in TINTS),
        ],
        "unit": "inches" if source.edition.ruler.unit is Unit.INCH else "millimetres",
        "example": facts.parts[0],
        "mirrored": next(({"part": part, "made": made(part)} for part in facts.parts if part.mirrored), None),
        "changes": facts.piece.revisions[1:],
    }


def pens_used(facts: Facts) -> list[Pen]:
    """The kinds of line that this plan's drawings hold and that need explaining, in the order of `LINES`."""
    used = {stroke.pen for drawing in facts.drawings.values() for stroke in (*drawing.strokes, *drawing.cover_strokes)}
    return [pen for pen in LINES if pen in used]


def piece(source: Source) -> Content:
    mass = source.facts.piece.mass
    both = [f"{mass / _POUND:.0f} lb", f"{mass:.1f} kg"]
    overall = _overall(source.facts.piece, source.edition.ruler)
    return {"overall": overall, "weight": both if source.edition.ruler.unit is Unit.INCH else both[::-1]}


def glance(source: Source) -> Content:
    return {}


def buy(source: Source) -> Content:
    facts = source.facts
    wastes = {line.waste_text for line in facts.stock if line.waste_text}
    return {
        "waste": next(iter(wastes)) if len(wastes) == 1 else "",
        "reasons": any(line.why for line in facts.hardware),
        "wood": [{"line": line, "parts": picked(facts, line.for_parts)} for line in facts.stock],
        "tools": [{"name": tool.name, "steps": _numbers(facts, tool)} for tool in facts.tools],
    }


def _numbers(facts: Facts, tool: Tool) -> list[dict[str, object]]:
    return [{"id": step.id, "number": step.number} for step in facts.steps if step.id in tool.steps]
