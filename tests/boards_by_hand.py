"""Boards, words and a site by hand, in inches, for the tests of the joints.

The boards of the listening bench are set here from its sizes by hand reasoning: 44 x 15 x 17-1/2 over all, legs 1-3/4
square standing 2 and 7/8 inside the seat, rails 1 thick set back 1/4 from the outside of the legs.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from typing import Any

from planbuild.core.diagnostics import Collector, Diagnostic, Span
from planbuild.core.geometry import Axis, Box, Face, Motion, Span1
from planbuild.core.units import Ruler, Unit
from planbuild.joints import base
from planbuild.joints.base import Board, Chosen, Joined, JointKind, Site
from planbuild.records.design import Said
from planbuild.records.features import Taper
from planbuild.records.piece import Copy, Item, Practice, Stock

INCH = 25.4
LEFT_RIGHT, FRONT_BACK, BOTTOM_TOP = Axis
HERE = Span("by-hand.yaml", 7, 3)
RULER = Ruler(Unit.INCH, Fraction(1, 32))
PRACTICE = Practice(
    25.4, 6.35, INCH / 16, INCH / 8, 0.25, 1 / 3, INCH / 4, INCH / 4, (INCH / 4, 3 * INCH / 8, INCH / 2), 12 * INCH
)


def box(x0: float, x1: float, y0: float, y1: float, z0: float, z1: float) -> Box:
    """A block in inches."""
    return Box(*(Span1(a * INCH, b * INCH) for a, b in ((x0, x1), (y0, y1), (z0, z1))))


def said(text: str) -> Said:
    return Said(text, HERE)


def mirrored(*axes: Axis, about: tuple[float, float, float] = (44, 15, 17.5)) -> Motion:
    """Mirrored about the middle of a frame of that size (in)."""
    sign = [-1 if axis in axes else 1 for axis in Axis]
    shift = [about[axis.value] * INCH if axis in axes else 0.0 for axis in Axis]
    return Motion((sign[0], sign[1], sign[2]), (shift[0], shift[1], shift[2]))


def moved(x: float = 0, y: float = 0, z: float = 0) -> Motion:
    return Motion(shift=(x * INCH, y * INCH, z * INCH))


ONE = (Copy("", Motion()),)
FOUR = (
    Copy("front left", Motion()),
    Copy("front right", mirrored(LEFT_RIGHT)),
    Copy("back left", mirrored(FRONT_BACK)),
    Copy("back right", mirrored(LEFT_RIGHT, FRONT_BACK)),
)
PAIR_FB = (Copy("front", Motion()), Copy("back", mirrored(FRONT_BACK)))
PAIR_LR = (Copy("left", Motion()), Copy("right", mirrored(LEFT_RIGHT)))
FIVE = tuple(Copy(hand, moved(y=1.875 * n)) for n, hand in enumerate(("first", "2nd", "3rd", "4th", "last")))

STOCK = {
    name: Stock(name, HERE, species, "8/4", 50.8, thickness * INCH, cut)
    for name, species, thickness, cut in (
        ("leg_ash", "white ash", 1.75, "rift"),
        ("top_ash", "white ash", 1, "flat"),
        ("rail_ash", "white ash", 1, "flat"),
        ("frame_ash", "white ash", 0.75, "flat"),
        ("walnut", "black walnut", 0.75, "flat"),
    )
}
TOP_SCREW = Item("top_screw", HERE, "wood screw", "top screw", (("head", "pan"), ("gauge", 8.0), ("length", 1.5 * INCH)))


def board(
    id: str, body: Box, grain: Axis, face: Face, copies: tuple[Copy, ...] = ONE, stock: str = "rail_ash", **more: Any
) -> Board:
    edge = next(each for each in (Face.TOP, Face.FRONT, Face.LEFT) if each.axis not in (grain, face.axis))
    return Board(id, id.replace("_", " "), HERE, STOCK[stock], grain, face, edge, body, copies, **more)


LEG_TAPER = Taper("taper", HERE, "", "", (Face.RIGHT,), Face.BOTTOM, 11.5 * INCH, ((LEFT_RIGHT, 1.125 * INCH),))
LEG = board("leg", box(2, 3.75, 0.875, 2.625, 0, 16.5), BOTTOM_TOP, Face.FRONT, FOUR, "leg_ash", shapes=(LEG_TAPER,))
LONG_RAIL = board("long_rail", box(3.75, 40.25, 1.125, 2.125, 13.5, 16.5), LEFT_RIGHT, Face.FRONT, PAIR_FB)
SHORT_RAIL = board("short_rail", box(2.25, 3.25, 2.625, 12.375, 13.5, 16.5), FRONT_BACK, Face.LEFT, PAIR_LR)
LOWER_RAIL = board("lower_rail", box(2.25, 3.25, 2.625, 12.375, 5, 7), FRONT_BACK, Face.LEFT, PAIR_LR)
SLAT = board("slat", box(3.25, 40.75, 3, 4.5, 6, 6.75), LEFT_RIGHT, Face.TOP, FIVE, "frame_ash")
SEAT = board("seat", box(0, 44, 0, 15, 16.5, 17.5), LEFT_RIGHT, Face.TOP, ONE, "top_ash")
BENCH = (SEAT, LEG, LONG_RAIL, SHORT_RAIL, LOWER_RAIL, SLAT)


class HandWords:
    """Plain fractions, counts and names; stands in for the language."""

    def __init__(self, boards: dict[str, Board]) -> None:
        self.boards = boards

    def length(self, said: Said) -> float | None:
        return float(sum(Fraction(piece) for piece in said.text.split("-"))) * INCH

    def count(self, said: Said) -> int | None:
        return int(said.text)

    def yes(self, said: Said) -> bool | None:
        return {"yes": True, "no": False}[said.text]

    def choice(self, said: Said, among: tuple[str, ...]) -> str | None:
        assert said.text in among
        return said.text

    def pair(self, said: Said) -> tuple[float, float] | None:
        first, second = (self.length(replace(said, text=each)) for each in said.text.split(" x "))
        return None if first is None or second is None else (first, second)

    def slope(self, said: Said) -> float | None:
        rise, run = said.text.split(":")
        return int(rise) / int(run)

    def part(self, said: Said) -> Chosen | None:
        """`rail`, `rail.left` or `front rail`."""
        words, _, face = said.text.partition(".")
        *hands, id = words.split(" ")
        board = self.boards[id]
        copies = tuple(n for n, copy in enumerate(board.copies) if set(hands) <= set(copy.hand.split()))
        return Chosen(board, copies, Face(face) if face else None, said.span)

    def parts(self, said: Said) -> tuple[Chosen, ...] | None:
        found = self.part(said)
        return (found,) if found else None

    def stock(self, said: Said) -> Stock | None:
        return STOCK[said.text]

    def item(self, said: Said) -> Item | None:
        return TOP_SCREW


def site(*boards: Board, **more: Any) -> Site:
    by_id = {each.id: each for each in boards}
    return Site(by_id, HandWords(by_id), PRACTICE, RULER, (6.0, 11.0, 8.0), Collector(), **more)


def fields(value: Any) -> Any:
    """Plain texts as the reader gives them; mappings and lists keep their form."""
    if isinstance(value, str):
        return said(value)
    if isinstance(value, dict):
        return {key: fields(each) for key, each in value.items()}
    return tuple(fields(each) for each in value) if isinstance(value, tuple) else value


def join(kind: JointKind, id: str, where: Site, **said_fields: Any) -> Joined | None:
    filled: dict[str, Any] = {"kind": said(kind.name), "origin": HERE, **fields(said_fields)}
    for nested in ("wedges", "meeting", "edge", "tusk", "haunch", "peg", "spline", "keys", "dowels", "splines"):
        if isinstance(filled.get(nested), dict):
            filled[nested] = {"origin": HERE, **filled[nested]}
    return base.joined_by(kind, id, kind.said(**listed(kind, filled)), where)


def listed(kind: JointKind, filled: dict[str, Any]) -> dict[str, Any]:
    """One name where several may stand is a list of one, as for the reader."""
    forms = {name: field.annotation for name, field in kind.said.model_fields.items()}
    many = {name for name, form in forms.items() if form == tuple[Said, ...]}
    return {name: (value,) if name in many and isinstance(value, Said) else value for name, value in filled.items()}


def joined(kind: JointKind, id: str, where: Site, **said_fields: Any) -> Joined:
    """A joint that must come out without an error."""
    made = join(kind, id, where, **said_fields)
    assert made is not None, where.report.found
    assert not [each for each in where.report.found if each.stops]
    return made


def refused(kind: JointKind, id: str, where: Site, **said_fields: Any) -> list[Diagnostic]:
    """What is reported of a joint that cannot be cut."""
    assert join(kind, id, where, **said_fields) is None
    return [each for each in where.report.found if each.stops]


def inches(box: Box) -> tuple[float, ...]:
    """The six places of a block, in."""
    return tuple(round(place / INCH, 6) for axis in Axis for place in (box.along(axis).low, box.along(axis).high))


def but(board: Board, **changes: Any) -> Board:
    return replace(board, **changes)
