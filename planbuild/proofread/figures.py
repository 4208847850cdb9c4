"""Do the printed figures say what the model says, and do rounded figures along a chain add up?"""

from __future__ import annotations

from collections import defaultdict, deque
from collections.abc import Iterator, Sequence

from planbuild.core.diagnostics import Diagnostic, Severity
from planbuild.core.geometry import TINY, Axis
from planbuild.core.units import Ruler, drill_text, slope_text
from planbuild.records.facts import Dimension, Facts
from planbuild.records.findings import Findings, Proof
from planbuild.records.piece import Part, Piece

Graph = dict[float, list[tuple[float, float]]]
"""Position -> (neighbour, printed signed distance)."""


def figures(facts: Facts, piece: Piece, ruler: Ruler) -> Findings:
    """Reports `sheet-value` (a value that is not the distance of its planes, a figure that is not its value) and `sheet-sum`.

    A reference in brackets must be what the printed sizes between its planes add up to.
    A chain of rounded figures may drift from the true place; more than one step of the rule is a warning.
    """
    found: list[Diagnostic] = []
    worst, chains = 0.0, 0
    for part in piece.parts:
        dimensions = facts.part(part.id).dimensions
        found += [_misprint(part, d, printed) for d in dimensions for printed in [_wrong(d, dimensions, ruler)] if printed]
        found += [_value(part, d) for d in dimensions if d.axis and abs(abs(d.ends[1] - d.ends[0]) - d.value) > TINY]
        for axis in Axis:
            for drift, text in _drifts([d for d in dimensions if d.axis == axis.words and not d.bracketed], ruler):
                chains, worst = chains + 1, max(worst, drift)
                if drift > float(ruler.step * ruler.unit.mm) + TINY:
                    found.append(_sum(part, axis, text, ruler.printed(drift, with_unit=True)))
    told = f"the largest drift is {worst:.2f} mm, a step of the rule is {float(ruler.step * ruler.unit.mm):.2f} mm"
    return Findings(tuple(found), (Proof("Printed figures along a chain add up within one step", chains, told),))


def _drifts(lines: list[Dimension], ruler: Ruler) -> Iterator[tuple[float, str]]:
    """For every place reached by printed figures: how far their sum is from the true place."""
    reached: set[float] = set()
    for start in sorted({round(end, 2) for d in lines for end in d.ends}):
        if start not in reached:
            places = _places(lines, ruler, start)
            reached |= set(places)
            yield from ((abs(printed - there), f"{there:.2f}") for there, printed in places.items() if there != start)


def _places(lines: list[Dimension], ruler: Ruler, start: float) -> dict[float, float]:
    """Every plane that printed sizes lead to from `start`, and where they put it."""
    graph: Graph = defaultdict(list)
    for d in lines:
        a, b = round(d.ends[0], 2), round(d.ends[1], 2)
        printed = ruler.rounded(d.value) * (1 if b >= a else -1)
        graph[a].append((b, printed))
        graph[b].append((a, -printed))
    found, queue = {start: start}, deque([start])
    while queue:
        here = queue.popleft()
        for there, printed in graph[here]:
            if there not in found:
                found[there] = found[here] + printed
                queue.append(there)
    return found


def _wrong(d: Dimension, all: Sequence[Dimension], ruler: Ruler) -> str:
    """What should be printed, if something else is; "" if all is well."""
    if d.unit == "deg":
        wanted = f"{round(d.value, 1):g}°"
    elif d.unit == "slope":
        wanted = slope_text(d.value)
    elif d.bracketed and d.axis:
        wanted = ruler.printed(_along([each for each in all if each.axis == d.axis and not each.bracketed], d, ruler))
    elif d.states.endswith("diameter"):
        wanted = drill_text(d.value, ruler)
    else:
        wanted = ruler.printed(d.value)
    return "" if wanted in d.text else wanted


def _along(lines: list[Dimension], d: Dimension, ruler: Ruler) -> float:
    """From one plane of a reference to the other by printed sizes; its own value if they do not connect them."""
    places = _places(lines, ruler, round(d.ends[0], 2))
    return abs(places.get(round(d.ends[1], 2), d.ends[1]) - d.ends[0])


def _misprint(part: Part, d: Dimension, wanted: str) -> Diagnostic:
    code = "sheet-sum" if d.bracketed else "sheet-value"
    message = f'"{part.name}": {d.states} of {d.feature} is printed as "{d.text}".'
    return Diagnostic(code, message, span=part.origin, expected=wanted)


def _value(part: Part, d: Dimension) -> Diagnostic:
    apart = abs(d.ends[1] - d.ends[0])
    message = f'"{part.name}": {d.states} of {d.feature} says {d.value:.3f} mm, its planes are {apart:.3f} mm apart.'
    return Diagnostic("sheet-value", message, span=part.origin)


def _sum(part: Part, axis: Axis, place: str, drift: str) -> Diagnostic:
    message = f'"{part.name}": rounded figures {axis.words} add up to a place {drift} off ({place} mm in the model).'
    hint = "Choose sizes on the rounding step, or a finer `rounding`."
    return Diagnostic("sheet-sum", message, Severity.WARNING, part.origin, hints=(hint,))
