"""Knock-down fittings set between two parts that lie against each other, with what their lengths must be."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from planbuild.core.geometry import TINY, Vec
from planbuild.joints.base import Site
from planbuild.joints.proportions import length_rule
from planbuild.records.design import HardwareSaid
from planbuild.records.hardware import BOLT, Item
from planbuild.resolve.fittings.base import Holder, Put, Seat, usual, with_place
from planbuild.resolve.fittings.knock_down import Bolt, Met, bolt_of, bolted, cam_of, cammed
from planbuild.resolve.setting_out import SettingOut
from planbuild.resolve.spots import Setting, Spot, refuse, spot


def knocked_down(
    id: str, said: HardwareSaid, item: Item, named: Spot, places: Sequence[Vec], setting_out: SettingOut, site: Site
) -> Setting:
    """Raises Poisoned after reporting `hardware-where`, `hardware-meets`, `hardware-bolt`, `hardware-barrel`."""
    if said.meets is None:
        hint = "Write `meets: rail.back`: the face in which the barrel or the pin goes."
        refuse(site, "hardware-where", said.origin, f'What does "{id}" meet?', "`meets`", hint)
    assert said.meets is not None
    half, plain = spot(said.meets, setting_out, site), named.seat(said.origin)
    seats = [replace(plain, holder=plain.holder.moved(point)) for point in places]
    put = _bolt if item.kind == BOLT else _cam
    puts = tuple(put(item, seat, half, said, site) for seat in seats)
    carrier = puts[0].holders[0]
    return Setting(id, said.origin, item, puts, named.chosen.board, named.chosen.copies, carrier, half.chosen.board.id)


def _bolt(item: Item, seat: Seat, half: Spot, said: HardwareSaid, site: Site) -> Put:
    assert said.meets is not None
    point = with_place(seat.point, seat.face.axis, seat.body.at(seat.face.opposite))
    other, ruler = Holder(half.chosen.board, seat.face, point), site.ruler
    if half.face.axis is seat.face.axis:
        message = f"The bolt runs square to the {half.face.value} face: a barrel that goes in there does not cross it."
        refuse(site, "hardware-meets", said.meets.span, message, "a face that looks another way")
    if other.copy is None:
        _apart(half, f'the far side of "{seat.holder.board.id}", where the bolt comes through', said, site)
    met = Met(seat, other, half.chosen.board.standing(other.copy or 0), half.face)
    _check_bolt(bolt_of(item, met, ruler), met, said, site)
    return bolted(item, met, ruler)


def _check_bolt(bolt: Bolt, met: Met, said: HardwareSaid, site: Site) -> None:
    assert said.meets is not None
    least, most, figure = usual("barrel_wood", site.ruler), length_rule("head_wood", site.ruler), site.ruler.plain
    thick, own, other = met.seat.body.size(met.seat.face.axis), met.seat.holder.board.id, met.joint.board.id
    if bolt.middle < least - TINY:
        message = f'The bolt stands only {figure(max(bolt.stands, 0.0))} in "{other}": its barrel would tear out of the end.'
        longer = figure(least + bolt.barrel[0] / 2 + thick - bolt.recess)
        hint = "Use a longer bolt, or let its head in: `recess`."
        refuse(site, "hardware-bolt", said.origin, message, f"{longer} or longer", hint)
    room = met.body.size(met.seat.face.axis) - usual("bolt_beyond", site.ruler) - usual("cup_floor", site.ruler)
    if bolt.stands > room + TINY:
        message = f'The bolt stands {figure(bolt.stands)} in "{other}" and comes out of it, or nearly.'
        refuse(site, "hardware-bolt", said.origin, message, f"{figure(room + thick - bolt.recess)} or shorter")
    if bolt.recess > thick - most + TINY:
        message = f'A head let in {figure(bolt.recess)} leaves too little of "{own}", {figure(thick)} thick.'
        refuse(site, "hardware-deep", said.origin, message, f"at most {figure(thick - most)}")
    if bolt.under < bolt.barrel[1] / 2 - TINY:
        long = figure(bolt.barrel[1])
        message = f"The bolt runs {figure(bolt.under)} under the {met.across.value} face: a barrel {long} long stands out."
        refuse(site, "hardware-barrel", said.meets.span, message, f"a barrel of {figure(2 * bolt.under)} or less")


def _cam(item: Item, seat: Seat, half: Spot, said: HardwareSaid, site: Site) -> Put:
    assert said.meets is not None
    across, ruler = half.face, site.ruler
    if across.axis is seat.face.axis:
        message = f"A cam in the {seat.face.value} face draws on a pin from an end or an edge, not from the {across.value}."
        refuse(site, "hardware-meets", said.meets.span, message, "a face that looks another way")
    end = across.opposite
    point = with_place(seat.point, end.axis, seat.body.at(end))
    level = seat.point[seat.face.axis.value] - seat.face.sign * seat.body.size(seat.face.axis) / 2
    other = Holder(half.chosen.board, across, with_place(point, seat.face.axis, level))
    if other.copy is None:
        _apart(half, f'the {end.value} of "{seat.holder.board.id}", where its pin goes in', said, site)
    cam, thick = cam_of(item, ruler), seat.body.size(seat.face.axis)
    if cam.cam[1] < thick / 2 + cam.thread[0] / 2 - TINY:
        message = f'A cam {ruler.plain(cam.cam[1])} deep does not reach a pin in the middle of "{seat.holder.board.id}".'
        refuse(site, "hardware-barrel", said.origin, message, f"{ruler.plain(thick / 2 + cam.thread[0] / 2)} or deeper")
    return cammed(item, Met(seat, other, half.chosen.board.standing(other.copy or 0), across), ruler)


def _apart(half: Spot, where: str, said: HardwareSaid, site: Site) -> None:
    assert said.meets is not None
    message = f'"{half.chosen.board.id}" does not lie against {where}.'
    refuse(site, "hardware-meets", said.meets.span, message, "two parts that touch where the fitting goes")
