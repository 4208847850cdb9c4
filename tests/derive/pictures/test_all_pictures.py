"""What holds for every picture of the bench: inside its paper, legible, marked without crossings, told in words."""

from __future__ import annotations

import re

import pytest

from planbuild.derive.pictures.studio import Studio
from planbuild.records import rooms
from planbuild.records.drawing import Drawing
from planbuild.records.legibility import clashes

from .inks import circles, leaders, marks, overlapping, used_paper


def test_every_kind_of_picture_is_there(drawings: dict[str, Drawing]) -> None:
    assert {"cover", "exploded", "three_views", "section"} <= drawings.keys()
    joints = ("rails", "wedged_rails", "slats", "seat")
    assert {f"joint.{id}{end}" for id in joints for end in ("", ".section")} <= drawings.keys()
    assert sum(id.startswith("step.") for id in drawings) >= 12


def test_no_view_is_suspect(drawings: dict[str, Drawing], studio: Studio) -> None:
    assert drawings and studio.report.found == []


def test_all_ink_is_inside_the_paper(drawings: dict[str, Drawing]) -> None:
    for drawing in drawings.values():
        left, top, right, bottom = used_paper(drawing)
        assert left >= 0 and top >= 0 and right <= drawing.width and bottom <= drawing.height, drawing.id


def test_pictures_fit_their_rooms(drawings: dict[str, Drawing], studio: Studio) -> None:
    for drawing in drawings.values():
        room = rooms.STEP if drawing.id.startswith("step.") else (studio.edition.text_width, studio.edition.text_height)
        assert drawing.width <= room[0] + 1e-6 and drawing.height <= room[1] + 1e-6, drawing.id


def test_marks_do_not_overlap(drawings: dict[str, Drawing]) -> None:
    for drawing in drawings.values():
        assert overlapping(circles(drawing)) == [], drawing.id


def test_leaders_do_not_cross(drawings: dict[str, Drawing]) -> None:
    for drawing in drawings.values():
        assert overlapping(leaders(drawing)) == [], drawing.id


def test_no_leader_runs_through_another_mark(drawings: dict[str, Drawing]) -> None:
    for drawing in drawings.values():
        for leader in leaders(drawing):
            met = [circle for circle in circles(drawing) if circle.buffer(-0.3).intersects(leader)]
            assert met == [], drawing.id


def test_each_part_is_marked_once_at_most(drawings: dict[str, Drawing]) -> None:
    for drawing in drawings.values():
        assert len(marks(drawing)) == len(set(marks(drawing))), drawing.id


def test_nothing_lies_on_a_figure(drawings: dict[str, Drawing]) -> None:
    for drawing in drawings.values():
        assert clashes(drawing) == (), drawing.id


def test_every_picture_is_told_in_words(drawings: dict[str, Drawing]) -> None:
    for drawing in drawings.values():
        assert re.fullmatch(r"[A-Z].{20,}\.", drawing.alt), drawing.id


@pytest.mark.parametrize("id", ["step.glue.end_frame", "step.glue.base", "step.fit.seat"])
def test_steps_mark_what_they_handle(of_steps: dict[str, Drawing], id: str) -> None:
    wanted = {
        "step.glue.end_frame": {"leg", "short_rail", "lower_rail", "wedge"},
        "step.glue.base": {"long_rail", "slat"},
        "step.fit.seat": {"seat", "button"},
    }
    assert set(marks(of_steps[id])) == wanted[id]
