"""Dowels: round pins, bought by the length, in holes bored into both parts square to where they meet."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import ClassVar

from planbuild.core.geometry import TINY, Axis, Box, Face, Vec
from planbuild.joints.base import Board, Family, Joined, Site
from planbuild.joints.commons import commons, free_id
from planbuild.joints.copies import Struck, settled
from planbuild.joints.faults import refuse, warn
from planbuild.joints.proportions import length_rule, nearest_chisel, rule, share_rule, used, used_practice
from planbuild.joints.sides import Side, all_round, ends, find_sides
from planbuild.joints.spacing import Spacing, find_spacing
from planbuild.joints.touching import crossed_width
from planbuild.records.design import JointSaid, Model, Said
from planbuild.records.features import Hole
from planbuild.records.piece import Contact, Item, Joint


class DowelFields(Model):
    """The dowels of another joint; `depth` is that of each dowel in each part."""

    diameter: Said | None = None
    depth: Said | None = None
    count: Said | None = None
    spacing: Said | None = None


class DowelSaid(JointSaid):
    """`part` meets its mate with its ends, or with the side that is named; `depth` is that of each dowel in each part."""

    part: tuple[Said, ...]
    into: tuple[Said, ...] = ()
    diameter: Said | None = None
    depth: Said | None = None
    count: Said | None = None
    spacing: Said | None = None


@dataclass(frozen=True)
class _Doweled:
    """The dowels of one side: where they stand on the plane where the parts meet, on the drawn copy."""

    side: Side
    places: tuple[Vec, ...]
    diameter: float
    depth: float
    defaults: tuple[str, ...]


class Dowel:
    """The kind: holes in both parts."""

    name = "dowel"
    family = Family.MEETING
    said: ClassVar[type[JointSaid]] = DowelSaid

    def join(self, id: str, said: DowelSaid, site: Site) -> Joined | None:
        """Reports `joint-wall`, `joint-dowel-thick`, `joint-proportion` (warning), `joint-wedges-differ`, and what
        `find_sides`, `find_spacing` and `settled` report."""
        common = commons(said, self.name, glued=True, site=site)
        sides = find_sides(said.part, said.into, all_round if any("." in each.text for each in said.part) else ends, site)
        if common is None or sides is None:
            return None
        found = [_sized(side, said, site) for side in sides]
        made = [each for each in found if each]
        if len(made) < len(found) or not _alike(made, site):
            return None
        first, count = made[0], sum(len(each.places) * len(each.side.homes) for each in made)
        item = _item(id, said, first, site)
        numbers = (("dowels", count), ("dowel diameter", first.diameter), ("depth in each part", first.depth))
        joint = Joint(
            id=id,
            kind=self.name,
            name=common.name,
            origin=said.origin,
            contacts=tuple(contact for each in made for contact in _contacts(each.side)),
            glue=common.glue,
            fit=common.fit,
            numbers=(*numbers, ("hole depth", first.depth + site.practice.mortise_deeper)),
            operations=("bore",),
            tools=(),
            hardware=((item.id, count),),
            defaults=tuple(dict.fromkeys(line for each in made for line in each.defaults)),
            note=common.note,
            why=common.why,
        )
        return Joined(joint, settled(id, _struck(id, made, site), site), buys=(item,))


def doweled(
    id: str, said: JointSaid, part: Sequence[Said], into: Sequence[Said], fields: DowelFields, site: Site
) -> Joined | None:
    """A joint of another kind that is held by dowels: it is a dowel joint."""
    own = {name: getattr(said, name) for name in JointSaid.model_fields}
    sizes = {name: getattr(fields, name) for name in ("diameter", "depth", "count", "spacing")}
    return Dowel().join(id, DowelSaid(**own, **sizes, part=tuple(part), into=tuple(into)), site)


def _item(id: str, said: DowelSaid, made: _Doweled, site: Site) -> Item:
    fields = (("diameter", made.diameter), ("length", 2 * made.depth))
    why = "fluted or grooved, so that glue and air can get out of the holes"
    others = [item for joined in site.joined.values() if joined for item in joined.buys if item.id == "dowel_pin"]
    plain = free_id("dowel_pin", id, site)
    own = plain if all(_same_size(item, made) for item in others) else f"{id}_dowel_pin"
    return Item(own, said.origin, "other", "dowel pin", fields, why)


def _same_size(item: Item, made: _Doweled) -> bool:
    fields = dict(item.fields)
    return _is(fields.get("diameter"), made.diameter) and _is(fields.get("length"), 2 * made.depth)


def _is(field: object, size: float) -> bool:
    return isinstance(field, float) and abs(field - size) < TINY


# ---------------------------------------------------------------- sizes


def _sized(side: Side, said: DowelSaid, site: Site) -> _Doweled | None:
    """None after reporting."""
    patch = side.board.copies[0].motion.inverse.box(side.homes[0].patch)
    first, second = side.face.axis.others
    along, thick = (first, second) if patch.size(first) > patch.size(second) else (second, first)
    defaults: list[str] = []
    diameter = _diameter(said, patch.size(thick), site, defaults)
    if diameter is None or not _goes_in(side, said, diameter, patch.size(thick), site):
        return None
    depth = _depth(side, said, diameter, site, defaults)
    corner = share_rule("dowel_corner", site.ruler) * diameter
    plain = Spacing(corner, length_rule("dowel_apart", site.ruler), count=None if said.spacing else 2)
    spacing = find_spacing(said.spacing, said.count, plain, "Two dowels at each place, one of them cannot turn", "dowels", site)
    if depth is None or spacing is None:
        return None
    middle = {thick: patch.along(thick).middle, side.face.axis: patch.along(side.face.axis).middle}
    points = [_point({**middle, along: at}) for at in spacing.within(patch.along(along)).places(patch.along(along))]
    if len(points) > 1 and spacing.rhythm(patch.along(along))[1] < 2 * diameter - TINY:
        figure = site.ruler.plain
        message = f"{len(points)} dowels of {figure(diameter)} stand too close on {figure(patch.size(along))}."
        refuse(site, "joint-wall", side.span, message, f"{figure(2 * diameter)} from middle to middle", "Say fewer dowels.")
        return None
    return _Doweled(side, tuple(points), diameter, depth, (*defaults, *spacing.defaults))


def _point(places: dict[Axis, float]) -> Vec:
    x, y, z = (places[axis] for axis in Axis)
    return x, y, z


def _diameter(said: DowelSaid, thick: float, site: Site, defaults: list[str]) -> float | None:
    """Between a third and a half of the thinner part, as bits and dowels are sold."""
    if said.diameter:
        return site.words.length(said.diameter)
    defaults.append(used("Dowel diameter by the thickness of the thinner part", "dowel_share", site.ruler))
    return nearest_chisel(thick * share_rule("dowel_share", site.ruler), site.practice)


def _goes_in(side: Side, said: DowelSaid, diameter: float, thick: float, site: Site) -> bool:
    """False after reporting a dowel with too little wood beside it; a warning above a half."""
    figure, span = site.ruler.plain, said.diameter.span if said.diameter else side.span
    most = rule("dowel_thickest", site.ruler)
    if diameter > thick - site.practice.wall + TINY:
        message = f"A dowel of {figure(diameter)} leaves too little beside it where the parts are {figure(thick)} thick."
        refuse(site, "joint-dowel-thick", span, message, f"at most {figure(thick / 2)}", "Say a thinner dowel.")
        return False
    if diameter > float(most.value) * thick + TINY:
        message = f"A dowel of {figure(diameter)} is more than half of {figure(thick)}."
        warn(site, "joint-proportion", span, message, f"{figure(thick / 3)} to {figure(thick / 2)}", "", most.source)
    return True


def _depth(side: Side, said: DowelSaid, diameter: float, site: Site, defaults: list[str]) -> float | None:
    deeper = site.practice.mortise_deeper
    most = min(side.depth - site.practice.wall, side.board.body.size(side.face.axis) / 2) - deeper
    depth = site.words.length(said.depth) if said.depth else min(share_rule("dowel_depth", site.ruler) * diameter, most)
    if depth is None:
        return None
    defaults += [] if said.depth else [used("Depth of a dowel in each part, as far as they allow", "dowel_depth", site.ruler)]
    defaults.append(used_practice("Hole deeper than the dowel goes in", "mortise_deeper"))
    if TINY < depth <= most + TINY:
        return round(depth, 6)  # free of the noise of sums, so that both ends get one size of hole
    figure, span = site.ruler.plain, said.depth.span if said.depth else side.span
    message = f'A dowel {figure(depth)} deep leaves too little of "{side.mate.id}" behind its hole.'
    refuse(site, "joint-wall", span, message, f"at most {figure(most)}", f"At most {figure(most)}.")
    return None


def _alike(made: list[_Doweled], site: Site) -> bool:
    first = made[0]
    if all(abs(each.diameter - first.diameter) < TINY and abs(each.depth - first.depth) < TINY for each in made):
        return True
    message, span = "The sides of this joint want dowels of different sizes.", made[0].side.span
    refuse(site, "joint-wedges-differ", span, message, "one size of dowel in a joint", "Write two joints, or say `depth`.")
    return False


# ---------------------------------------------------------------- both parts


def _struck(id: str, made: list[_Doweled], site: Site) -> list[Struck]:
    """The holes of all standing sides, in both parts."""
    found = []
    for each in made:
        board = each.side.board
        for copy, home in enumerate(each.side.homes):
            motion = board.copies[copy].motion
            face = motion.face(each.side.face)
            for number, place in enumerate(each.places, start=1):
                words = (board.id, board.copies[copy].hand, face.value, str(number))
                for bored, at, opening in ((board, copy, face), (home.board, home.copy, home.face)):
                    found.append(_hole(id, each, (bored, at), opening, motion.point(place), words, site))
    return found


def _hole(
    id: str, each: _Doweled, where: tuple[Board, int], face: Face, centre: Vec, words: tuple[str, ...], site: Site
) -> Struck:
    deep = each.depth + site.practice.mortise_deeper
    hole = Hole("", each.side.span, id, "", face, centre, each.diameter, deep)
    return Struck(*where, hole, words, None, each.side.span)


def _contacts(side: Side) -> list[Contact]:
    """The parts close on each other; what is glued are the dowels."""
    found = []
    for copy, home in enumerate(side.homes):
        motion = side.board.copies[copy].motion
        face, patch = motion.face(side.face), home.patch
        crossed: float = crossed_width(patch, face.axis, motion.axis(side.board.grain), home.grain)
        shoulder: Box = patch
        found.append(Contact((side.board.id, copy), (home.board.id, home.copy), face.normal, shoulder, crossed, 0.0))
    return found
