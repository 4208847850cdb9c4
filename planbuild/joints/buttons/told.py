"""What the pages say of buttons: their sizes by name, the rules that were used, the tools."""

from __future__ import annotations

from collections.abc import Sequence

from planbuild.joints.base import Site
from planbuild.joints.buttons.cutting import Place
from planbuild.joints.buttons.fields import ButtonsSaid
from planbuild.joints.buttons.sizes import Sizes
from planbuild.joints.proportions import used
from planbuild.joints.screws import Screw, drill_words

Number = tuple[str, float | int | str]


def numbers(found: Sequence[Place], screw: Screw, pilot: float) -> tuple[Number, ...]:
    """Sizes by name, mm."""
    sizes = found[0].sizes
    named: list[Number] = [
        ("buttons", len(found)),
        ("groove width", sizes.groove),
        ("groove depth", sizes.groove_depth),
        ("groove below the top edge of the rail", sizes.upper_wall),
        ("tongue length", sizes.tongue_length),
        ("tongue thickness", sizes.tongue_thickness),
        ("tongue in the groove", sizes.engages),
        ("room before the shoulder and behind the tongue", sizes.room),
        ("the top moves between its outermost screws, dry to damp", sizes.swell + sizes.shrink),
        ("gap between button and top", sizes.pull),
        *_distances(found),
        ("pilot hole", screw.pilot),
        ("pilot hole depth", pilot),
        ("clearance hole", screw.clearance),
    ]
    return tuple((name, round(value, 6) if isinstance(value, float) else value) for name, value in named)


def _distances(found: Sequence[Place]) -> list[Number]:
    """For each part, how far its first button is from the end, and the next from the first."""
    named: list[Number] = []
    for part in dict.fromkeys(place.rail.board.id for place in found):
        rail = next(place.rail for place in found if place.rail.board.id == part)
        middles = [place.middle for place in found if place.rail == rail]
        named.append((f"first button from the end, {rail.board.name}", middles[0] - rail.body.along(rail.along).low))
        if len(middles) > 1:
            named.append((f"buttons apart, {rail.board.name}", middles[1] - middles[0]))
    return named


def defaults(said: ButtonsSaid, site: Site) -> tuple[str, ...]:
    """The printable lines of the rules that were used."""
    ruler = site.ruler
    return (
        used("Length of a button", "button_length", ruler),
        used("Width of a button", "button_width", ruler),
        *(() if said.groove else (used("Width of the groove", "button_groove", ruler),)),
        used("Tongue thinner than the groove", "button_slack", ruler),
        used("Tongue in the groove", "button_engages", ruler),
        used("Room before the shoulder and behind the tongue", "button_gap", ruler),
        used("Gap between button and top", "button_pull", ruler),
    )


def tools(sizes: Sizes, screw: Screw, site: Site) -> tuple[str, ...]:
    cutter = f"straight cutter {site.ruler.plain(sizes.groove)}"
    drills = (drill_words(size, site) for size in (screw.pilot, screw.clearance))
    return ("router with edge guide", cutter, "tenon saw", *drills, "screwdriver")
