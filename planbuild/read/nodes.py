"""A file as a tree of text: words, rows and blocks, each with its place.  Nothing is interpreted yet."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

from planbuild.core.diagnostics import Span


@dataclass(frozen=True)
class Scalar:
    """A piece of text; `quoted` if the author put it in quotes or set it as a block of text."""

    text: str
    span: Span
    quoted: bool = False


@dataclass(frozen=True)
class Row:
    """A list."""

    items: tuple[Node, ...]
    span: Span


@dataclass(frozen=True)
class Entry:
    """A key and its value."""

    key: Scalar
    value: Node

    @property
    def name(self) -> str:
        return self.key.text

    @property
    def span(self) -> Span:
        return self.key.span


@dataclass(frozen=True)
class Block:
    """A mapping; no key comes twice."""

    entries: tuple[Entry, ...]
    span: Span

    def get(self, name: str) -> Entry | None:
        return self._by_name.get(name)

    @cached_property
    def _by_name(self) -> dict[str, Entry]:
        return {each.name: each for each in self.entries}

    def section(self, name: str) -> tuple[Entry, ...]:
        """The entries of a mapping of this block; none if it has no such mapping."""
        found = self.get(name)
        return found.value.entries if found and isinstance(found.value, Block) else ()

    def without(self, *names: str) -> Block:
        return Block(tuple(each for each in self.entries if each.name not in names), self.span)


@dataclass(frozen=True)
class Broken:
    """A value whose fault has been told already; whoever meets it stays silent."""

    span: Span


Node = Scalar | Row | Block | Broken


def overlay(under: Block, over: Block) -> Block:
    """The fields of both; where both say one, `over` wins, whole."""
    return Block((*(each for each in under.entries if not over.get(each.name)), *over.entries), over.span)
