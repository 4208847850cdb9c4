"""Blocks that are turned: placed, shaped and joined straight, then turned whole about one of their edges.

All inside such a block is worked out as if it stood straight; this room turns the finished records.  What joins it to
the rest is looked at where it stands (see `joining`).
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace

from planbuild.core.diagnostics import Diagnostic
from planbuild.core.geometry import Axis, Face, Vec
from planbuild.core.poses import Pose, around, placed_at, rim
from planbuild.joints.base import Board
from planbuild.records.design import Design
from planbuild.records.hardware import Placed
from planbuild.records.openings import Block
from planbuild.records.piece import Contact, Copy, Joint, Part, Piece
from planbuild.records.spaces import TurnSaid
from planbuild.resolve.sayings import Sayings, tried
from planbuild.resolve.scopes import within
from planbuild.resolve.turn_words import WAYS


@dataclass(frozen=True)
class Turns:
    """How each copy of each turned block is turned, by the path of the block."""

    poses: Mapping[str, tuple[Pose, ...]] = field(default_factory=dict)

    def holder(self, id: str) -> str:
        """The turned block that holds a thing, or that it is; "" if none."""
        return next((block for block in self.poses if id == block or within(id, block)), "")

    def of_copies(self, block: str, count: int) -> list[Pose]:
        """For each of so many copies; those of one copy of the block stand together."""
        poses = self.poses[block]
        return [poses[copy * len(poses) // count] for copy in range(count)]

    def copies(self, id: str, copies: tuple[Copy, ...]) -> tuple[Copy, ...]:
        """The copies of a thing, turned with the block that holds it."""
        block = self.holder(id)
        if not block:
            return copies
        return tuple(replace(copy, turned=pose) for copy, pose in zip(copies, self.of_copies(block, len(copies)), strict=True))

    def boards(self, straight: Mapping[str, Board]) -> dict[str, Board]:
        """Every board where it stands."""
        return {id: replace(board, copies=self.copies(id, board.copies)) for id, board in straight.items()}

    def parts(self, straight: Sequence[Part]) -> tuple[Part, ...]:
        """Every part where it stands; what a joint calls for goes with that joint."""
        return tuple(replace(part, copies=self.copies(part.made_by or part.id, part.copies)) for part in straight)


def turns_of(design: Design, blocks: Sequence[Block], sayings: Sayings) -> Turns:
    """Reports `block-turn`, `word-unknown` and, for one turned block in another, `not-built-yet`."""
    found: dict[str, tuple[Pose, ...]] = {}
    for block in blocks:
        said = design.blocks[block.id].said.turn
        pose = tried(_pose, said, block, sayings) if said else None
        if said is None or pose is None:
            continue
        outer = next((id for id in found if within(block.id, id)), "")
        if outer:
            message = f'"{block.id}" is turned inside "{outer}", which is turned itself; that is not built yet.'
            sayings.report.add(Diagnostic("not-built-yet", message, span=said.by.span, expected="one of them turned"))
            continue
        ways = [Pose.of(motion) for motion in block.motions]
        found[block.id] = tuple(way.after(pose).after(way.inverse) for way in ways)
    return Turns(found)


def _pose(said: TurnSaid, block: Block, sayings: Sayings) -> Pose:
    """The turn of the drawn copy.  Reports `block-turn`; raises Poisoned."""
    about, angle = WAYS[sayings.choice(said.about, WAYS, "way of an edge")], sayings.degrees(said.by)
    words = said.holding.text.split()
    faces = [Face(sayings.choice(replace(said.holding, text=word), (face.value for face in Face), "face")) for word in words]
    if sorted(face.axis.value for face in faces) != sorted(axis.value for axis in about.axis.others):
        sides = " and ".join(f"{axis.low.value} or {axis.high.value}" for axis in about.axis.others)
        message = f'`holding: {said.holding.text}` is no edge of "{block.id}" that runs {said.about.text}.'
        raise sayings.refuse("block-turn", said.holding, message, f"two sides: {sides}")
    if abs(angle) > 180:
        raise sayings.refuse("block-turn", said.by, f'"{block.id}" is turned by more than half a turn.', "-180 deg to 180 deg")
    edge = block.box.centre
    for face in faces:
        edge = placed_at(edge, face.axis, block.box.at(face))
    return Pose.turning(about.normal, angle, edge)


# ---------------------------------------------------------------- the finished records


def stood(straight: Piece, turns: Turns) -> Piece:
    """The piece with its blocks turned.  Contacts of joints that reach out of a block stand as they are already."""
    if not turns.poses:
        return straight
    parts = turns.parts(straight.parts)
    by_id = {part.id: part for part in parts}
    return replace(
        straight,
        parts=parts,
        joints=tuple(_joint(each, turns, by_id) for each in straight.joints),
        hardware=tuple(_hardware(each, by_id) for each in straight.hardware),
        blocks=tuple(_block(each, turns) for each in straight.blocks),
        straight=_left_straight(straight, turns),
    )


def _left_straight(straight: Piece, turns: Turns) -> Piece:
    within_one = tuple(each for each in straight.joints if not reaches_out(each, turns))
    return replace(straight, joints=within_one, apart=tuple(turns.poses))


def reaches_out(joint: Joint, turns: Turns) -> bool:
    """True for a joint of something turned that is not said inside the same block."""
    own = turns.holder(joint.id)
    ids = {key[0] for contact in joint.contacts for key in (contact.a, contact.b)} - set(joint.makes)
    return any(turns.holder(id) != own for id in ids)


def _joint(joint: Joint, turns: Turns, parts: Mapping[str, Part]) -> Joint:
    if not turns.holder(joint.id):
        return joint
    return replace(joint, contacts=tuple(_contact(each, parts) for each in joint.contacts))


def _contact(contact: Contact, parts: Mapping[str, Part]) -> Contact:
    id, copy = contact.a
    pose = parts[id].copies[copy].turned
    if pose is None:
        return contact
    outline = tuple(pose.point(corner) for corner in contact.outline or _corners(contact))
    return replace(contact, insert=pose.direction(contact.insert), outline=outline, shoulder=around(outline))


def _corners(contact: Contact) -> list[Vec]:
    """Of the shoulder, a box without thickness."""
    thin = min(Axis, key=lambda axis: contact.shoulder.size(axis))
    return rim(contact.shoulder, thin.low)


def _hardware(placed: Placed, parts: Mapping[str, Part]) -> Placed:
    """Its places stay those of the straight block, from whose edges they are measured."""
    bought = tuple(replace(each, turned=_of_key(each.on[0], parts)) for each in placed.bought)
    return replace(placed, bought=bought)


def _of_key(key: tuple[str, int], parts: Mapping[str, Part]) -> Pose | None:
    return parts[key[0]].copies[key[1]].turned


def _block(block: Block, turns: Turns) -> Block:
    own = turns.holder(block.id)
    return replace(block, turned=tuple(turns.of_copies(own, len(block.motions)))) if own else block


# ---------------------------------------------------------------- from outside


def refuse_outer_hardware(placed: Sequence[Placed], turns: Turns, sayings: Sayings) -> None:
    """Hardware that holds something turned is said inside the block.  Reports `not-built-yet`."""
    for each in placed:
        own = turns.holder(each.id)
        ids = {each.on, each.meets, each.brings} | {key[0] for one in each.bought for key in one.on}
        other = next((block for id in sorted(ids - {""}) if (block := turns.holder(id)) != own), None)
        if other is not None:
            name = other or own
            message = f'"{each.id}" holds a part of "{name}", which is turned, from outside; that is not built yet.'
            hint = f'Say it inside "{name}", where everything stands straight.'
            sayings.report.add(Diagnostic("not-built-yet", message, span=each.origin, hints=(hint,)))
