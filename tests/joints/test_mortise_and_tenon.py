"""Mortise and tenon: the bench's joints number by number, the trade's defaults, and each fault."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

import pytest
from boards_by_hand import (
    BENCH,
    BOTTOM_TOP,
    FRONT_BACK,
    HERE,
    INCH,
    LEFT_RIGHT,
    LEG,
    LONG_RAIL,
    LOWER_RAIL,
    ONE,
    PAIR_FB,
    PAIR_LR,
    SHORT_RAIL,
    SLAT,
    board,
    box,
    inches,
    join,
    joined,
    mirrored,
    moved,
    refused,
    site,
)

from planbuild.core.diagnostics import Collector, Severity
from planbuild.core.geometry import Face, Motion
from planbuild.joints import KINDS
from planbuild.joints.base import Board, Joined
from planbuild.records.features import Mate, Mortise, Taper, Tenon
from planbuild.records.piece import Copy

KIND = KINDS["mortise and tenon"]
RAIL = board("rail", box(2, 10, 0.5, 1.5, 4, 7), LEFT_RIGHT, Face.FRONT)
POST_PAIR = (Copy("left", Motion()), Copy("right", mirrored(LEFT_RIGHT, about=(12, 2, 10))))
POSTS = board("post", box(0, 2, 0, 2, 0, 10), BOTTOM_TOP, Face.FRONT, POST_PAIR)
SAID: dict[str, Any] = {"tenon": ("rail",)}


def tenon(made: Joined, part: str, end: str) -> Tenon:
    return next(each for each in made.features[part] if isinstance(each, Tenon) and each.end.value == end)


def mortises(made: Joined, part: str) -> dict[str, Mortise]:
    return {each.id: each for each in made.features[part] if isinstance(each, Mortise)}


def figures(made: Joined) -> dict[str, float | int | str]:
    """Numbers of the joint, lengths in inches."""
    return {name: round(value / INCH, 5) if isinstance(value, float) else value for name, value in made.joint.numbers}


def rails() -> Joined:
    shoulders = {"top": "1/2", "bottom": "1/4"}
    return joined(
        KIND,
        "rails",
        site(*BENCH),
        tenon=("long_rail", "short_rail"),
        thickness="3/8",
        length="1-1/8",
        shoulders=shoulders,
        meeting="mitred",
    )


# ---------------------------------------------------------------- the bench, worked out by hand


def test_rails_of_the_bench() -> None:
    made = rails()
    assert figures(made) == {
        "tenon thickness": 0.375,
        "tenon width": 2.25,
        "tenon length": 1.125,
        "top shoulder": 0.5,
        "bottom shoulder": 0.25,
        "shoulder beside each cheek": 0.3125,
        "mortise depth": 1.1875,
        "mitre from the shoulder, on the short side": 0.75,
    }
    assert inches(tenon(made, "long_rail", "left").block) == (2.625, 3.75, 1.4375, 1.8125, 13.75, 16)
    assert inches(tenon(made, "short_rail", "back").block) == (2.5625, 2.9375, 12.375, 13.5, 13.75, 16)


def test_every_leg_gets_the_same_two_mortises_for_all_rails() -> None:
    found = mortises(rails(), "leg")
    assert list(found) == ["rails.long_rail", "rails.short_rail"]
    long, short = found.values()
    assert (long.face, inches(long.void)) == (Face.RIGHT, (2.5625, 3.75, 1.4375, 1.8125, 13.75, 16))
    assert (short.face, inches(short.void)) == (Face.BACK, (2.5625, 2.9375, 1.4375, 2.625, 13.75, 16))
    assert (long.mate, short.mate) == (Mate("long_rail", (0, 1)), Mate("short_rail", (0, 1)))


def test_mortises_lie_nine_sixteenths_from_the_outside_of_the_leg() -> None:
    long, short = mortises(rails(), "leg").values()
    assert long.void.y.low - LEG.body.y.low == pytest.approx(9 / 16 * INCH)
    assert short.void.x.low - LEG.body.x.low == pytest.approx(9 / 16 * INCH)


def test_rails_meet_legs_eight_times_and_go_home_along_their_grain() -> None:
    contacts = rails().joint.contacts
    assert len({(each.a, each.b) for each in contacts}) == 8
    first = contacts[0]
    assert (first.a, first.b, first.insert) == (("long_rail", 0), ("leg", 0), (-1, 0, 0))
    assert inches(first.shoulder) == (3.75, 3.75, 1.125, 2.125, 13.5, 16.5)
    assert first.cross_grain == pytest.approx(2.25 * INCH)
    # A long cheek of 1-1/8 and a short one of 3/4, both 2-1/4 wide.
    assert first.glue_area == pytest.approx((1.125 + 0.75) * 2.25 * INCH**2)


def test_slats_of_the_bench() -> None:
    made = joined(
        KIND,
        "slats",
        site(*BENCH),
        tenon=("slat",),
        thickness="1/4",
        length="3/8",
        shoulders={"front": "1/8", "back": "1/8"},
        glue="no",
    )
    assert inches(tenon(made, "slat", "left").block) == (2.875, 3.25, 3.125, 4.375, 6.25, 6.5)
    found = mortises(made, "lower_rail")
    assert list(found) == [f"slats.slat.{hand}" for hand in ("first", "2nd", "3rd", "4th", "last")]
    assert [each.mate for each in found.values()] == [Mate("slat", (number,)) for number in range(5)]
    assert inches(found["slats.slat.last"].void) == (2.8125, 3.25, 10.625, 11.875, 6.25, 6.5)
    assert tenon(made, "slat", "right").mate == Mate("lower_rail", (1,))
    assert (made.joint.glue, made.joint.fit, made.joint.contacts[0].glue_area) == (False, "sliding", 0)


# ---------------------------------------------------------------- defaults


def test_defaults_by_published_proportions() -> None:
    """Joinery texts: a third of the stock, nearest chisel (1/3 of 1 in: 3/8); mortise three times as deep as wide."""
    made = joined(KIND, "hold", site(RAIL, POSTS), **SAID)
    sizes = figures(made)
    assert (sizes["tenon thickness"], sizes["tenon length"], sizes["mortise depth"]) == (0.375, 1.125, 1.1875)
    assert (sizes["top shoulder"], sizes["bottom shoulder"], sizes["tenon width"]) == (0.25, 0.25, 2.5)
    words = [line.split(":")[0] for line in made.joint.defaults]
    assert words == [
        "Tenon thickness is a third of the thinner part, nearest chisel",
        "Shoulder where none was said",
        "Tenon length is three times its thickness, as far as the mate allows",
        "Mortise deeper than the tenon is long",
    ]


def test_default_length_stops_a_quarter_before_the_far_side() -> None:
    thin = replace(POSTS, body=box(1, 2, 0, 2, 0, 10))
    assert figures(joined(KIND, "hold", site(RAIL, thin), **SAID))["tenon length"] == 1 - 1 / 16 - 1 / 4


def test_thickness_is_measured_across_the_grain_of_the_mortised_part() -> None:
    """A level slat in a level rail: its thickness is up and down, for the rail's grain runs front to back."""
    made = joined(KIND, "slats", site(LOWER_RAIL, SLAT), tenon=("slat",), length="3/8")
    block = tenon(made, "slat", "left").block
    assert (block.size(BOTTOM_TOP), block.size(FRONT_BACK)) == (pytest.approx(INCH / 4), pytest.approx(INCH))


