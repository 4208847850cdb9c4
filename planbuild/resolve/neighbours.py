"""Where the copies of another part stand, as seen from the drawn copy of the one that is being shaped."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import product

from planbuild.core.spelling import did_you_mean
from planbuild.records.design import Said
from planbuild.resolve.copies import HandFault, Level, One
from planbuild.resolve.expressions.faults import Poisoned
from planbuild.resolve.sayings import Sayings
from planbuild.resolve.scopes import reached_from
from planbuild.resolve.setting_out import SettingOut, Spans

Chain = tuple[tuple[Level, One], ...]
"""One copy of a part with the copies of the blocks around it, the outermost first."""

MOST_PAIRS = 2500
"""Of copies compared for one notch: fifty bars across fifty others (a choice of ours)."""


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
        """For each copy of `own` the copies of the part that is said.  Reports `ref-unknown`, `ref-no-hand`,
        `shape-notch`; raises Poisoned."""
        places = self.setting_out.places
        path = places.named(said)
        id = places.id_of(path, said) if path else ""
        if path is None or id not in self.setting_out.design.parts or id == own:
            known = [each for each in reached_from(said.scope, self.setting_out.design.parts) if each != own]
            raise sayings.refuse("ref-unknown", said, f'No other part "{said.text}".', hints=did_you_mean(said.text, known))
        try:
            chosen = self.setting_out.copies_named(path, id, said.scope)
        except HandFault as fault:
            raise sayings.refuse("ref-no-hand", said, str(fault), hints=(f"Use {fault.hint}.",)) from None
        mine = self._chains(own)
        if len(mine) * len(chosen) > MOST_PAIRS:
            message = f'{len(mine)} copies of "{own}" would each be looked at beside {len(chosen)} of "{id}".'
            raise sayings.refuse("shape-notch", said, message, f"at most {MOST_PAIRS} pairs")
        return [self._seen_from(each, id, chosen) for each in mine]

    def _seen_from(self, mine: Chain, id: str, chosen: tuple[int, ...]) -> list[Neighbour]:
        chains = self._chains(id)
        return [Neighbour(id, copy, _home(mine, self._standing(id, chains[copy]))) for copy in chosen]

    def _chains(self, id: str) -> list[Chain]:
        """Each copy of a part, with the copies of the blocks that hold it."""
        levels = self.setting_out.levels_of(id)
        return [tuple(zip(levels, ones, strict=True)) for ones in product(*(level.ones for level in levels))]

    def _standing(self, id: str, chain: Chain) -> Spans:
        spans = self.setting_out.spans(id)
        if spans is None:
            raise Poisoned
        for level, one in reversed(chain):
            spans = _shifted(level, one, _mirrored(level, one, spans), 1)
        return spans


def _home(chain: Chain, spans: Spans) -> Spans:
    """The motion of a copy undone."""
    for level, one in chain:
        spans = _mirrored(level, one, _shifted(level, one, spans, -1))
    return spans


def _mirrored(level: Level, one: One, spans: Spans) -> Spans:
    found = dict(spans)
    for axis in one.mirrored:
        whole = 2 * level.middles[axis]
        found[axis] = whole - spans[axis][1], whole - spans[axis][0]
    return found


def _shifted(level: Level, one: One, spans: Spans, way: int) -> Spans:
    axis = level.spread.row_axis
    if axis is None or level.row is None:
        return spans
    by = way * level.row.shifts[one.place]
    return {each: (low + by, high + by) if each is axis else (low, high) for each, (low, high) in spans.items()}
