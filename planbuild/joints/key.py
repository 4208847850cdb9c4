"""Key: a small board let into the faces of two that lie side by side, so that they cannot part: a butterfly or a bar."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import ClassVar

from planbuild.core.geometry import TINY, Axis, Box, Face, Span1
from planbuild.core.outlines import Corner
from planbuild.joints.base import Board, Family, Joined, Site
from planbuild.joints.commons import Commons, commons, free_id
from planbuild.joints.copies import Struck, carried, settled
from planbuild.joints.faults import refuse
from planbuild.joints.lying import chosen, lying, say_apart
from planbuild.joints.proportions import rule, share_rule, stepped_share, used
from planbuild.records.design import JointSaid, Said
from planbuild.records.features import Mate
from planbuild.records.piece import Contact, Copy, Joint, Part, Stock
from planbuild.records.shaped import Sawn

MOST = 24
"""Keys along one seam; more are no joint of the trade."""

BUTTERFLY, BAR = "butterfly", "bar"

Outline = tuple[tuple[float, float], ...]


class KeySaid(JointSaid):
    """`size` is how long a key is across the seam, and how wide along it; `at` is where their middles lie, from the low
    end of the seam; without it `count` of them are spread evenly."""

    parts: tuple[Said, ...]
    shape: Said | None = None
    stock: Said | None = None
    size: Said | None = None
    depth: Said | None = None
    at: tuple[Said, ...] = ()
    count: Said | None = None


@dataclass(frozen=True)
class _Sizes:
    shape: str
    long: float
    wide: float
    depth: float

    @property
    def waist(self) -> float:
        return self.wide / 2 if self.shape == BUTTERFLY else self.wide

    @property
    def rim(self) -> Outline:
        """The whole outline as (across the seam, along it), its middle at 0."""
        half = [(-self.long / 2, self.wide / 2), (0.0, self.waist / 2), (self.long / 2, self.wide / 2)]
        upper = half if self.shape == BUTTERFLY else [half[0], half[2]]
        return (*((u, -v) for u, v in upper), *reversed(upper))

    def half(self, sign: int) -> Outline:
        """What of it lies on one side of the seam."""
        u, v, waist = sign * self.long / 2, self.wide / 2, self.waist / 2
        return ((0.0, -waist), (u, -v), (u, v), (0.0, waist))

    @property
    def walls(self) -> float:
        """Area of the two long walls of one half."""
        return 2 * math.hypot(self.long / 2, (self.wide - self.waist) / 2) * self.depth


@dataclass(frozen=True)
class _Seam:
    """Where two standing boards meet: the first goes along `way`; keys are let in from `face`, `middles` along the seam."""

    contact: Contact
    boards: tuple[Board, Board]
    way: Face
    face: Face
    middles: tuple[float, ...]

    @property
    def run(self) -> Axis:
        (axis,) = (each for each in Axis if each not in (self.way.axis, self.face.axis))
        return axis

    def box(self, middle: float, sizes: _Sizes) -> Box:
        """The block of one key."""
        place, surface = self.contact.shoulder.along(self.way.axis).middle, self.contact.shoulder.at(self.face)
        deep = sorted((surface, surface - self.face.sign * sizes.depth))
        spans = {self.way.axis: Span1(place - sizes.long / 2, place + sizes.long / 2)}
        spans[self.run] = Span1(middle - sizes.wide / 2, middle + sizes.wide / 2)
        return Box.of({**spans, self.face.axis: Span1(deep[0], deep[1])})

    def corners(self, rim: Outline, middle: float) -> tuple[Corner, ...]:
        """An outline about one middle, in the order of the axes."""
        place = self.contact.shoulder.along(self.way.axis).middle
        found = []
        for u, v in rim:
            places = {self.way.axis: place + self.way.sign * u, self.run: middle + v}
            first, second = (places[axis] for axis in self.face.axis.others)
            found.append(Corner((first, second)))
        return tuple(found)


class Key:
    """The kind: keys across the seam of two boards."""

    name = "key"
    family = Family.MEETING
    said: ClassVar[type[JointSaid]] = KeySaid

    def join(self, id: str, said: KeySaid, site: Site) -> Joined | None:
        """Reports `joint-no-mate`, `joint-key-face`, `joint-key-size`, `joint-key-at`, and what `settled` reports."""
        common = commons(said, self.name, glued=True, site=site)
        named = chosen(said.parts, site)
        stock = site.words.stock(said.stock) if said.stock else named[0].board.stock if named else None
        if common is None or named is None or stock is None:
            return None
        contacts = [c for n, one in enumerate(named) for other in named[n + 1 :] for c in lying(one, other)]
        if not contacts:
            say_apart(named[0], named[1:] or named, site, "Set them side by side, edge against edge.")
            return None
        sizes = _sizes(said, named[0].board, site)
        seams = [_seam(each, said, sizes, site) for each in contacts] if sizes else []
        found = [each for each in seams if each]
        if sizes is None or len(found) < len(seams):
            return None
        part = free_id(f"{sizes.shape}_key", id, site)
        features = settled(id, list(_struck(id, found, sizes, part, said)), site)
        return Joined(_told(id, said, common, found, sizes, part, site), features, (_part(part, id, found, sizes, stock, site),))


# ---------------------------------------------------------------- sizes and places


def _sizes(said: KeySaid, board: Board, site: Site) -> _Sizes | None:
    shape = site.words.choice(said.shape, (BUTTERFLY, BAR)) if said.shape else BUTTERFLY
    thick = board.body.size(board.face.axis)
    long = stepped_share("key_length", thick, site.ruler)
    size = site.words.pair(said.size) if said.size else (long, long / 2)
    third = said.depth is None or said.depth.text == "third"
    depth = stepped_share("key_depth", thick, site.ruler) if third or said.depth is None else site.words.length(said.depth)
    if shape is None or size is None or depth is None:
        return None
    most = thick * share_rule("key_deepest", site.ruler)
    if depth > most + TINY:
        figure, span = site.ruler.plain, said.depth.span if said.depth else said.origin
        message = f'A key {figure(depth)} deep weakens "{board.id}", which is {figure(thick)} thick.'
        source = rule("key_deepest", site.ruler).source
        refuse(site, "joint-key-size", span, message, f"at most {figure(most)}", source=source)
        return None
    return _Sizes(shape, size[0], size[1], depth)


def _seam(contact: Contact, said: KeySaid, sizes: _Sizes, site: Site) -> _Seam | None:
    one, other = site.boards[contact.a[0]], site.boards[contact.b[0]]
    way = next((face for face in Face if face.normal == contact.insert), None)
    face = one.copies[contact.a[1]].motion.face(one.face)
    bodies = one.standing(contact.a[1]), other.standing(contact.b[1])
    if way is None or face.axis is way.axis or abs(bodies[0].at(face) - bodies[1].at(face)) > TINY:
        message = f'"{one.id}" and "{other.id}" do not lie side by side with their faces in one plane.'
        hint = "A key is let into the face side of the first part, and of the other beside it."
        refuse(site, "joint-key-face", said.parts[0].span, message, "faces that lie flush at the seam", hint)
        return None
    (run,) = (axis for axis in Axis if axis not in (way.axis, face.axis))
    seam, room = contact.shoulder.along(run), min(body.size(way.axis) for body in bodies)
    middles = _middles(seam, said, site)
    if middles is None or not _fits(sizes, room, seam, middles, said, site):
        return None
    return _Seam(contact, (one, other), way, face, middles)


def _middles(seam: Span1, said: KeySaid, site: Site) -> tuple[float, ...] | None:
    if said.at:
        places = [site.words.length(each) for each in said.at]
        return None if any(each is None for each in places) else tuple(seam.low + each for each in places if each)
    count = site.words.count(said.count) if said.count else int(share_rule("key_count", site.ruler))
    if count is None:
        return None
    if not 1 <= count <= MOST:
        refuse(site, "joint-key-at", (said.count or said.kind).span, f"{count} keys along a seam.", f"1 to {MOST}")
        return None
    return tuple(seam.low + (n + 0.5) * seam.size / count for n in range(count))


def _fits(sizes: _Sizes, room: float, seam: Span1, middles: Sequence[float], said: KeySaid, site: Site) -> bool:
    """Each key lies in the wood of both boards, clear of the next one."""
    figure, half = site.ruler.plain, sizes.wide / 2
    if sizes.long / 2 > room - site.practice.wall + TINY:
        message = f"A key {figure(sizes.long)} long comes out of boards that are {figure(room)} wide."
        most = figure(2 * (room - site.practice.wall))
        refuse(site, "joint-key-size", (said.size or said.kind).span, message, f"at most {most}")
        return False
    edges = [seam.low, *sorted(middles), seam.high]
    ends = edges[1] - edges[0] - half, edges[-1] - edges[-2] - half
    clear = min(*ends, *(b - a - 2 * half for a, b in pairwise(edges[1:-1])))
    if clear < site.practice.wall - TINY:
        message = f"Keys {figure(sizes.wide)} wide leave too little wood beside them on a seam {figure(seam.size)} long."
        span = said.at[0].span if said.at else (said.count or said.kind).span
        hint = "Say smaller or fewer keys, farther from the ends."
        refuse(site, "joint-key-at", span, message, f"{figure(site.practice.wall)} or more between and beside them", hint)
        return False
    return True


# ---------------------------------------------------------------- the recesses, and the key


def _struck(id: str, seams: Sequence[_Seam], sizes: _Sizes, part: str, said: KeySaid) -> Iterator[Struck]:
    number = 0
    for seam in seams:
        for rank, middle in enumerate(seam.middles, start=1):
            for board, key, sign in ((seam.boards[0], seam.contact.a, -1), (seam.boards[1], seam.contact.b, 1)):
                corners = seam.corners(sizes.half(sign), middle)
                cut = Sawn("", said.origin, id, "", seam.face, corners, "recess", sizes.depth, mate=Mate(part))
                own = board.copies[key[1]].motion.inverse.face(seam.way if sign < 0 else seam.way.opposite)
                yield Struck(board, key[1], cut, (part, own.value, str(rank)), (part, number), said.parts[0].span)
            number += 1


def _boxes(seams: Sequence[_Seam], sizes: _Sizes) -> list[tuple[Box, _Seam]]:
    return [(seam.box(middle, sizes), seam) for seam in seams for middle in seam.middles]


def _part(id: str, joint: str, seams: Sequence[_Seam], sizes: _Sizes, stock: Stock, site: Site) -> Part:
    boxes = _boxes(seams, sizes)
    first, seam = boxes[0]
    corners = seam.corners(sizes.rim, seam.middles[0])
    outline = Sawn("outline", seam.boards[0].origin, joint, "", seam.face, corners, "outline", keeps=True)
    return Part(
        id=id,
        mark="",
        name=f"{sizes.shape} key",
        origin=seam.boards[0].origin,
        stock=stock.id,
        grain=seam.way.axis,
        face=seam.face,
        edge=seam.run.high,
        body=first,
        features=(outline,) if sizes.shape == BUTTERFLY else (),
        copies=tuple(
            Copy(str(number), carried(first, (seam.way, seam.face), box, (other.way, other.face)))
            for number, (box, other) in enumerate(boxes, start=1)
        ),
        rough_length=site.practice.rough_length,
        rough_width=site.practice.rough_width,
        made_by=joint,
        why="its grain runs across the seam, so that it does not split there",
    )


def _contacts(seams: Sequence[_Seam], sizes: _Sizes, part: str, glue: bool) -> Iterator[Contact]:
    """The boards close edge on edge; each key goes down into both, and holds by its long walls."""
    yield from (replace(seam.contact, glue_area=0.0) for seam in seams)
    for number, (box, seam) in enumerate(_boxes(seams, sizes)):
        place = seam.contact.shoulder.along(seam.way.axis).middle
        for key, end in ((seam.contact.a, seam.way.opposite), (seam.contact.b, seam.way)):
            half = box.with_span(seam.way.axis, Span1(*sorted((place, box.at(end)))))
            yield Contact((part, number), key, seam.face.opposite.normal, half, 0.0, sizes.walls if glue else 0.0)


def _told(
    id: str, said: KeySaid, common: Commons, seams: Sequence[_Seam], sizes: _Sizes, part: str, site: Site
) -> Joint:
    numbers: list[tuple[str, float | int | str]] = [("keys at each seam", len(seams[0].middles))]
    numbers += [("key length, across the seam", round(sizes.long, 6)), ("key width", round(sizes.wide, 6))]
    numbers += [("width at the waist", round(sizes.waist, 6))] if sizes.shape == BUTTERFLY else []
    lines = [used("Size of a key", "key_length", site.ruler)] if said.size is None else []
    lines += [used("Depth of a key", "key_depth", site.ruler)] if said.depth is None else []
    lines += [used("Number of keys", "key_count", site.ruler)] if not said.at and said.count is None else []
    return Joint(
        id=id,
        kind=Key.name,
        name=common.name,
        origin=said.origin,
        contacts=tuple(_contacts(seams, sizes, part, common.glue)),
        glue=common.glue,
        fit=common.fit,
        numbers=(*numbers, ("depth", round(sizes.depth, 6))),
        operations=("recess",),
        tools=("marking knife", "router", "chisel"),
        makes=(part,),
        defaults=tuple(lines),
        note=common.note,
        why=common.why,
    )