@pytest.mark.parametrize(
    ("fields", "place"),
    [
        ({"from_face": {"front": "1/8"}}, (0.625, 1.0)),
        ({"from_face": {"back": "1/8"}}, (1.0, 1.375)),
        ({"thickness": "1/2"}, (0.75, 1.25)),
        ({"shoulders": {"front": "1/4", "back": "1/4"}}, (0.75, 1.25)),
    ],
)
def test_where_the_tenon_stands_in_the_thickness(fields: dict[str, Any], place: tuple[float, float]) -> None:
    block = tenon(joined(KIND, "hold", site(RAIL, POSTS), **SAID, **fields), "rail", "left").block
    assert inches(block)[2:4] == place


@pytest.mark.parametrize(
    ("fields", "place"),
    [
        ({"width": "2"}, (4.5, 6.5)),
        ({"width": "2", "shoulders": {"top": "1/4"}}, (4.75, 6.75)),
        ({"width": "2", "shoulders": {"outside": "1/4"}}, (4.75, 6.75)),
        ({"shoulders": {"inside": "1/2"}}, (4.5, 6.75)),
    ],
)
def test_where_the_tenon_stands_in_the_width(fields: dict[str, Any], place: tuple[float, float]) -> None:
    """The rail lies above the middle of the posts, so its top is its outside."""
    block = tenon(joined(KIND, "hold", site(RAIL, POSTS), **SAID, **fields), "rail", "left").block
    assert inches(block)[4:6] == place


