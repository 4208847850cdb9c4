"""Where the copies of another part stand, as seen from the drawn copy of the one that is being shaped."""

from __future__ import annotations

from dataclasses import dataclass

from planbuild.core.spelling import did_you_mean
from planbuild.records.design import Said
from planbuild.resolve.copies import HandFault, One, every_copy, selected
from planbuild.resolve.expressions.faults import Poisoned
from planbuild.resolve.ledger import MirrorOf, RowOf
from planbuild.resolve.sayings import Sayings
from planbuild.resolve.setting_out import SettingOut, Spans


@dataclass(frozen=True)
class Neighbour:
    """One copy of another part, brought to where it stands against the drawn copy of this one."""

    part: str
    copy: int
    spans: Spans


@dataclass(frozen=True)
class Neighbours:
    """All parts of the design, exact."""

    setting_out: SettingOut

    def beside(self, said: Said, own: str, sayings: Sayings) -> list[list[Neighbour]]:
        """For each copy of `own` the copies of the part that is said.  Reports `ref-unknown`, `ref-no-hand`; raises Poisoned."""
        *hands, id = said.text.split()
        if id not in self.setting_out.design.parts or id == own:
            known = [each for each in self.setting_out.design.parts if each != own]
            raise sayings.refuse("ref-unknown", said, f'No other part "{said.text}".', hints=did_you_mean(said.text, known))
        spread = self.setting_out.spreads.get(id)
        if spread is None:
            raise Poisoned
        try:
            chosen = selected(spread, self._count(id), tuple(hands))
        except HandFault as fault:
            raise sayings.refuse("ref-no-hand", said, str(fault), hints=(f"Use {fault.hint}.",)) from None
        return [self._seen_from(own, one, id, chosen) for one in self._copies(own)]

    def _seen_from(self, own: str, mine: One, id: str, chosen: tuple[int, ...]) -> list[Neighbour]:
        copies = self._copies(id)
        return [Neighbour(id, copy, self._home(own, mine, self._standing(id, copies[copy]))) for copy in chosen]

    def _copies(self, id: str) -> tuple[One, ...]:
        return every_copy(self.setting_out.spreads[id], self._count(id))

    def _count(self, id: str) -> int:
        row = self.setting_out.ledger.ask(RowOf(id)) if self.setting_out.design.parts[id].repeat else None
        return row.count if row else 1

    def _standing(self, id: str, one: One) -> Spans:
        spans = self.setting_out.spans(id)
        if spans is None:
            raise Poisoned
        return self._shifted(id, one, self._mirrored(id, one, spans), 1)

    def _home(self, own: str, mine: One, spans: Spans) -> Spans:
        """The motion of a copy undone."""
        return self._mirrored(own, mine, self._shifted(own, mine, spans, -1))

    def _mirrored(self, id: str, one: One, spans: Spans) -> Spans:
        found = dict(spans)
        for axis in one.mirrored:
            whole = 2 * self.setting_out.ledger.ask(MirrorOf(id, axis))
            found[axis] = whole - spans[axis][1], whole - spans[axis][0]
        return found

    def _shifted(self, id: str, one: One, spans: Spans, way: int) -> Spans:
        axis = self.setting_out.spreads[id].row_axis
        if axis is None:
            return spans
        by = way * self.setting_out.ledger.ask(RowOf(id)).shifts[one.place]
        return {each: (low + by, high + by) if each is axis else (low, high) for each, (low, high) in spans.items()}
