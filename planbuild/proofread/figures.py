"""Do the printed figures say what the model says, and do rounded figures along a chain add up?"""

from __future__ import annotations

from collections import defaultdict, deque
from collections.abc import Iterator

from planbuild.core.diagnostics import Diagnostic, Severity
from planbuild.core.geometry import TINY, Axis
from planbuild.core.units import Ruler
from planbuild.records.facts import Dimension, Facts
from planbuild.records.findings import Findings, Proof
from planbuild.records.piece import Part, Piece

Graph = dict[float, list[tuple[float, float]]]
"""Position -> (neighbour, printed signed distance)."""


def figures(facts: Facts, piece: Piece, ruler: Ruler) -> Findings:
    """Reports `sheet-value` (a value that is not the distance of its planes) and `sheet-sum`.

    A chain of rounded figures may drift from the true place; more than one step of the rule is a warning.
    """
    found: list[Diagnostic] = []
    worst, chains = 0.0, 0
    for part in piece.parts:
        dimensions = facts.part(part.id).dimensions
        found += [_value(part, d) for d in dimensions if d.axis and abs(abs(d.ends[1] - d.ends[0]) - d.value) > TINY]
        for axis in Axis:
            for drift, text in _drifts([d for d in dimensions if d.axis == axis.words], ruler):
                chains, worst = chains + 1, max(worst, drift)
                if drift > float(ruler.step * ruler.unit.mm) + TINY:
                    found.append(_sum(part, axis, text, ruler.printed(drift, with_unit=True)))
    told = f"the largest drift is {worst:.2f} mm, a step of the rule is {float(ruler.step * ruler.unit.mm):.2f} mm"
    return Findings(tuple(found), (Proof("Printed figures along a chain add up within one step", chains, told),))


def _drifts(lines: list[Dimension], ruler: Ruler) -> Iterator[tuple[float, str]]:
    """For every place reached by printed figures: how far their sum is from the true place."""
    graph: Graph = defaultdict(list)
    for d in lines:
        a, b = round(d.ends[0], 2), round(d.ends[1], 2)
        printed = ruler.rounded(d.value) * (1 if b >= a else -1)
        graph[a].append((b, printed))
        graph[b].append((a, -printed))
    seen: dict[float, float] = {}
    for start in sorted(graph):
        if start in seen:
            continue
        seen[start] = start
        queue = deque([start])
        while queue:
            here = queue.popleft()
            for there, printed in graph[here]:
                if there not in seen:
                    seen[there] = seen[here] + printed
                    queue.append(there)
                    yield abs(seen[there] - there), f"{there:.2f}"


def _value(part: Part, d: Dimension) -> Diagnostic:
    apart = abs(d.ends[1] - d.ends[0])
    message = f'"{part.name}": {d.states} of {d.feature} says {d.value:.3f} mm, its planes are {apart:.3f} mm apart.'
    return Diagnostic("sheet-value", message, span=part.origin)


def _sum(part: Part, axis: Axis, place: str, drift: str) -> Diagnostic:
    message = f'"{part.name}": rounded figures {axis.words} add up to a place {drift} off ({place} mm in the model).'
    hint = "Choose sizes on the rounding step, or a finer `rounding`."
    return Diagnostic("sheet-sum", message, Severity.WARNING, part.origin, hints=(hint,))
