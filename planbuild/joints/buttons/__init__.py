"""Buttons: small blocks, screwed to a top, whose tongues slide in a groove of the rails.

They hold the top down and let it move across its grain.  The rails are found, the button is sized by how much
the top moves, and then rails, top and button are cut.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from planbuild.joints.base import Chosen, Family, Joined, Site
from planbuild.joints.buttons.cutting import Place, button_part, contacts, places, struck
from planbuild.joints.buttons.fields import ButtonsSaid
from planbuild.joints.buttons.places import find_rails, refuse_crowded
from planbuild.joints.buttons.sizes import size_up
from planbuild.joints.buttons.told import defaults, numbers, tools
from planbuild.joints.commons import Commons, commons, free_id, glue_word
from planbuild.joints.copies import settled
from planbuild.joints.faults import refuse
from planbuild.joints.proportions import length_rule, used, used_practice
from planbuild.joints.screws import Screw, depth_of, screw_into
from planbuild.joints.spacing import Spacing, find_spacing
from planbuild.records.design import JointSaid
from planbuild.records.piece import Joint, Stock

NAME = "buttons"


@dataclass(frozen=True)
class _Decided:
    """All that was decided of one joint.  `pilot` is the depth of the screw in the top, mm."""

    stock: Stock
    places: list[Place]
    screw: Screw
    pilot: float
    button: str
    defaults: tuple[str, ...]


class Buttons:
    """The kind: a top is held down on rails and stays free to move."""

    name = NAME
    family = Family.MEETING
    said: ClassVar[type[JointSaid]] = ButtonsSaid

    def join(self, id: str, said: ButtonsSaid, site: Site) -> Joined | None:
        common, decided = _unglued(said, site), _decide(id, said, site)
        if common is None or decided is None:
            return None
        cuts = struck(id, decided.button, decided.places, decided.screw, decided.pilot)
        features = settled(id, cuts, site)
        button = button_part(decided.button, id, decided.stock, decided.places, decided.screw, site)
        return Joined(_told(id, said, common, decided, site), features, (button,))


def _unglued(said: ButtonsSaid, site: Site) -> Commons | None:
    common = commons(said, NAME, glued=False, site=site)
    if common is None or not common.glue:
        return common
    message = "Glued buttons would hold the top fast, and it would split."
    refuse(site, "joint-glue", glue_word(said).span, message, "no glue", "Leave `glue` out.")
    return None


def _decide(id: str, said: ButtonsSaid, site: Site) -> _Decided | None:
    """Rails, sizes, places and screw; None after reporting."""
    top, stock, item = site.words.part(said.top), site.words.stock(said.stock), site.words.item(said.screw)
    rails, spacing = find_rails(said.on, top, site) if top else None, _spacing(said, site)
    groove = site.words.length(said.groove) if said.groove else None
    if top is None or stock is None or item is None or not rails or spacing is None or (said.groove and groove is None):
        return None
    sizes, screw = size_up(stock, groove, rails, site), screw_into(item, top.board.stock, said.screw.span, site)
    pilot = _pilot_depth(screw, stock, top, said, site) if screw else None
    if sizes is None or screw is None or pilot is None or refuse_crowded(said, rails, spacing, sizes.width, site):
        return None
    lines = (*spacing.defaults, *defaults(said, site))
    return _Decided(stock, places(rails, spacing, sizes), screw, pilot, free_id("button", id, site), lines)


def _spacing(said: ButtonsSaid, site: Site) -> Spacing | None:
    corner = (used("Buttons from the corners", "button_corner", site.ruler),)
    plain = Spacing(length_rule("button_corner", site.ruler), site.practice.button_spacing, defaults=corner)
    default = used_practice("Distance of the buttons", "button_spacing")
    return find_spacing(said.spacing, said.count, plain, default, "buttons", site)


def _pilot_depth(screw: Screw, stock: Stock, top: Chosen, said: ButtonsSaid, site: Site) -> float | None:
    thick = top.board.body.size(top.board.face.axis)
    return depth_of(screw, stock.thickness, thick, top.board.id, said.screw.span, site)


def _told(id: str, said: ButtonsSaid, common: Commons, decided: _Decided, site: Site) -> Joint:
    rails = list(dict.fromkeys(place.rail for place in decided.places))
    return Joint(
        id=id,
        kind=NAME,
        name=common.name,
        origin=said.origin,
        contacts=contacts(decided.button, rails, decided.places),
        glue=False,
        fit=common.fit,
        numbers=numbers(decided.places, decided.screw, decided.pilot),
        operations=("groove", "rabbet", "bore", "screw"),
        tools=tools(decided.places[0].sizes, decided.screw, site),
        makes=(decided.button,),
        hardware=((decided.screw.item.id, len(decided.places)),),
        defaults=decided.defaults,
        note=common.note,
        why=common.why,
    )
