"""Sentences of the plan as HTML: references become links, everything else is escaped.

Sentences come from the design and from derive; none of them may bring HTML of its own.  Free notes are
Markdown without HTML, pictures or headings.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import cached_property
from html import escape

from markdown_it import MarkdownIt

from planbuild.core.diagnostics import Collector, Diagnostic
from planbuild.publish.figures import figures_set
from planbuild.records.facts import Facts

_REFERENCE = re.compile(r"\[\[(\w+):([^\[\]]+)\]\]")
_MARKS = ("emphasis", "list", "link", "newline", "escape", "backticks")
"""What a free note may use, beside paragraphs."""


@dataclass(frozen=True)
class Html:
    """Text that is already safe HTML, so that no template escapes it again."""

    html: str


class Words:
    """Sets sentences of one plan.  Unknown references are gathered in `faults` (`words-reference`)."""

    def __init__(self, facts: Facts) -> None:
        self._facts = facts
        self.faults = Collector()
        self._parts = {part.id: part for part in facts.parts}
        self._steps = {step.id: step.number for step in facts.steps}
        self._joints = {joint.id: joint.name for joint in facts.joints}

    def sentence(self, text: str) -> str | Html:
        """The sentence with its figures set, as plain text if it holds no reference."""
        text = figures_set(text)
        return Html(self._linked(escape(text, quote=False))) if "[[" in text else text

    def note(self, text: str) -> Html:
        """A free note in Markdown, as paragraphs and lists."""
        return Html(self._linked(self._markdown.render(figures_set(text))))

    @cached_property
    def _markdown(self) -> MarkdownIt:
        return MarkdownIt("zero", {"html": False, "linkify": False}).enable(list(_MARKS))

    def _linked(self, html: str) -> str:
        return _REFERENCE.sub(self._reference, html)

    def _reference(self, found: re.Match[str]) -> str:
        kind, target = found.groups()
        make = self._kinds.get(kind)
        known = self._known.get(kind, {})
        if make is None or target not in known:
            self.faults.add(Diagnostic("words-reference", f"A sentence refers to {found.group(0)}, which is not in the plan."))
            return escape(target)
        return make(target)

    @cached_property
    def _known(self) -> Mapping[str, Mapping[str, object]]:
        return {"part": self._parts, "mark": self._parts, "sheet": self._parts, "step": self._steps, "joint": self._joints}

    @cached_property
    def _kinds(self) -> Mapping[str, Callable[[str], str]]:
        return {"part": self._part, "mark": self._mark, "sheet": self._sheet, "step": self._step, "joint": self._joint}

    def _part(self, id: str) -> str:
        return f"{escape(self._parts[id].name)} {self._mark(id)}"

    def _mark(self, id: str) -> str:
        return f'<a class="mark" href="#sheet.{escape(id)}">{escape(self._parts[id].mark)}</a>'

    def _sheet(self, id: str) -> str:
        return f'<a class="at" href="#sheet.{escape(id)}">page</a>'

    def _step(self, id: str) -> str:
        return f'<a class="paged" href="#step.{escape(id)}">step {self._steps[id]}</a>'

    def _joint(self, id: str) -> str:
        return f'<a class="paged" href="#joint.{escape(id)}">{escape(self._joints[id])}</a>'
