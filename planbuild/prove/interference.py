"""No two parts claim the same wood: every pair of standing solids is compared."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from itertools import combinations

from planbuild.core.diagnostics import Diagnostic, Related
from planbuild.core.geometry import TINY, Axis, Box, Face
from planbuild.prove.measuring import THIN, Shared, box_around, shared_wood
from planbuild.prove.standing import Standing
from planbuild.prove.telling import size_of_box, told
from planbuild.records.findings import Findings, Proof
from planbuild.records.hardware import key_of
from planbuild.records.solids import Key


@dataclass(frozen=True)
class _Overlap:
    pair: tuple[Key, Key]
    shared: Shared

    @property
    def depth(self) -> float:
        return min(self.shared.box.size(axis) for axis in Axis)


def no_overlaps(standing: Standing) -> Findings:
    """Reports `joint-overlap` once for two parts, with their worst place."""
    near = list(_near(standing.boxes))
    compared = ((pair, shared_wood(*(standing.solid(key) for key in pair))) for pair in near)
    overlaps = [_Overlap(pair, shared) for pair, shared in compared if shared]
    count = len(standing.boxes)
    deepest = told(standing.ruler, max((each.depth for each in overlaps), default=0.0))
    saying = f"{len(near)} of them near enough to be cut against each other; deepest overlap {deepest}"
    proof = Proof("No two parts claim the same wood", count * (count - 1) // 2, saying)
    return Findings(tuple(_told(standing, overlaps)), (proof,))


def hardware_has_room(standing: Standing) -> Findings:
    """Reports `hardware-overlap`: a thing bought may be only where its cuts make room, clear of parts and of each other."""
    solids = {**standing.solids.placed, **standing.solids.bought}
    bought = {key: box_around(solid.wrapped) for key, solid in standing.solids.bought.items()}
    near = [pair for pair in _near({**standing.boxes, **bought}) if pair[1] in bought]
    compared = ((pair, shared_wood(solids[pair[0]], solids[pair[1]])) for pair in near)
    overlaps = [_Overlap(pair, shared) for pair, shared in compared if shared]
    deepest = told(standing.ruler, max((each.depth for each in overlaps), default=0.0))
    saying = f"{len(bought)} things bought, as blocks and bars of their size; deepest overlap {deepest}"
    proof = Proof("Hardware has room", len(near), saying)
    return Findings(tuple(_crowded(standing, overlaps)), (proof,) if bought else ())


def _crowded(standing: Standing, overlaps: list[_Overlap]) -> Iterator[Diagnostic]:
    """One finding for each entry of `hardware`, with its worst place."""
    by_entry: dict[str, _Overlap] = {}
    for each in overlaps:
        id = each.pair[1][0]
        by_entry[id] = max(each, by_entry.get(id, each), key=lambda one: one.shared.volume)
    entries = {key_of(placed, 0)[0]: placed for placed in standing.piece.hardware}
    for id, worst in by_entry.items():
        placed, other = entries[id], worst.pair[0]
        what = f'"{entries[other[0]].id}"' if other[0] in entries else standing.name(other)
        yield Diagnostic(
            "hardware-overlap",
            f'"{placed.id}" and {what} want the same place: a block of {size_of_box(standing.piece.ruler, worst.shared.box)}.',
            span=placed.origin,
            expected="hardware only where its recesses and holes make room",
            hints=(f"Move it by {told(standing.piece.ruler, worst.depth)}, or make the part give way there.",),
        )


def _near(boxes: Mapping[Key, Box]) -> Iterator[tuple[Key, Key]]:
    for (one, box), (other, against) in combinations(boxes.items(), 2):
        both = box.meet(against)
        if all(both.size(axis) > THIN for axis in Axis):
            yield one, other


def _told(standing: Standing, overlaps: list[_Overlap]) -> Iterator[Diagnostic]:
    """One finding for each two parts, in the order of the parts."""
    together: dict[tuple[str, str], list[_Overlap]] = {}
    for each in overlaps:
        (one, _), (other, _) = each.pair
        together.setdefault((one, other), []).append(each)
    for (one, other), found in together.items():
        yield _finding(standing, one, other, found)


def _notch(standing: Standing, overlap: _Overlap) -> str:
    """The notch that would make room, in the part of which it takes less; "" if it would go through all of it."""
    around = {key: _whole(standing, key, overlap.shared.box) for key in overlap.pair}
    host = min(reversed(overlap.pair), key=lambda key: len(around[key]))
    (mate,) = (key for key in overlap.pair if key is not host)
    part = standing.part(host)
    if len(around[host]) > 1:
        return ""
    motion, box = standing.copy(host).motion, standing.boxes[host]
    rim = [
        face
        for face in Face
        if face.axis not in around[host] and abs(overlap.shared.box.at(face) - box.at(face)) < TINY
    ]
    drawn = [motion.inverse.face(face) for face in rim]
    named = len(drawn) == 2 and part.grain in {face.axis for face in drawn}
    corner = f"corner: {' '.join(face.value for face in reversed(drawn))}, " if named else ""
    return f" (`notch: {{{corner}for: {mate[0]}}}` in the shape of {host[0]})"


def _whole(standing: Standing, key: Key, shared: Box) -> list[Axis]:
    """The directions in which an overlap runs through a whole part."""
    box = standing.boxes[key]
    return [axis for axis in Axis if shared.size(axis) > box.size(axis) - TINY]


def _finding(standing: Standing, one: str, other: str, found: list[_Overlap]) -> Diagnostic:
    piece, worst = standing.piece, max(found, key=lambda each: each.shared.volume)
    first, second = (standing.name(key) for key in worst.pair)
    places = "" if len(found) == 1 else f", and so in {len(found)} places"
    notch = _notch(standing, worst)
    joint = next((j for j in piece.joints if any({c.a[0], c.b[0]} == {one, other} for c in j.contacts)), None)
    return Diagnostic(
        "joint-overlap",
        f"{first} and {second} claim the same wood: a block of {size_of_box(piece.ruler, worst.shared.box)}{places}.",
        span=joint.origin if joint else piece.part(other).origin,
        expected="parts that touch and do not enter each other",
        hints=(f"move one of them by {told(piece.ruler, worst.depth)}, or join them so that one makes room{notch}",),
        related=tuple(Related(piece.part(id).origin, f"{piece.part(id).name} is placed here") for id in sorted({one, other})),
    )
