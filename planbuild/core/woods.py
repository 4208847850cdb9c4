"""Kinds of wood and what is known of each: the table `species`, or what a designer said of a wood of their own.

Each number has its source; what was written from memory says so.  Units: MPa, N, % of the green size, and change of size
per mm and per point of moisture.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cache

from planbuild.core.tables import Row, row, rows

VALUES = tuple(each["name"] for each in rows("wood_values"))
"""Names of the numbers of a wood, as in the table."""

FROM_MEMORY = "from memory"


@dataclass(frozen=True)
class Wood:
    """A kind of wood; a number that nobody published (or said) is None.  `sources` has (name of the number, source)."""

    name: str
    also: tuple[str, ...]
    group: str
    specific_gravity: float | None
    moe_mpa: float | None
    mor_mpa: float | None
    hardness_n: float | None
    shrink_radial_pct: float | None
    shrink_tangential_pct: float | None
    c_radial: float | None
    c_tangential: float | None
    sources: tuple[tuple[str, str], ...]
    source: str
    """Of the whole row, for the record of a plan."""

    @property
    def names(self) -> tuple[str, ...]:
        return (self.name, *self.also)

    def value(self, name: str) -> float | None:
        """The number of that name, one of `VALUES`."""
        found = getattr(self, name)
        return None if found is None else float(found)

    def source_of(self, name: str) -> str:
        return dict(self.sources).get(name, "")


@cache
def woods() -> tuple[Wood, ...]:
    """All woods of the table, in its order."""
    return tuple(_wood(each) for each in rows("species"))


def wood_named(name: str, known: Iterable[Wood] | None = None) -> Wood | None:
    """The wood of that name or trade name: large and small letters, hyphens and what stands in brackets count for nothing."""
    wanted = bare(name)
    choice = woods() if known is None else known
    return next((each for each in choice if wanted in map(bare, each.names)), None)


def bare(name: str) -> str:
    """`Southern pine (loblolly)` and `southern-pine` are one name."""
    return " ".join(re.sub(r"\(.*?\)|[-_]", " ", name).lower().split())


def coefficient_from(shrinkage: float) -> float:
    """Change of size per mm and per point of moisture, from what a wood shrinks from green to dry (%).

    Source: the relation that gives Table 13-5 of the Wood Handbook from its Tables 4-3 and 4-4, to the last printed digit
    for single woods (worked out; fibre saturation at 30 %, size at 10 %).
    """
    return shrinkage / 30 / (100 - 2 * shrinkage / 3)


def _wood(found: Row) -> Wood:
    numbers = {name: float(found[name]) if found[name] else None for name in VALUES}
    sources = tuple((name, _source(found, name)) for name in VALUES if found[name])
    also = tuple(each for each in found["also"].split("|") if each)
    return Wood(found["name"], also, found["group"], **numbers, sources=sources, source=found["source"])


def _source(found: Row, name: str) -> str:
    value = row("wood_values", "name", name)
    assert value is not None, name
    if name in found["from_memory"].split():
        return FROM_MEMORY
    if name in found["derived"].split():
        return value["derived"]
    return value["elsewhere" if found["grows"] == "elsewhere" else "united_states"]
