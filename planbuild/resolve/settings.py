"""One thing of hardware set in its places beside the part that carries it, before it is copied."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import product
from typing import NoReturn

from planbuild.core.diagnostics import Diagnostic, Span
from planbuild.core.geometry import TINY, Axis, Box, Face, Vec, hull
from planbuild.joints.base import Board, Chosen, Site
from planbuild.records.design import HardwareSaid, Said
from planbuild.records.hardware import Item
from planbuild.resolve.expressions.faults import Poisoned
from planbuild.resolve.expressions.grammar import FACES, Reference, Step, parse
from planbuild.resolve.expressions.values import Place, Value
from planbuild.resolve.fittings.base import Holder, Put, Seat, with_place
from planbuild.resolve.fittings.hinges import Leaves, butt_depth, butt_hinge, cup_hinge
from planbuild.resolve.fittings.kinds import HINGES, put_on
from planbuild.resolve.fittings.pins import Holes, pins
from planbuild.resolve.fittings.set_on import counterpart
from planbuild.resolve.references import Placing
from planbuild.resolve.sayings import AXES, Sayings
from planbuild.resolve.setting_out import SettingOut

MOST_HOLES = 60
"""Holes of one row: 32 mm apart they would be 2 m high."""


@dataclass(frozen=True)
class Setting:
    """`puts` stand beside the first of `copies` of `board`, whose other copies have them too."""

    id: str
    span: Span
    item: Item
    puts: tuple[Put, ...]
    board: Board
    copies: tuple[int, ...]
    carrier: Holder
    meets: str = ""
    way: Vec | None = None
    """The way home of `board`, if this is what puts it in its place."""

    @property
    def home(self) -> int:
        """The copy of the carrying part that they were set on."""
        return self.carrier.copy or 0


@dataclass(frozen=True)
class _Spot:
    """A face that was named: where it stands, and how its own places are understood."""

    chosen: Chosen
    face: Face
    body: Box
    sayings: Sayings

    def seat(self, origin: Span) -> Seat:
        board = self.chosen.board
        grain = board.copies[self.chosen.copies[0]].motion.axis(board.grain)
        longer = max(self.face.axis.others, key=lambda axis: (round(self.body.size(axis), 3), axis is grain))
        point = with_place(self.body.centre, self.face.axis, self.body.at(self.face))
        return Seat(Holder(board, self.face, point), self.body, longer, origin)


class _OnFace:
    """Names as they are meant where hardware is put on a part: a bare face word or `middle` is that part's own."""

    def __init__(self, placing: Placing, own: Said) -> None:
        self._placing, self._own = placing, own

    @property
    def unit(self) -> Fraction:
        return self._placing.unit

    def within(self, scope: str) -> _OnFace:
        return _OnFace(self._placing.within(scope), self._own)

    def meaning(self, reference: Reference, axis: Axis | None) -> Value:
        if not reference.steps and (reference.last in FACES or reference.last == "middle"):
            return self._placing.within(self._own.scope).meaning(replace(reference, steps=_steps(self._own)), axis)
        return self._placing.meaning(reference, axis)

    def origin_of(self, reference: Reference) -> str:
        return self._placing.origin_of(reference)


def set_in_place(id: str, said: HardwareSaid, setting_out: SettingOut, site: Site) -> Setting:
    """The thing beside one copy of what carries it.  Raises Poisoned after reporting what is wrong."""
    item = site.words.item(said.item, id)
    ways = [name for name, given in (("on", said.on), ("leaves", said.leaves), ("carries", said.carries)) if given]
    if item is None:
        raise Poisoned
    wanted = "leaves" if item.kind in HINGES else "carries" if item.kind == "shelf pin" else "on"
    if ways != [wanted]:
        told = f"says {' and '.join(f'`{way}`' for way in ways)}" if ways else "does not say where it is put"
        hint = {"on": "on: rail.front", "leaves": "leaves: [door.left, side.right]", "carries": "carries: shelf"}[wanted]
        _refuse(site, "hardware-where", said.origin, f'"{id}", a {item.kind}, {told}.', f"`{wanted}`", f"Write `{hint}`.")
    work = {"leaves": _between_leaves, "carries": _under_a_shelf, "on": _on_a_face}[wanted]
    return work(id, said, item, setting_out, site)


