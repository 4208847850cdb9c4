"""What opens in an opening does not bind when the air is damp: its gaps take what its wood swells.

Boxes around the standing parts are compared.  What swells is told by width and thickness across the grain; parts one
behind the other add up (both stiles of a door), panels in grooves do not (they have room of their own).
"""

from __future__ import annotations

from planbuild.core.diagnostics import Diagnostic, Severity
from planbuild.core.geometry import TINY
from planbuild.joints.rooms import Gap, gaps
from planbuild.prove.standing import Standing
from planbuild.prove.telling import told
from planbuild.records.findings import Findings, Proof

SOURCE = "Wood Handbook (USDA Forest Products Laboratory), equation 13-2 and table 13-5"


def nothing_binds(standing: Standing) -> Findings:
    """Reports `movement-binds` (warning), once for each thing that opens."""
    found = list(gaps(standing.piece, standing.boxes))
    tight = {each.mover.name: each for each in found if each.room < _swells(standing, each) - TINY}
    worst = min(found, key=lambda each: each.room - _swells(standing, each), default=None)
    saying = _told(standing, worst) if worst else "nothing that opens beside wood"
    proof = Proof("What opens does not bind when it is damp", len(found), saying)
    return Findings(tuple(_fault(standing, each) for each in tight.values()), (proof,))


def _swells(standing: Standing, gap: Gap) -> float:
    return gap.swells(standing.piece, standing.boxes, standing.piece.moisture[1])


def _told(standing: Standing, gap: Gap) -> str:
    ruler = standing.ruler
    swells = f"the {gap.mover.name} swells {told(ruler, _swells(standing, gap))} {gap.axis.words}"
    return f"{swells}, with a gap of {told(ruler, gap.room)} to the {standing.name(gap.beside)}"


def _fault(standing: Standing, gap: Gap) -> Diagnostic:
    ruler = standing.piece.ruler
    swells, room = told(ruler, _swells(standing, gap)), told(ruler, gap.room)
    where = f"beside the {standing.name(gap.beside)}"
    message = f"The {gap.mover.name} swells {swells} {gap.axis.words} in damp air and has {room} {where}."
    hint = "A wider gap, or quartersawn stock."
    return Diagnostic("movement-binds", message, Severity.WARNING, gap.mover.origin, hints=(hint,), source=SOURCE)
