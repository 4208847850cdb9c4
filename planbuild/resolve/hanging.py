"""Hinges set between the part that swings and the one that stands."""

from __future__ import annotations

from dataclasses import replace

from planbuild.core.geometry import TINY, Axis, Face
from planbuild.joints.base import Site
from planbuild.records.design import HardwareSaid
from planbuild.records.hardware import Item
from planbuild.resolve.fittings.base import Put, Seat, with_place
from planbuild.resolve.fittings.flush_hinges import edge_between, flush_gap, flush_hinge
from planbuild.resolve.fittings.hinges import Leaves, butt_depth, butt_hinge, cup_hinge
from planbuild.resolve.setting_out import SettingOut
from planbuild.resolve.spots import Setting, Spot, directed, listed, refuse, spot


def between_leaves(id: str, said: HardwareSaid, item: Item, setting_out: SettingOut, site: Site) -> Setting:
    assert said.leaves is not None
    moving, fixed = (spot(each, setting_out, site) for each in said.leaves)
    door, side = moving.seat(said.origin), fixed.seat(said.origin)
    butt = item.kind == "butt hinge"
    edge = _edge(moving, fixed, said, site) if butt and fixed.face is moving.face else None
    pin = _along(edge, moving) if edge else _pin_axis(said, moving, fixed, butt, site)
    if not said.at:
        hint = "Write `at: [3 below top, 3 above bottom]`."
        refuse(site, "hardware-where", said.origin, f'Where along the pin is "{id}"?', "`at`", hint)
    word, values = next(iter(said.at.items()))
    axis, places = listed(values, moving, door) if word == "at" else directed(word, values, moving, None)
    if axis is not pin:
        message = f"The pin runs {pin.words}; the places are given {axis.words}."
        refuse(site, "hardware-where", said.origin, message, f"places {pin.words}")
    leaves = [Leaves(replace(door, along=pin), replace(side, along=pin), pin, place) for place in places]
    leaves = [replace(each, moving=_at(each.moving, pin, each.place), fixed=_at(each.fixed, pin, each.place)) for each in leaves]
    if edge:
        _check_flush(item, leaves[0], edge, said, site)
        puts = tuple(flush_hinge(item, each, edge) for each in leaves)
        way = edge.normal
    elif butt:
        front = _front(said, moving, pin, site)
        _check_butt(item, leaves[0], said, site)
        puts = tuple(_on_the_edge(butt_hinge(item, each, front), each, front) for each in leaves)
        way = front.opposite.normal
    else:
        puts = tuple(cup_hinge(item, each, site.ruler) for each in leaves)
        way = moving.face.normal
    swings, stands = moving.chosen, fixed.chosen
    return Setting(id, said.origin, item, puts, swings.board, swings.copies, puts[0].holders[0], stands.board.id, way)


def _along(edge: Face, moving: Spot) -> Axis:
    """The pin of a hinge in one plane runs along the edge."""
    (pin,) = (axis for axis in moving.face.axis.others if axis is not edge.axis)
    return pin


def _edge(moving: Spot, fixed: Spot, said: HardwareSaid, site: Site) -> Face:
    """Of two faces in one plane, the edge of the moving part that looks at the other.  Reports `hardware-leaves`."""
    assert said.leaves is not None
    edge = edge_between(moving.body, fixed.body, moving.face)
    level = abs(moving.body.at(moving.face) - fixed.body.at(fixed.face)) < TINY
    if edge is None or not level:
        wrong = "do not lie in one plane" if edge else "do not lie side by side"
        message = f"The {moving.face.value} faces of the two {wrong}, and do not look at each other."
        refuse(site, "hardware-leaves", said.leaves[1].span, message, f"a {moving.face.opposite.value} face, or one in one plane")
    assert edge is not None
    return edge


