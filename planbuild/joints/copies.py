"""Cuts made in standing copies, brought back to the drawn copy: one feature for the whole part.

A joint works where the parts stand; a part is drawn once.  Each cut is therefore carried back by the inverse
of its copy's motion; cuts that coincide are one feature, and every copy must have come to the same ones.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from typing import TypeVar

from planbuild.core.diagnostics import Span
from planbuild.core.geometry import TINY, Axis, Box, Face, Motion
from planbuild.core.poses import Pose, along, corners
from planbuild.joints.base import Board, Site
from planbuild.joints.faults import copies_differ
from planbuild.records.corner_slots import CornerSlot
from planbuild.records.features import Bevel, Feature, Groove, Hole, Mate, Mortise, Rabbet
from planbuild.records.pockets import Pocket
from planbuild.records.shaped import Sawn
from planbuild.records.slanted import AngledMortise, EndCut
from planbuild.records.tails import Sockets, Tails

Opening = TypeVar("Opening", Mortise, AngledMortise, Groove, Rabbet, Hole)


@dataclass(frozen=True)
class Struck:
    """A cut in one standing copy.  `feature` is in the frame of the piece, its id still empty; `words` tell it from
    others of its joint, the most telling first (`long_rail`, `front`, `left`); `mate` is the one copy it is made for."""

    board: Board
    copy: int
    feature: Feature
    words: tuple[str, ...]
    mate: tuple[str, int] | None
    span: Span


@dataclass
class _Cluster:
    """Cuts of a part that coincide on its drawn copy."""

    feature: Feature
    words: tuple[str, ...]
    span: Span
    copies: set[int]
    mates: set[tuple[str, int]]


def brought_home(feature: Feature, motion: Motion) -> Feature:
    """The cut as it lies on the drawn copy, given where that copy's motion put it."""
    back = motion.inverse
    if isinstance(feature, Mortise):
        return _mortise_home(feature, back)
    if isinstance(feature, AngledMortise):
        return _angled_moved(feature, back)
    if isinstance(feature, Groove):
        return replace(feature, face=back.face(feature.face), void=back.box(feature.void))
    if isinstance(feature, Rabbet):
        first, second = feature.edge
        return replace(feature, edge=(back.face(first), back.face(second)), void=back.box(feature.void))
    if isinstance(feature, Tails | Sockets | EndCut | CornerSlot | Pocket):
        return feature.moved(back)
    if isinstance(feature, Bevel):
        return replace(feature, face=back.face(feature.face), keeps=back.face(feature.keeps))
    if isinstance(feature, Sawn):
        return feature.moved(back)
    if isinstance(feature, Hole):
        slot = feature.slot and replace(feature.slot, along=back.axis(feature.slot.along))
        side = feature.open_at and back.face(feature.open_at)
        return replace(feature, face=back.face(feature.face), centre=back.point(feature.centre), slot=slot, open_at=side)
    raise TypeError(f"a {feature.kind} is not cut in standing copies")


def _angled_moved(mortise: AngledMortise, motion: Motion) -> AngledMortise:
    """Moved as a whole: what turned it now turns it where it has come."""
    there = Pose.of(motion)
    pose = there.after(mortise.pose).after(there.inverse)
    return replace(mortise, face=motion.face(mortise.face), void=motion.box(mortise.void), pose=pose)


def carried_out(own: AngledMortise, board: Board, copy: int) -> AngledMortise:
    """A cut that is known in the own frame of a part, as it is in a standing copy of it (the pose of the part left out)."""
    return _angled_moved(own, board.copies[copy].motion)


def _mortise_home(mortise: Mortise, back: Motion) -> Mortise:
    begin = mortise.flare_from
    if begin is not None:
        along = mortise.face.axis
        x, y, z = (begin if axis is along else 0.0 for axis in Axis)
        begin = back.point((x, y, z))[back.axis(along).value]
    axis = mortise.flare_axis and back.axis(mortise.flare_axis)
    rises = mortise.rises and back.face(mortise.rises)
    face, void = back.face(mortise.face), back.box(mortise.void)
    return replace(mortise, face=face, void=void, flare_axis=axis, flare_from=begin, rises=rises)