def test_one_end_only() -> None:
    made = joined(KIND, "hold", site(RAIL, POST), tenon=("rail.left",), into=("post",))
    assert [each.id for each in made.features["rail"]] == ["hold.left"]


# ---------------------------------------------------------------- faults

BROAD = replace(RAIL, body=box(2, 10, 0.5, 1.5, 2, 8))
FAR = replace(RAIL, body=box(2.25, 10, 0.5, 1.5, 4, 7))
HAIR = replace(RAIL, body=box(2.001, 10, 0.5, 1.5, 4, 7))
NEXT_TO_IT = (ONE[0], Copy("2nd", moved(x=7.75)))
DEEP_IN = replace(RAIL, body=box(1.5, 10, 0.5, 1.5, 4, 7))
CAP = board("cap", box(0, 2, 0, 2, 10, 11), LEFT_RIGHT, Face.TOP)
POST = replace(POSTS, copies=ONE)
OTHER = replace(POSTS, id="other", body=box(0, 2, 0, 1, 0, 10))
ON_TOP = replace(RAIL, body=box(0.5, 1.5, 0.5, 1.5, 10, 20), grain=BOTTOM_TOP)
IN_A_ROW = (ONE[0], Copy("2nd", moved(x=10)))
TAPER = Taper("taper", HERE, "", "", (Face.LEFT,), Face.BOTTOM, 6 * INCH, ((LEFT_RIGHT, INCH),))
FLUSH = replace(RAIL, body=box(2, 10, 0.5, 1.5, 8, 10))
ABOVE = replace(RAIL, body=box(2, 10, 0.5, 1.5, 9, 11))

