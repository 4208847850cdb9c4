"""What screws can do wrong: too many or too close, too near an edge, or holding wood fast that moves."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from planbuild.core.diagnostics import Span
from planbuild.core.geometry import TINY, Axis, Box
from planbuild.joints.base import Site, Standing
from planbuild.joints.faults import apart, refuse, warn
from planbuild.joints.proportions import length_rule, movement_coefficient, rule, share_rule
from planbuild.joints.screw_fields import ScrewFields
from planbuild.joints.screw_rows import Place, Seam, Seat, clearance, pilot
from planbuild.joints.screws import Screw
from planbuild.joints.spacing import Spacing

MOST = 200
"""Screws of one joint (a choice of ours)."""


MOST_ROWS = 6
"""Rows on one seam (a choice of ours)."""


def rows_of(said: ScrewFields, site: Site) -> int | None:
    """How many rows stand on each seam; None after reporting `joint-spacing`."""
    rows = site.words.count(said.rows) if said.rows else 1
    if rows is None or said.rows is None or 1 <= rows <= MOST_ROWS:
        return rows
    refuse(site, "joint-spacing", said.rows.span, f"{rows} rows of screws on one seam.", f"1 to {MOST_ROWS}")
    return None


def refuse_crowded(seams: Sequence[Seam], spacing: Spacing, rows: int, screw: Screw, span: Span, site: Site) -> bool:
    """True after reporting `joint-spacing`: more screws than anyone drives, or so close that the wood splits."""
    rhythms = [spacing.within(each.patch.along(each.run)).rhythm(each.patch.along(each.run)) for each in seams]
    many, least = rows * sum(intervals + 1 for intervals, _ in rhythms), share_rule("screw_apart", site.ruler) * screw.shank
    beside = [each.patch.size(each.across) / rows for each in seams if rows > 1]
    step = min((step for step in (*(step for intervals, step in rhythms if intervals), *beside)), default=least)
    if many > MOST:
        refuse(site, "joint-spacing", span, f"That makes {many} screws.", f"at most {MOST}", "Use fewer.")
    elif step < least - TINY:
        message = f"The screws would be {apart(step, site)} apart, and the wood splits from one to the next."
        source = rule("screw_apart", site.ruler).source
        refuse(site, "joint-spacing", span, message, f"{site.ruler.plain(least)} or more", "Use fewer.", source)
    return many > MOST or step < least - TINY


def refuse_at_edges(joint: str, places: Iterable[Place], screw: Screw, seat: Seat, site: Site) -> bool:
    """True after reporting `joint-screw-edge`, once for each two parts: a hole with too little wood beside it."""
    told: set[tuple[str, str]] = set()
    for each in places:
        seam = each.seam
        pair = (seam.outer.board.id, seam.inner.board.id)
        hole = clearance(joint, each, screw, seat, "")
        # A countersink may come near an edge, but not out of it.
        sunk = seat.countersink[0] - 2 * length_rule("screw_wood", site.ruler) if seat.countersink else 0.0
        widest = max(screw.clearance, seat.counterbore[0] if seat.counterbore else 0.0, sunk)
        thread = pilot(joint, each, screw).reach(screw.pilot)
        if pair in told:
            continue
        fits = _wood_beside(hole.reach(widest), seam.outer, each, site) and _wood_beside(thread, seam.inner, each, site)
        told |= set() if fits else {pair}
    return bool(told)


def _wood_beside(reach: Box, member: Standing, place: Place, site: Site) -> bool:
    least, figure, seam, body = length_rule("screw_wood", site.ruler), site.ruler.plain, place.seam, member.body
    for axis in seam.way.axis.others:
        left = min(reach.along(axis).low - body.along(axis).low, body.along(axis).high - reach.along(axis).high)
        if left > least - TINY:
            continue
        what = "The slot" if place.slot and place.slot.along is axis else "A screw hole"
        side = "runs out at the side" if left <= TINY else f"leaves {apart(left, site)} of wood beside it"
        message = f'{what} in "{member.board.id}" {side} ({figure(body.size(axis))} {axis.words}).'
        hint = "Use a thinner screw, or make the part wider there."
        if what == "A screw hole" and axis is seam.run:
            hint = "Give a larger `edge`."
        source = rule("screw_wood", site.ruler).source
        refuse(site, "joint-screw-edge", seam.span, message, f"{figure(least)} of wood or more", hint, source)
        return False
    return True


def warn_of_few(seams: Sequence[Seam], places: Sequence[Place], glued: bool, site: Site) -> None:
    """`joint-screws-few`: two parts held by one screw turn about it."""
    counts: dict[tuple[str, str], list[int]] = {}
    for seam in seams:
        held = [each for each in places if each.seam == seam]
        long = max(seam.patch.size(axis) for axis in seam.way.axis.others)
        if len(held) == 1 and not glued and long > length_rule("screw_alone", site.ruler):
            counts.setdefault((seam.outer.board.id, seam.inner.board.id), []).append(1)
    for (outer, inner), _ in counts.items():
        message = f'One screw alone holds "{outer}" to "{inner}": it can turn about it.'
        warn(site, "joint-screws-few", seams[0].span, message, "two or more", "Raise `count`.", "common practice")


def refuse_fast(places: Sequence[Place], span: Span, site: Site) -> bool:
    """True after reporting `joint-cross-grain`: screwed fast over more of its width than can move.

    Source of the formula: Wood Handbook (USDA Forest Products Laboratory), equation 13-2.
    """
    dry, damp, _ = site.moisture
    found = False
    for member in _members(places):
        coefficient = movement_coefficient(member.board.stock) or 0.0
        wide, other = max(
            ((held_across(places, member, axis), _other(places, member)) for axis in _in_plane(places, member)),
            key=lambda each: each[0],
        )
        moves = wide * coefficient * (damp - dry)
        if moves > length_rule("screw_moves", site.ruler) + TINY and not found:
            figure, found = site.ruler.plain, True
            message = (
                f'"{member.board.id}" is screwed fast to "{other}" across its grain, {figure(wide)} from the first screw to the '
                f"last; it moves {figure(moves)} there in a year, and splits."
            )
            hint = "Use `slotted screws` or a `batten`."
            source = "Wood Handbook (USDA Forest Products Laboratory), equation 13-2"
            refuse(site, "joint-cross-grain", span, message, "screws that let the wood move", hint, source)
    return found


def _members(places: Iterable[Place]) -> list[Standing]:
    keyed: dict[tuple[str, int], Standing] = {}
    for each in places:
        for member in (each.seam.outer, each.seam.inner):
            keyed.setdefault(member.key, member)
    return list(keyed.values())


def _held(places: Iterable[Place], member: Standing) -> list[tuple[Place, Standing]]:
    """The screws of a member, each with what it holds it to."""
    return [
        (each, each.seam.inner if each.seam.outer.key == member.key else each.seam.outer)
        for each in places
        if member.key in (each.seam.outer.key, each.seam.inner.key)
    ]


def _in_plane(places: Sequence[Place], member: Standing) -> list[Axis]:
    faces = {each.seam.way.axis for each, _ in _held(places, member)}
    return [axis for axis in Axis if axis is not member.grain and any(axis is not face for face in faces)]


def _other(places: Sequence[Place], member: Standing) -> str:
    return _held(places, member)[0][1].board.id


def held_across(places: Sequence[Place], member: Standing, axis: Axis) -> float:
    """How far apart along an axis a member is held by what does not move with it.

    What runs along the axis does not move: each of its screws counts.  What moves along it too counts once, by the
    middle of its screws, since the frame holds it at its place (a heuristic).
    """
    spots: list[float] = []
    moving: dict[tuple[str, int], list[float]] = {}
    for place, other in _held(places, member):
        if place.seam.way.axis is axis:
            continue
        if other.grain is axis:
            spots.append(place.at(axis))
        else:
            moving.setdefault(other.key, []).append(place.at(axis))
    spots += [sum(each) / len(each) for each in moving.values()]
    return max(spots) - min(spots) if spots else 0.0


