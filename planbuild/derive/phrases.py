"""Plain English for lists and steps: counts, plurals, enumerations, references to parts.

Only the grammar is here; what is said of wood is in the rooms that know it.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from math import ceil

from planbuild.core.geometry import Box, Face
from planbuild.core.units import Ruler, Unit
from planbuild.records.piece import GluedPart, Part, Piece

_NUMBERS = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve")
_ENDINGS = (("leaf", "leaves"), ("lf", "lves"), ("knife", "knives"))
_SIBILANTS = ("s", "x", "z", "ch", "sh")


def plural(noun: str) -> str:
    """`leg` -> `legs`, `shelf` -> `shelves`, `box` -> `boxes`, `tray` -> `trays`, `lady` -> `ladies`."""
    for one, many in _ENDINGS:
        if noun.endswith(one):
            return noun[: -len(one)] + many
    if noun.endswith(_SIBILANTS):
        return noun + "es"
    if noun.endswith("y") and noun[-2:-1] not in "aeiou":
        return noun[:-1] + "ies"
    return noun + "s"


_AFTER_NOUN = re.compile(r" (?:in|at|for|of|along|across|between|from|with)\b|[,;:.]")
_FOR_ONE = re.compile(r" for an? ([^,;]*?\w)(?=[,;]|\.?$)")


def several(words: str) -> str:
    """What is said of one cut, said of more: `Hole in the top face for a 4 mm screw.` -> `holes ... for 4 mm screws.`"""
    found = _AFTER_NOUN.search(words)
    noun, rest = (words[: found.start()], words[found.start() :]) if found else (words, "")
    rest = _FOR_ONE.sub(lambda each: f" for {plural(each[1])}", rest)
    return f"{plural(noun[:1].lower() + noun[1:])}{rest}"


def number_word(count: int) -> str:
    """In words up to twelve, in figures beyond."""
    return _NUMBERS[count] if count < len(_NUMBERS) else str(count)


def counted(count: int, noun: str) -> str:
    """`one leg`, `four legs`, `16 slats`."""
    return f"{number_word(count)} {noun if count == 1 else plural(noun)}"


def listed(items: Iterable[str]) -> str:
    """`a`, `a and b`, `a, b and c`."""
    *head, last = items
    return f"{', '.join(head)} and {last}" if head else last


def strung(items: Sequence[str]) -> str:
    """Like `listed`, for items that hold an `and` of their own: a comma stands before the last one, too."""
    if not any(" and " in each or ", " in each for each in items[:-1]):
        return listed(items)
    return f"{', '.join(items[:-1])}, and {items[-1]}"


def time_text(minutes: float) -> str:
    """`45 min`, `2 h`, `12 h`: hours from two on, where they are whole."""
    return f"{minutes / 60:g} h" if minutes >= 120 and minutes % 60 == 0 else f"{minutes:g} min"


def sentence(text: str) -> str:
    """With a capital and a full stop."""
    text = text.strip()
    return text[:1].upper() + text[1:] + ("" if text.endswith((".", "!", "?")) else ".")


def heading(*texts: str) -> str:
    """Texts with commas between, those that are not empty, with a capital and no full stop."""
    text = ", ".join(each for each in texts if each)
    return text[:1].upper() + text[1:]


def mark(part: str) -> str:
    return f"[[mark:{part}]]"


def named(part: Part) -> str:
    """`leg [[mark:leg]]` or `legs [[mark:leg]]`, as many as there are."""
    return f"{part.name if len(part.copies) == 1 else plural(part.name)} {mark(part.id)}"


def the(part: Part) -> str:
    """`the seat A1`, `the four legs A2`."""
    if len(part.copies) == 1:
        return f"the {named(part)}"
    return f"the {number_word(len(part.copies))} {named(part)}"


def the_all(parts: Sequence[Part]) -> str:
    return listed(the(each) for each in parts)


def of_kind(piece: Piece, parts: Sequence[Part]) -> str:
    """What several parts are called together: their common last word (`rails`) if no other part shares
    it, else their names one by one (`slats and buttons`), without marks."""
    tails = {each.name.split()[-1] for each in parts}
    if len(parts) > 1 and len(tails) == 1:
        (tail,) = tails
        others = {each.name.split()[-1] for each in piece.parts if each not in parts}
        if tail not in others:
            return plural(tail)
    return listed(each.name if len(each.copies) == 1 else plural(each.name) for each in parts)


def facing(part: Part, face: Face, piece: Piece) -> str:
    """A face of a part as one name for all its copies: `top`, or `inside` and `outside` where the copies are
    mirrored (inside looks to the middle of the piece, or of the block that holds it), or the face of the drawn copy."""
    ways = {copy.motion.face(face) for copy in part.copies}
    if len(ways) == 1:
        return face.value
    inward = {_looks_in(part, copy, face, piece) for copy in range(len(part.copies))}
    if len(inward) > 1:
        return face.value
    return "inside" if inward.pop() else "outside"


def _looks_in(part: Part, copy: int, face: Face, piece: Piece) -> bool:
    motion = part.copies[copy].motion
    way = motion.face(face)
    here = part.box(copy, part.body).along(way.axis).middle
    return (_around(part, copy, piece).along(way.axis).middle - here) * way.sign > 0


def _around(part: Part, copy: int, piece: Piece) -> Box:
    """The frame of the piece, or of the block in which a copy stands."""
    holding = [each for each in piece.blocks if part.id in each.parts]
    if not holding:
        return piece.frame
    block = max(holding, key=lambda each: len(each.id))
    return block.motions[copy * len(block.motions) // len(part.copies)].box(block.box)


def sizes(ruler: Ruler, *lengths: float) -> str:
    """`3/8 x 2 1/4` as set type."""
    return " × ".join(ruler.printed(each) for each in lengths)


def with_unit(ruler: Ruler, length: float) -> str:
    return ruler.printed(length, with_unit=True)


def volume_text(ruler: Ruler, ml: float) -> str:
    """A fluid volume to buy or mix, leading with the reader's unit.  Source: 1 US fluid ounce = 29.5735 ml (NIST Handbook 44)."""
    if ruler.unit is Unit.MM:
        return f"{10 * ceil(ml / 10)} ml"
    ounces = ceil(ml / 29.5735)
    return f"{ounces} fl oz ({10 * round(ounces * 2.95735)} ml)"


def glued_only(part: GluedPart, ruler: Ruler) -> str:
    """Where glue goes on a seam that is not glued all along."""
    if part.middle:
        return "only over the middle third of the seam"
    return f"only from {ruler.plain(part.start)} to {with_unit(ruler, part.stop)} from the {part.axis.low.value} end of the seam"
