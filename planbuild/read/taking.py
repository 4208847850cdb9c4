"""What a block takes from outside, and what its user gives it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from planbuild.core.diagnostics import Related
from planbuild.core.spelling import did_you_mean
from planbuild.read.details import Details
from planbuild.read.nodes import Block, Broken, Entry
from planbuild.read.report import Report, listed
from planbuild.read.schema import Binder, Where
from planbuild.read.sections import Sections
from planbuild.records.blocks import TakenChoice, TakenThing
from planbuild.records.design import Said, SizeSaid
from planbuild.records.spaces import BlockSaid

SORTS = ("stock", "item")


@dataclass
class Taking:
    """`stock` and `items` are names of the block -> names of the design; the rest as in `PlacedBlock`."""

    stock: dict[str, str] = field(default_factory=dict)
    items: dict[str, str] = field(default_factory=dict)
    sizes: dict[str, SizeSaid] = field(default_factory=dict)
    choices: dict[str, Said] = field(default_factory=dict)
    things: dict[str, bool] = field(default_factory=dict)

    @property
    def stands_for(self) -> dict[str, str]:
        """What the names of stock, items and choices are put in for."""
        return {**self.stock, **self.items, **{name: said.text for name, said in self.choices.items()}}


@dataclass(frozen=True)
class Given:
    """What the user of a block says; by sort, what names mean there; the items that are not given there either."""

    said: BlockSaid
    known: Mapping[str, Mapping[str, str]]
    absent: frozenset[str]

    def get(self, name: str) -> Said | None:
        found = self.said.given.get(name)
        return None if found and found.text in self.absent else found


def takings(entry: Entry | None, given: Given, use: Entry, report: Report, path: str) -> Taking:
    """What a block takes, filled with what is given.

    Reports: block-takes, block-not-taken, block-choice, block-form, stock-missing, item-missing.
    """
    taker = _Taker(given, use, report, path)
    if entry and isinstance(entry.value, Block):
        for each in entry.value.entries:
            taker.take(each)
    elif entry and not isinstance(entry.value, Broken):
        report.wrong_type(entry.value.span, "`takes` cannot be this.", "named entries: `board: {is: stock}`, `gap: 1/16`")
    taker.refuse_others(entry)
    return taker.taken


class _Taker:
    def __init__(self, given: Given, use: Entry, report: Report, path: str) -> None:
        self.given, self.use, self.report = given, use, report
        self.taken = Taking()
        self.binder = Binder(report, use.span.file, scope=path)
        self.sections = Sections(self.binder, Details((), report), {}, None)

    def take(self, entry: Entry) -> None:
        where, node = Where(entry.span, f'"{entry.name}" of `takes`'), entry.value
        if isinstance(node, Block) and node.get("is"):
            thing = self.binder.model(node, TakenThing, where)
            if isinstance(thing, TakenThing):
                self._thing(entry, thing)
        elif isinstance(node, Block) and node.get("choices"):
            choice = self.binder.model(node, TakenChoice, where)
            if isinstance(choice, TakenChoice):
                self._choice(entry, choice)
        else:
            size = self.sections.size(node, where)
            if isinstance(size, SizeSaid):
                given = self.given.get(entry.name)
                self.taken.sizes[entry.name] = size.model_copy(update={"value": given}) if given else size

    def _thing(self, entry: Entry, thing: TakenThing) -> None:
        sort = thing.sort.text
        if sort not in SORTS:
            message = f'A block takes no "{sort}".'
            self.report.fault("block-form", thing.sort.span, message, expected="`stock` or `item`; a size says its value")
            return
        optional = thing.optional is not None and thing.optional.text == "yes"
        given = self.given.get(entry.name)
        if given is None and not optional:
            self._lacks(entry)
        name = given.text if given else ""
        if given and name not in self.given.known[sort].values():
            known = self.given.known[sort]
            message, hints = f'No {sort} "{name}" to give to the block.', did_you_mean(name, known)
            code = "stock-missing" if sort == "stock" else "item-missing"
            self.report.fault(code, given.span, message, expected=listed(known), hints=hints)
        names = self.taken.stock if sort == "stock" else self.taken.items
        if given:
            names[entry.name] = name
        elif not optional:
            names[entry.name] = entry.name  # told above; what rests on it stays silent
        if sort == "item":
            self.taken.things[entry.name] = given is not None

    def _choice(self, entry: Entry, choice: TakenChoice) -> None:
        given, words = self.given.get(entry.name) or choice.value, [each.text for each in choice.choices]
        if given is None:
            self._lacks(entry)
        elif given.text not in words:
            message, hints = f'"{given.text}" is no choice of "{entry.name}".', did_you_mean(given.text, words)
            self.report.fault("block-choice", given.span, message, expected=f"one of: {', '.join(words)}", hints=hints)
        else:
            self.taken.choices[entry.name] = given

    def _lacks(self, entry: Entry) -> None:
        message = f'Block "{self.use.name}" wants `{entry.name}`.'
        related = (Related(entry.span, "it is taken here"),)
        hints = (f"Add `{entry.name}: ...` under `with`.",)
        self.report.fault("block-takes", self.use.span, message, hints=hints, related=related)

    def refuse_others(self, entry: Entry | None) -> None:
        """Whatever is given and not taken."""
        known = [each.name for each in entry.value.entries] if entry and isinstance(entry.value, Block) else []
        for name, given in self.given.said.given.items():
            if name not in known:
                message, expected = f'Block "{self.use.name}" takes no "{name}".', listed(known) or "nothing: it takes nothing"
                self.report.fault("block-not-taken", given.span, message, expected=expected, hints=did_you_mean(name, known))
