"""From nodes to the records of a design: each value in the form its field asks for, or a finding with its place.

The models say what is allowed; this file only walks them.  Nothing is evaluated.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from functools import partial
from types import MappingProxyType
from typing import Any

from pydantic import ValidationError

from planbuild.core.diagnostics import Diagnostic, Refused, Span
from planbuild.core.spelling import nearest
from planbuild.read.forms import in_words, later_fields, later_forms, mapped_in, model_in, row_in, takes_word, written_fields
from planbuild.read.nodes import Block, Broken, Entry, Node, Row, Scalar
from planbuild.read.report import Report, listed
from planbuild.read.vocabulary import MEANT, YES_NO
from planbuild.read.yaml_faults import no_space
from planbuild.records.design import Model, Said

MOST_VALUES = 60_000
"""Values of a design with its details filled in; beyond it a few details are used without end."""


class Absent:
    """A value that could not be had; its fault has been told."""


ABSENT = Absent()


@dataclass(frozen=True)
class Where:
    """Whose value is looked at: the place of its key and its name in words (`part "leg"`)."""

    origin: Span
    name: str

    def field(self, key: Scalar) -> Where:
        return Where(key.span, f"`{key.text}` of {self.name}")


Special = Callable[[Node, Where], Any]


@dataclass
class Binder:
    """Binds nodes to forms.  `special` holds models that are written in more ways than their fields tell."""

    report: Report
    file: str
    """The design's own file: what comes from another one was written for several pieces."""
    special: dict[type[Model], Special] = field(default_factory=dict)
    nouns: dict[type[Model], str] = field(default_factory=dict)
    apart: dict[str, Diagnostic] = field(default_factory=dict)
    """Things of the series that this version cannot build, with the reason: an error only where they are used."""
    scope: str = ""
    """Path of the block whose text is bound, "" for the design itself."""
    stands_for: Mapping[str, str] = field(default_factory=dict)
    """What the names of a block's stock and items are in the design."""
    values: int = 0

    def value(self, node: Node, form: Any, where: Where) -> Any:
        """The node as `form` wants it, or ABSENT after reporting why not."""
        self._count(node)
        if isinstance(node, Broken):
            return ABSENT
        model = model_in(form)
        if model in self.special and not (isinstance(node, Scalar) and takes_word(form)):
            return self.special[model](node, where)
        if isinstance(node, Scalar):
            return self._word(node, form, where)
        if isinstance(node, Row):
            return self._row(node, form, where)
        return self._block(node, form, where)

    def wrong(self, node: Node, expected: str, where: Where) -> Absent:
        found = {Scalar: "a single value", Row: "a list", Block: "a mapping", Broken: "nothing"}[type(node)]
        stuck = no_space(node) if isinstance(node, Scalar) else None
        if stuck:
            self.report.add(stuck)
        else:
            self.report.wrong_type(node.span, f"{_upper(where.name)} cannot be {found}.", expected)
        return ABSENT

    def said(self, word: Scalar, why: str = "", help: str = "") -> Said:
        return Said(self.stands_for.get(word.text, word.text), word.span, why, help, self.scope)

    # -------------------------------------------------------- the three kinds of node

    def _word(self, word: Scalar, form: Any, where: Where) -> Any:
        if takes_word(form):
            return self.said(word)
        row = row_in(form)
        if row and row[-1] is ...:
            item = self.value(word, row[0], where)
            return item if item is ABSENT else (item,)
        return self.wrong(word, in_words(form), where)

    def _row(self, row: Row, form: Any, where: Where) -> Any:
        forms = row_in(form)
        if not forms:
            return self.wrong(row, in_words(form), where)
        if forms[-1] is not ... and len(forms) != len(row.items):
            message = f"{_upper(where.name)} has {len(row.items)} values."
            self.report.wrong_type(row.span, message, in_words(form))
            return ABSENT
        each = (forms[0],) * len(row.items) if forms[-1] is ... else forms
        items = [self.value(item, wanted, Where(item.span, where.name)) for item, wanted in zip(row.items, each, strict=True)]
        return ABSENT if ABSENT in items else tuple(items)

    def _block(self, block: Block, form: Any, where: Where) -> Any:
        model, mapped, row = model_in(form), mapped_in(form), row_in(form)
        if model:
            return self.model(block, model, where)
        if mapped:
            return self.mapping(block, mapped, where)
        if block.get("value") and takes_word(form):
            return self._long(block, where)
        if row and row[-1] is ...:
            item = self.value(block, row[0], where)
            return item if item is ABSENT else (item,)
        return self.wrong(block, in_words(form), where)

    def _long(self, block: Block, where: Where) -> Any:
        """`{value: 3/8, why: "..."}`."""
        words: dict[str, str] = {}
        for entry in block.entries:
            if entry.name not in ("value", "why", "help"):
                self._unknown(entry, ("value", "why", "help"), (), where)
            elif isinstance(entry.value, Scalar):
                words[entry.name] = entry.value.text
            elif not isinstance(entry.value, Broken):
                self.wrong(entry.value, "one value", where.field(entry.key))
        value = block.get("value")
        if value is None or not isinstance(value.value, Scalar):
            return ABSENT
        return self.said(value.value, words.get("why", ""), words.get("help", ""))

    # -------------------------------------------------------- named entries and fields

    def mapping(self, block: Block, form: Any, where: Where) -> Any:
        """Every entry bound to `form`, by name."""
        noun = self.nouns.get(model_in(form) or Model, "")
        bound: dict[str, Any] = {}
        for entry in block.entries:
            named = Where(entry.span, f'{noun} "{entry.name}"') if noun else where.field(entry.key)
            bind = partial(self.value, entry.value, form, named)
            bound[entry.name] = self.aside(entry, bind) if noun else bind()
        kept = {name: value for name, value in bound.items() if name not in self.apart}
        return ABSENT if ABSENT in kept.values() else kept

    def aside(self, entry: Entry, bind: Callable[[], Any]) -> Any:
        """Binds an entry; of the series' own, what this version cannot build is kept apart: it may be another piece's."""
        if entry.span.file == self.file:
            return bind()
        ours, self.report = self.report, Report()
        try:
            value = bind()
        finally:
            found, self.report = self.report.found, ours
        if found and all(each.code == NOT_BUILT for each in found):
            self.apart[entry.name] = found[0]
        else:
            for each in found:
                self.report.add(each)
        return value

    def model(
        self,
        block: Block,
        model: type[Model],
        where: Where,
        *,
        required: bool = True,
        later: Iterable[str] = (),
        preset: Mapping[str, Any] = MappingProxyType({}),
        also: tuple[str, ...] = (),
    ) -> Any:
        """A record of the block's fields.

        Without `required`, fields may be missing and there is no record; `later` are more words that are not
        built yet; `preset` are fields that the file does not say, `also` keys that others have dealt with.
        """
        fields = written_fields(model)
        known, early, unknown = _sorted(block, model, later)
        values: dict[str, Any] = dict(preset)
        for entry in known:
            name, info = fields[entry.name]
            self._yes_or_no(entry)
            values[name] = self.value(entry.value, info.annotation, where.field(entry.key))
        missing = [key for key, (name, info) in fields.items() if required and info.is_required() and name not in values]
        if early:
            self.not_built(early[0].key, " and ".join(f"`{each.name}`" for each in early) + f" of {where.name}")
        lost = self._refuse_unknown(unknown, tuple(dict.fromkeys((*fields, *also))), missing, where)
        untold = [key for key in missing if key not in lost]
        if untold and not early:
            self._missing(untold, model, where)
        if not required or missing or unknown or early or ABSENT in values.values():
            return ABSENT
        return self.make(model, values, where)

    def make(self, model: type[Model], values: dict[str, Any], where: Where) -> Any:
        try:
            return model(origin=where.origin, **values)
        except ValidationError as fault:
            for each in fault.errors():
                self.report.fault("read-wrong-value", where.origin, f"{_upper(where.name)}: {each['msg']}.")
            return ABSENT

    # -------------------------------------------------------- findings

    def not_built(self, word: Scalar, what: str) -> None:
        self.report.fault(
            NOT_BUILT,
            word.span,
            f"{_upper(what)} is said in the design language, but this version does not build it yet.",
            label="not built yet",
            hints=("Leave it out for now.",),
        )

    def _refuse_unknown(self, unknown: list[Entry], known: tuple[str, ...], missing: list[str], where: Where) -> set[str]:
        """Reports unknown keys; gives back the required ones that they stand for, so that one slip is one finding."""
        if len(unknown) == len(missing) == 1:
            self._unknown(unknown[0], known, tuple(missing), where)
            return set(missing)
        lost: set[str] = set()
        for entry in unknown:
            lost.add(self._unknown(entry, known, tuple(key for key in missing if key not in lost), where))
        return lost

    def _unknown(self, entry: Entry, known: tuple[str, ...], missing: tuple[str, ...], where: Where) -> str:
        stuck = no_space(entry.key)
        if stuck:
            self.report.add(stuck)
            return ""
        meant = nearest(entry.name, missing) or nearest(entry.name, known) or ""
        self.report.fault(
            "read-unknown-key",
            entry.span,
            f'Unknown key "{entry.name}" in {where.name}.',
            label="not known here",
            expected=listed(known),
            hints=_ways_out(meant, missing),
        )
        return meant

    def _missing(self, keys: list[str], model: type[Model], where: Where) -> None:
        wanted = " and ".join(f"`{key}`" for key in keys)
        message = f"{_upper(where.name)} does not say {wanted}."
        self.report.fault("read-missing-key", where.origin, message, expected=listed(written_fields(model)))

    def _yes_or_no(self, entry: Entry) -> None:
        word = entry.value
        if entry.name in YES_NO and isinstance(word, Scalar) and not word.quoted and word.text.lower() in MEANT:
            meant = MEANT[word.text.lower()]
            self.report.fault("read-yes-no", word.span, f'"{word.text}" where yes or no is wanted.', hints=(f"Write `{meant}`.",))

    def _count(self, node: Node) -> None:
        self.values += 1
        if self.values > MOST_VALUES:
            message = "The design grows too big when its details are filled in."
            expected = f"at most {MOST_VALUES} values"
            raise Refused((*self.report.found, Diagnostic("read-too-big", message, span=node.span, expected=expected)))


