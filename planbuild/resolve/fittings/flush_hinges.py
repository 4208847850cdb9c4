"""Butt hinges let into two faces in one plane: a leaf that hangs down from the edge of a top.

Both leaves lie flush, the pin in the plane of the faces and in the middle of the gap, its barrel half in the wood.
"""

from __future__ import annotations

from collections.abc import Iterator

from planbuild.core.geometry import Axis, Box, Face, Span1
from planbuild.records.hardware import Item, Lump
from planbuild.resolve.fittings.base import CutFor, Holder, Put, Seat, about, length_of, out_of, sizes_of, with_place
from planbuild.resolve.fittings.hinges import Leaves


def edge_between(moving: Box, fixed: Box, face: Face) -> Face | None:
    """The edge of the moving body that looks at the fixed one across the gap; None if neither lies beside the other."""
    edges = (edge for axis in face.axis.others for edge in (axis.low, axis.high))
    return next((edge for edge in edges if _gap(moving, fixed, edge) > -1e-6), None)


def _gap(moving: Box, fixed: Box, edge: Face) -> float:
    return edge.sign * (fixed.at(edge.opposite) - moving.at(edge))


def flush_gap(leaves: Leaves, edge: Face) -> float:
    return _gap(leaves.moving.body, leaves.fixed.body, edge)


def flush_hinge(item: Item, leaves: Leaves, edge: Face) -> Put:
    """Leaves and barrel, and for each part the recess of its leaf and, deeper, that of its half of the barrel."""
    long, _ = sizes_of(item, "leaf")
    knuckle, face = length_of(item, "knuckle") or 0.0, leaves.moving.face
    pin_at = leaves.moving.body.at(edge) + edge.sign * flush_gap(leaves, edge) / 2
    plane = leaves.moving.body.at(face)
    sides = ((leaves.moving, edge, leaves.fixed), (leaves.fixed, edge.opposite, leaves.moving))
    lumps: list[Lump] = []
    cuts: list[CutFor] = []
    holders: list[Holder] = []
    for seat, toward, other in sides:
        holder = _holder(item, seat, toward, pin_at)
        holders.append(holder)
        lumps.append(Lump(_leaf(item, seat, toward, leaves.pin, leaves.place, pin_at)))
        cuts += _recesses(item, seat, toward, leaves, pin_at, holder, other.holder.board.id)
    barrel = {leaves.pin: about(leaves.place, long), edge.axis: about(pin_at, knuckle), face.axis: about(plane, knuckle)}
    lumps.append(Lump(Box.of(barrel), leaves.pin))
    at = with_place(leaves.moving.point, edge.axis, pin_at)
    return Put(at, tuple(lumps), tuple(holders), tuple(cuts))


def _holder(item: Item, seat: Seat, toward: Face, pin_at: float) -> Holder:
    """On the face, in the middle of the leaf."""
    _, wide = sizes_of(item, "leaf")
    return seat.holder.moved(with_place(seat.point, toward.axis, pin_at - toward.sign * wide / 2))


def _leaf(item: Item, seat: Seat, toward: Face, pin: Axis, place: float, pin_at: float) -> Box:
    long, wide = sizes_of(item, "leaf")
    thick = length_of(item, "thickness") or 0.0
    across = Span1(*sorted((pin_at, pin_at - toward.sign * wide)))
    deep = out_of(seat.face, seat.body.at(seat.face), -thick, 0.0)
    return Box.of({pin: about(place, long), toward.axis: across, seat.face.axis: deep})


def _recesses(
    item: Item, seat: Seat, toward: Face, leaves: Leaves, pin_at: float, holder: Holder, other: str
) -> Iterator[CutFor]:
    """Both run out at the edge of the part."""
    edge, knuckle = seat.body.at(toward), length_of(item, "knuckle") or 0.0
    leaf = _leaf(item, seat, toward, leaves.pin, leaves.place, pin_at)
    inner = leaf.at(toward.opposite)
    yield CutFor(holder, seat.recess(leaf.with_span(toward.axis, Span1(*sorted((inner, edge))))), (other, "leaf"))
    barrel = Span1(*sorted((pin_at - toward.sign * knuckle / 2, edge)))
    deep = out_of(seat.face, seat.body.at(seat.face), -knuckle / 2, 0.0)
    void = leaf.with_span(toward.axis, barrel).with_span(seat.face.axis, deep)
    yield CutFor(holder, seat.recess(void), (other, "barrel"))
