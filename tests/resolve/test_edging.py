"""Edging as it is said and as it lies: later strips over the ends of earlier ones, mitred ones to the corner."""

from __future__ import annotations

from collections.abc import Callable
from itertools import pairwise
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from timber import FRONT_BACK, LEFT_RIGHT, box, said

from planbuild.core.geometry import TINY, Axis, Face
from planbuild.pipeline import Clock, resolve_file
from planbuild.records.edging import Edging, core_of, edgings_of, laid_on, strip_volume
from planbuild.records.features import Groove
from planbuild.records.piece import Piece

Case = Callable[[str, str], Piece]
INCH = 25.4
TOP = box(0, 400, 0, 200, 0, 18)


def strip(edge: Face, thickness: float = 6.0, mitred: tuple[Face, ...] = ()) -> Edging:
    return Edging(
        **said(f"edging.{edge.value}"), edge=edge, strip=TOP, stock="ash", wood="white ash", thickness=thickness, mitred=mitred
    )


def sizes(strips: tuple[Edging, ...]) -> list[tuple[float, float]]:
    return [(each.strip.size(LEFT_RIGHT), each.strip.size(FRONT_BACK)) for each in strips]


def test_later_strips_cover_the_ends_of_earlier_ones() -> None:
    front, left, right = laid_on((strip(Face.FRONT), strip(Face.LEFT), strip(Face.RIGHT)), TOP, Axis.BOTTOM_TOP)
    assert sizes((front, left, right)) == [(388, 6), (6, 200), (6, 200)]
    assert core_of(TOP, (front, left, right)) == box(6, 394, 6, 200, 0, 18)
    left, front = laid_on((strip(Face.LEFT), strip(Face.FRONT)), TOP, Axis.BOTTOM_TOP)
    assert sizes((left, front)) == [(6, 194), (400, 6)]


def test_mitred_strips_reach_the_corner() -> None:
    """A strip all round is as long outside as the part; its wood is that of the part less that of the sheet."""
    every = (Face.LEFT, Face.RIGHT, Face.FRONT, Face.BACK)
    around = {each: tuple(other for other in every if other.axis is not each.axis) for each in every}
    strips = laid_on(tuple(strip(each, 6, around[each]) for each in every), TOP, Axis.BOTTOM_TOP)
    assert sizes(strips) == [(6, 200), (6, 200), (400, 6), (400, 6)]
    core = core_of(TOP, strips)
    assert sum(strip_volume(each) for each in strips) == pytest.approx(TOP.volume - core.volume)


@settings(max_examples=40)
@given(
    st.permutations((Face.LEFT, Face.RIGHT, Face.FRONT, Face.BACK)),
    st.integers(1, 4),
    st.lists(st.floats(1, 40), min_size=4, max_size=4),
)
def test_sheet_and_strips_fill_the_part_and_share_nothing(order: list[Face], count: int, thick: list[float]) -> None:
    strips = laid_on(tuple(strip(face, size) for face, size in zip(order[:count], thick, strict=False)), TOP, Axis.BOTTOM_TOP)
    pieces = [core_of(TOP, strips), *(each.strip for each in strips)]
    assert sum(each.volume for each in pieces) == pytest.approx(TOP.volume)
    assert not any(one.meet(other).is_solid for one in pieces for other in pieces if one is not other)
    assert all(each.strip.at(each.edge) == TOP.at(each.edge) for each in strips)
    assert all(abs(each.strip.size(each.edge.axis) - each.thickness) < TINY for each in strips)


# ---------------------------------------------------------------- as it is said

CASE = """\
format: 1
title: Case
contact: a@plans.example
licence: free
units: inch
frame: {width: 24, depth: 11, height: 12}
stock:
  board: {sheet: birch plywood, sold_as: 3/4, thickness: 23/32, sheet_size: 48 x 96}
  ash: {species: white ash, rough: 4/4, thickness: 3/4}
parts:
  side: {stock: board, grain: up, face: left, left: 0, front: 0, back: 0, bottom: 0, top: 0, mirror: left-right%s}
  plank: {stock: board, grain: left-right, face: top, between: side, front: 1/8, back: 0, bottom: 4%s}
joints:
  held: {kind: dado, part: plank, stopped: {front: yes}}
"""
FRONT = "edging: {edges: front, stock: ash, thickness: %s, how: %s}"


@pytest.fixture
def case(tmp_path: Path) -> Case:
    """A plank housed in two sides, and what is said of the edging of both."""

    def of(side: str, plank: str) -> Piece:
        file = tmp_path / "design.yaml"
        file.write_text(CASE % tuple(f", {each}" if each else "" for each in (side, plank)), "utf-8")
        return resolve_file(file, Clock())

    return of


def housing(piece: Piece) -> Groove:
    (found,) = [each for each in piece.part("side").features if isinstance(each, Groove)]
    return found


@pytest.mark.parametrize(
    ("side", "plank", "begins"),
    [
        ("", "", 1 / 8 + 3 / 8),  # none: 3/8 inside the part
        (FRONT % ("1/2", "glued"), "", 1 / 2),  # behind the edging of its mate
        ("", FRONT % ("1/4", "glued"), 1 / 8 + 1 / 4),  # behind its own
        (FRONT % ("1/4", "glued"), FRONT % ("1/4", "tongued"), 1 / 8 + 1 / 4),  # behind both: its own reaches farther in
    ],
)
def test_where_a_housing_stops(case: Case, side: str, plank: str, begins: float) -> None:
    piece = case(side, plank)
    assert housing(piece).void.along(FRONT_BACK).low == pytest.approx(begins * INCH)


def test_a_strip_is_as_long_as_what_is_sawn(case: Case) -> None:
    """The plank stands 3/16 deep in both sides, and its edging with it; the sheet is narrower by the strip."""
    piece = case("", FRONT % ("1/4", "tongued"))
    plank = piece.part("plank")
    (front,) = edgings_of(plank.features)
    assert plank.features[0] is front, "glued on before all else"
    assert front.strip.size(LEFT_RIGHT) == pytest.approx(plank.finished[0]) == pytest.approx((22.5625 + 2 * 3 / 16) * INCH)
    assert front.tongue == pytest.approx((INCH / 4, INCH / 4))
    core = core_of(plank.body, (front,))
    assert core.size(FRONT_BACK) == pytest.approx(plank.finished[1] - INCH / 4)


def test_edges_in_their_order(case: Case) -> None:
    piece = case("edging: [{edges: [front, back], stock: ash, thickness: 1/4}, {edges: top, stock: ash, thickness: 3/8}]", "")
    strips = edgings_of(piece.part("side").features)
    assert [each.edge for each in strips] == [Face.FRONT, Face.BACK, Face.TOP]
    assert all(one.origin.line == other.origin.line for one, other in pairwise(strips))
    assert strips[2].strip.size(FRONT_BACK) == pytest.approx(11 * INCH)


def test_mitred_corners_as_said(case: Case) -> None:
    piece = case("edging: {edges: [front, top], stock: ash, thickness: 1/4, corners: mitred}", "")
    front, top = edgings_of(piece.part("side").features)
    assert (front.mitred, top.mitred) == ((Face.TOP,), (Face.FRONT,))
