"""How long a text and how many of a thing a design may hold, so that a check always comes to an end; and its letters.

The bounds are a choice of ours: each is several times what a large piece needs, and was measured to keep a check
within minutes.  Copies of parts multiply and are bounded where they are counted, in `resolve`.
"""

from __future__ import annotations

from dataclasses import replace

from planbuild.core.diagnostics import Span
from planbuild.core.lettering import composed, without_letter
from planbuild.read.nodes import Block, Broken, Entry, Node, Row, Scalar
from planbuild.read.report import Report

LINE = 80
SENTENCE = 500
LONGEST = {
    **dict.fromkeys(("title", "series", "designer"), LINE),
    **dict.fromkeys(("name", "kind", "block", "species", "sheet", "product", "paper", "theme"), 40),
    "sheen": 20,
    **dict.fromkeys(("summary", "contact", "licence", "sources", "help", "change", "hazard", "harm", "avoid", "where"), 300),
    **dict.fromkeys(("note", "why", "check"), SENTENCE),
    "notes": 8000,
}
"""Letters of a text by the field that holds it: what stands in one line of a page or a table, sentences, free notes."""

LONGEST_WORD = 30
"""Letters of one word in a text; a longer one cannot be broken at the end of a line."""

USUAL = {"items": 60, "species": 120, "words": 300}
"""Letters of any other text of a section that holds texts instead of lengths."""

LONGEST_VALUE = 400
"""Letters of everything else: sums are refused a little earlier, with words of their own."""

LONGEST_KEY = 60

MOST_ENTRIES = {
    **dict.fromkeys(("parts", "joints", "items", "hardware", "loads", "practice", "departs"), 100),
    **dict.fromkeys(("steps", "words", "details"), 200),
    "sizes": 300,
    "stock": 100,
    **dict.fromkeys(("openings", "blocks", "takes", "species"), 40),
    **dict.fromkeys(("assemblies", "matching", "finishes", "revisions", "editions"), 40),
}
"""Entries of a section, in one file and in design and series together."""

MOST_FIELDS = 60
"""Entries of any other mapping; the thing with most fields, a part, has half as many."""

MOST_ITEMS = {
    "shape": 30, "cautions": 20, "bill": 100, "through": 24, "points": 40, "profile": 40,
    "lengths": 12, "edging": 8, "edges": 12,
}
"""Items of a list by its field."""

MOST_IN_A_LIST = 100

MOST_RANGES = 40
"""Sizes with a range: the piece is laid out anew at both ends of each."""


SCRIPTS = "Latin, Greek or Cyrillic letters"
"""What the packaged typeface holds."""


def within_bounds(design: Block, report: Report) -> Block:
    """A design, its series, or both joined, with each text in one line (free notes keep theirs).

    Reports `read-too-long`, `read-too-many`, `read-letter`.
    """
    walker = _Walker(report)
    entries = tuple(walker.section(each) for each in design.entries)
    walker.ranges(design)
    return Block(entries, design.span)


class _Walker:
    def __init__(self, report: Report) -> None:
        self.report = report
        self.usual = LONGEST_VALUE

    def section(self, entry: Entry) -> Entry:
        self.usual = USUAL.get(entry.name, LONGEST_VALUE)
        if isinstance(entry.value, Block) and entry.name in MOST_ENTRIES:
            self._most(entry.key, len(entry.value.entries), MOST_ENTRIES[entry.name], f"`{entry.name}`")
            return Entry(entry.key, Block(tuple(self._entry(each) for each in entry.value.entries), entry.value.span))
        return self._entry(entry)

    def ranges(self, design: Block) -> None:
        ranged = [each for each in design.section("sizes") if isinstance(each.value, Block) and _has_range(each.value)]
        if len(ranged) > MOST_RANGES:
            hint = "Give a range to the sizes that a reader may well change; leave it out elsewhere."
            message, last = f"{len(ranged)} sizes have a range, and each is tried at both its ends.", ranged[MOST_RANGES]
            self.report.fault("read-too-many", last.span, message, expected=f"at most {MOST_RANGES}", hints=(hint,))

    def _entry(self, entry: Entry, field: str = "") -> Entry:
        """`field` is the field whose long form (`{value: ..., why: ...}`) this is a part of."""
        if len(entry.name) > LONGEST_KEY:
            self._long(entry.key, f"A name of {len(entry.name)} letters", LONGEST_KEY)
            return Entry(entry.key, Broken(entry.span))
        self._printable(entry.span, entry.name)
        return Entry(entry.key, self._node(entry.value, field or entry.name))

    def _printable(self, span: Span, text: str) -> None:
        sign = without_letter(text)
        if sign:
            message = f"The typeface of the plans has no letter {sign} (U+{ord(sign):04X})."
            self.report.fault("read-letter", span, message, expected=SCRIPTS, hints=("Write it in other letters.",))

    def _node(self, node: Node, field: str) -> Node:
        if isinstance(node, Scalar):
            return self._text(node, field)
        if isinstance(node, Row):
            most = MOST_ITEMS.get(field, MOST_IN_A_LIST)
            return node if self._most(node, len(node.items), most, f"`{field}`") else self._row(node, field)
        if isinstance(node, Block):
            self._most(node, len(node.entries), MOST_FIELDS, f"`{field}`")
            return Block(tuple(self._entry(each, field if each.name == "value" else "") for each in node.entries), node.span)
        return node

    def _row(self, row: Row, field: str) -> Row:
        return Row(tuple(self._node(each, field) for each in row.items), row.span)

    def _text(self, word: Scalar, field: str) -> Node:
        text = composed(word.text if field == "notes" else _in_one_line(word.text))
        self._printable(word.span, text)
        most = LONGEST.get(field, self.usual)
        if len(text) > most:
            return self._long(word, f"`{field}` is {len(text)} letters long", most)
        unbroken = max(text.split(), key=len, default="")
        if most != LONGEST_VALUE and len(unbroken) > LONGEST_WORD and "://" not in unbroken:
            return self._long(word, f"`{field}` holds a word of {len(unbroken)} letters", LONGEST_WORD)
        return replace(word, text=text)

    def _long(self, word: Scalar, what: str, most: int) -> Broken:
        hint = "Say more in `notes`, which are printed with the record." if most <= SENTENCE else "Shorten it."
        self.report.fault("read-too-long", word.span, f"{what}.", expected=f"at most {most}", hints=(hint,))
        return Broken(word.span)

    def _most(self, node: Node, count: int, most: int, what: str) -> bool:
        """True after reporting that there are more than `most`."""
        if count > most:
            self.report.fault("read-too-many", node.span, f"{what} has {count} entries.", expected=f"at most {most}")
        return count > most


def _in_one_line(text: str) -> str:
    """A text written over several lines reads on; a value of one line stays as it is, letter for letter."""
    return " ".join(text.split()) if "\n" in text or "\t" in text else text


def _has_range(size: Block) -> bool:
    return size.get("from") is not None or size.get("to") is not None


