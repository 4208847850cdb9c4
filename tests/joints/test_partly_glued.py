"""Joints that are glued over a part of their seam: only what is glued counts, and the maker is told where."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from boards_by_hand import BOTTOM_TOP, INCH, LEFT_RIGHT, board, box, joined, said, site

from planbuild.core.geometry import Face
from planbuild.derive import phrases
from planbuild.joints import KINDS
from planbuild.joints.base import Joined
from planbuild.joints.partly_glued import partly_glued
from planbuild.pipeline import Clock, resolve_file
from planbuild.prove import prove
from planbuild.records.design import GluedPartSaid, Said
from planbuild.records.piece import GluedPart
from planbuild.shape import shape

KIND = KINDS["mortise and tenon"]
RAIL = board("rail", box(2, 20, 0.5, 1.5, 2, 11), LEFT_RIGHT, Face.FRONT)
POST = board("post", box(0, 2, 0, 2, 0, 14), BOTTOM_TOP, Face.FRONT)
FIELDS: dict[str, Any] = {"tenon": ("rail.left",), "thickness": "3/8", "width": "6", "length": "1-1/2"}


def glued(how: Said | GluedPartSaid | None, **more: Any) -> Joined | None:
    where = site(RAIL, POST)
    fields = FIELDS | more
    made = joined(KIND, "ends", where, **fields)
    mine = KIND.said(kind=said(KIND.name), origin=RAIL.origin, glue=how, tenon=(said("rail.left"),))
    found = partly_glued(made, mine, where)
    assert (found is None) == bool([each for each in where.report.found if each.stops])
    return found


def from_to(start: str, stop: str) -> GluedPartSaid:
    return GluedPartSaid(origin=RAIL.origin, **{"from": said(start), "to": said(stop)})


def test_only_what_is_glued_counts() -> None:
    """A tenon 6 wide on a rail 9 wide: the middle third of the seam is 3 long, and so wide the grains are held."""
    whole, middle = glued(None), glued(said("middle"))
    assert whole and middle
    (all_,), (part,) = whole.joint.contacts, middle.joint.contacts
    assert part.glue_area == pytest.approx(all_.glue_area / 3) and part.glue_area > 0
    assert (all_.cross_grain / INCH, part.cross_grain / INCH) == pytest.approx((6, 3))
    assert middle.joint.glued_part == GluedPart(BOTTOM_TOP, pytest.approx(3 * INCH), pytest.approx(6 * INCH), middle=True)
    assert whole.joint.glued_part is None and middle.features == whole.features


def test_from_one_place_to_another() -> None:
    part = glued(from_to("0", "2"))
    assert part
    assert part.joint.contacts[0].cross_grain / INCH == pytest.approx(2)
    assert dict(part.joint.numbers)["glue ends, from the bottom end"] == pytest.approx(2 * INCH)
    assert not [word for word, _ in part.joint.numbers if word.startswith("glue begins")]
    later = glued(from_to("1", "3"))
    assert later and dict(later.joint.numbers)["glue begins, from the bottom end"] == pytest.approx(INCH)


@pytest.mark.parametrize("ends", [("3", "2"), ("0", "10"), ("2", "2")])
def test_what_lies_on_no_seam_is_refused(ends: tuple[str, str]) -> None:
    assert glued(from_to(*ends)) is None


def test_wedges_are_glued_as_ever() -> None:
    wedged = {"through": "yes", "length": None, "wedges": {"stock": "walnut"}}
    wedged = {key: value for key, value in (FIELDS | wedged).items() if value is not None}
    where = site(RAIL, POST)
    made = joined(KIND, "ends", where, **wedged)
    mine = KIND.said(kind=said(KIND.name), origin=RAIL.origin, glue=said("middle"), tenon=(said("rail.left"),))
    part = partly_glued(made, mine, where)
    assert part
    pairs = list(zip(made.joint.contacts, part.joint.contacts, strict=True))
    assert [new.glue_area == old.glue_area for old, new in pairs] == [old.a[0] == "wedge" for old, _ in pairs]


DESIGN = """\
format: 1
title: Frame
contact: trial@plans.example
licence: free
units: inch
frame: {width: 30, depth: 1-1/2, height: 14}
stock:
  board: {species: white oak, rough: 8/4, thickness: 1-1/2}
  thin: {species: white oak, rough: 5/4, thickness: 1}
parts:
  post: {stock: board, grain: up, face: front, width: 3, left: 0, front: 0, bottom: 0, top: 0, mirror: left-right}
  rail: {stock: thin, grain: left-right, face: front, width: 6, bottom: 2, between: post, centred: front-back, glue_up: no}
joints:
  ends: {kind: mortise and tenon, tenon: rail, glue: HOW, width: 2, length: 1-1/2, thickness: 3/8}
"""


@pytest.mark.parametrize(
    ("how", "words"),
    [
        ("middle", "only over the middle third of the seam"),
        ("{from: 2, to: 4}", "only from 2 to 4 in from the bottom end of the seam"),
    ],
)
def test_from_the_design_to_the_words(how: str, words: str, tmp_path: Path) -> None:
    file = tmp_path / "trial.yaml"
    file.write_text(DESIGN.replace("HOW", how), "utf-8")
    piece = resolve_file(file, Clock())
    (joint,) = piece.joints
    assert joint.glue and joint.glued_part
    assert phrases.glued_only(joint.glued_part, piece.ruler).replace("\u202f", " ") == words
    assert [each.code for each in prove(piece, shape(piece)).diagnostics if each.stops] == []
