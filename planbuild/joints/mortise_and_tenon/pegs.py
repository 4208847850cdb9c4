"""The holes for pegs in the mate, and the peg as a part: straight as it is made, bent where it is drawn."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from planbuild.core.geometry import TINY, Axis, Box, Face
from planbuild.joints.base import Site
from planbuild.joints.copies import Struck, carried
from planbuild.joints.faults import refuse
from planbuild.joints.mortise_and_tenon.fields import PegSaid
from planbuild.joints.mortise_and_tenon.pegging import Pegged
from planbuild.records.features import Hole, Mortise
from planbuild.records.piece import Contact, Copy, Part
from planbuild.records.shaped import Station, Turned
from planbuild.records.tenon_work import Bend, PegHole


@dataclass(frozen=True)
class _Driven:
    """One peg where it stands: `box` around it, `head` the side it is driven in from, `out` the way the tenon points."""

    made: Pegged
    hole: PegHole
    copy: int
    box: Box
    head: Face
    out: Face

    @property
    def tenon(self) -> tuple[str, int]:
        return self.made.sizes.end.board.id, self.copy

    @property
    def mate(self) -> tuple[str, int]:
        home = self.made.sizes.end.homes[self.copy]
        return home.board.id, home.copy

    @property
    def void(self) -> Box:
        """The mortise that the peg crosses."""
        return self.made.sizes.end.board.copies[self.copy].motion.box(self.made.sizes.void)


def _driven(pegs: list[Pegged]) -> list[_Driven]:
    """Every peg of a joint: tenon by tenon, copy by copy."""
    found = []
    for each in pegs:
        end = each.sizes.end
        for copy in range(len(end.homes)):
            motion = end.board.copies[copy].motion
            for hole in each.holes:
                box, head = motion.box(each.peg(hole)), motion.face(hole.face)
                found.append(_Driven(each, hole, copy, box, head, motion.face(end.face)))
    return found


# ---------------------------------------------------------------- holes in the mate


def peg_bores(joint: str, pegs: list[Pegged]) -> Iterator[Struck]:
    """The holes through the mates of all standing pegs, each on the mate's face or face edge."""
    for number, each in enumerate(_driven(pegs), start=1):
        end = each.made.sizes.end
        home = end.homes[each.copy]
        motion = home.board.copies[home.copy].motion
        own = motion.inverse.axis(each.head.axis)
        face = motion.face(home.board.face if own is home.board.face.axis else own.high)
        centre = dict(zip(Axis, each.box.centre, strict=True)) | {face.axis: each.box.at(face)}
        x, y, z = (centre[axis] for axis in Axis)
        hole = Hole("", end.span, joint, "", face, (x, y, z), each.hole.diameter, None, "peg")
        words = (end.board.id, end.board.copies[each.copy].hand, each.out.value, str(number))
        yield Struck(home.board, home.copy, hole, words, None, end.span)


def pegs_cross(pegs: list[Pegged], said: PegSaid, site: Site) -> bool:
    """True after reporting `joint-collision`: a peg that would go through another tenon, or through another peg."""
    driven = _driven(pegs)
    for each in driven:
        for what, box in _in_the_way(each, driven, site):
            if box.meet(each.box).is_solid:
                message = f'A peg of "{each.tenon[0]}" would go through {what} inside "{each.mate[0]}".'
                hint = "Say another `from_shoulder` or `count`, a thinner peg, or shorter tenons."
                refuse(site, "joint-collision", said.origin, message, "wood between a peg and all else in its mate", hint)
                return True
    return False


