"""Evenly spaced copies: how wide their gaps are, and whether a ruler can find them."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from planbuild.core.diagnostics import Diagnostic, Severity
from planbuild.records.design import RepeatSaid
from planbuild.resolve.between import Ends, ends_between
from planbuild.resolve.expressions.tokens import in_figures
from planbuild.resolve.ledger import Row
from planbuild.resolve.places import Places
from planbuild.resolve.sayings import figure

ENDS = ("gap", "flush", "half")


def spaced(id: str, said: RepeatSaid, size: Fraction, places: Places) -> Row:
    """The row of a repeated part of `size`.  Lengths in mm.  Reports `place-row`; raises Poisoned."""
    ends = places.choice(said.ends, ENDS, "way to end a row") if said.ends else "gap"
    axis = places.axis(said.along)
    count = places.count(said.count, least=2)
    space = ends_between(said.between, axis, places)
    gaps = gaps_of(count, ends)
    gap = (space.high - space.low - count * size) / gaps
    if gap <= 0:
        room = space.high - space.low
        message = f'{count} of "{id}", each {figure(size, places.unit)}, do not fit in {figure(room, places.unit)}.'
        fit = int(room / size)
        raise places.refuse("place-row", said.count, message, hints=(f"Not more than {fit} would fit without a gap.",))
    return Row(count, _start(space, gap, ends), size + gap, gap)


def gaps_of(count: int, ends: str) -> int:
    """How many gaps a row has; a half gap at each end counts as one together."""
    return {"gap": count + 1, "flush": count - 1, "half": count}[ends]


def _start(space: Ends, gap: Fraction, ends: str) -> Fraction:
    return space.low + {"gap": gap, "flush": Fraction(0), "half": gap / 2}[ends]


def off_step(id: str, said: RepeatSaid, row: Row, step: Fraction, places: Places) -> Diagnostic | None:
    """A note if the gaps do not lie on the printed step (mm), with the nearest size of the part that comes out even."""
    if (row.gap / step).denominator == 1:
        return None
    gap, fine = (in_figures(each / places.unit) for each in (row.gap, step))
    message = f'The gaps between the copies of "{id}" come to {gap}, which is not on the step of {fine}.'
    even = next(_even(row, said, step), None)
    hint = f'With "{id}" {figure(even[0], places.unit)} the gaps come out at {figure(even[1], places.unit)}.' if even else ""
    return Diagnostic("place-off-step", message, Severity.NOTE, said.count.span, hints=(hint,) if hint else ())


def _even(row: Row, said: RepeatSaid, step: Fraction) -> Iterator[tuple[Fraction, Fraction]]:
    """Sizes on the step, nearest first, whose gaps lie on the step too."""
    size = row.pitch - row.gap
    gaps = gaps_of(row.count, said.ends.text if said.ends else "gap")
    space = row.count * size + gaps * row.gap
    near = round(size / step)
    for away in range(1, 33):
        for steps in (near - away, near + away):
            gap = (space - row.count * steps * step) / gaps
            if steps > 0 and gap > 0 and (gap / step).denominator == 1:
                yield steps * step, gap


