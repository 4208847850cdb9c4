"""Pictures of steps: states of a part, worked faces, how it lies, motions and arrows."""

from __future__ import annotations

import pytest
import shapely

from planbuild.core.geometry import Axis, Face
from planbuild.derive.pictures.arrows import arrow_area, place_arrow, stands_free
from planbuild.derive.pictures.close_ups import close_up
from planbuild.derive.pictures.lying import lying
from planbuild.derive.pictures.motions import drawn_back
from planbuild.derive.pictures.states import as_far_as
from planbuild.derive.pictures.step_picture import step_picture
from planbuild.derive.pictures.studio import USUAL, Studio
from planbuild.derive.pictures.worked import worked_faces
from planbuild.derive.scene import Scene, State
from planbuild.derive.views.faces import facets
from planbuild.records.drawing import Drawing, Pen, Tint
from planbuild.records.features import Mortise, Taper, Tenon
from planbuild.records.legibility import segments
from planbuild.records.piece import Piece

NEW = (Tint.NEW_UP, Tint.NEW_FRONT, Tint.NEW_SIDE)


def test_a_joined_leg_has_its_mortises_and_is_not_tapered_yet(studio: Studio) -> None:
    leg = studio.piece.part("leg")
    joined = as_far_as(studio, "leg", State.JOINED)
    mortises = [f for f in leg.features if isinstance(f, Mortise)]
    box = leg.body.volume
    assert studio.solids.of["leg"].volume < joined.Volume() < box
    assert len(joined.Solids()) == 1 and joined.isValid()
    assert box - joined.Volume() < 1.05 * sum(f.void.volume for f in mortises) + 200, "flares take a little more"


def test_a_blank_is_a_plain_board(studio: Studio) -> None:
    rail = studio.piece.part("long_rail")
    assert as_far_as(studio, "long_rail", State.BLANK).Volume() == pytest.approx(rail.extent.volume)


def test_worked_faces_of_a_tenon_are_cheeks_and_tip(studio: Studio) -> None:
    rail, solid = studio.piece.part("slat"), studio.solids.of["slat"].cut
    tenon = next(f for f in rail.features if isinstance(f, Tenon))
    numbers = worked_faces(solid, rail, [tenon.id])
    area = sum(shapely.Polygon(f.rings[0] @ _plane(f.normal)).area for f in facets(solid) if f.face in numbers)
    length, *sides = (tenon.block.size(a) for a in (tenon.end.axis, *tenon.end.axis.others))
    assert area == pytest.approx(2 * length * sum(sides) + sides[0] * sides[1], rel=1e-3)


def _plane(normal) -> object:
    """The two axes square to an axis-aligned normal, as a 3 x 2 matrix."""
    import numpy as np

    return np.eye(3)[:, [i for i in range(3) if abs(normal[i]) < 0.5]]


def test_worked_face_of_a_taper_is_the_sloping_one(studio: Studio) -> None:
    leg, solid = studio.piece.part("leg"), studio.solids.of["leg"].cut
    taper = next(f for f in leg.features if isinstance(f, Taper))
    numbers = worked_faces(solid, leg, [taper.id])
    found = [f for f in facets(solid) if f.face in numbers]
    assert len(numbers) == 1 and found[0].normal[0] > 0.99 and abs(found[0].normal[2]) > 0.01


def test_parts_lie_along_the_paper_with_the_work_in_sight(bench_piece: Piece) -> None:
    for part in bench_piece.parts:
        ids = [f.id for f in part.features if isinstance(f, Mortise)]
        turn = lying(part, ids)
        assert turn.axis(part.grain) is Axis.LEFT_RIGHT and not turn.mirrors
        seen = [turn.direction(f.face.normal) for f in part.features if isinstance(f, Mortise)]
        assert all(sum(a * b for a, b in zip(way, USUAL.toward, strict=True)) > 0 for way in seen), part.id


def test_of_a_slender_rail_one_tenon_is_drawn_large(bench_piece: Piece) -> None:
    rail = bench_piece.part("long_rail")
    tenons = [f.id for f in rail.features if isinstance(f, Tenon)]
    limit = close_up(rail, tenons, lying(rail, tenons))
    assert limit is not None and limit.meet(rail.extent).x.size < rail.extent.x.size / 3
    assert close_up(bench_piece.part("leg"), [], lying(bench_piece.part("leg"), [])) is None


