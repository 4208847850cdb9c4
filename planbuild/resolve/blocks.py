"""Openings and blocks as they stand, what the blocks are given, and how they move."""

from __future__ import annotations

from fractions import Fraction

from planbuild.records.design import Said
from planbuild.records.openings import Block, Opening
from planbuild.records.photos import photo_of
from planbuild.records.spaces import PlacedBlock
from planbuild.resolve.boards import printed_name
from planbuild.resolve.copies import copies
from planbuild.resolve.expressions.faults import Poisoned
from planbuild.resolve.expressions.values import Angle, Incline, Quantity
from planbuild.resolve.moving import moves_of
from planbuild.resolve.sayings import Sayings, tried
from planbuild.resolve.scopes import within
from planbuild.resolve.setting_out import SettingOut, box_of


def openings(setting_out: SettingOut) -> tuple[Opening, ...]:
    """The openings of the design, without those at fault (reported when they were placed)."""
    found = []
    for id, said in setting_out.design.openings.items():
        spans, levels = setting_out.spans(id), tried(setting_out.levels_of, id)
        if spans and levels:
            motions = tuple(each.motion for each in copies(levels))
            name = printed_name(id, said.name)
            found.append(Opening(id, name, said.origin, box_of(spans), motions, photo_of(said.photo, f"the {name}")))
    return tuple(found)


def blocks(setting_out: SettingOut) -> tuple[Block, ...]:
    """The blocks of the design.  Reports `block-moves`, `word-unknown`."""
    found = (_block(id, each, setting_out) for id, each in setting_out.design.blocks.items())
    return tuple(block for block in found if block is not None)


def _block(id: str, block: PlacedBlock, setting_out: SettingOut) -> Block | None:
    said, spans, levels = block.said, setting_out.spans(id), tried(setting_out.levels_of, id)
    moves = tried(moves_of, id, block.moves, setting_out.places) if block.moves else None
    if spans is None or levels is None:
        return None
    standing = copies(levels)
    hands = tuple(each.hand for each in standing) if len(standing) > 1 else ("",)  # one alone is called by its name
    return Block(
        id=id,
        name=printed_name(id, said.name),
        kind=block.kind,
        origin=said.origin,
        box=box_of(spans),
        hands=hands,
        motions=tuple(each.motion for each in standing),
        parts=tuple(part for part in setting_out.design.parts if within(part, id)),
        moves=moves,
        note=said.note.text if said.note else "",
        why=said.why.text if said.why else "",
        photo=photo_of(said.photo, f"the {printed_name(id, said.name)}"),
    )


# ---------------------------------------------------------------- what a block is given


def check_given(setting_out: SettingOut) -> None:
    """What a block is given lies in the range that the block allows.  Reports `block-range`."""
    for path, block in setting_out.design.blocks.items():
        for name, size in block.sizes.items():
            value, low, high = (_figure(each, setting_out.places) for each in (size.value, size.low, size.high))
            if value is None or ((low is None or value >= low) and (high is None or value <= high)):
                continue
            ends = " to ".join(each.text for each in (size.low, size.high) if each)
            outside = "outside" if size.low and size.high else "under" if size.low else "over"
            message = f"`{name}: {size.value.text}` is {outside} {ends}."
            hint = f'The block "{path}" is made for that; write another block for more.'
            setting_out.places.refuse("block-range", size.value, message, ends, (hint,))


def _figure(said: Said | None, sayings: Sayings) -> Fraction | None:
    """A size or an end of its range as a figure that can be compared."""
    try:
        value = sayings.value(said) if said else None
    except Poisoned:
        return None
    if isinstance(value, Quantity):
        return value.figure
    return Fraction(value.degrees) if isinstance(value, Angle | Incline) else None
