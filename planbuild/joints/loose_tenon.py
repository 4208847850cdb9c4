"""Loose tenon: a mortise in both parts, and a tenon made for them by itself.

The parts keep their length: nothing is added to either, they meet face to face and the tenon lies half in each.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from planbuild.core.geometry import TINY, Axis, Box, Face, Span1
from planbuild.joints.base import Family, Joined, Site
from planbuild.joints.commons import Commons, commons, free_id
from planbuild.joints.copies import Struck, carried, settled
from planbuild.joints.faults import refuse
from planbuild.joints.mortise_and_tenon.section import Row, in_row
from planbuild.joints.mortise_and_tenon.sizes import reaching
from planbuild.joints.proportions import nearest_chisel, share_rule, used, used_practice
from planbuild.joints.sides import Side, ends, find_sides
from planbuild.joints.touching import crossed_width
from planbuild.records.design import JointSaid, Said
from planbuild.records.features import Mate, Mortise
from planbuild.records.piece import Contact, Copy, Joint, Part, Stock

MOST = 8
"""More loose tenons than these at one place are no joint of the trade."""


class LooseTenonSaid(JointSaid):
    """`part` meets its mate with an end; `count` tenons of `stock` stand in line there, `length` long over all."""

    part: Said
    into: tuple[Said, ...] = ()
    thickness: Said | None = None
    width: Said | None = None
    length: Said | None = None
    count: Said | None = None
    stock: Said | None = None


@dataclass(frozen=True)
class _Loose:
    """The tenons of one end, as outlines on the plane where the parts meet (drawn copy); `half` lies in each part."""

    side: Side
    thick: Axis
    wide: Axis
    outlines: tuple[Box, ...]
    half: float
    defaults: tuple[str, ...]

    def tenon(self, outline: Box) -> Box:
        """The tenon itself, half in either part."""
        return reaching(outline, self.side.face, self.half).join(reaching(outline, self.side.face.opposite, self.half))


class LooseTenon:
    """The kind: both parts are mortised."""

    name = "loose tenon"
    family = Family.MEETING
    said: ClassVar[type[JointSaid]] = LooseTenonSaid

    def join(self, id: str, said: LooseTenonSaid, site: Site) -> Joined | None:
        """Reports `joint-tenon-size`, `joint-tenon-count`, `joint-wall`, and what `find_sides` and `settled` report."""
        common = commons(said, self.name, glued=True, site=site)
        sides = find_sides((said.part,), said.into, ends, site)
        if common is None or sides is None:
            return None
        stock = site.words.stock(said.stock) if said.stock else sides[0].board.stock
        found = [_sized(side, said, site) for side in sides]
        made = [each for each in found if each]
        if stock is None or len(made) < len(found) or not _alike(made, site):
            return None
        tenon = free_id("loose_tenon", id, site)
        features = settled(id, _struck(id, made, tenon, site), site)
        return Joined(_joint(id, self.name, said, common, made, tenon), features, (_part(tenon, id, made, stock, site),))


# ---------------------------------------------------------------- sizes


def _sized(side: Side, said: LooseTenonSaid, site: Site) -> _Loose | None:
    """None after reporting."""
    patch = side.board.copies[0].motion.inverse.box(side.homes[0].patch)
    first, second = side.face.axis.others
    wide = side.mate_grain() if side.mate_grain() is not side.face.axis else max(first, second, key=patch.size)
    thick = first if wide is second else second
    count = site.words.count(said.count) if said.count else 1
    lengths = [site.words.length(each) if each else None for each in (said.thickness, said.width, said.length)]
    if count is None or any(each and length is None for each, length in zip(_said(said), lengths, strict=True)):
        return None
    if not 1 <= count <= MOST:
        assert said.count is not None
        refuse(site, "joint-tenon-count", said.count.span, f"{count} loose tenons at one end.", f"1 to {MOST}")
        return None
    defaults: list[str] = []
    thickness, width, length = lengths
    if thickness is None:
        thickness = nearest_chisel(patch.size(thick) * site.practice.tenon_share, site.practice)
        defaults.append(used_practice("Tenon thickness is a third of the thinner part, nearest chisel", "tenon_share"))
    if width is None or count > 1:
        defaults.append(used_practice("Shoulder where none was said", "shoulder"))
    shoulders = {wide.low: site.practice.shoulder, wide.high: site.practice.shoulder} if width is None or count > 1 else {}
    across = in_row(patch.along(thick), Row(1, thickness, None, {}), thick)
    along = in_row(patch.along(wide), Row(count, width, None, shoulders), wide)
    if across is None or along is None:
        _too_large(side, said, patch, thick if across is None else wide, site)
        return None
    half = _half(side, said, length, thickness, site, defaults)
    boxes = tuple(patch.with_span(thick, across[0]).with_span(wide, each) for each in along)
    return _Loose(side, thick, wide, boxes, half, tuple(defaults)) if half is not None else None


def _said(said: LooseTenonSaid) -> tuple[Said | None, ...]:
    return said.thickness, said.width, said.length


def _too_large(side: Side, said: LooseTenonSaid, patch: Box, axis: Axis, site: Site) -> None:
    span = next((each.span for each in (said.width, said.thickness) if each), side.span)
    figure = site.ruler.plain(patch.size(axis))
    message = f'The parts meet over {figure} {axis.words} at "{side.board.id}"; the loose tenons do not lie within it.'
    refuse(site, "joint-tenon-size", span, message, f"less than {figure}", "Say smaller or fewer tenons.")


def _half(
    side: Side, said: LooseTenonSaid, length: float | None, thickness: float, site: Site, defaults: list[str]
) -> float | None:
    """How deep the tenon stands in each part: three times its thickness, as far as the mate allows."""
    deeper = site.practice.mortise_deeper
    most = min(side.depth - site.practice.wall, side.board.body.size(side.face.axis) / 2) - deeper
    if length is None:
        rule = "Tenon length is three times its thickness in each part, as far as they allow"
        defaults.append(used(rule, "tenon_length", site.ruler))
    defaults.append(used_practice("Mortise deeper than the tenon is long", "mortise_deeper"))
    half = length / 2 if length is not None else min(share_rule("tenon_length", site.ruler) * thickness, most)
    if TINY < half <= most + TINY:
        return half
    figure, span = site.ruler.plain, said.length.span if said.length else side.span
    message = f'A loose tenon {figure(2 * half)} long leaves too little of "{side.mate.id}" behind its mortise.'
    refuse(site, "joint-wall", span, message, f"at most {figure(2 * most)}", "Say a shorter one, or use a thicker part.")
    return None


def _alike(made: list[_Loose], site: Site) -> bool:
    """One size of tenon in a joint."""
    first = _measures(made[0])
    if all(abs(one - other) < TINY for each in made for one, other in zip(first, _measures(each), strict=True)):
        return True
    message, hint = "The ends of this joint want loose tenons of different sizes.", "Write two joints."
    refuse(site, "joint-wedges-differ", made[0].side.span, message, "one size of loose tenon in a joint", hint)
    return False


def _measures(each: _Loose) -> tuple[float, float, float]:
    first = each.outlines[0]
    return first.size(each.thick), first.size(each.wide), 2 * each.half


# ---------------------------------------------------------------- both mortises


def _struck(id: str, made: list[_Loose], tenon: str, site: Site) -> list[Struck]:
    """The mortises of all standing ends, each with the number of its tenon."""
    found, number, deeper = [], 0, site.practice.mortise_deeper
    for each in made:
        board, face = each.side.board, each.side.face
        for copy, home in enumerate(each.side.homes):
            motion = board.copies[copy].motion
            for place, outline in enumerate(each.outlines, start=1):
                sides = ((board, copy, motion.face(face), face.opposite), (home.board, home.copy, home.face, face))
                for mortised, at, opening, way in sides:
                    void = motion.box(reaching(outline, way, each.half + deeper))
                    mortise = Mortise("", each.side.span, id, "", opening, void, Mate(tenon))
                    words = (board.id, board.copies[copy].hand, motion.face(face).value, str(place))
                    found.append(Struck(mortised, at, mortise, words, (tenon, number), each.side.span))
                number += 1
    return found


def _standing(made: list[_Loose]) -> list[tuple[Box, Face, Face, tuple[str, int], tuple[str, int]]]:
    """Every tenon where it stands: its box, the way into the mate, a face square to its cheeks, the part, the mate."""
    found = []
    for each in made:
        for copy, home in enumerate(each.side.homes):
            motion = each.side.board.copies[copy].motion
            for outline in each.outlines:
                poses = motion.face(each.side.face), motion.face(each.thick.high)
                keys = (each.side.board.id, copy), (home.board.id, home.copy)
                found.append((motion.box(each.tenon(outline)), *poses, *keys))
    return found


def _part(tenon: str, joint: str, made: list[_Loose], stock: Stock, site: Site) -> Part:
    (first, way, cheek, *_), places = _standing(made)[0], _standing(made)
    motions = [carried(first, (way, cheek), box, (to, face)) for box, to, face, *_ in places]
    edge = next(axis for axis in Axis if axis not in (way.axis, cheek.axis))
    return Part(
        id=tenon,
        mark="",
        name="loose tenon",
        origin=made[0].side.span,
        stock=stock.id,
        grain=way.axis,
        face=cheek,
        edge=edge.high,
        body=first,
        features=(),
        copies=tuple(Copy(str(number), motion) for number, motion in enumerate(motions, start=1)),
        rough_length=site.practice.rough_length,
        rough_width=site.practice.rough_width,
        made_by=joint,
        why="its grain runs from part to part, so that it does not shear",
    )


def _joint(id: str, kind: str, said: LooseTenonSaid, common: Commons, made: list[_Loose], tenon: str) -> Joint:
    thickness, width, length = _measures(made[0])
    count = len(made[0].outlines)
    numbers: list[tuple[str, float | int | str]] = [("tenons at each place", count)] if count > 1 else []
    numbers += [("tenon thickness", thickness), ("tenon width", width), ("tenon length", length)]
    return Joint(
        id=id,
        kind=kind,
        name=common.name,
        origin=said.origin,
        contacts=_contacts(made, tenon, common.glue),
        glue=common.glue,
        fit=common.fit,
        numbers=tuple(numbers),
        operations=("mortise", "strip"),
        tools=("mortise gauge",),
        makes=(tenon,),
        defaults=tuple(dict.fromkeys(line for each in made for line in each.defaults)),
        note=common.note,
        why=common.why,
    )


def _contacts(made: list[_Loose], tenon: str, glue: bool) -> tuple[Contact, ...]:
    """The parts close on each other; each tenon holds in both with its cheeks (the box of that half stands for them)."""
    found = []
    for each in made:
        for copy, home in enumerate(each.side.homes):
            motion = each.side.board.copies[copy].motion
            face = motion.face(each.side.face)
            crossed = crossed_width(home.patch, face.axis, motion.axis(each.side.board.grain), home.grain)
            found.append(Contact((each.side.board.id, copy), (home.board.id, home.copy), face.normal, home.patch, crossed, 0.0))
    thickness, width, length = _measures(made[0])
    area = length * width if glue else 0.0
    for number, (box, way, _, part, mate) in enumerate(_standing(made)):
        middle = box.along(way.axis).middle
        for key, toward in ((mate, way), (part, way.opposite)):
            edges = sorted((middle, box.at(toward)))
            half = box.with_span(way.axis, Span1(edges[0], edges[1]))
            found.append(Contact((tenon, number), key, toward.normal, half, 0.0, area))
    return tuple(found)