def test_a_close_picture_tints_the_worked_faces(of_steps: dict[str, Drawing]) -> None:
    for id in ("step.mortise.leg", "step.taper.leg"):
        assert any(fill.tint in NEW for fill in of_steps[id].fills), id


def test_old_parts_are_pale_and_new_ones_tinted(of_steps: dict[str, Drawing]) -> None:
    tints = {fill.tint for fill in of_steps["step.glue.base"].fills}
    assert Tint.PALE_FRONT in tints and Tint.NEW_FRONT in tints and Tint.FRONT not in tints


def test_each_motion_has_an_arrow(of_steps: dict[str, Drawing]) -> None:
    assert sum(stroke.pen is Pen.MOVE for stroke in of_steps["step.glue.base"].strokes) == 2
    assert not any(stroke.pen is Pen.MOVE for stroke in of_steps["step.dry_fit.base"].strokes)


def area(drawing: Drawing, tint: Tint) -> float:
    """mm2 of paper in a tint."""
    rings = [shapely.Polygon([a for a, _ in segments(fill.path)]) for fill in drawing.fills if fill.tint is tint]
    return sum(ring.buffer(0).area for ring in rings)


def scene(**fields) -> Scene:
    return Scene("step.test", **fields)


def test_a_leg_is_drawn_back_until_the_tenons_are_free(studio: Studio) -> None:
    moves = {("leg", 0): (0.0, 1.0, 0.0)}
    shown = scene(new=(("leg", 0),), context=(("short_rail", 0), ("lower_rail", 0)), moves=moves)
    (shift,) = drawn_back(studio, shown).values()
    engaged = max(f.block.size(Axis.FRONT_BACK) for f in studio.piece.part("lower_rail").features if isinstance(f, Tenon))
    assert shift[1] < -engaged and shift[0] == shift[2] == 0


def test_a_wedge_stands_beyond_the_leg_it_is_driven_through(studio: Studio) -> None:
    way = (0.0, 1.0, 0.0)
    shown = scene(new=(("leg", 0), ("wedge", 0)), context=(("lower_rail", 0),), moves={("leg", 0): way, ("wedge", 0): way})
    shifts = drawn_back(studio, shown)
    assert shifts[("wedge", 0)][1] < shifts[("leg", 0)][1] - 30


def test_a_button_leaves_its_groove_before_it_leaves_its_place(studio: Studio) -> None:
    shown = scene(new=(("button", 0),), context=(("long_rail", 0),), moves={("button", 0): (0.0, 0.0, 1.0)})
    (shift,) = drawn_back(studio, shown).values()
    assert shift[1] > 6 and shift[2] < -10


def test_the_picture_turns_where_the_work_would_be_hidden(studio: Studio) -> None:
    """Holes in the underside of the seat are seen from below only."""
    seat = studio.piece.part("seat")
    holes = tuple(("seat", f.id) for f in seat.features if f.kind == "hole")
    assert holes
    below = step_picture(studio, scene(new=(("seat", 0),), context=(("leg", 0),), features=holes), 84, 64)
    above = step_picture(studio, scene(new=(("seat", 0),), context=(("leg", 0),)), 84, 64)
    assert area(above, Tint.NEW_UP) > 20 * area(below, Tint.NEW_UP)


def test_an_arrow_stands_behind_what_moves_and_points_at_it() -> None:
    part = shapely.box(50, 30, 70, 40)
    spot = place_arrow(part, (1.0, 0.0), part, (0, 0, 120, 80))
    assert spot is not None
    tail, tip = spot
    assert tail[0] < tip[0] < 50 and tail[1] == tip[1] == pytest.approx(35)
    assert stands_free(tail, tip, part, (0, 0, 120, 80)) and not arrow_area(tail, tip).intersects(part)


def test_nothing_is_drawn_for_what_moves_at_the_viewer() -> None:
    assert place_arrow(shapely.box(0, 0, 9, 9), (0.05, 0.05), shapely.box(0, 0, 9, 9), (0, 0, 50, 50)) is None


def test_faces_of_a_body_are_no_part_of_a_mortise(studio: Studio) -> None:
    leg, solid = studio.piece.part("leg"), studio.solids.of["leg"].cut
    mortise = next(f for f in leg.features if isinstance(f, Mortise))
    numbers = worked_faces(solid, leg, [mortise.id])
    outside = [f for f in facets(solid) if f.face in numbers and abs(f.rings[0][:, 0] - leg.body.at(Face.LEFT)).max() < 0.01]
    assert numbers and outside == []
