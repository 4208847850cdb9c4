"""The blocks of the demonstration series, put into a case: they resolve without a finding, with sizes by hand."""

from __future__ import annotations

import shutil
from collections.abc import Callable
from pathlib import Path

import pytest

from planbuild.core.diagnostics import Severity
from planbuild.core.geometry import Face
from planbuild.pipeline import Clock, resolve_file
from planbuild.records.piece import Piece

SERIES = Path(__file__).parent.parent.parent / "designs" / "music-room"
CASE = """\
format: 1
title: Case for trials
series: series.yaml
frame: {width: 36, depth: 16, height: 20}
parts:
  side: {stock: frame_ash, grain: up, face: left, left: 0, front: 0, back: 0, bottom: 0, top: 0, mirror: left-right,
    glue_up: {strips: 4}}
  case_floor: {stock: frame_ash, grain: left-right, face: top, between: side, front: 0, back: 0, bottom: 0, glue_up: {strips: 4}}
  lid: {stock: frame_ash, grain: left-right, face: top, between: side, front: 0, back: 0, top: 0, glue_up: {strips: 4}}
joints:
  case: {kind: rabbet, part: [case_floor, lid], into: side, depth: 1/4}
  %s
"""


@pytest.fixture
def piece(tmp_path: Path) -> Callable[..., Piece]:
    """A case with a block in it."""

    def made(text: str, joints: str = "") -> Piece:
        shutil.copytree(SERIES / "blocks", tmp_path / "blocks")
        shutil.copy(SERIES / "series.yaml", tmp_path)
        (tmp_path / "case.yaml").write_text(CASE.replace("  %s\n", joints) + text, "utf-8")
        return resolve_file(tmp_path / "case.yaml", Clock())

    return made


def told(piece: Piece) -> set[str]:
    return {each.code for each in piece.warnings if each.severity is not Severity.NOTE}


def sizes(piece: Piece, part: str) -> tuple[float, ...]:
    """Length, width, thickness in inches."""
    return tuple(round(each / 25.4, 4) for each in piece.part(part).finished)


DRAWER = """\
openings:
  space: {left: side.right, right: right side.left, bottom: case_floor.top, height: 4-1/2, front: 0, back: 0}
blocks:
  drawer:
    use: blocks/drawer.yaml
    in: space
    with: {front_stock: frame_ash, side_stock: thin_ash, bottom_stock: bottom_ash, knob: knob, tails: 3}
loads: {drawer: {load: 15 lb}}
finish: {everywhere: oil, except: {inside drawer: bare}}
"""


def test_the_drawer(piece) -> None:
    made = piece(DRAWER, "  run: {kind: loose, part: drawer, on: case_floor}\n")
    assert told(made) == {"series-not-listed"}
    # The opening is 34-1/2 wide, 4-1/2 high, 16 deep: 1/32 less at each side, 3/32 less above, 1/2 less behind.
    assert sizes(made, "drawer.drawer_front") == (34.4375, 4.4062, 0.75)
    # Lapped dovetails leave 1/4 of the front before the ends of the sides.
    assert sizes(made, "drawer.drawer_side") == (15.25, 4.4062, 0.5)
    assert made.part("drawer.drawer_front").fit_to_work
    assert [placed.on for placed in made.hardware] == ["drawer.drawer_front"]
    assert {part for part, _ in next(each for each in made.coatings if each.everywhere).bare} == {
        f"drawer.{name}" for name in ("drawer_front", "drawer_side", "drawer_back", "drawer_bottom")
    }


DOORS = """\
openings:
  door_space: {left: side.right, right: middle, bottom: case_floor.top, top: lid.bottom, front: 0, depth: 3/4}
blocks:
  door:
    use: blocks/frame-and-panel-door.yaml
    in: door_space
    mirror: left-right
    with: {frame_stock: quarter_ash, panel_stock: thin_ash, meeting_gap: 1/32}
hardware:
  hinges:
    item: butt_hinge
    leaves: [door.hinge_stile.left, side.right]
    knuckle: front
    at: [3-1/2 below door.hinge_stile.top, 3-1/2 above door.hinge_stile.bottom]
matching:
  panels: {parts: [left door.panel, right door.panel], cut: bookmatched pair}
finish: {everywhere: oil, before_gluing: [door.panel]}
"""


def test_the_doors(piece) -> None:
    made = piece(DOORS)
    assert told(made) == {"series-not-listed"}
    # The opening is 18-1/2 high and 17-1/4 wide to the middle; gaps 1/16 above, below and at the hinges, 1/32 at the middle.
    assert sizes(made, "door.hinge_stile") == (18.375, 2.25, 0.75)
    # Between stiles 12-21/32 are left; a tenon of 1-1/4 at each end.
    assert sizes(made, "door.top_rail") == (12.6562 + 2.5, 2.25, 0.75)
    assert [copy.hand for copy in made.part("door.panel").copies] == ["left", "right"]
    (door,) = made.blocks
    assert door.moves is not None and (door.moves.swings, door.moves.by) == (Face.FRONT, 110.0)
    assert made.hardware[0].brings == "door.hinge_stile"


LATTICE = """\
openings:
  gap: {left: side.right, right: right side.left, bottom: case_floor.top, top: lid.bottom, front: 4, depth: 1}
blocks:
  lattice: {use: blocks/lattice.yaml, in: gap, with: {bar_stock: thin_ash, uprights: 22, crossbars: 5}}
finish: {everywhere: oil}
"""


def test_the_lattice(piece) -> None:
    """Stub tenons of 1/4 at both ends of every bar; each upright crosses each crossbar."""
    made = piece(LATTICE)
    assert told(made) == {"series-not-listed"}
    assert sizes(made, "lattice.upright") == (19.0, 0.5, 0.5)
    assert sizes(made, "lattice.crossbar") == (35.0, 0.5, 0.5)
    contacts = {joint.id: len(joint.contacts) for joint in made.joints}
    assert contacts["lattice.crossings"] == 22 * 5
    assert contacts["lattice.stubs"] == 2 * (22 + 5)
    assert made.assemblies == ()
