"""Wedges fill their slots: each lies with both its broad faces on strips of the tenon it spreads."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from planbuild.core.diagnostics import Diagnostic
from planbuild.core.geometry import Axis
from planbuild.prove.measuring import FlatFace, contacts
from planbuild.prove.standing import Standing
from planbuild.records.features import Tenon, Wedging
from planbuild.records.findings import Findings, Proof
from planbuild.records.piece import Part
from planbuild.records.solids import Key

FILLED = 0.9
"""Share of a wedge's broad faces that must lie on the tenon (heuristic: the chamfered tip takes some)."""

STEEPEST = 0.5
"""A broad face of a wedge leans less than this (sine of the angle)."""


@dataclass(frozen=True)
class _Slot:
    """One wedge where it stands, with the share of its broad faces that lies on its tenon."""

    wedge: Key
    share: float


def wedges_fill(standing: Standing) -> Findings:
    """Reports `joint-wedge-loose` and `joint-wedge-count`."""
    diagnostics: list[Diagnostic] = []
    slots: list[_Slot] = []
    for part, wedging, tenons in _wedged(standing):
        found = [_slot(standing, part, wedging, (wedging.wedge, i)) for i in _copies(standing, wedging.wedge)]
        diagnostics += [*_miscounted(part, wedging, tenons, len(found)), *_loose(standing, tenons[0], found)]
        slots += found
    return Findings(tuple(diagnostics), (Proof("Every wedge fills its slot", len(slots), _worst(slots)),))


def _worst(slots: list[_Slot]) -> str:
    if not slots:
        return "no wedges"
    return f"least: {100 * min(slot.share for slot in slots):.0f} % of the broad faces of a wedge lie on its tenon"


def _wedged(standing: Standing) -> Iterator[tuple[Part, Wedging, list[Tenon]]]:
    for part in standing.piece.parts:
        tenons = [feature for feature in part.features if isinstance(feature, Tenon) and feature.wedging]
        if tenons and tenons[0].wedging:
            yield part, tenons[0].wedging, tenons


def _copies(standing: Standing, wedge: str) -> range:
    return range(next((len(part.copies) for part in standing.piece.parts if part.id == wedge), 0))


def _slot(standing: Standing, part: Part, wedging: Wedging, wedge: Key) -> _Slot:
    """The tenon is that copy of the part on which the wedge lies most."""
    broad = [face for face in standing.faces(wedge) if _is_broad(standing, face, wedge, wedging)]
    whole = sum(face.outline.area for face in broad)
    shared = (sum(region.area for _, region in contacts(broad, standing.faces((part.id, i)))) for i in range(len(part.copies)))
    return _Slot(wedge, max(shared, default=0.0) / whole if whole else 0.0)


def _is_broad(standing: Standing, face: FlatFace, wedge: Key, wedging: Wedging) -> bool:
    """It looks in the direction in which the wedge spreads the tenon."""
    across: Axis = standing.copy(wedge).motion.axis(wedging.across)
    return abs(face.normal[across.value]) > 1 - STEEPEST


def _miscounted(part: Part, wedging: Wedging, tenons: list[Tenon], count: int) -> Iterator[Diagnostic]:
    wanted = len(part.copies) * sum(len(tenon.wedging.kerfs) for tenon in tenons if tenon.wedging)
    if count != wanted:
        message = f"The tenons of {part.name} have {wanted} kerfs, but there are {count} wedges ({wedging.wedge})."
        yield Diagnostic("joint-wedge-count", message, span=tenons[0].origin)


def _loose(standing: Standing, tenon: Tenon, slots: list[_Slot]) -> Iterator[Diagnostic]:
    loose = [slot for slot in slots if slot.share < FILLED]
    if loose:
        worst = min(loose, key=lambda slot: slot.share)
        name = standing.name(worst.wedge)
        message = f"Wedge {name} lies on its tenon with {100 * worst.share:.0f} % of its faces only."
        yield Diagnostic("joint-wedge-loose", message, span=tenon.origin, expected="a wedge as thick as its slot all along")
