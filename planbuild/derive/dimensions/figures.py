"""What is printed for a number: the ruler's figure with its words; references in brackets.

A bracketed reference prints the sum of the printed sizes it follows from, so that a sheet never contradicts
itself where figures are rounded.
"""

from __future__ import annotations

from collections.abc import Sequence

from planbuild.core.geometry import TINY, Axis
from planbuild.core.units import Ruler, drill_text, slope_text
from planbuild.derive.dimensions.measure import Measure
from planbuild.derive.dimensions.tree import Chosen


def text_of(measure: Measure, ruler: Ruler, chosen: Chosen) -> str:
    """Exactly as drawn: `3/8`, `1/16 × 45° long edges`, `(38 3/4)`."""
    if measure in chosen.bracketed:
        return f"({measure.say.format(ruler.printed(_by_way_of(measure, ruler, chosen.printed)))})"
    return measure.say.format(figure(measure, ruler))


def figure(measure: Measure, ruler: Ruler) -> str:
    """The figure alone: degrees, a drill by the name under which it is sold, or a length to the step of the rule."""
    if measure.unit == "deg":
        return f"{round(measure.value, 1):g}°"  # a tenth of a degree is finer than any gauge
    if measure.unit == "slope":
        return slope_text(measure.value)
    if measure.states.endswith("diameter"):
        return drill_text(measure.value, ruler)
    return ruler.printed(measure.value)


def _by_way_of(measure: Measure, ruler: Ruler, printed: Sequence[Measure]) -> float:
    """The length of a reference as the printed sizes between its planes add up; a radius stands for itself."""
    if measure.axis is None:
        return measure.value
    return abs(printed_distance(measure.axis, measure.ends, ruler, printed))


def printed_distance(axis: Axis, ends: tuple[float, float], ruler: Ruler, printed: Sequence[Measure]) -> float:
    """From the first plane to the second along printed sizes, each rounded as it is printed.  Units: mm.

    Raises ValueError if the sizes do not connect them.
    """
    sizes = [each for each in printed if each.axis is axis]
    reached, waiting = {}, [(ends[0], 0.0)]
    while waiting:
        plane, distance = waiting.pop()
        if abs(plane - ends[1]) <= TINY:
            return distance
        reached[round(plane, 2)] = distance
        for each in sizes:
            for start, stop in (each.ends, each.ends[::-1]):
                if abs(start - plane) <= TINY and round(stop, 2) not in reached:
                    way = 1.0 if stop > start else -1.0
                    waiting.append((stop, distance + way * ruler.rounded(each.value)))
    raise ValueError(f"no printed sizes lead from {ends[0]:g} to {ends[1]:g}")