FAULTS = [
    ("joint-no-mate", (FAR, POSTS), SAID, "1/4 away"),
    ("joint-no-mate", (DEEP_IN, POSTS), SAID, "overlap"),
    ("joint-no-mate", (RAIL,), SAID, "no other part"),
    ("joint-no-mate", (replace(FAR, copies=NEXT_TO_IT), POSTS), SAID, 'the nearest is "post", 1/4 away'),
    ("joint-no-mate", (RAIL, POSTS), {**SAID, "into": ("rail",)}, '"rail" cannot enter itself'),
    ("joint-no-mate", (HAIR, POSTS), SAID, "less than 1/32 away"),
    ("joint-no-mate", (RAIL, POSTS, CAP), {**SAID, "into": ("cap",)}, '"cap"; it is'),
    ("joint-two-mates", (RAIL, POSTS, OTHER), SAID, '"left post" and "left other"'),
    ("joint-wall", (RAIL, POSTS), {**SAID, "length": "1-3/4"}, "leaves 3/16"),
    ("joint-wall", (RAIL, POSTS), {**SAID, "length": "2"}, "comes out of"),
    ("joint-wall", (FLUSH, POSTS), {**SAID, "shoulders": {"top": "1/16"}}, 'leaves 1/16 of wood at the top of "post"'),
    ("joint-wall", (ABOVE, POSTS), SAID, 'opens at the top of "post"'),
    ("joint-end-grain", (ON_TOP, POST), {"tenon": ("rail.bottom",)}, "end grain"),
    ("joint-not-an-end", (RAIL, POSTS), {"tenon": ("rail.top",)}, "an end goes in"),
    ("joint-tenon-size", (RAIL, POSTS), {**SAID, "thickness": "1-1/4"}, "do not add up"),
    ("joint-tenon-size", (RAIL, POSTS), {**SAID, "width": "2", "shoulders": {"top": "1/4", "bottom": "1/4"}}, "do not add up"),
    ("joint-shoulder-face", (RAIL, POSTS), {**SAID, "shoulders": {"left": "1/4"}}, '"left" is no face'),
    ("joint-proud", (RAIL, POSTS), {**SAID, "proud": "1/8"}, "through"),
    ("joint-wedges-blind", (RAIL, POSTS), {**SAID, "wedges": {"stock": "walnut"}}, "through"),
    ("joint-through-length", (RAIL, POSTS), {**SAID, "through": "yes", "length": "2"}, "as long as"),
    ("place-shoulder-planes", (RAIL, replace(POST, shapes=(TAPER,))), {"tenon": ("rail.left",), "through": "yes"}, "comes out"),
    ("joint-meeting", (RAIL, POSTS), {**SAID, "meeting": "butted"}, "whose stays whole"),
    ("joint-copies-differ", (replace(RAIL, copies=PAIR_FB), POSTS), {"tenon": ("front rail",)}, "leaves out the back"),
    ("joint-copies-differ", (RAIL, POSTS), {"tenon": ("rail.left",)}, "that the right one does not get"),
    ("joint-copies-differ", (RAIL, replace(POSTS, copies=IN_A_ROW)), SAID, "that the 2nd one does not get"),
]  # fmt: skip


@pytest.mark.parametrize(("code", "boards", "fields", "words"), FAULTS)
def test_faults(code: str, boards: tuple[Board, ...], fields: dict[str, Any], words: str) -> None:
    found = refused(KIND, "hold", site(*boards), **fields)
    assert [each.code for each in found if each.code == code], found
    assert any(words in each.message for each in found), found
    assert all(each.span == HERE and (each.expected or each.hints) for each in found)


def test_wall_says_how_long_a_tenon_may_be() -> None:
    """The example of the language: 1-1/4 in a part of 1-3/8 leaves 1/16; with 1/4 of wall at most 1-1/16."""
    narrow = replace(POST, body=box(0.625, 2, 0, 2, 0, 10))
    (fault,) = refused(KIND, "hold", site(RAIL, narrow), tenon=("rail.left",), length="1-1/4")
    assert fault.message == 'Tenon 1-1/4 long leaves 1/16 of "post"; 1/4 is wanted.'
    assert fault.hints == ("At most 1-1/16.",)


@pytest.mark.parametrize(("thickness", "warns"), [("1/4", False), ("3/8", False), ("1/2", False), ("5/8", True), ("3/16", True)])
def test_a_quarter_to_a_half_is_sound(thickness: str, warns: bool) -> None:
    """Joinery texts: a third to a quarter in framing; up to a half by common practice."""
    where = site(RAIL, POSTS)
    assert join(KIND, "hold", where, **SAID, thickness=thickness, length="1", width="1")
    assert [each.code for each in where.report.found] == (["joint-proportion"] if warns else [])
    assert all(each.severity is Severity.WARNING for each in where.report.found)


