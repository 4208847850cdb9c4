"""Openings of unequal size in one row: each size is an opening of its own, and a block in them is one for each size.

`shares: [1, 1, 2]` makes two openings of one size and one of twice that; the parts of a drawer in the large one are other
parts than those in the small ones, though they come from the same text.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from fractions import Fraction

from planbuild.read.report import Report
from planbuild.records.design import Said, StepSaid
from planbuild.records.spaces import BlockSaid, OpeningSaid, OrdinalRow, ordinal_words

Sizes = tuple[tuple[str, tuple[int, ...]], ...]
"""(name, places in the row) of each size, that of the first place first and under the name that was given."""

MOST_SHARES = 12
"""Openings in one row of unequal ones: more than a chest has (a choice of ours)."""

_SHARE = re.compile(r"(?:(\d{1,3})-)?(\d{1,3})(?:/(\d{1,3}))?|\d{1,3}\.\d{1,3}")


def unequal(openings: Mapping[str, OpeningSaid], report: Report) -> dict[str, Sizes]:
    """The openings that are divided by shares, by name.  Reports `read-shares`."""
    found = {}
    for name, said in openings.items():
        shares = said.repeat.shares if said.repeat else ()
        figures = [_figure(each, report) for each in shares]
        if len(shares) == 1 or len(shares) > MOST_SHARES:
            message = f'{len(shares)} share{"s" if len(shares) > 1 else ""} for "{name}".'
            report.fault("read-shares", shares[0].span, message, expected=f"2 to {MOST_SHARES}")
        elif shares and None not in figures:
            found[name] = _sizes(name, [each for each in figures if each is not None])
    return found


def _figure(said: Said, report: Report) -> Fraction | None:
    match = _SHARE.fullmatch(said.text)
    if match is None or match[3] == "0":
        report.fault("read-shares", said.span, f"`{said.text}` is no share.", expected="a number, such as `1` or `1-1/2`")
        return None
    share = Fraction(said.text) if match[1] is None else int(match[1]) + Fraction(int(match[2]), int(match[3] or 1))
    if share <= 0:
        report.fault("read-shares", said.span, "A share of nothing is no opening.", expected="a number above zero")
        return None
    return share


def _sizes(name: str, shares: Sequence[Fraction]) -> Sizes:
    places = {share: tuple(place for place, each in enumerate(shares) if each == share) for share in shares}
    first, *others = places.values()
    return (name, first), *((f"{ordinal_words(each[0], len(shares))}_{name}", each) for each in others)


def openings_of_sizes(openings: Mapping[str, OpeningSaid], sizes: Mapping[str, Sizes]) -> dict[str, OpeningSaid]:
    """One opening for each size, instead of those that are divided by shares."""
    found = dict(openings)
    for name, each in sizes.items():
        said = openings[name]
        assert said.repeat is not None
        fields = {field: getattr(said.repeat, field) for field in said.repeat.model_fields_set}
        figures = tuple(_figure(share, Report()) or Fraction(1) for share in said.repeat.shares)
        for own, places in each:
            row = OrdinalRow(**fields, figures=figures, places=places)
            found[own] = said.model_copy(update={"repeat": row, **_named(said, name, own, places, len(figures))})
    return found


def blocks_of_sizes(name: str, said: BlockSaid, sizes: Sizes) -> list[tuple[str, BlockSaid, tuple[int, ...]]]:
    """The block once for each size of the opening that it fills: its name, what is said of it, its places."""
    count, found = sum(len(places) for _, places in sizes), []
    for opening, places in sizes:
        own = name if opening == sizes[0][0] else f"{ordinal_words(places[0], count)}_{name}"
        assert said.into is not None
        into = Said(opening, said.into.span, scope=said.into.scope)
        update = {"into": into, **_named(said, name, own, places, count)}
        found.append((own, said.model_copy(update=update), places))
    return found


def _named(said: OpeningSaid | BlockSaid, name: str, own: str, places: Sequence[int], count: int) -> dict[str, Said]:
    """What is printed: `last drawer`, `3rd and last drawer`; the first size keeps its name."""
    if own == name:
        return {}
    called = said.name.text if said.name else name.replace("_", " ")
    words = " and ".join(ordinal_words(each, count) for each in places)
    return {"name": Said(f"{words} {called}", said.origin)}


def steps_of_sizes(steps: Mapping[str, StepSaid], unlike: Mapping[str, Sizes]) -> dict[str, StepSaid]:
    """What is said of the work on a block is said of it in every size."""
    found = dict(steps)
    for id, said in steps.items():
        verb, _, thing = id.partition(".")
        for path, sizes in unlike.items():
            if thing == path or thing.startswith(f"{path}."):
                around = path.rpartition(".")[0]
                for own, _ in sizes[1:]:
                    other = f"{around}.{own}" if around else own
                    found.setdefault(f"{verb}.{other}{thing[len(path) :]}", said)
    return found