NOT_BUILT = "not-built-yet"


def _sorted(block: Block, model: type[Model], later: Iterable[str]) -> tuple[list[Entry], list[Entry], list[Entry]]:
    """The block's entries that can be built, those that cannot yet, and those that nobody knows."""
    fields, unbuilt = written_fields(model), later_fields(model) | frozenset(later)
    known: list[Entry] = []
    early: list[Entry] = []
    unknown: list[Entry] = []
    for entry in block.entries:
        if entry.name in fields:
            (early if _later_form(entry, model) else known).append(entry)
        else:
            (early if entry.name in unbuilt else unknown).append(entry)
    return known, early, unknown


def _ways_out(meant: str, missing: tuple[str, ...]) -> tuple[str, ...]:
    if meant in missing:
        return (f'Did you mean "{meant}"? It is required and missing here.',)
    hints = (f'Did you mean "{meant}"?',) if meant else ()
    return (*hints, f"`{missing[0]}` is required and missing here.") if len(missing) == 1 else hints


def _later_form(entry: Entry, model: type[Model]) -> bool:
    """True if the field is written in a form of the language that is not built yet; the long form is."""
    long = isinstance(entry.value, Block) and entry.value.get("value") is not None
    return isinstance(entry.value, later_forms(model).get(entry.name, ())) and not long


def _upper(text: str) -> str:
    return text[:1].upper() + text[1:]
