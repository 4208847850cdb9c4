"""The ends that get a tenon: they must meet long grain."""

from __future__ import annotations

from planbuild.joints.base import Site
from planbuild.joints.faults import refuse
from planbuild.joints.mortise_and_tenon.fields import MortiseAndTenonSaid
from planbuild.joints.sides import Side, ends, find_sides


def find_ends(said: MortiseAndTenonSaid, site: Site) -> list[Side] | None:
    """Every end that gets a tenon, in the order said; None after reporting what is wrong with any."""
    found = find_sides(said.tenon, said.into, ends, site)
    if found is None:
        return None
    landed = [_lands(end, site) for end in found]
    return found if all(landed) else None


def _lands(end: Side, site: Site) -> bool:
    """The mortised part must have long grain there."""
    if end.mate_grain() is not end.face.axis:
        return True
    message = f'{end.spoken} enters the end grain of "{end.mate.id}"; cheeks glued to end grain do not hold.'
    expected, hint = "a face along the grain of the mate", "Turn the joint round, or use dowels."
    refuse(site, "joint-end-grain", end.span, message, expected, hint)
    return False