def coincide(one: Feature, other: Feature) -> bool:
    """True if two cuts of one part are the same cut."""
    if isinstance(one, EndCut) and isinstance(other, EndCut):
        slopes = zip(one.slopes, other.slopes, strict=True)
        return one.end is other.end and abs(one.at - other.at) < TINY and all(abs(a - b) < 1e-6 for (_, a), (_, b) in slopes)
    if isinstance(one, CornerSlot) and isinstance(other, CornerSlot):
        spans = one.across.low - other.across.low, one.across.high - other.across.high, one.start - other.start
        return (one.end, one.side) == (other.end, other.side) and all(abs(each) < TINY for each in spans)
    if isinstance(one, Pocket) and isinstance(other, Pocket):
        apart = max(abs(a - b) for a, b in zip(one.numbers(), other.numbers(), strict=True))
        return (one.face, one.end) == (other.face, other.end) and apart < TINY
    if isinstance(one, Bevel) and isinstance(other, Bevel):
        return (one.face, one.keeps, one.angle) == (other.face, other.keeps, other.angle)
    if isinstance(one, Hole) and isinstance(other, Hole):
        apart = max(abs(a - b) for a, b in zip(one.centre, other.centre, strict=True))
        return apart < TINY and replace(one, id="", centre=other.centre) == replace(other, id="")
    if isinstance(one, AngledMortise) and isinstance(other, AngledMortise):
        return one.face is other.face and _corners_coincide(one, other)
    if isinstance(one, Mortise | Groove) and type(one) is type(other):
        assert isinstance(other, Mortise | Groove)
        return one.face is other.face and boxes_coincide(one.void, other.void)
    if isinstance(one, Tails | Sockets) and type(one) is type(other):
        assert isinstance(other, Tails | Sockets)
        return one.comb.is_like(other.comb)
    if isinstance(one, Sawn) and isinstance(other, Sawn):
        return (one.face, one.what) == (other.face, other.what) and _outlines_coincide(one, other)
    if isinstance(one, Rabbet) and isinstance(other, Rabbet):
        return set(one.edge) == set(other.edge) and boxes_coincide(one.void, other.void)
    return False


def boxes_coincide(one: Box, other: Box) -> bool:
    spans = ((one.along(axis), other.along(axis)) for axis in Axis)
    return all(abs(a.low - b.low) < TINY and abs(a.high - b.high) < TINY for a, b in spans)


def _outlines_coincide(one: Sawn, other: Sawn) -> bool:
    """The same corners, wherever one begins to go round."""
    first, second = ([corner.at for corner in each.corners] for each in (one, other))
    return len(first) == len(second) and all(any(math.dist(a, b) < TINY for b in second) for a in first)


def _corners_coincide(one: AngledMortise, other: AngledMortise) -> bool:
    """The same block, whichever of its sides it is turned by; of round ones the same middle line, end and thickness."""
    if one.round or other.round:
        ways = [(each.mouth, along(each.mouth, each.way, each.depth)) for each in (one, other)]
        apart = max(math.dist(a, b) for a, b in zip(*ways, strict=True))
        return one.round is other.round and apart < TINY and abs(one.breadth - other.breadth) < TINY
    first, second = ([each.pose.point(corner) for corner in corners(each.void)] for each in (one, other))
    return all(any(math.dist(a, b) < TINY for b in second) for a in first)


def settled(joint: str, struck: Iterable[Struck], site: Site) -> dict[str, tuple[Feature, ...]]:
    """The features of each part, by its id.  Reports `joint-copies-differ` where copies come to different cuts."""
    by_board: dict[str, list[Struck]] = {}
    for each in struck:
        by_board.setdefault(each.board.id, []).append(each)
    return {id: _features(joint, cuts, site) for id, cuts in by_board.items()}


