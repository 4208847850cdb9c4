"""Plates: a top held down by small metal plates, let into the rails or hooked into a slot, on which it can move."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import ClassVar

from planbuild.core.geometry import Axis
from planbuild.joints.base import Chosen, Family, Joined, Site
from planbuild.joints.buttons.cutting import DOWN
from planbuild.joints.buttons.places import MOST, Rail, find_rails
from planbuild.joints.commons import Commons
from planbuild.joints.copies import settled
from planbuild.joints.faults import refuse
from planbuild.joints.plates.fields import PlatesSaid
from planbuild.joints.plates.forms import CLIP, EIGHT, Form, form_of, struck
from planbuild.joints.plates.places import Place, places
from planbuild.joints.proportions import length_rule, used, used_practice
from planbuild.joints.screw_fields import span_of_item
from planbuild.joints.screws import Screw, depth_of, drill_words, is_dense, screw_into, screw_words
from planbuild.joints.slotted import unglued
from planbuild.joints.spacing import Spacing, find_spacing
from planbuild.joints.touching import crossed_width
from planbuild.records.design import JointSaid, Said
from planbuild.records.piece import Contact, Item, Joint

NAME = "plates"


@dataclass(frozen=True)
class _Decided:
    """All that was decided of one joint.  `pilot` is the depth of the screw in the top, mm."""

    item: Item
    form: Form
    places: list[Place]
    screw: Screw
    pilot: float
    defaults: tuple[str, ...]


class Plates:
    """The kind: a top on figure-eight plates or clips."""

    name = NAME
    family = Family.MEETING
    said: ClassVar[type[JointSaid]] = PlatesSaid

    def join(self, id: str, said: PlatesSaid, site: Site) -> Joined | None:
        """Reports `joint-glue`, `joint-plate`, `joint-spacing`, `joint-wall`, `joint-movement`, `joint-cross-grain`,
        `joint-no-mate`, `joint-no-inside`, and what screws report."""
        common, decided = unglued(said, NAME, site), _decide(id, said, site)
        if common is None or decided is None:
            return None
        cuts = struck(id, decided.form, decided.places, decided.screw, decided.pilot)
        return Joined(_told(id, said, common, decided, site), settled(id, cuts, site))


def _decide(id: str, said: PlatesSaid, site: Site) -> _Decided | None:
    """Rails, plates, places and screw; None after reporting."""
    top, item, spacing = site.words.part(said.top), site.words.item(said.item, id), _spacing(said, site)
    rails = find_rails(said.on, top, site) if top else None
    span = span_of_item(said.item).span
    if top is None or item is None or not rails or spacing is None or not _is_plate(item, said, site):
        return None
    form, found, screw = form_of(item, site), places(rails, spacing), _screw(item, top, rails, site)
    thick = top.board.body.size(top.board.face.axis)
    pilot = depth_of(screw, form.thickness, thick, top.board.id, span, site) if screw else None
    if screw is None or pilot is None or _many(found, said, site) or not form.fits(found, screw, span, site):
        return None
    return _Decided(item, form, found, screw, pilot, spacing.defaults)


def _is_plate(item: Item, said: PlatesSaid, site: Site) -> bool:
    """False after reporting `joint-plate`: another thing, or one that does not say its screws."""
    span = span_of_item(said.item).span
    if item.kind not in (EIGHT, CLIP):
        refuse(site, "joint-plate", span, f'"{item.id}" is a {item.kind}.', f"`item: {EIGHT}` or `item: {CLIP}`")
        return False
    if not isinstance(dict(item.fields).get("screws"), str):
        refuse(site, "joint-plate", span, f'"{item.id}" does not say its screws.', "`screws`: the wood screw that holds it")
        return False
    return True


def _screw(item: Item, top: Chosen, rails: Sequence[Rail], site: Site) -> Screw | None:
    """The screws of the plates, with the drills for the densest wood that they go into."""
    named = Said(str(dict(item.fields)["screws"]), item.origin)
    bought, woods = site.words.item(named), [top.board.stock, *(each.board.stock for each in rails)]
    wood = next((each for each in woods if is_dense(each)), woods[0])
    return screw_into(bought, wood, item.origin, site) if bought else None


def _spacing(said: PlatesSaid, site: Site) -> Spacing | None:
    corner = (used("Plates from the corners", "slot_corner", site.ruler),)
    plain = Spacing(length_rule("slot_corner", site.ruler), site.practice.button_spacing, defaults=corner)
    default = used_practice("Distance of the plates", "button_spacing")
    return find_spacing(said.spacing, said.count, plain, default, "plates", site)


def _many(found: Sequence[Place], said: PlatesSaid, site: Site) -> bool:
    if len(found) <= MOST:
        return False
    at = said.spacing or said.count or said.kind
    refuse(site, "joint-spacing", at.span, f"That makes {len(found)} plates.", f"at most {MOST}", "Use fewer.")
    return True


# ---------------------------------------------------------------- what is told


def _told(id: str, said: PlatesSaid, common: Commons, decided: _Decided, site: Site) -> Joint:
    screw, count = decided.screw, len(decided.places)
    clip = decided.item.kind == CLIP
    bits = () if clip else (f"Forstner bit {site.ruler.plain(_wide(decided))}",)
    return Joint(
        id=id,
        kind=NAME,
        name=common.name,
        origin=said.origin,
        contacts=_contacts(decided.places),
        glue=False,
        fit=common.fit if said.fit else "loose",
        numbers=_numbers(decided),
        operations=("groove" if clip else "bore", "screw"),
        tools=(drill_words(screw.pilot, site), *bits, "screwdriver"),
        hardware=((decided.item.id, count), (screw.item.id, count * decided.form.screws_each)),
        defaults=decided.defaults,
        note=common.note,
        why=common.why,
    )


def _wide(decided: _Decided) -> float:
    return float(dict(decided.form.numbers())["recess width"])


def _numbers(decided: _Decided) -> tuple[tuple[str, float | int | str], ...]:
    screw, form = decided.screw, decided.form
    named = [
        ("plates", len(decided.places)),
        *form.numbers(),
        ("screw in the top from the inside of the rail", form.top_hole()),
        ("screw", screw_words(screw.gauge)),
        ("pilot hole", screw.pilot),
        ("pilot hole depth in the top", decided.pilot),
        *_distances(decided.places),
    ]
    return tuple((name, round(value, 6) if isinstance(value, float) else value) for name, value in named)


def _distances(found: Sequence[Place]) -> list[tuple[str, float]]:
    """For each part, how far its first plate is from the end, and the next from the first."""
    named: list[tuple[str, float]] = []
    for part in dict.fromkeys(place.rail.board.id for place in found):
        rail = next(place.rail for place in found if place.rail.board.id == part)
        middles = [place.middle for place in found if place.rail == rail]
        named.append((f"first plate from the end, {rail.board.name}", middles[0] - rail.body.along(rail.along).low))
        named += [(f"plates apart, {rail.board.name}", middles[1] - middles[0])] if len(middles) > 1 else []
    return named


def _contacts(found: Sequence[Place]) -> tuple[Contact, ...]:
    """The top comes down on the rails."""
    made = []
    for rail in dict.fromkeys(place.rail for place in found):
        width = crossed_width(rail.under.patch, Axis.BOTTOM_TOP, rail.under.grain, rail.along)
        keys = (rail.under.board.id, rail.under.copy), (rail.board.id, rail.copy)
        made.append(Contact(*keys, DOWN, rail.under.patch, width, 0.0))
    return tuple(made)
