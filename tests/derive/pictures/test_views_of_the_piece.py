"""Three views and section: relation of the views, overall sizes, where the saw goes."""

from __future__ import annotations

import pytest
import shapely

from planbuild.core.diagnostics import Collector
from planbuild.core.geometry import Axis, Face
from planbuild.derive.pictures.piece_scales import largest_scale, piece_scales
from planbuild.derive.pictures.section import best_plane
from planbuild.derive.pictures.studio import Studio
from planbuild.derive.pictures.three_views import three_views
from planbuild.records.drawing import Drawing, Pen, TextRole, Tint
from planbuild.records.edition import Edition
from planbuild.records.legibility import clashes, path_box, segments
from planbuild.records.piece import Piece


def title(drawing: Drawing, word: str) -> tuple[float, float]:
    return next(text.at for text in drawing.texts if text.text == word)


def figures(drawing: Drawing) -> set[str]:
    return {text.text for text in drawing.texts if text.role is TextRole.DIMENSION}


def test_third_angle_has_the_top_above_and_the_right_side_on_the_right(of_piece: dict[str, Drawing]) -> None:
    """Source of the arrangement: ISO 5456-2, ASME Y14.3."""
    drawing = of_piece["three_views"]
    assert title(drawing, "Top")[1] < title(drawing, "Front")[1]
    assert title(drawing, "Right side")[0] > title(drawing, "Front")[0]


@pytest.fixture(scope="module")
def metric(studio: Studio, a4: Edition) -> Drawing:
    return three_views(Studio(studio.piece, studio.solids, a4, Collector()), best_plane(studio.piece), a4.text_width, 150.0)


def test_first_angle_has_the_top_below_and_the_left_side_on_the_right(metric: Drawing) -> None:
    assert title(metric, "Top")[1] > title(metric, "Front")[1]
    assert title(metric, "Left side")[0] > title(metric, "Front")[0]


def test_overall_sizes_are_stated(of_piece: dict[str, Drawing], metric: Drawing, studio: Studio, a4: Edition) -> None:
    for drawing, edition in ((of_piece["three_views"], studio.edition), (metric, a4)):
        wanted = {edition.ruler.printed(studio.piece.frame.size(axis)) for axis in Axis}
        assert wanted <= figures(drawing)
        assert clashes(drawing) == ()


def test_chains_add_up(of_piece: dict[str, Drawing]) -> None:
    """2 + 40 + 2 = 44 across, 5 + 8 1/2 + 4 = 17 1/2 up (from the design's own sizes)."""
    assert {"2", "40", "44", "5", "4", "15"} <= figures(of_piece["three_views"])


def test_the_section_goes_through_the_wedged_tenons(bench_piece: Piece) -> None:
    plane = best_plane(bench_piece)
    assert plane is not None
    assert plane.axis is Axis.LEFT_RIGHT and plane.face is Face.LEFT
    assert plane.at == pytest.approx(2.75 * 25.4, abs=0.1), "the middle of the tenons of short and lower rails"


def test_grain_is_drawn_on_cut_wood_only(of_piece: dict[str, Drawing]) -> None:
    drawing = of_piece["section"]
    areas = [shapely.Polygon([a for a, _ in segments(f.path)]).buffer(0) for f in drawing.fills if f.tint is Tint.CUT]
    cut = shapely.union_all(areas)
    hatch = [shapely.LineString(each) for s in drawing.strokes if s.pen is Pen.HATCH for each in segments(s.path)]
    assert hatch and all(shapely.covers(cut.buffer(0.1).convex_hull, line) for line in hatch)


def test_the_section_ends_where_its_ink_ends(of_piece: dict[str, Drawing]) -> None:
    """So that its caption stands close below it."""
    drawing = of_piece["section"]
    inks = [*(stroke.path for stroke in drawing.strokes), *(cover.path for cover in drawing.covers)]
    lowest = max(path_box(path)[3] for path in inks if path)
    assert 0 < drawing.height - lowest < 1.5


def test_section_and_views_say_their_scale(of_piece: dict[str, Drawing], metric: Drawing) -> None:
    assert of_piece["three_views"].scale == "1:10" and of_piece["section"].scale == "1:8"
    assert metric.scale == "1:10", "ISO 5455"


def test_scales_between_those_of_the_sheets_are_for_inch_paper_only(letter: Edition, a4: Edition) -> None:
    inch = [str(s) for s in piece_scales(letter.ruler.unit)]
    assert inch == ["2", "1", "1/2", "1/4", "1/8", "1/10", "1/12", "1/16", "1/20", "1/24", "1/32", "1/64"]
    assert [str(s) for s in piece_scales(a4.ruler.unit)] == ["2", "1", "1/2", "1/5", "1/10", "1/20", "1/50", "1/100"]
    assert largest_scale((0, 0, 1000, 500), 100, 100, a4.ruler.unit) * 10 == 1