def test_a_wide_tenon_is_warned_of() -> None:
    """Joinery texts: at most six times its thickness."""
    where = site(BROAD, POSTS)
    assert join(KIND, "hold", where, **SAID, thickness="3/8", width="2-1/2")
    assert [each.code for each in where.report.found] == ["joint-proportion"]
    assert where.report.found[0].expected == "at most 2-1/4"


# ---------------------------------------------------------------- meeting


def mitre_gap(made: Joined) -> float:
    """Distance of the two mitred ends in the front left leg, in, by the planes of their cuts."""
    long, short = tenon(made, "long_rail", "left"), tenon(made, "short_rail", "front")
    assert long.mitre and short.mitre
    # Short sides: the back of the long rail's tenon, the right of the short rail's.  Each plane runs at 45 degrees.
    long_plane = (long.block.x.high - long.mitre.start) - long.block.y.high
    short_plane = short.block.x.high - (short.block.y.high - short.mitre.start)
    return (long_plane - short_plane) / math.sqrt(2) / INCH


def test_mitred_ends_stay_apart_and_short_of_the_bottom() -> None:
    made = rails()
    long, short = tenon(made, "long_rail", "left"), tenon(made, "short_rail", "front")
    assert (long.mitre and long.mitre.short, short.mitre and short.mitre.short) == (Face.BACK, Face.RIGHT)
    assert mitre_gap(made) == pytest.approx(1 / 8 / math.sqrt(2))
    first, second = mortises(made, "leg").values()
    assert long.block.x.low - first.void.x.low == pytest.approx(INCH / 16)
    assert short.block.y.low - second.void.y.low == pytest.approx(INCH / 16)


def test_long_tenons_give_way_to_keep_the_gap() -> None:
    """1-1/4 long they would pass each other by 1/8: both are cut back until their ends are 1/32 apart."""
    made = joined(
        KIND, "rails", site(LEG, LONG_RAIL, SHORT_RAIL), tenon=("long_rail", "short_rail"), thickness="3/8", length="1-1/4"
    )
    assert mitre_gap(made) == pytest.approx(1 / 32, abs=1e-6)
    assert figures(made)["tenon length"] < 1.25
    assert figures(made)["mortise depth"] == pytest.approx(float(figures(made)["tenon length"]) + 1 / 16, abs=1e-5)
    assert any(line.startswith("Tenons that meet in a post are mitred") for line in made.joint.defaults)


def test_butted_tenon_stops_before_the_whole_one() -> None:
    made = joined(
        KIND, "rails", site(LEG, LONG_RAIL, SHORT_RAIL), tenon=("long_rail", "short_rail"), thickness="3/8", length="1-1/8",
        meeting={"how": "butted", "first": "long_rail"},
    )  # fmt: skip
    long, short = tenon(made, "long_rail", "left"), tenon(made, "short_rail", "front")
    assert inches(long.block)[:2] == (2.625, 3.75)
    assert short.block.y.low - long.block.y.high == pytest.approx(INCH / 32)
    assert short.mitre is None


def test_tenons_that_stop_short_leave_the_mortises_apart() -> None:
    """A mortise is 1/16 deeper than its tenon is long, and 1/32 of wood stays between their corners."""
    made = joined(
        KIND,
        "rails",
        site(LEG, LONG_RAIL, SHORT_RAIL),
        tenon=("long_rail", "short_rail"),
        thickness="3/8",
        length="1-1/8",
        meeting="stop short",
    )
    first, second = mortises(made, "leg").values()
    assert not first.void.meet(second.void).is_solid
    assert figures(made)["tenon length"] == pytest.approx(0.8125 - 3 / 32)


def test_tenons_from_both_sides_collide() -> None:
    beam = board("beam", box(0, 2, 0, 1, 0, 10), BOTTOM_TOP, Face.FRONT)
    left = board("left_bar", box(-8, 0, 0, 1, 4, 7), LEFT_RIGHT, Face.FRONT)
    right = board("right_bar", box(2, 10, 0, 1, 4, 7), LEFT_RIGHT, Face.FRONT)
    found = refused(KIND, "bars", site(beam, left, right), tenon=("left_bar.right", "right_bar.left"), length="1-1/4")
    assert [each.code for each in found] == ["joint-collision"]
    assert found[0].message.startswith('The mortises of "left_bar" and "right_bar" cross inside "beam"')


