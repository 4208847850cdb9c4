"""What a field says where parts are placed: sayings that also know the parts and where their copies stand."""

from __future__ import annotations

from fractions import Fraction

from planbuild.core.diagnostics import Collector
from planbuild.core.geometry import Axis, Face
from planbuild.records.design import Said
from planbuild.resolve.copies import Spread
from planbuild.resolve.expressions.faults import Misread, Poisoned
from planbuild.resolve.expressions.grammar import Reference, Step, parse
from planbuild.resolve.expressions.values import Place
from planbuild.resolve.references import Placing
from planbuild.resolve.sayings import Sayings


class Places(Sayings):
    def __init__(self, placing: Placing, report: Collector) -> None:
        super().__init__(placing, report)
        self.placing = placing

    def part_named(self, said: Said) -> Step | None:
        """The part that a text names, face or measure left out; None if it is anything else."""
        try:
            node = parse(said.text)
        except Misread:
            return None
        if not isinstance(node, Reference) or len(node.steps) != 1 or node.last or node.level is not None:
            return None
        return node.steps[0] if self.placing.is_part(node.steps[0].name) else None

    def spread_of(self, part: str) -> Spread:
        """How a part is copied.  Raises Poisoned."""
        found = self.placing.spreads.get(part)
        if found is None:
            raise Poisoned
        return found

    def standing(self, step: Step, face: Face, said: Said) -> Fraction:
        """Where a face of the copy that `said` names stands, mm."""
        try:
            return self.placing.standing(step, face, self.at(said, said.text.strip()))
        except Misread as misread:
            self.report.add(misread.told(said))
            raise Poisoned from None

    def centre_line(self, said: Said, axis: Axis) -> Fraction:
        """A part named alone stands for its own middle, a place for itself, mm.  Reports `place-centred`."""
        step = self.part_named(said)
        if step is not None:
            return (self.standing(step, axis.low, said) + self.standing(step, axis.high, said)) / 2
        found = self.place(said, axis)
        if isinstance(found, Place):
            return found.mm
        message = f"`{said.text}` is a length; a middle lies at a place."
        raise self.refuse("place-centred", said, message, hints=(f"Write `{said.text} inside {axis.low.value}`.",))
