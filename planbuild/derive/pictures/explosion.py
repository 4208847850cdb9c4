"""How far each part is moved for the exploded picture: along the directions in which the joints go together.

An explosion graph for each axis (Li, Agrawala, Curless and Salesin 2008), with the insertion directions of
the joints instead of searched ones: of two parts joined along an axis one must stand clear of the other;
parts joined across it stay in line.  What may float between its neighbours stands in the middle.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import permutations

import numpy as np

from planbuild.core.geometry import TINY, Axis, Box, Span1, Vec
from planbuild.records.piece import Part, Piece
from planbuild.records.solids import Key


@dataclass(frozen=True)
class Link:
    """`moving` goes home along `way` (its face sign along `axis`) into or onto `mate`; `engaged` is how deep, mm."""

    moving: Key
    mate: Key
    axis: Axis
    sign: int
    engaged: float


def standing(piece: Piece) -> dict[Key, Box]:
    """The box of every standing copy, tenons included."""
    return {(part.id, i): part.box(i, part.extent) for part in piece.parts for i in range(len(part.copies))}


def links(piece: Piece) -> list[Link]:
    """Everything that goes home along an axis: the contacts of the joints, and whatever a made part passes on its way."""
    boxes = standing(piece)
    found = {
        (contact.a, contact.b): _link(contact.a, contact.b, contact.insert, boxes)
        for joint in piece.joints
        for contact in joint.contacts
        if contact.a in boxes and contact.b in boxes
    }
    for link in _hung(piece, boxes):
        found.setdefault((link.moving, link.mate), link)
    for part in piece.parts:
        if part.made_by:
            for link in _made(part, boxes, list(found.values())):
                found.setdefault((link.moving, link.mate), link)
    return list(found.values())


def _hung(piece: Piece, boxes: Mapping[Key, Box]) -> Iterator[Link]:
    """What hangs or lies on hardware goes home to all that holds it."""
    for placed in piece.hardware:
        if placed.brings:
            holders = dict.fromkeys(key for each in placed.bought for key in each.on if key[0] != placed.brings)
            for index, copy in enumerate(piece.part(placed.brings).copies):
                for mate in holders:
                    yield _link((placed.brings, index), mate, copy.direction(placed.way), boxes)
    yield from _in_front(piece, boxes)


def _in_front(piece: Piece, boxes: Mapping[Key, Box]) -> Iterator[Link]:
    """A door that closes the way by which a shelf goes in comes after it, and stands further out."""
    ways = {
        (placed.brings, index): copy.direction(placed.way)
        for placed in piece.hardware
        if placed.brings
        for index, copy in enumerate(piece.part(placed.brings).copies)
    }
    for inner, outer in permutations(ways, 2):
        axis = max(Axis, key=lambda each: abs(ways[inner][each.value]))
        along = ways[inner][axis.value]
        beside = all(boxes[inner].along(each).meet(boxes[outer].along(each)).size > TINY for each in axis.others)
        before = (boxes[outer].along(axis).middle - boxes[inner].along(axis).middle) * along < 0
        if beside and before:
            yield _link(outer, inner, ways[inner], boxes)


def _link(moving: Key, mate: Key, way: Vec, boxes: Mapping[Key, Box]) -> Link:
    axis = max(Axis, key=lambda each: abs(way[each.value]))
    common = boxes[moving].along(axis).meet(boxes[mate].along(axis))
    return Link(moving, mate, axis, 1 if way[axis.value] > 0 else -1, max(common.size, 0.0))


def _made(part: Part, boxes: Mapping[Key, Box], told: Sequence[Link]) -> Iterator[Link]:
    """A wedge driven into a tenon also leaves the post around it: links to all that the box of a made part enters."""
    for index in range(len(part.copies)):
        key = (part.id, index)
        known = next((link for link in told if link.moving == key), None)
        if known is None:
            continue
        way = (known.axis.high if known.sign > 0 else known.axis.low).normal
        for other, box in boxes.items():
            if other[0] != part.id and box.meet(boxes[key]).is_solid:
                yield _link(key, other, way, boxes)


# ---------------------------------------------------------------- offsets along one axis


_AIR = 0.6
"""No part is pulled clear by more than this share of its own length: wedges and buttons stay near their place."""


@dataclass(frozen=True)
class _Apart:
    """`high` must stand at least `gap` further along the axis than `low` does."""

    low: Key
    high: Key
    gap: float


def offsets(boxes: Mapping[Key, Box], found: Sequence[Link], clear: Mapping[Axis, float]) -> dict[Key, Vec]:
    """The shift of each part.  `clear` is the air left between parted parts along each axis, mm; small parts take less."""
    keys = list(boxes)
    along = {}
    for axis in Axis:
        apart = [_apart(link, _air(link, boxes, clear[axis])) for link in found if link.axis is axis]
        along[axis] = _along(keys, found, axis, apart, _in_turn(boxes, axis))
    return {key: (along[Axis.LEFT_RIGHT][key], along[Axis.FRONT_BACK][key], along[Axis.BOTTOM_TOP][key]) for key in keys}


def _air(link: Link, boxes: Mapping[Key, Box], clear: float) -> float:
    """A seat is thin along the way it is lifted: what counts is the longest side."""
    longest = max(boxes[link.moving].size(axis) for axis in Axis)
    return min(clear, _AIR * longest)


_ROUNDS = 3


def _in_turn(boxes: Mapping[Key, Box], axis: Axis) -> list[_Apart]:
    """Pairs of parts of which one lies beyond the other along the axis, joined or not: it should not be passed."""
    keys = list(boxes)
    low, high = (np.array([[pick(box.along(a)) for a in Axis] for box in boxes.values()]) for pick in (_low, _high))
    beside = np.minimum(high[:, None], high[None, :]) - np.maximum(low[:, None], low[None, :]) > TINY
    across = np.logical_and.reduce([beside[:, :, each.value] for each in axis.others])
    before = high[:, None, axis.value] < low[None, :, axis.value] + TINY
    return [_Apart(keys[i], keys[j], 0.0) for i, j in zip(*np.nonzero(across & before), strict=True)]


def _low(span: Span1) -> float:
    return span.low


def _high(span: Span1) -> float:
    return span.high


def _along(
    keys: Sequence[Key], found: Sequence[Link], axis: Axis, apart: Sequence[_Apart], turns: Sequence[_Apart]
) -> dict[Key, float]:
    """The shift of each key along the axis; where one would pass another it is held back, if that can be."""
    group, floating = _tied(keys, found, axis, apart)
    held = list(apart)
    placed = _layered(keys, group, held)
    for _ in range(_ROUNDS):
        passed = [each for each in turns if placed[each.low] > placed[each.high] + TINY and each not in held]
        kept = [each for each in passed if _sound(group, [*held, each])]
        if not kept:
            break
        for each in kept:
            held += [each] if _sound(group, [*held, each]) else []
        placed = _layered(keys, group, held)
    ties = _ties(found, axis)
    for key in floating:
        placed[key] = _middle([placed[mate] for mate in ties[key]])
    return placed


def _ties(found: Sequence[Link], axis: Axis) -> dict[Key, list[Key]]:
    """For each key what it goes into across the axis."""
    ties: dict[Key, list[Key]] = defaultdict(list)
    for link in found:
        if link.axis is not axis:
            ties[link.moving].append(link.mate)
    return ties


def _tied(
    keys: Sequence[Key], found: Sequence[Link], axis: Axis, apart: Sequence[_Apart]
) -> tuple[dict[Key, Key], list[Key]]:
    """Keys that stay in line, by the head of their group; and those that float between what they are tied to."""
    ties = _ties(found, axis)
    group = {key: key for key in keys}
    floating = []
    for key in sorted(ties, key=lambda k: (len(set(ties[k])), keys.index(k))):
        trial = _united(group, [key, *ties[key]])
        if _sound(trial, apart):
            group = trial
        elif not any(key in (each.low, each.high) for each in apart):
            floating.append(key)
    return group, floating


def _apart(link: Link, clear: float) -> _Apart:
    gap = link.engaged + clear
    return _Apart(link.moving, link.mate, gap) if link.sign > 0 else _Apart(link.mate, link.moving, gap)


def _united(group: Mapping[Key, Key], members: Sequence[Key]) -> dict[Key, Key]:
    heads = {group[key] for key in members}
    return {key: group[members[0]] if head in heads else head for key, head in group.items()}


def _sound(group: Mapping[Key, Key], apart: Sequence[_Apart]) -> bool:
    """True if no two parts of a group must stand apart, not even by way of others."""
    return _order(sorted(set(group.values())), [(group[each.low], group[each.high]) for each in apart]) is not None


def _order(heads: Sequence[Key], arrows: Sequence[tuple[Key, Key]]) -> list[Key] | None:
    """Heads with every arrow forward, or None if that cannot be."""
    waiting: dict[Key, set[Key]] = {head: set() for head in heads}
    for low, high in arrows:
        waiting[high].add(low)
    ordered: list[Key] = []
    while waiting:
        free = [head for head in heads if head in waiting and not waiting[head]]
        if not free:
            return None
        ordered += free
        for head in free:
            del waiting[head]
        for lows in waiting.values():
            lows.difference_update(free)
    return ordered


def _layered(keys: Sequence[Key], group: Mapping[Key, Key], apart: Sequence[_Apart]) -> dict[Key, float]:
    """Groups that stand between others in the middle of their room, the rest close to what they leave."""
    arrows = [(group[each.low], group[each.high], each.gap) for each in apart]
    order = _order(sorted(set(group.values())), [(low, high) for low, high, _ in arrows]) or []
    below = {head: [(low, gap) for low, high, gap in arrows if high == head] for head in order}
    above = {head: [(high, gap) for low, high, gap in arrows if low == head] for head in order}
    place = _between(order, below, above)
    for head in order:
        if below[head] and not above[head]:
            place[head] = max(place[low] + gap for low, gap in below[head])
    for head in reversed(order):
        if above[head] and not below[head] and any(above[high] for high, _ in above[head]):
            place[head] = min(place[high] - gap for high, gap in above[head])
    return {key: place[group[key]] for key in keys}


_Near = Mapping[Key, Sequence[tuple[Key, float]]]


def _between(order: Sequence[Key], below: _Near, above: _Near) -> dict[Key, float]:
    """Midway between the lowest and the highest place of each group, about zero; groups without neighbours at zero."""
    least: dict[Key, float] = {}
    for head in order:
        least[head] = max((least[low] + gap for low, gap in below[head]), default=0.0)
    top = max(least.values(), default=0.0)
    most: dict[Key, float] = {}
    for head in reversed(order):
        most[head] = min((most[high] - gap for high, gap in above[head]), default=top)
    return {head: (least[head] + most[head] - top) / 2 if below[head] or above[head] else 0.0 for head in order}


def _middle(places: Sequence[float]) -> float:
    return (min(places) + max(places)) / 2


