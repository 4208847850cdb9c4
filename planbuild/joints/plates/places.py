"""Each plate where it stands: on which rail, where along it, and the two points where it is screwed.  Lengths in mm."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from planbuild.core.geometry import Axis, Box, Span1, Vec
from planbuild.joints.base import Board
from planbuild.joints.buttons.places import Rail
from planbuild.joints.spacing import Spacing


@dataclass(frozen=True)
class Place:
    """One plate: the how-manieth on its rail, and its middle line along it."""

    rail: Rail
    number: int
    middle: float

    def point(self, out: float) -> Vec:
        """A point where rail and top meet, so far from the inside of the rail toward the middle of the top."""
        rail = self.rail
        reach = rail.body.at(rail.inside) + rail.inside.sign * out
        places = {rail.along: self.middle, rail.inside.axis: reach, Axis.BOTTOM_TOP: rail.under.patch.z.low}
        x, y, z = (places[axis] for axis in Axis)
        return x, y, z

    def channel(self, deep: float, heights: tuple[float, float]) -> Box:
        """A channel along the whole rail, so deep in its inside, between two depths below the top."""
        rail, under = self.rail, self.rail.under.patch.z.low
        surface = rail.body.at(rail.inside)
        across = sorted((surface, surface - rail.inside.sign * deep))
        return Box.of(
            {
                rail.along: rail.body.along(rail.along),
                rail.inside.axis: Span1(across[0], across[1]),
                Axis.BOTTOM_TOP: Span1(under - max(heights), under - min(heights)),
            }
        )


def places(rails: Sequence[Rail], spacing: Spacing) -> list[Place]:
    """Every plate, rail by rail, along each from its low end."""
    found = []
    for rail in rails:
        along = rail.body.along(rail.along)
        found += [Place(rail, number, at) for number, at in enumerate(spacing.within(along).places(along), start=1)]
    return found


def moving(top: Board, rail: Rail) -> Axis:
    """The way in which the top moves on a rail, as it stands: level, across its grain."""
    grain = top.copies[rail.under.copy].motion.axis(top.grain)
    return next(axis for axis in (Axis.LEFT_RIGHT, Axis.FRONT_BACK) if axis is not grain)
