"""Pictures of steps: states of a part, worked faces, how it lies, motions and arrows."""

from __future__ import annotations

from dataclasses import replace

import pytest
import shapely
from timber import FRONT_BACK, board, box, piece, said

from planbuild.core.diagnostics import Collector
from planbuild.core.geometry import Axis, Face
from planbuild.derive.pictures.arrows import arrow_area, place_arrow, stands_free
from planbuild.derive.pictures.close_ups import close_up
from planbuild.derive.pictures.lying import lie_words, lying
from planbuild.derive.pictures.motions import drawn_back
from planbuild.derive.pictures.step_picture import step_picture
from planbuild.derive.pictures.studio import USUAL, Studio
from planbuild.derive.pictures.worked import worked_faces
from planbuild.derive.scene import Scene, Stage
from planbuild.derive.steps import plan_steps
from planbuild.derive.views.faces import Facet, facets
from planbuild.records.drawing import Drawing, Pen, TextRole, Tint
from planbuild.records.edition import Edition
from planbuild.records.features import Arch, Chamfer, Groove, Mortise, Taper, Tenon
from planbuild.records.findings import Findings
from planbuild.records.legibility import clashes, segments
from planbuild.records.piece import Part, Piece
from planbuild.shape import shape

NEW = (Tint.NEW_UP, Tint.NEW_FRONT, Tint.NEW_SIDE)


@pytest.fixture(scope="module")
def close(studio: Studio, bench_findings: Findings) -> dict[str, Stage]:
    scenes = plan_steps(studio.piece, studio.solids, bench_findings, studio.edition).scenes
    return {scene.id: scene.close for scene in scenes if scene.close}


def finished(part: Part) -> Stage:
    """The part as it leaves the bench, made in one go."""
    return Stage(replace(part, features=(), body=part.extent), part)


def test_a_mortised_leg_is_not_tapered_yet(studio: Studio, close: dict[str, Stage]) -> None:
    leg = studio.piece.part("leg")
    mortised = studio.on_the_way(close["step.mortise.leg"].after)
    mortises = [f for f in leg.features if isinstance(f, Mortise)]
    box = leg.body.volume
    assert studio.solids.of["leg"].volume < mortised.Volume() < box
    assert len(mortised.Solids()) == 1 and mortised.isValid()
    assert box - mortised.Volume() < 1.05 * sum(f.void.volume for f in mortises) + 200, "flares take a little more"


def test_each_state_is_cut_once_and_the_last_one_not_at_all(studio: Studio, close: dict[str, Stage]) -> None:
    state = close["step.mortise.leg"].after
    assert studio.on_the_way(state) is studio.on_the_way(replace(state))
    assert studio.on_the_way(studio.piece.part("slat")) is studio.solids.of["slat"].cut


def test_worked_faces_of_a_new_tenon_are_cheeks_and_shoulder(studio: Studio) -> None:
    """The tip is the end of the blank: it was there before."""
    slat, solid = studio.piece.part("slat"), studio.solids.of["slat"].cut
    tenon = next(f for f in slat.features if isinstance(f, Tenon))
    numbers = worked_faces(solid, finished(slat), [tenon.id])
    area = sum(_area(f) for f in facets(solid) if f.face in numbers)
    length, *sides = (tenon.block.size(a) for a in (tenon.end.axis, *tenon.end.axis.others))
    section = [slat.body.size(axis) for axis in tenon.end.axis.others]
    chamfers = 4 * next(f.size for f in slat.features if isinstance(f, Chamfer)) ** 2 / 2
    shoulder = section[0] * section[1] - sides[0] * sides[1] - chamfers
    assert area == pytest.approx(2 * length * sum(sides) + shoulder, rel=1e-3)


def test_of_a_mitre_only_the_mitre_is_new(studio: Studio, close: dict[str, Stage]) -> None:
    stage = close["step.mitre.long_rail"]
    solid = studio.on_the_way(stage.after)
    tenons = [f for f in stage.after.features if isinstance(f, Tenon)]
    found = [f for f in facets(solid) if f.face in worked_faces(solid, stage, [t.id for t in tenons])]
    assert len(found) == len(tenons)
    assert all(abs(f.normal).max() == pytest.approx(0.7071, abs=1e-3) for f in found)


def test_a_tenon_that_is_kerfed_is_tinted_whole(studio: Studio, close: dict[str, Stage]) -> None:
    """The walls of a kerf are too near to each other to show any tint."""
    stage = close["step.kerf.lower_rail"]
    solid = studio.on_the_way(stage.after)
    ids = [f.id for f in stage.after.features if isinstance(f, Tenon)]
    seen = [f for f in facets(solid) if f.face in worked_faces(solid, stage, ids)]
    assert {face for face in Face if any(f.normal @ face.normal > 0.99 for f in seen)} >= {Face.LEFT, Face.RIGHT}


def _area(facet: Facet) -> float:
    outer, *holes = (ring @ _plane(facet.normal) for ring in facet.rings)
    return shapely.Polygon(outer, holes).area


def _plane(normal) -> object:
    """The two axes square to an axis-aligned normal, as a 3 x 2 matrix."""
    import numpy as np

    return np.eye(3)[:, [i for i in range(3) if abs(normal[i]) < 0.5]]


