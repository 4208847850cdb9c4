"""How many of a row, and how far apart: buttons along a rail, screws along a seam."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from planbuild.core.geometry import TINY, Span1
from planbuild.joints.base import Site
from planbuild.joints.faults import refuse
from planbuild.records.design import Said

AT_MOST = "at most "


@dataclass(frozen=True)
class Spacing:
    """How many of a row there are and how far apart.  `count` or `apart` wins over `most`; lengths in mm."""

    corner: float
    most: float
    apart: float | None = None
    count: int | None = None
    defaults: tuple[str, ...] = ()
    from_ends: bool = False
    """True if the designer said how far the outer ones stand from the ends (`corner`)."""

    def places(self, along: Span1) -> tuple[float, ...]:
        """Middle lines along a rail or a seam, from its low end."""
        intervals, step = self.rhythm(along)
        first = along.middle - intervals * step / 2
        return tuple(first + step * number for number in range(intervals + 1))

    def rhythm(self, along: Span1) -> tuple[int, float]:
        """How many intervals lie between those of a row, and how long one is."""
        room = along.size - 2 * self.corner
        if room <= TINY or self.count == 1:
            return 0, 0.0
        if self.apart is not None:
            return math.floor(room / self.apart + 1e-9), self.apart
        intervals = self.count - 1 if self.count else math.ceil(room / self.most - 1e-9)
        return intervals, room / intervals

    def within(self, along: Span1) -> Spacing:
        """On a short seam the outer ones stand a quarter of it from its ends, unless that was said."""
        if self.from_ends:
            return replace(self, corner=min(self.corner, along.size / 2))
        return replace(self, corner=min(self.corner, along.size / 4))


def find_spacing(
    spacing: Said | None, count: Said | None, plain: Spacing, default: str, what: str, site: Site
) -> Spacing | None:
    """`plain` with what was said of number and distance, or with the line `default` where nothing was; None after
    reporting.  `what` names those of the row (`buttons`)."""
    if spacing and count:
        message = f"Number and distance of the {what} are both said."
        refuse(site, "joint-spacing", count.span, message, "`spacing` or `count`", "Leave one of them out.")
        return None
    if count:
        number = site.words.count(count)
        return replace(plain, count=number) if number else None
    if spacing is None:
        return replace(plain, defaults=(*plain.defaults, default))
    most, distance = _distance(spacing, site)
    if distance is None:
        return None
    return replace(plain, most=distance) if most else replace(plain, apart=distance)


def _distance(said: Said, site: Site) -> tuple[bool, float | None]:
    """True with the greatest distance for `at most 12`, False with the distance itself for `12`."""
    if not said.text.startswith(AT_MOST):
        return False, site.words.length(said)
    span = replace(said.span, column=said.span.column + len(AT_MOST), length=max(1, said.span.length - len(AT_MOST)))
    return True, site.words.length(replace(said, text=said.text.removeprefix(AT_MOST), span=span))
