"""Plates that hold a top have a picture and a section on the Joints page, at a place where their slots look at the viewer."""

from __future__ import annotations

from pathlib import Path
from typing import Any, cast

import pytest

from planbuild.core.diagnostics import Collector
from planbuild.core.geometry import Axis
from planbuild.derive.pictures.joint_pictures import pulled_apart
from planbuild.derive.pictures.joint_places import Place, place_of
from planbuild.derive.pictures.studio import Studio
from planbuild.pipeline import Clock, choose_edition, resolve_file

TABLE = Path(__file__).parents[2] / "designs" / "breadboard-table.yaml"


@pytest.fixture(scope="module")
def studio() -> Studio:
    """Places are found without solids."""
    piece = resolve_file(TABLE, Clock())
    return Studio(piece, cast(Any, None), choose_edition(piece), Collector())


def place(studio: Studio, id: str) -> Place:
    (joint,) = (each for each in studio.piece.joints if each.id == id)
    found = place_of(studio, joint)
    assert found
    return found


def test_clips_are_shown_at_the_rail_whose_slot_is_seen(studio: Studio) -> None:
    """Half an inch down from the top edge a slot of an eighth; the screw goes 11/16 into the top."""
    found = place(studio, "held_along")
    assert found.mate == ("long_rail", 1) and found.open_to == ((0.0, -1.0, 0.0),)
    assert [key[0] for key in found.keys] == ["long_rail", "table_top"]
    edge = studio.boxes[found.mate].z.high
    assert edge - found.core.z.low == pytest.approx(25.4 * 5 / 8)
    assert found.core.z.high - edge == pytest.approx(25.4 * 11 / 16)
    assert found.core.x.size == pytest.approx(25.4 * 3 / 32), "one screw, not the whole slot"


def test_figure_eights_are_shown_at_one_recess(studio: Studio) -> None:
    """The recess of 3/4 and the hole beside it, one plate of the four."""
    found = place(studio, "held_at_ends")
    assert found.mate[0] == "short_rail" and len(found.open_to) == 1
    assert found.core.y.size == pytest.approx(25.4 * 3 / 4)
    edge = studio.boxes[found.mate].z.high
    assert found.core.z.high - edge == pytest.approx(25.4 * 5 / 8), "the screw in the top"


def test_a_top_is_lifted_so_far_that_the_recess_is_seen(studio: Studio) -> None:
    """What only lies on its rail engages nowhere; it is lifted by most of the longest side of what is shown of the joint."""
    found = place(studio, "held_at_ends")
    (lifted,) = pulled_apart(found, studio.boxes).values()
    assert lifted[:2] == (0.0, 0.0) and lifted[2] > 0.85 * max(found.core.size(axis) for axis in Axis) > 14.0
