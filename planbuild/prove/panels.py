"""A solid panel moves in its grooves: it has room when the air is damp, and still stands in them when it is dry.

Measured from where panels and grooves stand, apart from the joint that sized them.
"""

from __future__ import annotations

from collections.abc import Iterator

from planbuild.core.diagnostics import Diagnostic, Severity
from planbuild.core.geometry import TINY
from planbuild.joints.rooms import Floating, floating, grows
from planbuild.prove.standing import Standing
from planbuild.prove.telling import told
from planbuild.records.findings import Findings, Proof

SOURCE = "Wood Handbook (USDA Forest Products Laboratory), equation 13-2 and table 13-5"


def panels_float(standing: Standing) -> Findings:
    """Reports `movement-panel-tight`, `movement-panel-out`, `movement-panel-shifts` (warning), once for each part."""
    panels = list(floating(standing.piece))
    first = {each.part.id: each for each in reversed(panels)}
    diagnostics = tuple(found for id in sorted(first) for found in _faults(standing, first[id]))
    worst = min(panels, key=lambda each: each.room - _moves(standing, each)[0], default=None)
    saying = _worst(standing, worst) if worst else "no solid panel in grooves"
    return Findings(diagnostics, (Proof("Every solid panel has room in its grooves and stays in them", len(panels), saying),))


def _moves(standing: Standing, panel: Floating) -> tuple[float, float]:
    """What it gains when damp and loses when dry."""
    dry, damp, _ = standing.piece.moisture
    piece = standing.piece
    return grows(piece, panel.part, panel.width, damp), -grows(piece, panel.part, panel.width, dry)


def _faults(standing: Standing, panel: Floating) -> Iterator[Diagnostic]:
    ruler, name = standing.piece.ruler, panel.part.name
    swells, shrinks = _moves(standing, panel)
    if panel.room < swells - TINY:
        message = f"The {name} swells {told(ruler, swells)} across its grain, and has room for {told(ruler, panel.room)}."
        yield _fault(panel, "movement-panel-tight", message, "A narrower panel, deeper grooves, or quartersawn stock.")
    edges = (panel.low, panel.high)
    if min(each.engaged for each in edges) <= shrinks / 2 + TINY:
        holds = told(ruler, min(each.engaged for each in edges))
        message = f"The {name} stands {holds} in its groove and shrinks {told(ruler, shrinks / 2)} there: it drops out."
        yield _fault(panel, "movement-panel-out", message, "Deeper grooves, or a wider panel.")
    elif min(panel.low.engaged - panel.high.room, panel.high.engaged - panel.low.room) <= shrinks + TINY:
        message = f"When it is dry the {name} can slide so far to one side that its other edge comes out."
        hint = "Pin it at the middle of both ends, set spacers in the grooves, or make the grooves deeper."
        yield _fault(panel, "movement-panel-shifts", message, hint, Severity.WARNING)


def _fault(panel: Floating, code: str, message: str, hint: str, severity: Severity = Severity.ERROR) -> Diagnostic:
    return Diagnostic(code, message, severity, panel.joint.origin, hints=(hint,), source=SOURCE)


def _worst(standing: Standing, panel: Floating) -> str:
    ruler = standing.ruler
    swells, shrinks = _moves(standing, panel)
    holds = min(panel.low.engaged, panel.high.engaged) - shrinks / 2
    moves = f"the {panel.part.name} swells {told(ruler, swells)} and shrinks {told(ruler, shrinks)}"
    return f"{moves}; it has room for {told(ruler, panel.room)}, and {told(ruler, holds)} of each edge still stand in the grooves"
