"""A free-standing piece keeps its feet when its drawers and doors are open; else its designer is told what to change."""

from __future__ import annotations

from planbuild.core.diagnostics import Diagnostic, Severity
from planbuild.joints.balance import Trial, is_anchored, trials
from planbuild.prove.standing import Standing
from planbuild.prove.telling import told
from planbuild.records.findings import Findings, Proof

SOURCE = "moments about the feet; size and test loads of ASTM F2057-23 (partly from memory); no compliance is claimed"


def stands_with_all_open(standing: Standing) -> Findings:
    """Reports `tips-over` (warning) for the worst trial; none where a tip restraint is put on the piece."""
    found = trials(standing.piece, standing.solids)
    worst = max(found, key=lambda each: each.moment / each.mass, default=None)
    if worst is None:
        return Findings((), (Proof("It stands with all open", 0, "nothing opens, or it hangs"),))
    anchored = is_anchored(standing.piece)
    claim = "It stands with all open" if not worst.tips else "It is held when all is open"
    faults = (_fault(standing, worst),) if worst.tips and not anchored else ()
    return Findings(faults, (Proof(claim, len(found), _told(standing, worst)),) if not faults else ())


def _told(standing: Standing, trial: Trial) -> str:
    ruler = standing.ruler
    if trial.tips:
        return f"with {trial.what} it would tip to the {trial.toward.value}: its tip restraint must be fixed to the wall first"
    inside = told(ruler, -trial.forward)
    return f"with {trial.what} it balances {inside} inside its {trial.toward.value} feet"


def _fault(standing: Standing, trial: Trial) -> Diagnostic:
    piece, ruler = standing.piece, standing.piece.ruler
    message = f"With {trial.what} the piece tips over to the {trial.toward.value}."
    farther, ballast = told(ruler, trial.forward), f"{trial.ballast:.1f} kg ({trial.ballast / 0.45359237:.0f} lb)"
    hint = (
        f"Put a tip restraint on it (an item under `hardware`) and fix it to the wall; or set its {trial.toward.value} feet "
        f"{farther} farther out, or carry {ballast} more low at the other side."
    )
    origin = piece.parts[0].origin
    return Diagnostic("tips-over", message, Severity.WARNING, origin, hints=(hint,), source=SOURCE)
