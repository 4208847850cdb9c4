"""Shelf pins set in the walls beside the shelf that lies on them."""

from __future__ import annotations

from collections.abc import Sequence

from planbuild.core.geometry import Axis
from planbuild.joints.base import Chosen, Site
from planbuild.records.design import HardwareSaid
from planbuild.records.hardware import Item
from planbuild.resolve.expressions.faults import Poisoned
from planbuild.resolve.fittings.base import Seat
from planbuild.resolve.fittings.pins import Holes, pins
from planbuild.resolve.sayings import Sayings
from planbuild.resolve.setting_out import SettingOut
from planbuild.resolve.spots import OnFace, Setting, place_on, refuse, spot

MOST_HOLES = 60
"""Holes of one row: 32 mm apart they would be 2 m high."""


def under_a_shelf(id: str, said: HardwareSaid, item: Item, setting_out: SettingOut, site: Site) -> Setting:
    assert said.carries is not None
    shelf = site.words.part(said.carries)
    if shelf is None:
        raise Poisoned
    missing = [name for name, given in (("in", said.walls), ("rows", said.rows), ("holes", said.holes)) if not given]
    if missing or said.holes is None:
        lacks = " and ".join(f"`{each}`" for each in missing)
        expected = "the walls, the rows in them and their holes"
        refuse(site, "hardware-where", said.origin, f'"{id}" does not say {lacks}.', expected)
    assert said.holes is not None
    spots = [spot(each, setting_out, site) for each in said.walls]
    own = Sayings(OnFace(setting_out.placing, said.carries), setting_out.report)
    holes = _holes(said, own, shelf, site)
    seats = [each.seat(said.origin) for each in spots]
    level = _level(said, seats, holes, site)
    rows = [place_on(each, level, own) for each in said.rows]
    puts = tuple(pins(item, seats, rows, holes, site.ruler))
    carrier = puts[0].holders[0]
    (through,) = (axis for axis in Axis if axis not in (holes.axis, carrier.face.axis))
    return Setting(id, said.origin, item, puts, shelf.board, shelf.copies, carrier, shelf.board.id, through.high.normal)


def _holes(said: HardwareSaid, own: Sayings, shelf: Chosen, site: Site) -> Holes:
    assert said.holes is not None
    around = site.words.part(said.holes.around)
    pitch = own.size(said.holes.pitch, "The pitch")
    count = own.count(said.holes.count, most=MOST_HOLES)
    if around is None:
        raise Poisoned
    if around.face is None or around.board is not shelf.board:
        message = f"`{said.holes.around.text}` is no face of what is carried."
        refuse(site, "hardware-where", said.holes.around.span, message, f"`{shelf.board.id}.bottom`")
    assert around.face is not None
    plane = shelf.board.standing(shelf.copies[0]).at(around.face)
    return Holes(around.face.axis, around.face, plane, float(pitch), count)


def _level(said: HardwareSaid, seats: Sequence[Seat], holes: Holes, site: Site) -> Axis:
    """The direction in which the rows stand apart; the same in every wall."""
    levels = {axis for seat in seats for axis in seat.face.axis.others if axis is not holes.axis}
    if len(levels) != 1 or any(seat.face.axis is holes.axis for seat in seats):
        message = "The walls do not stand so that one row of holes suits them all."
        refuse(site, "hardware-where", said.walls[0].span, message, "walls that look at each other")
    return levels.pop()
