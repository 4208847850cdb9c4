"""The button and its groove, sized so that the top is drawn down and still moves.

Seen along the rail, from the underside of the top downward: the button's top lies `pull` below the underside; its
tongue, at the bottom of its end, presses up against the upper wall of the groove.  The groove is wider than the tongue
by `slack`, below it.  Seen from above: the tongue stands `engages` in the groove, with `room` before its shoulder and
as much behind its tip.  The top may stay where it is at one side and move at the other by all it moves, so `room`
must take the whole swelling, and after the whole shrinking enough of the tongue must still hold.
All lengths in mm.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from planbuild.core.geometry import TINY, Axis
from planbuild.joints.base import Site
from planbuild.joints.buttons.places import Rail
from planbuild.joints.faults import refuse
from planbuild.joints.proportions import length_rule, movement_coefficient
from planbuild.records.piece import Stock


@dataclass(frozen=True)
class Sizes:
    """One kind of button.  `swell` and `shrink` are what the top moves between outermost screws."""

    thickness: float
    width: float
    length: float
    groove: float
    slack: float
    pull: float
    engages: float
    room: float
    swell: float
    shrink: float

    @property
    def tongue_thickness(self) -> float:
        return self.groove - self.slack

    @property
    def tongue_length(self) -> float:
        return self.engages + self.room

    @property
    def groove_depth(self) -> float:
        return self.engages + self.room

    @property
    def upper_wall(self) -> float:
        """How far below the underside of the top the upper wall of the groove lies."""
        return self.thickness - self.tongue_thickness + self.pull

    @property
    def lower_wall(self) -> float:
        return self.upper_wall + self.groove

    @property
    def screw_from_tip(self) -> float:
        """The screw goes through the middle of what is not tongue."""
        return (self.length + self.tongue_length) / 2


def size_up(stock: Stock, groove: float | None, rails: Sequence[Rail], site: Site) -> Sizes | None:
    """None after reporting `joint-movement` or `joint-wall`: a rail too thin or too low for the groove."""
    ruler = site.ruler
    length, room = length_rule("button_length", ruler), length_rule("button_gap", ruler)
    engages, holds = length_rule("button_engages", ruler), length_rule("button_holds", ruler)
    reach = (length - engages + room) / 2
    moves = _moves(rails, reach, site)
    if moves is None:
        return None
    swell, shrink = moves
    step = float(ruler.step * ruler.unit.mm)
    sizes = Sizes(
        thickness=stock.thickness,
        width=length_rule("button_width", ruler),
        length=length,
        groove=length_rule("button_groove", ruler) if groove is None else groove,
        slack=length_rule("button_slack", ruler),
        pull=length_rule("button_pull", ruler),
        engages=max(engages, step * math.ceil((holds + shrink) / step)),
        room=max(room, step * math.ceil(swell / step)),
        swell=swell,
        shrink=shrink,
    )
    fitting = [_fits(sizes, rail, site) for rail in rails]
    return sizes if all(fitting) else None


def _moves(rails: Sequence[Rail], reach: float, site: Site) -> tuple[float, float] | None:
    """How much the top swells and shrinks between its outermost screws, which sit `reach` inside the rails.

    Source of the formula: Wood Handbook (USDA Forest Products Laboratory), equation 13-2.
    """
    top = rails[0].under.board
    coefficient = movement_coefficient(top.stock)
    if coefficient is None:
        message = f'There is no published movement of {top.stock.species}, so the room for "{top.id}" cannot be worked out.'
        refuse(site, "joint-movement", top.stock.origin, message, "a wood of the table of woods with its coefficients")
        return None
    dry, damp, workshop = site.moisture
    across = _screws_apart(rails, reach)
    return across * coefficient * (damp - workshop), across * coefficient * (workshop - dry)


def _screws_apart(rails: Sequence[Rail], reach: float) -> float:
    """Distance of the outermost screws across the grain of the top, mm."""
    places = []
    for rail in rails:
        (across,) = (axis for axis in Axis if axis not in (rail.under.grain, Axis.BOTTOM_TOP))
        if rail.inside.axis is across:
            places.append(rail.body.at(rail.inside) + rail.inside.sign * reach)
    return max(places) - min(places) if places else 0.0


def _fits(sizes: Sizes, rail: Rail, site: Site) -> bool:
    figure, thick, high = site.ruler.plain, rail.body.size(rail.inside.axis), rail.body.size(Axis.BOTTOM_TOP)
    if sizes.groove_depth > thick / 2 + TINY:
        message = (
            f'"{rail.under.board.id}" moves {figure(sizes.swell + sizes.shrink)} over the year; the groove for it would be '
            f'{figure(sizes.groove_depth)} deep in a "{rail.board.id}" {figure(thick)} thick.'
        )
        hint = f"Make the rail at least {figure(2 * sizes.groove_depth)} thick, or use quartersawn stock for the top."
        refuse(site, "joint-movement", rail.span, message, f"a groove at most {figure(thick / 2)} deep", hint)
        return False
    if sizes.lower_wall + site.practice.wall > high + TINY:
        message = f'The groove ends {figure(sizes.lower_wall)} below the top of "{rail.board.id}", which is {figure(high)} high.'
        expected = f"{figure(site.practice.wall)} of wood below the groove"
        refuse(site, "joint-wall", rail.span, message, expected, "Use thinner stock for the buttons, or a higher rail.")
        return False
    return True