def _refuse(site: Site, code: str, span: Span, message: str, expected: str = "", hint: str = "") -> NoReturn:
    """Reports and raises Poisoned."""
    site.report.add(Diagnostic(code, message, span=span, expected=expected, hints=(hint,) if hint else ()))
    raise Poisoned


def _spot(said: Said, setting_out: SettingOut, site: Site) -> _Spot:
    """A face as it stands: of the copy that is named, else of the drawn one."""
    chosen = site.words.part(said)
    if chosen is None:
        raise Poisoned
    if chosen.face is None:
        message = f'On which face of "{chosen.board.id}"?'
        _refuse(site, "hardware-face", said.span, message, hint=f"Write `{said.text}.front`, for example.")
    assert chosen.face is not None
    names = _OnFace(setting_out.placing, said)
    body = chosen.board.standing(chosen.copies[0])
    return _Spot(chosen, chosen.face, body, Sayings(names, setting_out.report))


def _steps(said: Said) -> tuple[Step, ...]:
    """The part as it was named, without its face; it was read before, so it parses."""
    reference = parse(said.text)
    assert isinstance(reference, Reference)
    return reference.steps


# ---------------------------------------------------------------- on a face


def _on_a_face(id: str, said: HardwareSaid, item: Item, setting_out: SettingOut, site: Site) -> Setting:
    assert said.on is not None
    spot = _spot(said.on, setting_out, site)
    seat = spot.seat(said.origin)
    reach = put_on(item, seat)
    around = hull([each.box for each in reach.lumps]) if reach.lumps else None
    places = _places(said, spot, seat, around)
    puts = [put_on(item, replace(seat, holder=seat.holder.moved(point))) for point in places]
    meets = ""
    if said.meets is not None:
        half = _spot(said.meets, setting_out, site)
        meets, other = half.chosen.board.id, half.seat(said.origin)
        puts = [_with_half(item, put, other, seat.along) for put in puts]
    return Setting(id, said.origin, item, tuple(puts), spot.chosen.board, spot.chosen.copies, seat.holder, meets)


def _with_half(item: Item, put: Put, other: Seat, along: Axis) -> Put:
    """The other half, on the face that the thing meets, where its middle looks at it, and lying the same way if it can."""
    seat = replace(other, along=along) if along is not other.face.axis else other
    middle = hull([each.box for each in put.lumps]).centre if put.lumps else put.at
    point = with_place(middle, seat.face.axis, seat.point[seat.face.axis.value])
    half = counterpart(item, replace(seat, holder=seat.holder.moved(point)))
    return Put(put.at, (*put.lumps, *half.lumps), (*put.holders, *half.holders), (*put.cuts, *half.cuts))


def _places(said: HardwareSaid, spot: _Spot, seat: Seat, around: Box | None) -> list[Vec]:
    """Every place that `at` gives, on the face; a direction that is not said is the middle."""
    found: dict[Axis, list[float]] = {axis: [seat.point[axis.value]] for axis in seat.face.axis.others}
    for word, values in said.at.items():
        if word == "at":
            axis, places = _listed(values, spot, seat)
        else:
            axis, places = _directed(word, values, spot, around)
        found[axis] = places
    first, second = seat.face.axis.others
    return [with_place(with_place(seat.point, first, a), second, b) for a, b in product(found[first], found[second])]


