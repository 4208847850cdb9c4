"""The demonstration bench, resolved: each number worked out by hand from the design files (inches)."""

from __future__ import annotations

from fractions import Fraction as F

import pytest

from planbuild.core.geometry import Axis, Face
from planbuild.records.features import Arch, Taper, Tenon
from planbuild.records.piece import Piece

BODIES = {
    "seat": ((0, 44), (0, 15), (16.5, 17.5)),
    "leg": ((2, 3.75), (0.875, 2.625), (0, 16.5)),
    "long_rail": ((3.75, 40.25), (1.125, 2.125), (13.5, 16.5)),
    "short_rail": ((2.25, 3.25), (2.625, 12.375), (13.5, 16.5)),
    "lower_rail": ((2.25, 3.25), (2.625, 12.375), (5, 7)),
    "slat": ((3.25, 40.75), (3, 4.5), (6, 6.75)),
}
"""Leg from overhangs 2 and 7/8, 1-3/4 square, under an inch of seat at 17-1/2; rails 1/4 inside it; slats 1/4 under the
lower rail's top, five of 1-1/2 in 9-3/4 with six gaps of 3/8."""


@pytest.mark.parametrize("id", BODIES)
def test_bodies(bench_piece: Piece, id: str) -> None:
    body = bench_piece.part(id).body
    for axis, (low, high) in zip(Axis, BODIES[id], strict=True):
        assert (body.along(axis).low / 25.4, body.along(axis).high / 25.4) == pytest.approx((low, high), abs=1e-9)


@pytest.mark.parametrize(
    ("id", "finished"),
    [
        ("seat", (44, 15, 1)),
        ("leg", (16.5, 1.75, 1.75)),
        ("long_rail", (38.75, 3, 1)),  # 36-1/2 and two tenons of 1-1/8
        ("short_rail", (12, 3, 1)),  # 9-3/4 and two tenons of 1-1/8
        ("lower_rail", (13.5, 2, 1)),  # 9-3/4 and twice 1-3/4 + 1/8
        ("slat", (38.25, 1.5, 0.75)),  # 37-1/2 and two tenons of 3/8
    ],
)
def test_finished_sizes(bench_piece: Piece, id: str, finished: tuple[float, ...]) -> None:
    assert [size / 25.4 for size in bench_piece.part(id).finished] == pytest.approx(finished)


def test_marks_follow_the_file_and_made_parts_come_last(bench_piece: Piece) -> None:
    own = [part.mark for part in bench_piece.parts if not part.made_by]
    made = [part for part in bench_piece.parts if part.made_by]
    assert own == ["A1", "A2", "A3", "A4", "A5", "A6"]
    assert {part.mark for part in made} == {"A7", "A8"}
    assert {(part.id, len(part.copies)) for part in made} == {("button", 12), ("wedge", 8)}


def test_copies(bench_piece: Piece) -> None:
    hands = {part.id: [copy.hand for copy in part.copies] for part in bench_piece.parts}
    assert hands["leg"] == ["front left", "front right", "back left", "back right"]
    assert hands["slat"] == ["first", "2nd", "3rd", "4th", "last"]
    assert hands["long_rail"] == ["front", "back"]
    fifth = bench_piece.part("slat").copies[4].motion.box(bench_piece.part("slat").body)
    assert (fifth.y.low / 25.4, fifth.y.high / 25.4) == pytest.approx((10.5, 12))


def test_shapes(bench_piece: Piece) -> None:
    (taper,) = [each for each in bench_piece.part("leg").features if isinstance(each, Taper)]
    assert (taper.faces, taper.end) == ((Face.RIGHT,), Face.BOTTOM)
    assert taper.start == pytest.approx(11.5 * 25.4)
    assert taper.leaving == ((Axis.LEFT_RIGHT, pytest.approx(1.125 * 25.4)),)
    (arch,) = [each for each in bench_piece.part("long_rail").features if isinstance(each, Arch)]
    assert (arch.face, arch.rise / 25.4) == (Face.BOTTOM, 0.5)
    assert (arch.start / 25.4, arch.stop / 25.4) == pytest.approx((7.75, 36.25))


def test_joinery_comes_before_shaping(bench_piece: Piece) -> None:
    for part in bench_piece.parts:
        if not part.made_by:
            joints = [bool(feature.joint) for feature in part.features]
            assert joints == sorted(joints, reverse=True), part.id


def test_the_seat_is_glued_up_of_four_strips(bench_piece: Piece) -> None:
    """15 inches in strips of at most 4: four of 3-3/4."""
    glue_up = bench_piece.part("seat").glue_up
    assert glue_up is not None
    assert (glue_up.strips, glue_up.strip_width / 25.4, glue_up.rings) == (4, 3.75, "alternate")


def test_end_frames(bench_piece: Piece) -> None:
    (frame,) = bench_piece.assemblies
    assert frame.groups == (
        (("leg", 0), ("leg", 2), ("short_rail", 0), ("lower_rail", 0)),
        (("leg", 1), ("leg", 3), ("short_rail", 1), ("lower_rail", 1)),
    )


def test_finish(bench_piece: Piece) -> None:
    (oil,) = bench_piece.coatings
    assert (oil.id, oil.everywhere, oil.covers, oil.coats) == ("oil", True, 24.0, 2)
    assert oil.before_gluing == (("slat", None), ("lower_rail", Face.RIGHT))


def test_loads(bench_piece: Piece) -> None:
    """300 lbf is 1334.5 N; 10 lbf a foot over 37-1/2 inches is 31.25 lbf, 139.0 N (one pound force = 4.44822 N)."""
    seat, slat = bench_piece.loads
    assert (seat.on, seat.newtons, seat.where) == ("seat", pytest.approx(1334.47, abs=0.01), "middle")
    assert (slat.on, slat.newtons, slat.spread, slat.shared) == ("slat", pytest.approx(31.25 * 4.44822, abs=0.01), True, True)


def test_only_what_is_used_is_listed(bench_piece: Piece) -> None:
    assert {stock.id for stock in bench_piece.stock} == {"leg_ash", "top_ash", "rail_ash", "frame_ash", "walnut"}
    assert [item.id for item in bench_piece.items] == ["top_screw"]
    length = next(value for name, value in bench_piece.items[0].fields if name == "length")
    assert length == pytest.approx(1.5 * 25.4)


def test_sizes_carry_their_ranges(bench_piece: Piece) -> None:
    leg = next(size for size in bench_piece.sizes if size.id == "leg_size")
    assert (leg.value, leg.low, leg.high) == (44.45, 41.275, 44.45)
    assert bench_piece.ruler.step == F(1, 32)
    assert bench_piece.moisture == (6.0, 11.0, 8.0)


def test_it_resolves_without_findings(bench_piece: Piece) -> None:
    """Every range of the bench and of its series is sound at both ends."""
    assert bench_piece.warnings == ()


def test_tenons_lie_in_their_rails(bench_piece: Piece) -> None:
    for part in bench_piece.parts:
        for tenon in (each for each in part.features if isinstance(each, Tenon)):
            for axis in tenon.end.axis.others:
                assert part.body.along(axis).low <= tenon.block.along(axis).low
                assert tenon.block.along(axis).high <= part.body.along(axis).high
