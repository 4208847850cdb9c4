"""Bought slides between a drawer and what it runs in: the room at its side, and whether they lie on both parts."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace

from planbuild.core.geometry import TINY, Axis, Box, Vec
from planbuild.joints.base import Board, Site
from planbuild.records.design import HardwareSaid
from planbuild.records.hardware import Item, Lump
from planbuild.resolve.fittings.base import Holder, Put, Seat, length_of, usual, with_place
from planbuild.resolve.setting_out import SettingOut
from planbuild.resolve.spots import Setting, Spot, refuse, spot

Places = Callable[[HardwareSaid, Spot, Seat, Box], Sequence[Vec]]
"""What `at` says of the middle of a thing, given the block that it fills."""


def on_slides(
    id: str, said: HardwareSaid, item: Item, places: Places, setting_out: SettingOut, site: Site
) -> Setting:
    """Raises Poisoned after reporting `hardware-leaves`, `hardware-room` or `hardware-beside`."""
    assert said.leaves is not None
    moving, fixed = (spot(each, setting_out, site) for each in said.leaves)
    if fixed.face is not moving.face.opposite or moving.face.axis is Axis.BOTTOM_TOP:
        message = f"No slide fits between a {moving.face.value} and a {fixed.face.value} face: it lies between two upright ones."
        refuse(site, "hardware-leaves", said.leaves[1].span, message, "the outside of a drawer and the inside of its case")
    (along,) = (axis for axis in moving.face.axis.others if axis is not Axis.BOTTOM_TOP)
    seat = replace(moving.seat(said.origin), along=along)
    gap = moving.face.sign * (fixed.body.at(fixed.face) - moving.body.at(moving.face))
    _check_room(item, gap, said, site)
    solid = seat.box(*_flat(item), 0.0, length_of(item, "thickness") or 0.0)
    puts = tuple(_put(item, replace(seat, holder=seat.holder.moved(at)), fixed) for at in places(said, moving, seat, solid))
    for put in puts:
        _check_on_both(item, put, moving, fixed, said, site)
    chosen = moving.chosen
    return Setting(id, said.origin, item, puts, chosen.board, chosen.copies, puts[0].holders[0], fixed.chosen.board.id)


def _flat(item: Item) -> tuple[float, float]:
    return length_of(item, "length") or 0.0, length_of(item, "height") or 0.0


def _put(item: Item, seat: Seat, fixed: Spot) -> Put:
    """A block that stands for both members, drawn back."""
    lump = Lump(seat.box(*_flat(item), 0.0, length_of(item, "thickness") or 0.0))
    point = with_place(seat.point, fixed.face.axis, fixed.body.at(fixed.face))
    return Put(seat.point, (lump,), (seat.holder, Holder(fixed.chosen.board, fixed.face, point)))


def _check_room(item: Item, gap: float, said: HardwareSaid, site: Site) -> None:
    """Reports `hardware-room`: beside the drawer there must be as much room as the slide is thick, and little more."""
    assert said.leaves is not None
    figure, thick = site.ruler.plain, length_of(item, "thickness") or 0.0
    slack = usual("slide_slack", site.ruler)
    if thick - TINY <= gap <= thick + slack + TINY:
        return
    told = f"{figure(gap)} of room" if gap > TINY else "no room"
    off = figure(abs(gap - thick))
    message = f"There is {told} at the side of the drawer; a slide {figure(thick)} thick wants {figure(thick)}."
    hint = f"Make the drawer {off} {'narrower' if gap < thick else 'wider'} on each side that has a slide."
    expected = f"{figure(thick)} to {figure(thick + slack)}"
    refuse(site, "hardware-room", said.leaves[0].span, message, expected, hint)


def _check_on_both(item: Item, put: Put, moving: Spot, fixed: Spot, said: HardwareSaid, site: Site) -> None:
    """Reports `hardware-beside` for a slide that is longer or higher than a part has room for."""
    for each in (moving, fixed):
        for axis in each.face.axis.others:
            span, wood = put.lumps[0].box.along(axis), each.body.along(axis)
            if span.low < wood.low - TINY or span.high > wood.high + TINY:
                board: Board = each.chosen.board
                figure = site.ruler.plain
                message = f'"{item.id}", {figure(span.size)} {axis.words}, reaches past "{board.id}", {figure(wood.size)}.'
                refuse(site, "hardware-beside", said.origin, message, "both parts behind all of it", "Use a shorter one.")