def _directed(word: str, values: Sequence[Said], spot: _Spot, around: Box | None) -> tuple[Axis, list[float]]:
    """Places along a direction; a face word says where that side of the thing is."""
    side = Face(word) if word in FACES else None
    axis = side.axis if side else AXES.get(word)
    if axis is None or axis is spot.face.axis:
        known = " or ".join(each.words for each in spot.face.axis.others)
        message = f'"{word}" is no direction on the {spot.face.value}.'
        raise spot.sayings.refuse("hardware-face", values[0] if values else _said_of(spot, word), message, known)
    shift = side.sign * around.size(axis) / 2 if side and around else 0.0
    return axis, [_place(each, axis, spot.sayings) - shift for each in values]


def _said_of(spot: _Spot, word: str) -> Said:
    """An empty list has no value to point at: the face that was named stands for it."""
    return Said(word, spot.chosen.span)


def _listed(values: Sequence[Said], spot: _Spot, seat: Seat) -> tuple[Axis, list[float]]:
    """Places that tell their direction themselves; `middle` alone lies along the longer way."""
    telling = next((each for each in values if each.text != "middle"), None)
    axis = seat.along
    if telling is not None:
        value = spot.sayings.value(telling)
        if not isinstance(value, Place):
            raise _no_place(telling, axis, spot.sayings)
        axis = value.axis
    if axis is spot.face.axis:
        known = " or ".join(each.words for each in axis.others)
        raise spot.sayings.refuse("hardware-face", values[0], f"`{values[0].text}` lies {axis.words}, square to the face.", known)
    return axis, [_place(each, axis, spot.sayings) for each in values]


def _place(said: Said, axis: Axis, sayings: Sayings) -> float:
    found = sayings.place(said, axis)
    if isinstance(found, Place):
        return float(found.mm)
    raise _no_place(said, axis, sayings)


def _no_place(said: Said, axis: Axis, sayings: Sayings) -> Poisoned:
    message = f"`{said.text}` is a length; from which face?"
    return sayings.refuse("shape-plain", said, message, "a place", (f"Write `{said.text} inside {axis.low.value}`.",))


# ---------------------------------------------------------------- between two leaves


def _between_leaves(id: str, said: HardwareSaid, item: Item, setting_out: SettingOut, site: Site) -> Setting:
    assert said.leaves is not None
    moving, fixed = (_spot(each, setting_out, site) for each in said.leaves)
    door, side = moving.seat(said.origin), fixed.seat(said.origin)
    butt = item.kind == "butt hinge"
    pin = _pin_axis(said, moving, fixed, butt, site)
    if not said.at:
        hint = "Write `at: [3 below top, 3 above bottom]`."
        _refuse(site, "hardware-where", said.origin, f'Where along the pin is "{id}"?', "`at`", hint)
    word, values = next(iter(said.at.items()))
    axis, places = _listed(values, moving, door) if word == "at" else _directed(word, values, moving, None)
    if axis is not pin:
        message = f"The pin runs {pin.words}; the places are given {axis.words}."
        _refuse(site, "hardware-where", said.origin, message, f"places {pin.words}")
    leaves = [Leaves(replace(door, along=pin), replace(side, along=pin), pin, place) for place in places]
    leaves = [replace(each, moving=_at(each.moving, pin, each.place), fixed=_at(each.fixed, pin, each.place)) for each in leaves]
    if butt:
        front = _front(said, moving, pin, site)
        _check_butt(item, leaves[0], said, site)
        puts = tuple(_on_the_edge(butt_hinge(item, each, front), each, front) for each in leaves)
        way = front.opposite.normal
    else:
        puts = tuple(cup_hinge(item, each, site.ruler) for each in leaves)
        way = moving.face.normal
    swings, stands = moving.chosen, fixed.chosen
    return Setting(id, said.origin, item, puts, swings.board, swings.copies, puts[0].holders[0], stands.board.id, way)


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


