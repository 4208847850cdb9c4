"""One thing of hardware set in its places beside the part that carries it, before it is copied."""

from __future__ import annotations

from dataclasses import replace
from itertools import product

from planbuild.core.geometry import Axis, Box, Vec, hull
from planbuild.joints.base import Site
from planbuild.records.design import HardwareSaid
from planbuild.records.hardware import SLIDE, Item
from planbuild.resolve.expressions.faults import Poisoned
from planbuild.resolve.fittings.base import Put, Seat, with_place
from planbuild.resolve.fittings.kinds import LEAVES, put_on
from planbuild.resolve.fittings.knock_down import KNOCK_DOWN
from planbuild.resolve.fittings.screws import driven
from planbuild.resolve.fittings.set_on import counterpart
from planbuild.resolve.hanging import between_leaves
from planbuild.resolve.knock_down import knocked_down
from planbuild.resolve.setting_out import SettingOut
from planbuild.resolve.shelf_pins import under_a_shelf
from planbuild.resolve.slides import on_slides
from planbuild.resolve.spots import Setting, Spot, directed, listed, refuse, spot


def set_in_place(id: str, said: HardwareSaid, setting_out: SettingOut, site: Site) -> Setting:
    """The thing beside one copy of what carries it.  Raises Poisoned after reporting what is wrong."""
    item = site.words.item(said.item, id)
    ways = [name for name, given in (("on", said.on), ("leaves", said.leaves), ("carries", said.carries)) if given]
    if item is None:
        raise Poisoned
    wanted = "leaves" if item.kind in LEAVES else "carries" if item.kind == "shelf pin" else "on"
    if ways != [wanted]:
        told = f"says {' and '.join(f'`{way}`' for way in ways)}" if ways else "does not say where it is put"
        hint = {"on": "on: rail.front", "leaves": "leaves: [door.left, side.right]", "carries": "carries: shelf"}[wanted]
        refuse(site, "hardware-where", said.origin, f'"{id}", a {item.kind}, {told}.', f"`{wanted}`", f"Write `{hint}`.")
    if item.kind == SLIDE:
        return on_slides(id, said, item, _places, setting_out, site)
    work = {"leaves": between_leaves, "carries": under_a_shelf, "on": _on_a_face}[wanted]
    return work(id, said, item, setting_out, site)


def _on_a_face(id: str, said: HardwareSaid, item: Item, setting_out: SettingOut, site: Site) -> Setting:
    assert said.on is not None
    named = spot(said.on, setting_out, site)
    seat = named.seat(said.origin)
    if item.kind == "wood screw":
        return _screws(id, said, item, named, seat, site)
    if item.kind in KNOCK_DOWN:
        return knocked_down(id, said, item, named, _places(said, named, seat, None), setting_out, site)
    reach = put_on(item, seat)
    around = hull([each.box for each in reach.lumps]) if reach.lumps else None
    places = _places(said, named, seat, around)
    puts = [put_on(item, replace(seat, holder=seat.holder.moved(point))) for point in places]
    meets = ""
    if said.meets is not None:
        half = spot(said.meets, setting_out, site)
        meets, other = half.chosen.board.id, half.seat(said.origin)
        puts = [_with_half(item, put, other, seat.along) for put in puts]
    return Setting(id, said.origin, item, tuple(puts), named.chosen.board, named.chosen.copies, seat.holder, meets)


def _screws(id: str, said: HardwareSaid, item: Item, named: Spot, seat: Seat, site: Site) -> Setting:
    """Screws through the part into what lies behind it."""
    seats = [replace(seat, holder=seat.holder.moved(point)) for point in _places(said, named, seat, None)]
    puts = tuple(driven(item, each, site) for each in seats)
    behind = next((holder.board.id for put in puts for holder in put.holders[1:]), "")
    return Setting(id, said.origin, item, puts, named.chosen.board, named.chosen.copies, seat.holder, behind)


def _with_half(item: Item, put: Put, other: Seat, along: Axis) -> Put:
    """The other half, on the face that the thing meets, where its middle looks at it, and lying the same way if it can."""
    seat = replace(other, along=along) if along is not other.face.axis else other
    middle = hull([each.box for each in put.lumps]).centre if put.lumps else put.at
    point = with_place(middle, seat.face.axis, seat.point[seat.face.axis.value])
    half = counterpart(item, replace(seat, holder=seat.holder.moved(point)))
    return Put(put.at, (*put.lumps, *half.lumps), (*put.holders, *half.holders), (*put.cuts, *half.cuts))


def _places(said: HardwareSaid, named: Spot, seat: Seat, around: Box | None) -> list[Vec]:
    """Every place that `at` gives, on the face; a direction that is not said is the middle."""
    found: dict[Axis, list[float]] = {axis: [seat.point[axis.value]] for axis in seat.face.axis.others}
    for word, values in said.at.items():
        if word == "at":
            axis, places = listed(values, named, seat)
        else:
            axis, places = directed(word, values, named, around)
        found[axis] = places
    first, second = seat.face.axis.others
    return [with_place(with_place(seat.point, first, a), second, b) for a, b in product(found[first], found[second])]
