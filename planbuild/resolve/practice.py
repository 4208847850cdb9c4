"""Trade practice in force: the defaults of the table, in the design's units, and what the design says instead."""

from __future__ import annotations

from fractions import Fraction

from planbuild.core.spelling import did_you_mean
from planbuild.core.tables import Row, rows
from planbuild.records.design import Design, Said
from planbuild.records.piece import Practice
from planbuild.resolve.expressions.faults import Poisoned
from planbuild.resolve.expressions.tokens import tokens
from planbuild.resolve.sayings import Sayings

_SHARES = {"half": Fraction(1, 2), "third": Fraction(1, 3), "quarter": Fraction(1, 4)}
WAYS = ("machine", "hand")


def practice(design: Design, sayings: Sayings) -> Practice:
    """Reports `practice-unknown` and the faults of values; a faulty value leaves the default."""
    column = "mm" if design.units.text == "mm" else "inch"
    values: dict[str, object] = {row["name"]: _default(row, column, sayings.unit) for row in rows("practice")}
    kinds = {row["name"]: row["is"] for row in rows("practice")}
    for name, said in design.practice.items():
        first = said if isinstance(said, Said) else said[0]
        if name not in kinds:
            message = f'"{name}" is no practice that can be set.'
            known = f"one of: {', '.join(kinds)}"
            sayings.refuse("practice-unknown", first, message, known, did_you_mean(name, kinds))
            continue
        try:
            values[name] = _said(kinds[name], said if isinstance(said, tuple) else (said,), sayings)
        except Poisoned:
            continue
    return Practice(**values)  # type: ignore[arg-type]


def _default(row: Row, column: str, unit: Fraction) -> object:
    text = row[column]
    if row["is"] == "choice":
        return text
    if row["is"] == "share":
        return float(Fraction(text.removesuffix(" %")) / (100 if text.endswith("%") else 1))
    lengths = tuple(float(tokens(each)[0].value * unit) for each in text.split())
    return lengths if row["is"] == "lengths" else lengths[0]


def _said(kind: str, saids: tuple[Said, ...], sayings: Sayings) -> object:
    if kind == "lengths":
        return tuple(sorted(float(sayings.size(said, "A chisel")) for said in saids))
    if len(saids) > 1:
        raise sayings.refuse("practice-one", saids[1], "One value is wanted here, not a list.")
    if kind == "choice":
        return sayings.choice(saids[0], WAYS, "way of working")
    if kind == "allowance":
        return float(sayings.allowance(saids[0]))
    if kind == "length":
        return float(sayings.size(saids[0], "A practice"))
    return float(_share(saids[0], sayings))


def _share(said: Said, sayings: Sayings) -> Fraction:
    if said.text in _SHARES:
        return _SHARES[said.text]
    figure = said.text.removesuffix("%").strip()
    number = sayings.number(Said(figure, said.span)) / (100 if said.text.endswith("%") else 1)
    if not 0 <= number < 1:
        raise sayings.refuse("practice-share", said, f"`{said.text}` is no share of a whole.", "`third`, `1/3` or `25 %`")
    return number
