"""From the text of a file to its tree of nodes: YAML without its surprises.

Works on the parser's events instead of a ready-made loader, because that would turn `no` into false
and `1:30` into 90, keep the last of two equal keys, and follow aliases.  Bounded in depth and size.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace

import yaml
from yaml.error import Mark

from planbuild.core.diagnostics import Diagnostic, Refused, Related, Span
from planbuild.read.nodes import Block, Broken, Entry, Node, Row, Scalar
from planbuild.read.report import Report
from planbuild.read.yaml_faults import NOT_TEXT, UNSEEN, character_faults, no_space, syntax_fault, unseen_fault

DEEPEST = 16
"""Levels of nesting; the deepest design of the language's own examples has 7."""

MOST_NODES = 20_000
"""Values in one file; a long design has a thousand."""


def read_source(text: str, file: str, report: Report) -> Node | None:
    """The tree of a file's text; None if it is empty, Broken if it is no YAML (then reported).

    Reports: read-character, read-tab, read-yaml, read-yaml-extra, read-double-key, read-empty,
    read-comma-in-braces, read-no-space, read-too-deep, read-too-big.  Raises Refused when bounds are passed.
    """
    faults = character_faults(text, file)
    if faults:
        for fault in faults:
            report.add(fault)
        return Broken(Span(file, 1, 1))
    composer = _Composer(text, file, report)
    try:
        return composer.document()
    except yaml.MarkedYAMLError as fault:
        report.add(syntax_fault(fault, text, file))
    except (ValueError, OverflowError):
        # The parser turns digits of a code point or a version into a number without looking at them first.
        mark = composer.loader.get_mark()
        message = "A number in YAML's own signs (a code point or a version) is out of range."
        report.fault("read-yaml", composer.at(mark.line, mark.column), message)
    return Broken(Span(file, 1, 1))


