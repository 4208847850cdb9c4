"""Pocket screws: the pocket number by number, the wood it takes, and each fault."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

import pytest
from boards_by_hand import BOTTOM_TOP, HERE, INCH, LEFT_RIGHT, HandWords, board, box, but, joined, refused, site
from joined_solids import solids_of, volume, whole

from planbuild.core.geometry import Face
from planbuild.core.tables import row
from planbuild.joints import KINDS
from planbuild.joints.base import Board, Joined, Site
from planbuild.records.design import ItemSaid, Said
from planbuild.records.piece import Item
from planbuild.records.pockets import Pocket
from planbuild.shape import kernel

POCKETS = KINDS["pocket screws"]


def screw(name: str, length: float, gauge: str = "8", head: str = "pan") -> Item:
    return Item(name, HERE, "wood screw", "screw", (("head", head), ("gauge", gauge), ("length", length * INCH)))


ITEMS = {
    "fine": screw("fine", 1.25),
    "long": screw("long", 2.5),
    "flat": screw("flat", 1.25, head="flat"),
    "thin": screw("thin", 1.25, "4"),
    "fat": screw("fat", 1.25, "12"),
}


class Words(HandWords):
    def item(self, said: Said | ItemSaid, own: str = "") -> Item | None:
        assert isinstance(said, Said)
        return ITEMS[said.text]


def bench(*boards: Board, **more: Any) -> Site:
    plain = site(*boards, **more)
    return replace(plain, words=Words(dict(plain.boards)))


STILE = board("stile", box(0, 2, 0, 0.75, 0, 30), BOTTOM_TOP, Face.FRONT)
RAIL = board("rail", box(2, 14, 0, 0.75, 20, 23), LEFT_RIGHT, Face.FRONT)
SAID: dict[str, Any] = {"part": "rail", "to": ("stile",), "item": "fine"}


def pockets(made: Joined, part: str = "rail") -> list[Pocket]:
    return [each for each in made.features[part] if isinstance(each, Pocket)]


def made(*boards: Board, **said: Any) -> Joined:
    return joined(POCKETS, "corner", bench(*boards), **(SAID | said))


# ---------------------------------------------------------------- where it lies


def test_a_rail_of_three_quarters_with_its_usual_screw() -> None:
    """Common practice: 15 degrees, a bit of 3/8 in, a screw of 1-1/4 in for wood 3/4 in thick, out in the middle of it."""
    first, second = pockets(made(RAIL, STILE))
    assert (first.face, first.end, first.angle) == (Face.BACK, Face.LEFT, 15)
    assert [round(place / INCH, 6) for place in first.exit] == [2, 0.375, 20.75]
    assert second.exit[2] / INCH == pytest.approx(22.25)
    assert (first.width, first.shoulder, first.diameter) == pytest.approx((0.375 * INCH, 0.625 * INCH, 9 / 64 * INCH))
    assert first.from_end == pytest.approx(0.375 * INCH / math.tan(math.radians(15)))
    assert first.length == pytest.approx(0.375 * INCH / math.sin(math.radians(15)))
    assert first.mouth == pytest.approx((2 * INCH + first.from_end, 0.75 * INCH, 20.75 * INCH))


def test_the_mate_is_left_whole_and_the_screws_are_bought() -> None:
    joint = made(RAIL, STILE)
    assert "stile" not in joint.features and joint.joint.hardware == (("fine", 2),)
    assert dict(joint.joint.numbers)["screw in its mate"] == pytest.approx(0.625 * INCH)
    assert [contact.insert for contact in joint.joint.contacts] == [(-1, 0, 0)]


def test_the_step_under_the_head_lies_wholly_in_thin_wood() -> None:
    """In wood 1/2 in thick the step is drawn toward the joint until its rim is under the face; the screw then goes farther."""
    thin = but(RAIL, body=box(2, 14, 0, 0.5, 20, 23))
    mate = but(STILE, body=box(0, 2, -0.25, 0.75, 0, 30))
    first = pockets(made(thin, mate))[0]
    steep = math.radians(15)
    assert 0.25 * INCH <= first.shoulder < 0.3 * INCH
    assert first.bore >= first.width / 2 / math.tan(steep) - 1e-6


def test_the_pockets_may_be_in_the_other_face_and_out_at_an_edge() -> None:
    assert pockets(made(RAIL, STILE, face="front"))[0].face is Face.FRONT
    top = board("top", box(0, 20, 0, 2, 23, 23.75), LEFT_RIGHT, Face.TOP)
    first = pockets(made(RAIL, top, to=("top",)))[0]
    assert (first.end, first.face, first.side) == (Face.TOP, Face.BACK, LEFT_RIGHT)
    assert len(pockets(made(RAIL, top, to=("top",), count="2"))) == 2


def test_the_table_names_what_a_bit_can_do() -> None:
    assert row("joints", "name", "pocket_angle")["inch"] == "15"  # type: ignore[index]
    assert row("joints", "name", "pocket_width")["inch"] == "3/8"  # type: ignore[index]


# ---------------------------------------------------------------- in wood


def test_two_cylinders_are_taken_and_nothing_else() -> None:
    """Cut off slanted, a cylinder holds as much as a straight one of the same middle line."""
    joint = made(RAIL, STILE)
    solids = solids_of(RAIL, STILE, made=joint)
    first = pockets(joint)[0]
    bore = first.deep / math.sin(math.radians(15)) - 0.625 * INCH
    one = math.pi / 4 * ((0.375 * INCH) ** 2 * bore + (9 / 64 * INCH) ** 2 * 0.625 * INCH)
    assert whole(solids, ("rail", 0)) and whole(solids, ("stile", 0))
    assert volume(solids.placed["rail", 0].wrapped) == pytest.approx(RAIL.body.volume - 2 * one, rel=1e-6)
    assert volume(solids.placed["stile", 0].wrapped) == pytest.approx(STILE.body.volume, rel=1e-9)


def test_all_that_it_takes_lies_in_its_room() -> None:
    joint = made(RAIL, STILE, count="1")
    (only,) = pockets(joint)
    left = solids_of(RAIL, STILE, made=joint).placed["rail", 0].wrapped
    gone = kernel.cut(kernel.block(RAIL.body), [left]).Shape()
    inside = kernel.common(gone, [kernel.block(only.room)])
    assert kernel.volume_and_centre(gone)[0] == pytest.approx(kernel.volume_and_centre(inside)[0], rel=1e-6)


# ---------------------------------------------------------------- faults


def told(*boards: Board, **said: Any) -> tuple[str, str]:
    """Code and message of the one error."""
    (found,) = refused(POCKETS, "corner", bench(*boards), **(SAID | said))
    assert found.span is not None
    return found.code, found.message


@pytest.mark.parametrize("item, piece", [("flat", "wedges"), ("thin", "small"), ("fat", "wider")])
def test_a_screw_that_does_not_sit_on_the_step(item: str, piece: str) -> None:
    code, message = told(RAIL, STILE, item=item)
    assert code == "joint-pocket-screw" and piece in message


def test_a_screw_that_comes_out_of_its_mate() -> None:
    narrow = but(STILE, body=box(1.25, 2, 0, 0.75, 0, 30))
    code, message = told(RAIL, narrow, item="long")
    assert code == "hardware-screw-long" and "comes out" in message


def test_a_screw_that_comes_out_of_the_side_of_its_mate() -> None:
    """The rail stands behind its stile, so that the screw runs toward the front of the stile, or past it."""
    back = but(RAIL, body=box(2, 14, 0.5, 1.25, 20, 23))
    assert told(back, STILE, face="front")[0] == "joint-screw-edge"


def test_wood_too_thin_for_a_pocket() -> None:
    thin = but(RAIL, body=box(2, 14, 0, 0.375, 20, 23))
    code, message = told(thin, STILE)
    assert code == "joint-pocket-thin" and "3/8" in message


def test_pockets_too_near_each_other_or_the_side() -> None:
    assert told(RAIL, STILE, count="9")[0] == "joint-spacing"
    assert told(RAIL, STILE, edge="0.25")[0] == "joint-screw-edge"


def test_a_part_too_short_for_its_pockets() -> None:
    short = but(RAIL, body=box(2, 4, 0, 0.75, 20, 23))
    assert told(short, STILE)[0] == "joint-screw-edge"


def test_a_face_that_is_no_broad_one_and_a_part_that_lies_flat() -> None:
    assert told(RAIL, STILE, face="top")[0] == "joint-pocket-face"
    behind = board("behind", box(0, 20, 0.75, 1.5, 20, 23), LEFT_RIGHT, Face.FRONT)
    assert told(RAIL, behind, to=("behind",))[0] == "joint-pocket-face"


def test_a_wide_rail_across_the_grain_of_its_stile() -> None:
    """Held over 9 in, white ash moves more there than screws give."""
    wide = but(RAIL, body=box(2, 14, 0, 0.75, 10, 22))
    assert told(wide, STILE)[0] == "joint-cross-grain"