def test_worked_face_of_a_taper_is_the_sloping_one(studio: Studio) -> None:
    leg, solid = studio.piece.part("leg"), studio.solids.of["leg"].cut
    taper = next(f for f in leg.features if isinstance(f, Taper))
    numbers = worked_faces(solid, finished(leg), [taper.id])
    found = [f for f in facets(solid) if f.face in numbers]
    assert len(numbers) == 1 and found[0].normal[0] > 0.99 and abs(found[0].normal[2]) > 0.01


def test_parts_lie_along_the_paper_with_the_work_in_sight(bench_piece: Piece) -> None:
    for part in bench_piece.parts:
        ids = [f.id for f in part.features if isinstance(f, Mortise)]
        turn = lying(part, ids)
        assert turn.axis(part.grain) is Axis.LEFT_RIGHT and not turn.mirrors
        seen = [turn.direction(f.face.normal) for f in part.features if isinstance(f, Mortise)]
        assert all(sum(a * b for a, b in zip(way, USUAL.toward, strict=True)) > 0 for way in seen), part.id


def test_parts_lie_as_on_their_sheets_where_the_work_allows(bench_piece: Piece) -> None:
    """The end that is measured from at the left, and what lies in the piece with its top up: words speak of it."""
    for id, kind in (("long_rail", Tenon), ("long_rail", Groove), ("lower_rail", Tenon), ("lower_rail", Mortise), ("leg", Taper)):
        part = bench_piece.part(id)
        turn = lying(part, [f.id for f in part.features if isinstance(f, kind)])
        assert part.grain is Axis.BOTTOM_TOP or turn.face(Face.TOP) is Face.TOP, (id, kind)
    leg = bench_piece.part("leg")
    for kind in (Mortise, Taper):
        assert lying(leg, [f.id for f in leg.features if isinstance(f, kind)]).face(Face.TOP) is Face.LEFT, kind


def test_a_panel_lies_flat(bench_piece: Piece) -> None:
    """Chamfers round the underside of a seat are planed with the seat on its face, not on an edge."""
    seat = bench_piece.part("seat")
    under = [f.id for f in seat.features if isinstance(f, Chamfer)]
    assert lying(seat, under).face(Face.BOTTOM) is Face.TOP


def test_an_arch_is_seen_in_outline(bench_piece: Piece) -> None:
    """Upside down, the way it is smoothed: worked face up, broad face to the viewer; and it is said."""
    rail = bench_piece.part("long_rail")
    turn = lying(rail, [f.id for f in rail.features if isinstance(f, Arch)])
    assert turn.face(Face.BOTTOM) is Face.TOP and turn.axis(Axis.FRONT_BACK) is Axis.FRONT_BACK
    assert lie_words(rail, turn).endswith("bottom edge up")


def test_how_a_part_lies_is_written_free_of_it(of_steps: dict[str, Drawing]) -> None:
    written = {id: [t.text for t in drawing.texts if t.role is TextRole.NOTE] for id, drawing in of_steps.items()}
    assert written["step.mortise.leg"] == ["top end to the left"]
    assert written["step.mortise.lower_rail"] == ["front end to the left"]
    assert written["step.tenon.rail"] == [] and written["step.make.wedge"] == []
    assert all(clashes(drawing) == () for drawing in of_steps.values())


def test_what_is_fixed_from_below_is_drawn_upside_down(of_steps: dict[str, Drawing]) -> None:
    """The underside of the seat is seen and lit from above, one arrow brings the base down on it."""
    drawing = of_steps["step.fit.seat"]
    assert area(drawing, Tint.NEW_UP) > 2 * area(drawing, Tint.NEW_FRONT)
    arrows = [stroke for stroke in drawing.strokes if stroke.pen is Pen.MOVE]
    assert len(arrows) == 1
    (tail, tip), *_ = segments(arrows[0].path)
    assert tip[1] > tail[1] and tip[0] == pytest.approx(tail[0])
    assert drawing.alt.endswith("all upside down.")


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
    numbers = worked_faces(solid, finished(leg), [mortise.id])
    outside = [f for f in facets(solid) if f.face in numbers and abs(f.rings[0][:, 0] - leg.body.at(Face.LEFT)).max() < 0.01]
    assert numbers and outside == []


def test_a_corner_that_a_taper_took_is_not_looked_at_closely(letter: Edition) -> None:
    """Where a close-up would find no wood the whole board is drawn."""
    edge = Chamfer(**said("edge"), edges=((Face.FRONT, Face.TOP),), size=1.0)
    slope = Taper(**said("slope"), faces=(Face.FRONT, Face.BACK), end=Face.LEFT, start=800.0, leaving=((FRONT_BACK, 20.0),))
    other = replace(slope, id="other", end=Face.RIGHT, start=400.0, leaving=((FRONT_BACK, 20.0),))
    part = board(edge, slope, other, body=box(0, 800, 0, 600, 0, 6))
    alone = piece(part)
    drawn = step_picture(
        Studio(alone, shape(alone), letter, Collector()),
        scene(new=(("board", 0),), features=(("board", "edge"),), close=finished(part)), 120.0, 90.0,
    )  # fmt: skip
    assert drawn.strokes and drawn.fills
