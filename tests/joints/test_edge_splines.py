"""Splines in edge joints: grooves in both edges and a strip that fills them, from numbers by hand to the steps."""

from __future__ import annotations

from typing import Any

import pytest
from boards_by_hand import INCH, LEFT_RIGHT, board, box, inches, joined, refused, said, site

from planbuild.core.geometry import Face
from planbuild.derive.steps import plan_steps
from planbuild.joints import KINDS
from planbuild.joints.edge_splines import EdgeSplinesSaid
from planbuild.pipeline import Clock, choose_edition, resolve_file
from planbuild.prove import prove
from planbuild.records.features import Groove
from planbuild.records.piece import Piece
from planbuild.shape import shape

KIND = KINDS["edge glue"]
PLANK = board("plank", box(0, 30, 0, 4, 0, 0.75), LEFT_RIGHT, Face.TOP)
CENTRE = board("centre", box(0, 30, 4, 8, 0, 0.75), LEFT_RIGHT, Face.TOP)
REAR = board("rear", box(0, 30, 8, 11, 0, 0.75), LEFT_RIGHT, Face.TOP)


def splines(**fields: str) -> Any:
    return EdgeSplinesSaid(origin=PLANK.origin, **{key: said(text) for key, text in fields.items()})


def test_by_hand() -> None:
    """A third of 3/4 thick, 3/8 deep in either board, each groove 1/32 deeper; the seam keeps its glue beside the groove."""
    made = joined(KIND, "seam", site(PLANK, CENTRE), parts=("plank", "centre"), splines=splines())
    (first,), (second,) = made.features["plank"], made.features["centre"]
    assert isinstance(first, Groove) and isinstance(second, Groove)
    assert inches(first.void) == pytest.approx((0, 30, 4 - 13 / 32, 4, 0.25, 0.5))
    assert inches(second.void) == pytest.approx((0, 30, 4, 4 + 13 / 32, 0.25, 0.5))
    assert (first.face, second.face, first.mate.part) == (Face.BACK, Face.FRONT, "spline")
    (strip,) = made.makes
    assert inches(strip.body) == pytest.approx((0, 30, 3.625, 4.375, 0.25, 0.5))
    assert (strip.grain, strip.made_by, made.joint.makes) == (LEFT_RIGHT, "seam", ("spline",))
    areas = {each.a[0]: each.glue_area / INCH**2 for each in made.joint.contacts}
    assert areas == pytest.approx({"plank": 30 * 0.5, "spline": 2 * 30 * 0.375})
    assert [each.b[0] for each in made.joint.contacts] == ["centre", "centre", "plank"]


def test_a_number_alone_is_the_thickness() -> None:
    made = joined(KIND, "seam", site(PLANK, CENTRE), parts=("plank", "centre"), splines="1/8")
    assert dict(made.joint.numbers)["spline thickness"] == pytest.approx(INCH / 8)


def test_like_seams_share_one_strip() -> None:
    made = joined(KIND, "seam", site(PLANK, CENTRE, REAR), parts=("plank", "centre", "rear"), splines=splines(stock="walnut"))
    (strip,) = made.makes
    assert (strip.stock, len(strip.copies)) == ("walnut", 2)
    assert len(made.features["centre"]) == 2


@pytest.mark.parametrize(
    ("fields", "code"),
    [({"thickness": "1/2"}, "joint-tongue-thick"), ({"depth": "1-1/2"}, "joint-tongue-long")],
)
def test_faults(fields: dict[str, str], code: str) -> None:
    found = refused(KIND, "seam", site(PLANK, CENTRE), parts=("plank", "centre"), splines=splines(**fields))
    assert [each.code for each in found] == [code]


def test_seams_of_two_lengths_want_two_joints() -> None:
    short = board("rear", box(0, 20, 8, 11, 0, 0.75), LEFT_RIGHT, Face.TOP)
    found = refused(KIND, "seam", site(PLANK, CENTRE, short), parts=("plank", "centre", "rear"), splines=splines())
    assert [each.code for each in found] == ["joint-wedges-differ"]


DESIGN = """\
format: 1
title: Board
contact: trial@plans.example
licence: free
units: inch
frame: {width: 30, depth: 8, height: 3/4}
stock:
  board: {species: white oak, rough: 4/4, thickness: 3/4}
  ply: {sheet: birch plywood, sold_as: 1/4, thickness: 1/4, sheet_size: 48 x 96}
parts:
  plank: {stock: board, grain: left-right, face: top, width: 4, left: 0, right: 0, front: 0, bottom: 0}
  centre: {stock: board, grain: left-right, face: top, width: 4, left: 0, right: 0, front: plank.back, bottom: 0}
joints:
  seam: {kind: edge glue, parts: [plank, centre], splines: {thickness: 1/4, stock: ply}}
"""


@pytest.fixture(scope="module")
def top(tmp_path_factory: pytest.TempPathFactory) -> Piece:
    file = tmp_path_factory.mktemp("splines") / "trial.yaml"
    file.write_text(DESIGN, "utf-8")
    return resolve_file(file, Clock())


def test_from_the_design_to_the_steps(top: Piece) -> None:
    solids = shape(top)
    found = prove(top, solids)
    assert [each.code for each in found.diagnostics if each.stops] == []
    steps = plan_steps(top, solids, found, choose_edition(top)).steps
    make = next(each for each in steps if each.title.startswith("Make the"))
    assert make.actions[0].startswith("Try birch plywood in a groove in scrap")
    (glue,) = (each for each in steps if each.id.startswith("glue"))
    assert any("into their grooves" in each for each in glue.actions)
    assert any("into the grooves of" in each for each in glue.actions)
