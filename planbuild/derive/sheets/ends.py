"""Are the two ends of a part alike?  Then what is drawn for one is said for both."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from planbuild.core.geometry import TINY, Axis, Face
from planbuild.derive.dimensions.measure import Measure, Style
from planbuild.records.features import Tenon
from planbuild.records.piece import Part


def ends_alike(part: Part) -> bool:
    """True if the part has a tenon at each end, each the mirror image of the other."""
    return len(_tenons(part)) == 2 and bool(_pair(part))


def _tenons(part: Part) -> list[Tenon]:
    return [each for each in part.features if isinstance(each, Tenon) and each.end.axis is part.grain]


def _pair(part: Part) -> tuple[Tenon, Tenon] | None:
    tenons = _tenons(part)
    if len(tenons) != 2 or tenons[0].end is not tenons[1].end.opposite:
        return None
    one, other = (_own_terms(part, each) for each in tenons)
    same = len(one) == len(other) and all(abs(a - b) <= TINY for a, b in zip(one, other, strict=True))
    words = [(t.mitre.short if t.mitre else None, t.wedging.across if t.wedging else None) for t in tenons]
    return (tenons[0], tenons[1]) if same and words[0] == words[1] else None


def _own_terms(part: Part, tenon: Tenon) -> list[float]:
    """The numbers of a tenon counted from its own shoulder and tip."""
    found = [tenon.block.size(tenon.end.axis), tenon.tip_chamfer, tenon.mitre.start if tenon.mitre else 0.0]
    for axis in Axis:
        if axis is not part.grain:
            found += [tenon.block.along(axis).low, tenon.block.along(axis).high]
    kerfs = sorted(tenon.wedging.kerfs, key=lambda kerf: kerf.plane) if tenon.wedging else []
    return found + [number for kerf in kerfs for number in (kerf.plane, kerf.width, kerf.depth)]


def twins_of(part: Part, start: Face, measures: Sequence[Measure]) -> tuple[tuple[Measure, Measure], ...]:
    """Numbers of the far end that are printed with those of the near end: (far, near).

    Lengths along the whole are drawn at both ends; what belongs into a detail or on a leader is drawn once.
    """
    pair = _pair(part)
    if pair is None:
        return ()
    near, far = pair if pair[0].end is start else pair[::-1]
    by_id = {each.id: each for each in measures}
    found = []
    for each in measures:
        if each.feature == far.id and (each.fine or each.style is Style.LEADER):
            like = by_id.get(replace(each, feature=near.id).id)
            if like is not None:
                found.append((each, like))
    return tuple(found)
