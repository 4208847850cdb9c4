"""The designer's own bill of stock, compared line by line with what the parts come to.

A bill that was written beside the design, by hand or in a book, drifts apart from it; here it is read back.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from planbuild.core.diagnostics import Diagnostic, Related
from planbuild.records.design import BillLineSaid, Said
from planbuild.records.piece import Part
from planbuild.resolve.sayings import Sayings, figure, tried

NEAR = 0.05
"""mm; bills are written in fractions of an inch or whole millimetres."""

Size = tuple[float, float, float]
"""Thickness, width, length in mm, with the allowances of a rough line."""


@dataclass(frozen=True)
class _Line:
    said: BillLineSaid
    count: int
    size: Size
    parts: tuple[Part, ...]


def check_bill(said: Sequence[BillLineSaid], parts: Sequence[Part], sayings: Sayings) -> None:
    """Reports `bill-part`, `bill-count`, `bill-size`, `bill-unknown`, `bill-twice`; nothing where no bill is given.

    Small parts that a joint calls for may be left out; where a line names them they are compared too.
    """
    if not said:
        return
    named: dict[str, Said] = {}
    known = {part.id: part for part in parts}
    for each in said:
        line = tried(_line, each, known, named, sayings)
        for fault in _faults(line, sayings) if line else ():
            sayings.report.add(fault)
    for part in parts:
        if part.id not in named and not part.made_by:
            sayings.report.add(_left_out(part, said[0], sayings))


def _line(said: BillLineSaid, known: dict[str, Part], named: dict[str, Said], sayings: Sayings) -> _Line:
    parts = tuple(_part(each, known, named, sayings) for each in said.parts)
    thickness, width, length = sayings.sizes(said.size, 3)
    return _Line(said, sayings.count(said.count), (float(thickness), float(width), float(length)), parts)


def _part(said: Said, known: dict[str, Part], named: dict[str, Said], sayings: Sayings) -> Part:
    if said.text not in known:
        expected = f"one of: {', '.join(known)}"
        raise sayings.refuse("bill-unknown", said, f'The bill names "{said.text}", which is no part.', expected)
    if said.text in named:
        raise sayings.refuse("bill-twice", said, f'"{said.text}" stands in the bill twice.', "one line for each part")
    named[said.text] = said
    return known[said.text]


def _faults(line: _Line, sayings: Sayings) -> Iterator[Diagnostic]:
    names = " and ".join(f'"{part.id}"' for part in line.parts)
    pieces = sum(len(part.copies) for part in line.parts)
    if pieces != line.count:
        message = f"The bill orders {line.count} of {names}; the piece has {pieces}."
        yield _fault("bill-count", line.said.count, message, line.parts)
    for part in line.parts:
        if any(abs(a - b) > NEAR for a, b in zip(line.size, part.ordered, strict=True)):
            comes = f"it comes to {_told(part.ordered, sayings)}{_how(line.size, part, sayings)}"
            message = f'The bill orders {_told(line.size, sayings)} for "{part.id}"; {comes}.'
            yield _fault("bill-size", line.said.size, message, (part,))


def _how(size: Size, part: Part, sayings: Sayings) -> str:
    """`: 1/2 too short`, each way in which the line is off."""
    words = (("thin", "thick"), ("narrow", "wide"), ("short", "long"))
    off = [
        f"{figure(abs(have - want), sayings.unit)} too {less if have < want else more}"
        for have, want, (less, more) in zip(size, part.ordered, words, strict=True)
        if abs(have - want) > NEAR
    ]
    return f": {', '.join(off)}"


def _left_out(part: Part, first: BillLineSaid, sayings: Sayings) -> Diagnostic:
    pieces = f"{len(part.copies)} {'piece' if len(part.copies) == 1 else 'pieces'}"
    message = f'The bill has no line for "{part.id}": {pieces}, {_told(part.ordered, sayings)}.'
    return _fault("bill-part", first.size, message, (part,))


def _fault(code: str, said: Said, message: str, parts: Sequence[Part]) -> Diagnostic:
    related = tuple(Related(part.origin, f'"{part.id}" is here') for part in parts)
    hint = "A bill is thickness x width x length along the grain, tenons counted. Correct the bill or the part."
    return Diagnostic(code, message, span=said.span, hints=(hint,), related=related)


def _told(size: Size, sayings: Sayings) -> str:
    return " x ".join(figure(each, sayings.unit) for each in size)
