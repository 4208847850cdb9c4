"""The two forms of plates: figure-eights in a round recess, clips whose tongue stands in a slot of the rail.

Each says what it cuts in rail and top, and whether the top can move on it.  Lengths in mm.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from planbuild.core.diagnostics import Span
from planbuild.core.geometry import TINY, Face
from planbuild.joints.base import Site
from planbuild.joints.copies import Struck
from planbuild.joints.faults import refuse
from planbuild.joints.plates.places import Place, moving
from planbuild.joints.proportions import length_rule, movement_coefficient, share_rule
from planbuild.joints.screws import Screw, depth_of
from planbuild.records.features import Groove, Hole
from planbuild.records.piece import Item

EIGHT, CLIP = "figure-eight plate", "table clip"
_SOURCE = "Wood Handbook (USDA Forest Products Laboratory), equation 13-2"

Number = tuple[str, float | int | str]


@dataclass(frozen=True)
class FigureEight:
    """Two discs in one: the one lies in a recess of the rail, open at its inside, and turns there with the top."""

    diameter: float
    centres: float
    thickness: float
    out: float
    screws_each: int = 2

    @property
    def inset(self) -> float:
        """From the inside of the rail to the middle of the recess."""
        return self.diameter / 2 - self.out

    def top_hole(self) -> float:
        return self.centres - self.inset

    def fits(self, places: Sequence[Place], screw: Screw, span: Span, site: Site) -> bool:
        """False after reporting `joint-wall`, `hardware-screw-long`, `joint-cross-grain`, `joint-movement`."""
        figure, wall = site.ruler.plain, site.practice.wall
        for place in places:
            thick = place.rail.body.size(place.rail.inside.axis)
            if self.inset < self.diameter / 8 or self.inset + self.diameter / 2 > thick - wall + TINY:
                message = f'The recess for the plates leaves too little of "{place.rail.board.id}", {figure(thick)} thick.'
                least = self.inset + self.diameter / 2 + wall
                refuse(site, "joint-wall", span, message, f"{figure(least)} or more", "Use smaller plates, or a thicker rail.")
                return False
            high = place.rail.body.size(Face.TOP.axis)
            if depth_of(screw, self.thickness, high - self.thickness, place.rail.board.id, span, site) is None:
                return False
        return self._swings(places, span, site)

    def _swings(self, places: Sequence[Place], span: Span, site: Site) -> bool:
        """It turns along its rail and gives nothing across it."""
        top = places[0].rail.under.board
        coefficient, (dry, damp, workshop) = movement_coefficient(top.stock) or 0.0, site.moisture
        across = [each for each in places if moving(top, each.rail) is each.rail.inside.axis]
        held = [each.rail.body.at(each.rail.inside) for each in across]
        moves = (max(held) - min(held)) * coefficient * (damp - dry) if held else 0.0
        figure = site.ruler.plain
        if moves > length_rule("screw_moves", site.ruler) + TINY:
            message = (
                f'"{top.id}" moves {figure(moves)} between the rails along its grain; figure-eight plates turn along their '
                f'rail and give nothing across it: on "{across[0].rail.board.id}" they hold it fast.'
            )
            hint = "Put them on the rails across its grain only; use clips, buttons or slotted screws on the others."
            refuse(site, "joint-cross-grain", span, message, "plates that let the wood move", hint, _SOURCE)
            return False
        others = [each for each in places if each not in across]
        away = [abs(each.middle - top.standing(each.rail.under.copy).along(each.rail.along).middle) for each in others]
        sways = max(away, default=0.0) * coefficient * max(damp - workshop, workshop - dry)
        if sways > self.centres * share_rule("plate_swing", site.ruler) + TINY:
            message = f'"{top.id}" moves {figure(sways)} at the outermost plate, more than a plate can swing.'
            hint = "Use longer plates, or set them nearer to the middle."
            refuse(site, "joint-movement", span, message, f"at most {figure(self.centres / 2)}", hint, _SOURCE)
            return False
        return True

    def in_rail(self, joint: str, place: Place, screw: Screw) -> Hole:
        return Hole(
            id="",
            origin=place.rail.span,
            joint=joint,
            why="takes a plate, flush, that can turn; open at the inside of the rail",
            face=Face.TOP,
            centre=place.point(-self.inset),
            diameter=screw.pilot,
            depth=screw.length,
            purpose="plate",
            counterbore=(self.diameter, self.thickness),
            gauge=screw.gauge,
            open_at=place.rail.inside,
        )

    def numbers(self) -> tuple[Number, ...]:
        return (
            ("recess width", self.diameter),
            ("recess depth", self.thickness),
            ("middle of the recess from the inside of the rail", self.inset),
            ("screws of a plate apart", self.centres),
        )


@dataclass(frozen=True)
class Clip:
    """A bent plate: its tongue stands half in a slot along the rail, its foot is screwed to the top."""

    thickness: float
    slot: float
    drop: float
    reach: float
    out: float
    screws_each: int = 1

    def top_hole(self) -> float:
        return self.out

    def fits(self, places: Sequence[Place], screw: Screw, span: Span, site: Site) -> bool:
        """False after reporting `joint-wall`, `joint-movement`."""
        figure, wall = site.ruler.plain, site.practice.wall
        for place in places:
            thick, high = place.rail.body.size(place.rail.inside.axis), place.rail.body.size(Face.TOP.axis)
            if self.reach > thick / 2 + TINY or self.drop + self.slot + wall > high + TINY:
                message = f'The slot for the clips leaves too little of "{place.rail.board.id}".'
                expected = f"at most {figure(thick / 2)} deep, and {figure(wall)} of wood below it"
                refuse(site, "joint-wall", span, message, expected, "Use smaller clips, or a larger rail.")
                return False
        return self._holds(places, span, site)

    def _holds(self, places: Sequence[Place], span: Span, site: Site) -> bool:
        """Half of the tongue must take the whole swelling, and still hold after the whole shrinking."""
        top = places[0].rail.under.board
        coefficient, (dry, damp, workshop) = movement_coefficient(top.stock) or 0.0, site.moisture
        held = [
            each.rail.body.at(each.rail.inside) + each.rail.inside.sign * self.out
            for each in places
            if moving(top, each.rail) is each.rail.inside.axis
        ]
        wide, figure = (max(held) - min(held) if held else 0.0), site.ruler.plain
        swells, shrinks = wide * coefficient * (damp - workshop), wide * coefficient * (workshop - dry)
        need = max(swells, shrinks + length_rule("button_holds", site.ruler) if held and coefficient else 0.0)
        if need <= self.reach / 2 + TINY:
            return True
        moves = f"swells {figure(swells)} and shrinks {figure(shrinks)}"
        message = f'"{top.id}" {moves}: tongues of {figure(self.reach)} are too short.'
        refuse(site, "joint-movement", span, message, f"a reach of {figure(2 * need)} or more", "Use longer clips.", _SOURCE)
        return False

    def in_rail(self, joint: str, place: Place, screw: Screw) -> Groove:
        void = place.channel(self.reach, (self.drop, self.drop + self.slot))
        return Groove("", place.rail.span, joint, "the tongues of the clips slide in it", place.rail.inside, void)

    def numbers(self) -> tuple[Number, ...]:
        return (
            ("slot width", self.slot),
            ("slot depth", self.reach),
            ("slot below the top edge of the rail", self.drop),
            ("tongue in the slot", self.reach / 2),
        )


Form = FigureEight | Clip


def form_of(item: Item, site: Site) -> Form:
    """The form of an item of one of the two kinds."""
    fields = {name: value for name, value in item.fields if isinstance(value, float)}
    if item.kind == EIGHT:
        return FigureEight(fields["diameter"], fields["centres"], fields["thickness"], length_rule("plate_out", site.ruler))
    return Clip(fields["thickness"], fields["slot"], fields["drop"], fields["reach"], length_rule("clip_screw", site.ruler))


def struck(joint: str, form: Form, places: Sequence[Place], screw: Screw, depth: float) -> Iterator[Struck]:
    """What each plate wants in its rail, and the pilot hole in the top."""
    for place in places:
        rail, span = place.rail, place.rail.span
        hand = rail.board.copies[rail.copy].hand
        yield Struck(rail.board, rail.copy, form.in_rail(joint, place, screw), ("plate", hand, str(place.number)), None, span)
        pilot = Hole(
            "", span, joint, "", Face.BOTTOM, place.point(form.top_hole()), screw.pilot, depth, "pilot", gauge=screw.gauge
        )
        yield Struck(rail.under.board, rail.under.copy, pilot, (rail.board.id, hand, str(place.number)), None, span)

