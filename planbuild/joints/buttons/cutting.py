"""The buttons themselves, the groove in the rails, and the holes for their screws in the top."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from planbuild.core.geometry import Axis, Box, Face, Span1
from planbuild.joints.base import Site
from planbuild.joints.buttons.places import Rail
from planbuild.joints.buttons.sizes import Sizes
from planbuild.joints.copies import Struck, carried
from planbuild.joints.screws import Screw
from planbuild.joints.spacing import Spacing
from planbuild.joints.touching import crossed_width
from planbuild.records.features import Groove, Hole, Mate, Rabbet
from planbuild.records.piece import Contact, Copy, Part, Stock

DOWN = (0.0, 0.0, -1.0)


@dataclass(frozen=True)
class Place:
    """One button where it stands: on which rail, the how-manieth along it, and its middle line there."""

    rail: Rail
    number: int
    middle: float
    sizes: Sizes

    @property
    def underside(self) -> float:
        return self.rail.under.patch.z.low

    def out(self, distance: float) -> float:
        """A place that far from the rail's inside face, toward the middle of the top."""
        return self.rail.body.at(self.rail.inside) + self.rail.inside.sign * distance

    def block(self, ends: tuple[float, float], heights: tuple[float, float]) -> Box:
        """The block across the button's width between two distances from the rail and two depths below the top."""
        half = self.sizes.width / 2
        low, high = sorted(self.out(end) for end in ends)
        bottom, top = sorted(self.underside - depth for depth in heights)
        return Box.of(
            {
                self.rail.along: Span1(self.middle - half, self.middle + half),
                self.rail.inside.axis: Span1(low, high),
                Axis.BOTTOM_TOP: Span1(bottom, top),
            }
        )

    @property
    def box(self) -> Box:
        sizes = self.sizes
        return self.block((-sizes.engages, sizes.length - sizes.engages), (sizes.pull, sizes.pull + sizes.thickness))

    @property
    def pose(self) -> tuple[Face, Face]:
        """The faces of its tongue and of its top."""
        return self.rail.inside.opposite, Face.TOP

    def screw(self, depth: float) -> tuple[float, float, float]:
        """A point on the middle line of the screw, so far below the underside of the top."""
        reach = self.out(self.sizes.screw_from_tip - self.sizes.engages)
        places = {self.rail.along: self.middle, self.rail.inside.axis: reach, Axis.BOTTOM_TOP: self.underside - depth}
        x, y, z = (places[axis] for axis in Axis)
        return x, y, z


def places(rails: Sequence[Rail], spacing: Spacing, sizes: Sizes) -> list[Place]:
    """Every button, rail by rail, along each from its low end."""
    return [
        Place(rail, number, middle, sizes)
        for rail in rails
        for number, middle in enumerate(spacing.places(rail.body.along(rail.along)), start=1)
    ]


# ---------------------------------------------------------------- the button


def button_part(id: str, joint: str, stock: Stock, found: Sequence[Place], screw: Screw, site: Site) -> Part:
    """One kind of button, drawn at the first place; the others are the same one turned about the vertical."""
    first = found[0]
    motions = [carried(first.box, first.pose, each.box, each.pose) for each in found]
    return Part(
        id=id,
        mark="",
        name="button",
        origin=first.rail.span,
        stock=stock.id,
        grain=first.rail.inside.axis,
        face=Face.TOP,
        edge=first.rail.along.low,
        body=first.box,
        features=(_tongue(joint, first), _clearance(joint, first, screw)),
        copies=tuple(Copy(str(number), motion) for number, motion in enumerate(motions, start=1)),
        rough_length=site.practice.rough_length,
        rough_width=site.practice.rough_width,
        made_by=joint,
        why="its grain runs along it, so that the tongue does not break off",
    )


def _tongue(joint: str, first: Place) -> Rabbet:
    sizes, (tip, top) = first.sizes, first.pose
    step = first.block((-sizes.engages, sizes.room), (sizes.pull, sizes.upper_wall))
    why = "the tongue that is left presses up in the groove"
    return Rabbet(f"{joint}.tongue", first.rail.span, joint, why, (top, tip), step)


def _clearance(joint: str, first: Place, screw: Screw) -> Hole:
    return Hole(
        id=f"{joint}.screw",
        origin=first.rail.span,
        joint=joint,
        why="the thread passes free, so that the head draws the button up",
        face=Face.BOTTOM,
        centre=first.screw(first.sizes.pull + first.sizes.thickness),
        diameter=screw.clearance,
        depth=None,
        purpose="clearance",
        gauge=screw.gauge,
    )


# ---------------------------------------------------------------- rails and top


def struck(joint: str, button: str, found: Sequence[Place], screw: Screw, depth: float) -> list[Struck]:
    """The groove of each rail, once for each button in it, and the pilot hole above each button."""
    cuts = []
    for number, place in enumerate(found):
        rail, span = place.rail, place.rail.span
        mate = (button, number)
        cuts.append(Struck(rail.board, rail.copy, _groove(joint, button, place, number), ("groove",), mate, span))
        words = (rail.board.id, rail.board.copies[rail.copy].hand, str(place.number))
        cuts.append(Struck(rail.under.board, rail.under.copy, _pilot(joint, place, screw, depth), words, None, span))
    return cuts


def _groove(joint: str, button: str, place: Place, number: int) -> Groove:
    sizes, rail = place.sizes, place.rail
    void = place.block((-sizes.groove_depth, 0.0), (sizes.upper_wall, sizes.lower_wall))
    why = "takes the tongues of the buttons and lets them slide"
    void = void.with_span(rail.along, rail.body.along(rail.along))
    return Groove("", rail.span, joint, why, rail.inside, void, Mate(button, (number,)))


def _pilot(joint: str, place: Place, screw: Screw, depth: float) -> Hole:
    return Hole(
        id="",
        origin=place.rail.span,
        joint=joint,
        why="",
        face=Face.BOTTOM,
        centre=place.screw(0.0),
        diameter=screw.pilot,
        depth=depth,
        purpose="pilot",
        gauge=screw.gauge,
    )


def contacts(button: str, rails: Sequence[Rail], found: Sequence[Place]) -> tuple[Contact, ...]:
    """The top comes down on the rails; then each button goes home in its groove and bears against its upper wall."""
    made = []
    for rail in rails:
        width = crossed_width(rail.under.patch, Axis.BOTTOM_TOP, rail.under.grain, rail.along)
        made.append(
            Contact((rail.under.board.id, rail.under.copy), (rail.board.id, rail.copy), DOWN, rail.under.patch, width, 0.0)
        )
    for number, place in enumerate(found):
        rail, wall = place.rail, place.sizes.upper_wall
        bears = place.block((-place.sizes.engages, 0.0), (wall, wall))
        made.append(Contact((button, number), (rail.board.id, rail.copy), rail.inside.opposite.normal, bears, 0.0, 0.0))
    return tuple(made)
