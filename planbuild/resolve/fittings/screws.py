"""Wood screws put on a face by `hardware:`: through the part, into what lies behind it or out of the piece into a wall."""

from __future__ import annotations

from dataclasses import replace

from planbuild.core.geometry import TINY, Face
from planbuild.joints.base import Site
from planbuild.joints.proportions import share_rule
from planbuild.joints.screws import Screw, depth_of, screw_into
from planbuild.records.features import Hole
from planbuild.records.hardware import Item
from planbuild.resolve.expressions.faults import Poisoned
from planbuild.resolve.fittings.base import CutFor, Holder, Put, Seat, with_place


def driven(item: Item, seat: Seat, site: Site) -> Put:
    """A hole for the shank, and a pilot where the thread holds.  Raises Poisoned after reporting a screw that is too
    long or too short (`hardware-screw-long`, `hardware-screw-short`)."""
    axis = seat.face.axis
    behind = _behind(seat, site)
    holding = behind or seat.holder
    screw = screw_into(item, holding.board.stock, seat.origin, site)
    if screw is None:
        raise Poisoned
    through = seat.body.size(axis)
    if behind is None and not _leaves_the_piece(seat, site):
        return _blind(screw, seat, through, site)
    sunk = (max(screw.head, screw.clearance), share_rule("countersink_angle", site.ruler))
    hole = _hole(seat, seat.holder, screw.clearance, None, "clearance", screw)
    hole = replace(hole, countersink=sunk) if screw.flat and screw.head > screw.clearance + TINY else hole
    shank = CutFor(seat.holder, hole, (seat.holder.board.id, "shank"))
    if behind is None:
        return Put(seat.point, (), (seat.holder,), (shank,))
    into = behind.board.standing(behind.copy or 0).size(axis)
    depth = depth_of(screw, through, into, behind.board.id, seat.origin, site)
    if depth is None:
        raise Poisoned
    thread = CutFor(behind, _hole(seat, behind, screw.pilot, depth, "pilot", screw), (seat.holder.board.id, "thread"))
    return Put(seat.point, (), (seat.holder, behind), (shank, thread))


def _blind(screw: Screw, seat: Seat, thick: float, site: Site) -> Put:
    """A screw that holds in the part itself."""
    depth = depth_of(screw, 0.0, thick, seat.holder.board.id, seat.origin, site)
    if depth is None:
        raise Poisoned
    pilot = _hole(seat, seat.holder, screw.pilot, depth, "pilot", screw)
    return Put(seat.point, (), (seat.holder,), (CutFor(seat.holder, pilot, (seat.holder.board.id, "thread")),))


def _hole(seat: Seat, holder: Holder, diameter: float, depth: float | None, purpose: str, screw: Screw) -> Hole:
    return Hole("", seat.origin, "", "", holder.face, holder.point, diameter, depth, purpose, gauge=screw.gauge)


def _behind(seat: Seat, site: Site) -> Holder | None:
    """What lies flat against the far face, there where the screw comes through."""
    point = with_place(seat.point, seat.face.axis, seat.body.at(seat.face.opposite))
    holders = (Holder(board, seat.face, point) for board in site.boards.values())
    return next((each for each in holders if each.copy is not None), None)


def _leaves_the_piece(seat: Seat, site: Site) -> bool:
    """Whether the far face is the outermost at the back or the bottom: what lies behind it is a wall or a floor."""
    far = seat.face.opposite
    if far not in (Face.BACK, Face.BOTTOM):
        return False
    reach = max(board.standing(copy).at(far) * far.sign for board in site.boards.values() for copy in range(len(board.copies)))
    return seat.body.at(far) * far.sign > reach - TINY
