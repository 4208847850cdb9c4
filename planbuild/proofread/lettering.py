"""Is every word in every drawing free of lines, arrowheads, other words and the edge?"""

from __future__ import annotations

from planbuild.core.diagnostics import Diagnostic, Severity
from planbuild.records.facts import Facts
from planbuild.records.findings import Findings, Proof
from planbuild.records.legibility import Clash, clashes


def lettering(facts: Facts) -> Findings:
    """Reports `drawing-overlap`."""
    found = [_told(id, clash) for id, drawing in sorted(facts.drawings.items()) for clash in clashes(drawing)]
    texts = sum(len(drawing.texts) for drawing in facts.drawings.values())
    proof = Proof("No text in a drawing touches a line, another text or the edge", texts, f"in {len(facts.drawings)} drawings")
    return Findings(tuple(found), (proof,))


def _told(id: str, clash: Clash) -> Diagnostic:
    message = f'Drawing "{id}": the text "{clash.text}" lies on {clash.meets} at {clash.at[0]:.1f}, {clash.at[1]:.1f} mm.'
    hint = "The number stands in plan.json as well; please report the design, its layout is ours to mend."
    return Diagnostic("drawing-overlap", message, Severity.WARNING, expected="every text free", hints=(hint,))
