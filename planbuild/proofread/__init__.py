"""Is what will be printed enough, true and consistent?

Apart from `prove`, because these claims are about the printed facts, not about the solids.
"""

from __future__ import annotations

from planbuild.core.units import Ruler
from planbuild.proofread.completeness import completeness
from planbuild.proofread.figures import figures
from planbuild.proofread.leaders import leaders
from planbuild.proofread.lettering import lettering
from planbuild.proofread.references import references
from planbuild.records.facts import Facts
from planbuild.records.findings import Findings
from planbuild.records.piece import Piece


def proofread(facts: Facts, piece: Piece, ruler: Ruler) -> Findings:
    """Everything found wrong on the pages to be; `ruler` is the edition's."""
    found = completeness(facts, piece)
    return found.plus(figures(facts, piece, ruler)).plus(lettering(facts)).plus(leaders(facts)).plus(references(facts, piece))