def test_a_mirrored_pair_of_rails_in_a_mirrored_pair_of_posts() -> None:
    """Each rail end finds its own post, and the post that is drawn gets one mortise."""
    post = board("post", box(2, 4, 0, 2, 0, 16), BOTTOM_TOP, Face.FRONT, PAIR_LR)
    rail = board("rail", box(4, 40, 0.5, 1.5, 4, 7), LEFT_RIGHT, Face.FRONT)
    made = joined(KIND, "hold", site(post, rail), tenon=("rail",))
    (mortise,) = mortises(made, "post").values()
    assert (mortise.face, mortise.mate) == (Face.RIGHT, Mate("rail", (0,)))
    assert {(each.a, each.b) for each in made.joint.contacts} == {(("rail", 0), ("post", 0)), (("rail", 0), ("post", 1))}


def test_over_and_under_each_keeps_half_of_the_height() -> None:
    made = joined(
        KIND, "rails", site(LEG, LONG_RAIL, SHORT_RAIL), tenon=("long_rail", "short_rail"), thickness="3/8", length="1-1/4",
        meeting={"how": "over and under", "above": "short_rail"},
    )  # fmt: skip
    long, short = tenon(made, "long_rail", "left"), tenon(made, "short_rail", "front")
    assert inches(long.block) == (2.5, 3.75, 1.4375, 1.8125, 13.75, 15)
    assert inches(short.block) == (2.5625, 2.9375, 1.375, 2.625, 15, 16.25)
    first, second = mortises(made, "leg").values()
    assert not first.void.meet(second.void).is_solid


@pytest.mark.parametrize(("how", "tip"), [("butted", 1 / 32), ("stop short", 3 / 32)])
def test_a_tenon_gives_way_to_one_of_another_joint(how: str, tip: float) -> None:
    where = site(LEG, LONG_RAIL, SHORT_RAIL)
    long = joined(KIND, "long", where, tenon=("long_rail",), thickness="3/8", length="1-1/4")
    there = replace(where, joined={"long": long})
    said = {"tenon": ("short_rail",), "thickness": "3/8", "length": "1-1/4", "meeting": {"how": how, "with": "long"}}
    short = joined(KIND, "short", there, **said)
    apart = tenon(short, "short_rail", "front").block.y.low - tenon(long, "long_rail", "left").block.y.high
    assert apart == pytest.approx(tip * INCH) and short.gives_way == "long"


@pytest.mark.parametrize(
    ("meeting", "words"),
    [
        ({"how": "over and under"}, "`above`"),
        ({"how": "mitred", "above": "rail"}, "no meaning"),
        ({"how": "butted", "with": "nothing"}, "No joint"),
    ],
)
def test_meetings_that_say_too_little(meeting: dict[str, str], words: str) -> None:
    (fault,) = refused(KIND, "hold", site(RAIL, POSTS), **SAID, meeting=meeting)
    assert fault.code == "joint-meeting" and words in fault.message


def test_a_meeting_across_joints_that_cannot_be() -> None:
    where = site(LEG, LONG_RAIL, SHORT_RAIL)
    there = replace(where, joined={"long": joined(KIND, "long", where, tenon=("long_rail",), length="1-1/4")})
    for meeting in ({"how": "mitred", "with": "long"}, {"how": "butted", "with": "long", "first": "short_rail"}):
        fresh = replace(there, report=Collector())
        (fault,) = refused(KIND, "short", fresh, tenon=("short_rail",), length="1-1/4", meeting=meeting)
        assert fault.code == "joint-meeting" and fault.expected