def _in_the_way(each: _Driven, driven: list[_Driven], site: Site) -> Iterator[tuple[str, Box]]:
    """What else is in the mate: other pegs, the mortises of other tenons, and what earlier joints have cut there (round
    holes by the square around them)."""
    for other in driven:
        if other.mate == each.mate and other is not each:
            yield f'a peg of "{other.tenon[0]}"', other.box
            if (other.made, other.copy) != (each.made, each.copy):
                yield f'the tenon of "{other.tenon[0]}"', other.void
    part, copy = each.mate
    motion = site.boards[part].copies[copy].motion
    for id, cut in site.joined.items():
        for f in cut.features.get(part, ()) if cut else ():
            if isinstance(f, Mortise):
                yield f'a mortise of "{id}"', motion.box(f.void)
            if isinstance(f, Hole):
                yield f'a hole of "{id}"', motion.box(f.bore(site.boards[part].body))


# ---------------------------------------------------------------- the peg as a part


def peg_part(id: str, joint: str, pegs: list[Pegged], site: Site) -> Part | None:
    """The peg, drawn in the first tenon, with a copy in each hole; None after reporting that they are not all alike."""
    driven = _driven(pegs)
    first = driven[0]
    if any(_terms(each) != _terms(first) for each in driven):
        message, span = "The tenons of this joint want pegs of different sizes.", first.made.sizes.end.span
        refuse(site, "joint-wedges-differ", span, message, "one size of peg in a joint", "Write two joints.")
        return None
    motions = [carried(first.box, (first.head, first.out), each.box, (each.head, each.out)) for each in driven]
    (edge,) = (axis for axis in Axis if axis not in (first.head.axis, first.out.axis))
    drawn = first.hole.draw > TINY
    return Part(
        id=id,
        mark="",
        name="peg",
        origin=first.made.sizes.end.span,
        stock=first.made.stock.id,
        grain=first.head.axis,
        face=first.out,
        edge=edge.high,
        body=first.box,
        features=(_round(joint, first),),
        copies=tuple(Copy(str(number), motion) for number, motion in enumerate(motions, start=1)),
        rough_length=site.practice.rough_length,
        rough_width=site.practice.rough_width,
        made_by=joint,
        note="Made longer at both ends, pointed at one; sawn flush when it is home." + (_GIVES_WAY if drawn else ""),
        why="its grain runs straight from end to end, so that it does not break when it is driven",
        bend=_bend(first) if drawn else None,
    )


_GIVES_WAY = "  It gives way where the hole in the tenon lies out of line, which holds the shoulder tight."


def _round(joint: str, first: _Driven) -> Turned:
    span, wide = first.box.along(first.head.axis), first.hole.diameter
    ends = (Station(span.low, wide), Station(span.high, wide))
    return Turned(f"{joint}.round", first.made.sizes.end.span, joint, "it fills a bored hole all round", ends)


def _bend(first: _Driven) -> Bend:
    """What lies within the tenon is moved toward the shoulder."""
    motion = first.made.sizes.end.board.copies[first.copy].motion
    x, y, z = (-first.hole.draw * each for each in first.out.normal)
    return Bend(motion.box(first.made.sizes.section).along(first.head.axis), (x, y, z))


def _terms(each: _Driven) -> tuple[float | str, ...]:
    """What must be alike in all pegs of a joint: wood, thickness, length, draw, and where the tenon crosses it."""
    motion = each.made.sizes.end.board.copies[each.copy].motion
    tenon = motion.box(each.made.sizes.section)
    lead = abs(tenon.at(each.head) - each.box.at(each.head))
    found = (each.hole.diameter, each.box.size(each.head.axis), each.hole.draw, lead, tenon.size(each.head.axis))
    return each.made.stock.id, *(round(size, 4) for size in found)


def peg_contacts(peg: str, pegs: list[Pegged]) -> tuple[Contact, ...]:
    """Each peg goes through mate and tenon; it closes on nothing (the box of what it crosses stands for where it holds)."""
    found = []
    for number, each in enumerate(_driven(pegs)):
        way, inside = each.head.opposite.normal, each.box.meet(each.void)
        found += [Contact((peg, number), key, way, inside, 0.0, 0.0) for key in (each.tenon, each.mate)]
    return tuple(found)
