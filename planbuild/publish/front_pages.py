"""What the pages before the work show: cover, read me first, the piece, parts at a glance, to buy."""

from __future__ import annotations

from fractions import Fraction

from planbuild.core.units import Ruler, Unit
from planbuild.publish.legend import legend
from planbuild.publish.source import Content, Source, made, picked
from planbuild.records import rooms
from planbuild.records.facts import Facts, PieceFacts, Tool

_POUND = 0.45359237
"""kg, exact by definition: the international yard and pound agreement of 1959."""

_OTHER = {Unit.INCH: Ruler(Unit.MM, Fraction(1)), Unit.MM: Ruler(Unit.INCH, Fraction(1, 16))}
"""The second system on the cover, rounded coarsely: it is for the eye, not for the saw."""


def cover(source: Source) -> Content:
    piece, ruler = source.facts.piece, source.edition.ruler
    return {
        "overall": [_overall(piece, ruler), _overall(piece, _OTHER[ruler.unit])],
        "parts": f"{piece.part_count} pieces in {piece.part_kinds} kinds",
        "change": piece.revisions[-1][2] if piece.revisions else "",
    }


def _on_castors(piece: PieceFacts, ruler: Ruler) -> str:
    """Castors stand below the wood, whose size the design states."""
    return f", {ruler.printed(piece.on_castors)} high on its castors" if piece.on_castors else ""


def _overall(piece: PieceFacts, ruler: Ruler) -> str:
    sizes = (ruler.printed(mm) for mm in (piece.width, piece.depth, piece.height))
    return f"{' × '.join(sizes)} {ruler.unit.symbol}"


def read_me(source: Source) -> Content:
    facts = source.facts
    return {
        "samples": [{"figure": each.sample.id, "words": each.words} for each in legend(facts)],
        "unit": "inches" if source.edition.ruler.unit is Unit.INCH else "millimetres",
        "example": facts.parts[0],
        "mirrored": next(({"part": part, "made": made(part)} for part in facts.parts if part.mirrored), None),
        "changes": facts.piece.revisions[1:],
    }


def piece(source: Source) -> Content:
    whole, ruler = source.facts.piece, source.edition.ruler
    coarse = Ruler(ruler.unit, Fraction(1, 4) if ruler.unit is Unit.INCH else Fraction(5))
    return {
        "overall": _overall(whole, ruler) + _on_castors(whole, ruler),
        "weight": _weight(whole.mass, ruler),
        "balances": [coarse.printed(each, with_unit=True) for each in whole.centre],
        "groups": [{"name": each.name, "count": each.count, "weight": _weight(each.mass, ruler)[0]} for each in whole.groups],
    }


def _weight(mass: float, ruler: Ruler) -> list[str]:
    """In pounds and in kilograms, that of the edition first."""
    pounds = mass / _POUND
    both = [f"{pounds:.0f} lb" if pounds >= 10 else f"{pounds:.1f} lb", f"{mass:.1f} kg"]
    return both if ruler.unit is Unit.INCH else both[::-1]


def glance(source: Source) -> Content:
    """The pictures of blocks stand above the table; the whole piece has the room that derive gave it."""
    facts, edition = source.facts, source.edition
    blocks = [id for id in facts.drawings if id.startswith("exploded.")]
    return {
        "blocks": blocks,
        "room": rooms.exploded(edition, len(facts.parts), len(blocks)),
        "block_room": rooms.exploded_block(edition, len(blocks)),
    }


def buy(source: Source) -> Content:
    facts = source.facts
    wastes = {line.waste_text for line in facts.stock if line.waste_text}
    return {
        "waste": next(iter(wastes)) if len(wastes) == 1 else "",
        "reasons": any(line.why for line in facts.hardware),
        "wood": [{"line": line, "parts": picked(facts, line.for_parts)} for line in facts.stock],
        "tools": [{"name": _many(tool), "steps": _numbers(facts, tool)} for tool in facts.tools],
    }


def _many(tool: Tool) -> str:
    return f"{tool.count} × {tool.name}" if tool.count else tool.name


def _numbers(facts: Facts, tool: Tool) -> list[dict[str, object]]:
    return [{"id": step.id, "number": step.number} for step in facts.steps if step.id in tool.steps]
