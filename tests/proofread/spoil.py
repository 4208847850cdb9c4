"""Ways to spoil the facts of a plan, so that proofreading has something to find."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from planbuild.records.facts import Dimension, Facts, PartFacts


def changed(facts: Facts, id: str, change: Callable[[PartFacts], PartFacts]) -> Facts:
    """The facts with one part changed."""
    return replace(facts, parts=tuple(change(part) if part.id == id else part for part in facts.parts))


def without(facts: Facts, lost: Dimension) -> Facts:
    return changed(facts, lost.part, lambda part: replace(part, dimensions=tuple(d for d in part.dimensions if d is not lost)))


def with_more(facts: Facts, more: Dimension) -> Facts:
    return changed(facts, more.part, lambda part: replace(part, dimensions=(*part.dimensions, more)))


def swapped(facts: Facts, old: Dimension, new: Dimension) -> Facts:
    return changed(facts, old.part, lambda part: replace(part, dimensions=tuple(new if d is old else d for d in part.dimensions)))


def dimension(facts: Facts, part: str, feature: str, states: str) -> Dimension:
    return next(d for d in facts.part(part).dimensions if (d.feature, d.states) == (feature, states))