def _features(joint: str, cuts: Sequence[Struck], site: Site) -> tuple[Feature, ...]:
    board, clusters = cuts[0].board, _gathered(cuts)
    for cluster in clusters:
        _must_be_in_all(board, cluster, site)
    names = telling([cluster.words for cluster in clusters])
    return tuple(_named(f"{joint}.{name}", cluster) for name, cluster in zip(names, clusters, strict=True))


def _gathered(cuts: Sequence[Struck]) -> list[_Cluster]:
    clusters: list[_Cluster] = []
    for cut in cuts:
        home = brought_home(cut.feature, cut.board.copies[cut.copy].motion)
        cluster = next((each for each in clusters if coincide(each.feature, home)), None)
        if cluster is None:
            cluster = _Cluster(home, cut.words, cut.span, set(), set())
            clusters.append(cluster)
        cluster.copies.add(cut.copy)
        cluster.mates |= {cut.mate} if cut.mate else set()
    return clusters


def _must_be_in_all(board: Board, cluster: _Cluster, site: Site) -> None:
    missing = [index for index in range(len(board.copies)) if index not in cluster.copies]
    if not missing:
        return
    has, lacks = (board.copies[index].hand or "first" for index in (min(cluster.copies), missing[0]))
    message = f'The {has} "{board.id}" gets a {cluster.feature.kind} for "{cluster.words[0]}" that the {lacks} one does not get.'
    copies_differ(site, cluster.span, board, message)


_MADE_FOR_A_MATE = Mortise | AngledMortise | Groove | Rabbet | Tails | Sockets | CornerSlot | Sawn | Pocket


def _named(id: str, cluster: _Cluster) -> Feature:
    """Under its name and with its mates.  All copies of a cut are made for copies of one part."""
    feature = replace(cluster.feature, id=id)
    if not cluster.mates or not isinstance(feature, _MADE_FOR_A_MATE):
        return feature
    part = min(cluster.mates)[0]
    return replace(feature, mate=Mate(part, tuple(sorted(copy for _, copy in cluster.mates))))


def telling(words: Sequence[tuple[str, ...]]) -> list[str]:
    """For each row of words as many of them, from the first, as tell it from the others, joined by dots.

    `[("slat", "first"), ("slat", "2nd")]` gives `slat.first`, `slat.2nd`; a single row gives `slat`.
    """
    names = []
    for row in words:
        alike = [each for each in words if each[0] == row[0]]
        count = next((n for n in range(1, len(row) + 1) if len({each[:n] for each in alike}) == len(alike)), len(row))
        names.append(".".join(word.replace(" ", "_") for word in row[:count] if word))
    return names


def carried(box: Box, pose: tuple[Face, Face], onto: Box, new_pose: tuple[Face, Face]) -> Motion:
    """The motion without mirroring that lays a block onto an equal one, so that its two posed faces come to lie
    where the new pose has them.  The faces of a pose are square to each other."""
    order, sign = [0, 0, 0], [0, 0, 0]
    for old, new in zip(pose, new_pose, strict=True):
        order[new.axis.value], sign[new.axis.value] = old.axis.value, old.sign * new.sign
    (third,) = (axis for axis in Axis if axis not in (pose[0].axis, pose[1].axis))
    (new_third,) = (axis for axis in Axis if axis not in (new_pose[0].axis, new_pose[1].axis))
    order[new_third.value], sign[new_third.value] = third.value, 1
    turned = Motion((sign[0], sign[1], sign[2]), order=(order[0], order[1], order[2]))
    if turned.mirrors:
        sign[new_third.value] = -1
        turned = replace(turned, sign=(sign[0], sign[1], sign[2]))
    x, y, z = (a - b for a, b in zip(onto.centre, turned.point(box.centre), strict=True))
    return replace(turned, shift=(x, y, z))
