"""What every page is made from, and the few looks-up that several pages share."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass

from planbuild.publish.words import Words
from planbuild.records.edition import Edition
from planbuild.records.facts import Facts, PartFacts
from planbuild.records.findings import Findings

Content = Mapping[str, object]
"""What a template gets as `page.content`: records, texts and numbers; `plain` turns it into data."""


@dataclass(frozen=True)
class Source:
    facts: Facts
    findings: Findings
    edition: Edition
    words: Words


Filler = Callable[[Source], Content]


def picked(facts: Facts, ids: Iterable[str]) -> list[PartFacts]:
    """The parts of these ids, in the order of the ids."""
    return [facts.part(id) for id in ids]


def made(part: PartFacts) -> str:
    """How many to make and in which hand: `2 as drawn, 2 mirrored`, "" if all are as drawn."""
    return f"{part.count - part.mirrored} as drawn, {part.mirrored} mirrored" if part.mirrored else ""