def _check_flush(item: Item, leaves: Leaves, edge: Face, said: HardwareSaid, site: Site) -> None:
    """Reports `hardware-gap`: the barrel must have wood on both sides, and be thicker than two leaves."""
    assert said.leaves is not None
    figure, gap = site.ruler.plain, flush_gap(leaves, edge)
    knuckle, thick = (float(str(dict(item.fields)[name])) for name in ("knuckle", "thickness"))
    if gap > knuckle - TINY:
        message = f"The gap between the two leaves is {figure(gap)}; the knuckle fills {figure(knuckle)}."
        refuse(site, "hardware-gap", said.leaves[0].span, message, "a gap no wider than the knuckle")
    if 2 * thick > knuckle + TINY:
        message = f"Two leaves of {figure(thick)} do not close on a knuckle of {figure(knuckle)}."
        refuse(site, "hardware-gap", said.leaves[0].span, message, "a knuckle of twice the leaf's thickness or more")


def _at(seat: Seat, pin: Axis, place: float) -> Seat:
    return replace(seat, holder=seat.holder.moved(with_place(seat.point, pin, place)))


def _on_the_edge(put: Put, leaves: Leaves, front: Face) -> Put:
    """The holders' points lie on their faces in the middle of the leaves, not at the middle of the part."""
    inner = leaves.moving.body.at(front) - front.sign * 2.0
    holders = tuple(
        seat.holder.moved(with_place(seat.point, front.axis, inner)) for seat in (leaves.moving, leaves.fixed)
    )
    cuts = tuple(replace(cut, holder=holder) for cut, holder in zip(put.cuts, holders, strict=True))
    return replace(put, holders=holders, cuts=cuts)


def _pin_axis(said: HardwareSaid, moving: Spot, fixed: Spot, butt: bool, site: Site) -> Axis:
    """Butt hinges lie between two faces that look at each other; a concealed one in a corner."""
    assert said.leaves is not None
    if butt:
        if fixed.face is not moving.face.opposite:
            message = f"The {moving.face.value} of the one and the {fixed.face.value} of the other do not look at each other."
            refuse(site, "hardware-leaves", said.leaves[1].span, message, f"a {moving.face.opposite.value} face")
        return _butt_pin(said, moving)
    if fixed.face.axis is moving.face.axis:
        message = f"A cup hinge turns a corner; both faces lie {moving.face.axis.words}."
        refuse(site, "hardware-leaves", said.leaves[1].span, message, "the back of a door and the inside of its side")
    (pin,) = (axis for axis in Axis if axis not in (fixed.face.axis, moving.face.axis))
    return pin


def _butt_pin(said: HardwareSaid, moving: Spot) -> Axis:
    """Square to the way in which the knuckle looks; where that is not said, along the longer side of the leaf's face."""
    others = moving.face.axis.others
    across = next((axis for axis in others if said.knuckle and said.knuckle.text in (axis.low.value, axis.high.value)), None)
    shorter = min(others, key=lambda axis: moving.body.size(axis))
    return next(axis for axis in others if axis is not (across or shorter))


def _front(said: HardwareSaid, moving: Spot, pin: Axis, site: Site) -> Face:
    """The face at which the knuckle stands."""
    (across,) = (axis for axis in moving.face.axis.others if axis is not pin)
    if said.knuckle is None:
        known = f"`knuckle: {across.low.value}` or `knuckle: {across.high.value}`"
        refuse(site, "hardware-where", said.origin, "On which face does the knuckle stand?", known)
    assert said.knuckle is not None
    return Face(moving.sayings.choice(said.knuckle, (across.low.value, across.high.value), "side for the knuckle"))


def _check_butt(item: Item, leaves: Leaves, said: HardwareSaid, site: Site) -> None:
    """Reports `hardware-gap`: the leaves must go in, but not so deep that they lose each other."""
    assert said.leaves is not None
    figure, gap, deep = site.ruler.plain, leaves.gap, butt_depth(item, leaves.gap)
    thick = float(str(dict(item.fields)["thickness"]))
    if gap < -TINY or deep < -TINY:
        message = f"The gap between the two leaves is {figure(gap)}; the knuckle fills {figure(gap + 2 * deep)}."
        refuse(site, "hardware-gap", said.leaves[0].span, message, "a gap no wider than the knuckle")
    if thick - deep > gap / 2 + TINY:
        message = f"Two leaves of {figure(thick)} do not close on a knuckle of {figure(gap + 2 * deep)}."
        refuse(site, "hardware-gap", said.leaves[0].span, message, "a knuckle of twice the leaf's thickness or more")