def _pin_axis(said: HardwareSaid, moving: _Spot, fixed: _Spot, butt: bool, site: Site) -> Axis:
    """Butt hinges lie between two faces that look at each other; a concealed one in a corner."""
    assert said.leaves is not None
    if butt:
        if fixed.face is not moving.face.opposite:
            message = f"The {moving.face.value} of the one and the {fixed.face.value} of the other do not look at each other."
            _refuse(site, "hardware-leaves", said.leaves[1].span, message, f"a {moving.face.opposite.value} face")
        others = moving.face.axis.others
        return max(others, key=lambda axis: moving.body.size(axis))
    if fixed.face.axis is moving.face.axis:
        message = f"A cup hinge turns a corner; both faces lie {moving.face.axis.words}."
        _refuse(site, "hardware-leaves", said.leaves[1].span, message, "the back of a door and the inside of its side")
    (pin,) = (axis for axis in Axis if axis not in (fixed.face.axis, moving.face.axis))
    return pin


def _front(said: HardwareSaid, moving: _Spot, pin: Axis, site: Site) -> Face:
    """The face at which the knuckle stands."""
    (across,) = (axis for axis in moving.face.axis.others if axis is not pin)
    if said.knuckle is None:
        known = f"`knuckle: {across.low.value}` or `knuckle: {across.high.value}`"
        _refuse(site, "hardware-where", said.origin, "On which face does the knuckle stand?", known)
    assert said.knuckle is not None
    return Face(moving.sayings.choice(said.knuckle, (across.low.value, across.high.value), "side for the knuckle"))


def _check_butt(item: Item, leaves: Leaves, said: HardwareSaid, site: Site) -> None:
    """Reports `hardware-gap`: the leaves must go in, but not so deep that they lose each other."""
    assert said.leaves is not None
    figure, gap, deep = site.ruler.plain, leaves.gap, butt_depth(item, leaves.gap)
    thick = float(str(dict(item.fields)["thickness"]))
    if gap < -TINY or deep < -TINY:
        message = f"The gap between the two leaves is {figure(gap)}; the knuckle fills {figure(gap + 2 * deep)}."
        _refuse(site, "hardware-gap", said.leaves[0].span, message, "a gap no wider than the knuckle")
    if thick - deep > gap / 2 + TINY:
        message = f"Two leaves of {figure(thick)} do not close on a knuckle of {figure(gap + 2 * deep)}."
        _refuse(site, "hardware-gap", said.leaves[0].span, message, "a knuckle of twice the leaf's thickness or more")


# ---------------------------------------------------------------- under a shelf


def _under_a_shelf(id: str, said: HardwareSaid, item: Item, setting_out: SettingOut, site: Site) -> Setting:
    assert said.carries is not None
    shelf = site.words.part(said.carries)
    if shelf is None:
        raise Poisoned
    missing = [name for name, given in (("in", said.walls), ("rows", said.rows), ("holes", said.holes)) if not given]
    if missing or said.holes is None:
        lacks = " and ".join(f"`{each}`" for each in missing)
        expected = "the walls, the rows in them and their holes"
        _refuse(site, "hardware-where", said.origin, f'"{id}" does not say {lacks}.', expected)
    assert said.holes is not None
    spots = [_spot(each, setting_out, site) for each in said.walls]
    own = Sayings(_OnFace(setting_out.placing, said.carries), setting_out.report)
    holes = _holes(said, own, shelf, site)
    seats = [each.seat(said.origin) for each in spots]
    level = _level(said, seats, holes, site)
    rows = [_place(each, level, own) for each in said.rows]
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
        _refuse(site, "hardware-where", said.holes.around.span, message, f"`{shelf.board.id}.bottom`")
    assert around.face is not None
    plane = shelf.board.standing(shelf.copies[0]).at(around.face)
    return Holes(around.face.axis, around.face, plane, float(pitch), count)


def _level(said: HardwareSaid, seats: Sequence[Seat], holes: Holes, site: Site) -> Axis:
    """The direction in which the rows stand apart; the same in every wall."""
    levels = {axis for seat in seats for axis in seat.face.axis.others if axis is not holes.axis}
    if len(levels) != 1 or any(seat.face.axis is holes.axis for seat in seats):
        message = "The walls do not stand so that one row of holes suits them all."
        _refuse(site, "hardware-where", said.walls[0].span, message, "walls that look at each other")
    return levels.pop()
