"""Woods that the design or its series describes itself, beside those of the table."""

from __future__ import annotations

from collections.abc import Mapping

from planbuild.core.woods import VALUES, Wood, bare, coefficient_from, wood_named
from planbuild.records.design import Said
from planbuild.records.woods_said import CutsSaid, SpeciesSaid
from planbuild.resolve.amounts import NEWTONS, PER_CENT, amount
from planbuild.resolve.sayings import Sayings, tried

KINDS = ("hardwood", "softwood")
DENSITY = {"kg/m3": 1.0, "lb/ft3": 16.01846337}
"""kg/m3."""
PRESSURE = {"MPa": 1.0, "GPa": 1000.0, "psi": 0.00689475729, "million psi": 6894.75729}
"""MPa."""

LIKELY = {
    "density": (100.0, 1400.0, "100 to 1400 kg/m3 (6 to 87 lb/ft3)"),
    "stiffness": (1000.0, 40000.0, "1000 to 40000 MPa (0.15 to 5.8 million psi)"),
    "strength": (10.0, 300.0, "10 to 300 MPa (1450 to 43500 psi)"),
    "hardness": (200.0, 25000.0, "200 to 25000 N (45 to 5600 lb)"),
    "shrinkage": (0.5, 25.0, "0.5 to 25 %"),
    "movement": (0.0003, 0.01, "0.0003 to 0.01 for each point of moisture"),
}
"""The lowest and the highest that any wood has (a choice of ours, to catch slips), and how that is told."""

_AT_TWELVE = 1120.0
"""kg/m3 of a wood of specific gravity 1 (dry mass over volume at 12 %) that holds 12 % of its mass in water."""


def species(said: Mapping[str, SpeciesSaid], sayings: Sayings) -> tuple[Wood, ...]:
    """The design's own woods.  Reports `species-taken`, `species-number`, `species-moves`, `amount-unit`, `word-unknown`."""
    found = (tried(_species, id, each, sayings) for id, each in said.items())
    return tuple(each for each in found if each is not None)


def _species(id: str, said: SpeciesSaid, sayings: Sayings) -> Wood:
    name, table = id.replace("_", " "), wood_named(id)
    if table:
        message = f'"{name}" is in the table of woods already{f", as {table.name}" if bare(table.name) != bare(name) else ""}.'
        hint = f"Give yours a name of its own, such as `our_{id}`, or leave it out."
        raise sayings.refuse("species-taken", Said(id, said.origin), message, hints=(hint,))
    if said.moves is None and said.shrinks is None:
        message = f'How "{name}" moves is not said.'
        expected = "`shrinks: {flat: 7.8 %, quarter: 4.9 %}` from green to dry, or `moves: {flat: 0.0027, quarter: 0.0017}`"
        raise sayings.refuse("species-moves", Said(id, said.origin), message, expected)
    numbers = dict(zip(VALUES, (*_strengths(said, sayings), *_movements(said, sayings)), strict=True))
    group = sayings.choice(said.kind, KINDS, "kind of wood") if said.kind else KINDS[0]
    sources = tuple((each, said.source.text) for each in VALUES if numbers[each] is not None)
    return Wood(name, (), group, **numbers, sources=sources, source=said.source.text)


def _strengths(said: SpeciesSaid, sayings: Sayings) -> tuple[float | None, ...]:
    """Specific gravity, stiffness, strength, hardness, in the order of the table."""
    density = _number(said.density, DENSITY, "density", sayings)
    stiffness = _number(said.stiffness, PRESSURE, "stiffness", sayings) if said.stiffness else None
    strength = _number(said.strength, PRESSURE, "strength", sayings) if said.strength else None
    hardness = _number(said.hardness, {"N": 1.0, "lb": NEWTONS["lb"]}, "hardness", sayings) if said.hardness else None
    return density / _AT_TWELVE, stiffness, strength, hardness


def _movements(said: SpeciesSaid, sayings: Sayings) -> tuple[float | None, ...]:
    """Shrinkage and movement, each quarter sawn and flat; what is not said of a movement follows from the shrinkage."""
    shrinks = _cuts(said.shrinks, "shrinkage", sayings)
    moves = _cuts(said.moves, "movement", sayings)
    worked_out = [coefficient_from(each) if each is not None else None for each in shrinks]
    return (*shrinks, *(move if move is not None else other for move, other in zip(moves, worked_out, strict=True)))


def _cuts(said: CutsSaid | None, what: str, sayings: Sayings) -> tuple[float | None, float | None]:
    """Quarter sawn, flat sawn."""
    if said is None:
        return None, None
    quarter, flat = ((_movement(each, what, sayings) if each else None) for each in (said.quarter, said.flat))
    return quarter, flat


def _movement(said: Said, what: str, sayings: Sayings) -> float:
    if what == "shrinkage":
        return _number(said, PER_CENT, what, sayings)
    return _likely(said, float(sayings.number(said)), what, sayings)


def _number(said: Said, units: Mapping[str, float], what: str, sayings: Sayings) -> float:
    return _likely(said, amount(said, units, what, sayings), what, sayings)


def _likely(said: Said, figure: float, what: str, sayings: Sayings) -> float:
    low, high, told = LIKELY[what]
    if low <= figure <= high:
        return figure
    raise sayings.refuse("species-number", said, f"A {what} of `{said.text}` is that of no wood.", told)
