"""Thicknesses in which boards are sold rough, by quarters of an inch or in mm, and what each gives when it is planed."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import cache

from planbuild.core.tables import rows
from planbuild.core.units import MM_PER_INCH


@dataclass(frozen=True)
class Sawn:
    """`name` is the trade's (`8/4`, `27 mm`); lengths in mm."""

    name: str
    rough: Fraction
    finished: Fraction
    source: str


@cache
def quarters() -> tuple[Sawn, ...]:
    return tuple(
        Sawn(each["quarters"], inches(each["rough_in"]), inches(each["finished_in"]), each["source"])
        for each in rows("thickness")
    )


@cache
def metric() -> tuple[Sawn, ...]:
    return tuple(
        Sawn(f"{each['rough_mm']} mm", Fraction(each["rough_mm"]), Fraction(each["finished_mm"]), each["source"])
        for each in rows("thickness_mm")
    )


def series_of(name: str) -> tuple[Sawn, ...]:
    """The series to which a thickness belongs."""
    return metric() if name.endswith("mm") else quarters()


def sawn_named(name: str) -> Sawn | None:
    return next((each for each in (*quarters(), *metric()) if each.name == name), None)


def inches(text: str) -> Fraction:
    """A table's `1-1/16` in mm."""
    whole, _, part = text.partition("-")
    return (Fraction(whole) + (Fraction(part) if part else 0)) * MM_PER_INCH