class _Composer:
    """Turns the events of one document into nodes."""

    def __init__(self, text: str, file: str, report: Report) -> None:
        self.text = text
        self.file = file
        self.report = report
        self.nodes = 0
        self.loader = yaml.SafeLoader(text)
        self.events: Iterator[yaml.Event] = self._events()

    def _events(self) -> Iterator[yaml.Event]:
        event = self.loader.get_event()  # type: ignore[no-untyped-call]
        while event is not None:
            yield event
            event = self.loader.get_event()  # type: ignore[no-untyped-call]

    def document(self) -> Node | None:
        root: Node | None = None
        for event in self.events:
            if isinstance(event, yaml.DocumentStartEvent):
                if root is not None:
                    self.extra(self.span(event), "a second document", "One file holds one design.")
                    return root
                if event.version or event.tags:
                    self.extra(self.span(event), "a YAML directive", "Leave the line out.")
            elif not isinstance(event, yaml.StreamStartEvent | yaml.StreamEndEvent | yaml.DocumentEndEvent):
                root = self.node(event, 0)
        return root

    def node(self, event: yaml.Event, depth: int) -> Node:
        self.bound(event, depth)
        if isinstance(event, yaml.AliasEvent):
            name = event.anchor
            hint = f"Values are shared by name: write `{name}`; for a product `2 * {name}`."
            self.extra(self.span(event), f"`*{name}` is a YAML alias", hint)
            return Broken(self.span(event))
        assert isinstance(event, yaml.NodeEvent)
        self.refuse_decoration(event)
        if isinstance(event, yaml.MappingStartEvent):
            return self.block(event, depth)
        if isinstance(event, yaml.SequenceStartEvent):
            return self.row(event, depth)
        assert isinstance(event, yaml.ScalarEvent)
        return self.word(event)

    def word(self, event: yaml.ScalarEvent) -> Node:
        span = self.span(event)
        odd = NOT_TEXT.search(event.value)
        if odd:
            message = f"The value holds a sign that is not text (U+{ord(odd.group()):04X})."
            self.report.fault("read-character", span, message, expected="plain text")
            return Broken(span)
        unseen = UNSEEN.search(event.value)
        if unseen:  # written as `\u202e` in double quotes
            self.report.add(unseen_fault(unseen.group(), span))
            return Broken(span)
        return Scalar(event.value, self.unquoted(span, event), quoted=event.style is not None)

    def unquoted(self, span: Span, event: yaml.ScalarEvent) -> Span:
        """The place of the text between the quotes, where it stands there letter for letter."""
        start = _start(event).index + 1
        if event.style not in ("'", '"') or self.text[start : start + len(event.value)] != event.value or "\n" in event.value:
            return span
        return replace(span, column=span.column + 1, length=max(1, len(event.value)))

    def bound(self, event: yaml.Event, depth: int) -> None:
        self.nodes += 1
        if depth > DEEPEST:
            self.stop("read-too-deep", event, "The values are nested too deep.", f"at most {DEEPEST} levels")
        if self.nodes > MOST_NODES:
            self.stop("read-too-big", event, "The file holds too many values.", f"at most {MOST_NODES}")

    def stop(self, code: str, event: yaml.Event, message: str, expected: str) -> None:
        raise Refused((*self.report.found, Diagnostic(code, message, span=self.span(event), expected=expected)))

    def refuse_decoration(self, event: yaml.NodeEvent) -> None:
        if event.anchor is not None:
            hint = "Values are shared by name: give it a name under `sizes` or `details`."
            self.extra(self.span(event), f"`&{event.anchor}` is a YAML anchor", hint)
        if getattr(event, "tag", None) is not None:
            tag = self.text[_start(event).index :].split(None, 1)[0]
            hint = "Leave it out: every value is read as text and understood by its field."
            self.extra(self.span(event), f"`{tag}` is a YAML tag", hint)

    def extra(self, span: Span, what: str, hint: str) -> None:
        what = what[0].upper() + what[1:]
        self.report.fault("read-yaml-extra", span, f"{what}.", expected="mappings, lists and plain text only", hints=(hint,))

    # -------------------------------------------------------- lists and mappings

    def row(self, start: yaml.Event, depth: int) -> Row:
        items: list[Node] = []
        for event in self.events:
            if isinstance(event, yaml.SequenceEndEvent):
                break
            item = self.node(event, depth + 1)
            if isinstance(item, Scalar) and not item.text.strip():
                item = self.empty(item.span, "This entry of the list is empty.")
            items.append(item)
        return Row(tuple(items), self.span(start))

    def block(self, start: yaml.MappingStartEvent, depth: int) -> Block:
        entries: dict[str, Entry] = {}
        for event in self.events:
            if isinstance(event, yaml.MappingEndEvent):
                break
            entry = self.entry(event, depth, in_braces=bool(start.flow_style), first=not entries)
            if entry and entry.name in entries:
                self.twice(entry.key, entries[entry.name])
            elif entry:
                entries[entry.name] = entry
        return Block(tuple(entries.values()), self.span(start))

    def entry(self, key_event: yaml.Event, depth: int, in_braces: bool, first: bool) -> Entry | None:
        """A key and its value; None where there is no telling what was meant."""
        key = self.node(key_event, depth + 1)
        value_event = next(self.events)
        value = self.node(value_event, depth + 1)
        if not isinstance(key, Scalar) or key.text == "<<":
            self.odd_key(key)
            return None
        end = _end(key_event)
        if in_braces and ":" not in self.text[end.index : _start(value_event).index]:
            return self.alone_in_braces(key, first)
        if isinstance(value, Scalar) and not value.text.strip():
            place = value.span if value.quoted else self.at(end.line, end.column + 1)
            value = self.empty(place, f'"{key.text}" has no value.')
        return Entry(key, value)

    def odd_key(self, key: Node) -> None:
        if isinstance(key, Scalar):
            self.extra(key.span, "`<<` is a YAML merge key", "Shared fields come by name: `like: name_of_detail`.")
        elif not isinstance(key, Broken):
            message = "A list or mapping stands where a name is wanted."
            self.report.fault("read-yaml-extra", key.span, message, expected="`name: value`")

    def alone_in_braces(self, key: Scalar, first: bool) -> Entry | None:
        """Reports what is wrong with a word that has no colon; the rest of a sentence is no entry at all."""
        stuck = no_space(key)
        if stuck:
            self.report.add(stuck)
            return Entry(Scalar(key.text.split(":")[0], key.span), Broken(key.span))
        if first:
            return Entry(key, self.empty(key.span, f'"{key.text}" has no value.'))
        message = f'"{key.text}" looks like the rest of a sentence: inside {{ }} a comma ends the text.'
        self.report.fault("read-comma-in-braces", key.span, message, hints=("Put the sentence in double quotes.",))
        return None

    def empty(self, span: Span, message: str) -> Broken:
        rest = self.text.split("\n", span.line)[span.line - 1][span.column - 1 :]
        commented = re.match(r"[^'\"]*\s#", " " + rest)
        after_hash = "If a value was meant after `#`, note that ` #` starts a comment."
        hint = after_hash if commented else "Write the value, or leave the line out."
        self.report.fault("read-empty", span, message, hints=(hint,))
        return Broken(span)

    def twice(self, key: Scalar, first: Entry) -> None:
        self.report.fault(
            "read-double-key",
            key.span,
            f'"{key.text}" is written twice.',
            label="again here",
            hints=("Rename one or join them.",),
            related=(Related(first.span, "first written"),),
        )

    # -------------------------------------------------------- places

    def span(self, event: yaml.Event) -> Span:
        """The first line of a word; of a list or mapping only its beginning, as its end runs on to the next token."""
        start, end = _start(event), _end(event)
        if not isinstance(event, yaml.ScalarEvent | yaml.AliasEvent):
            return self.at(start.line, start.column)
        stop = end.index if end.line == start.line else self.text.find("\n", start.index)
        return self.at(start.line, start.column, max(1, stop - start.index))

    def at(self, line: int, column: int, length: int = 1) -> Span:
        return Span(self.file, line + 1, column + 1, length)


def _start(event: yaml.Event) -> Mark:
    assert isinstance(event.start_mark, Mark)
    return event.start_mark


def _end(event: yaml.Event) -> Mark:
    assert isinstance(event.end_mark, Mark)
    return event.end_mark
