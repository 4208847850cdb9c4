"""Dimension lines round a view: short ones inside, nothing on a figure, places from one plane on one line."""

from __future__ import annotations

from hypothesis import given, settings
from hypothesis import strategies as st

from planbuild.derive.dimension_lines import FIRST, NEXT, Ink
from planbuild.derive.dimensions.layout import Side, Wanted, arrange
from planbuild.derive.dimensions.notes import place_note
from planbuild.derive.dimensions.paper import Paper
from planbuild.records.drawing import Drawing, Pen, Stroke, ring
from planbuild.records.legibility import clashes, path_box

BOX = (0.0, 0.0, 150.0, 20.0)
OUTLINE = Stroke(Pen.VISIBLE, ring((0, 0), (150, 0), (150, 20), (0, 20)))


def below(id: str, low: float, high: float, text: str, datum: int | None = None) -> Wanted:
    return Wanted(id, text, (low, high), ((0.0, 20.0), (0.0, 20.0)), (Side.BELOW,), datum)


def laid(*wanted: Wanted) -> Ink:
    return arrange(wanted, BOX, Paper())


def drawing(ink: Ink, *strokes: Stroke) -> Drawing:
    """On a sheet with room to all sides."""
    return Drawing("t", 900, 900, (), (*strokes, *ink.strokes), ink.covers, (), ink.texts, "")


def level(ink: Ink, id: str) -> float:
    """Base line of a figure."""
    (text,) = (text for text in ink.texts if text.refers == id)
    return text.at[1]


def free(ink: Ink) -> bool:
    """No text on other ink; the paper's edge plays no part here."""
    return not [each for each in clashes(drawing(ink, OUTLINE)) if each.meets != "the edge of the drawing"]


def test_short_ones_lie_inside_long_ones_outside() -> None:
    ink = laid(below("all", 0, 150, "150"), below("half", 0, 75, "75"), below("part", 0, 30, "30"))
    assert level(ink, "part") < level(ink, "half") < level(ink, "all")
    assert level(ink, "half") - level(ink, "part") == NEXT


def test_the_first_row_lies_eight_millimetres_off() -> None:
    ink = laid(below("only", 0, 150, "150"))
    lines = [path_box(stroke.path) for stroke in ink.strokes]
    assert FIRST == 8 and any(abs(box[1] - 28) < 1e-6 and abs(box[3] - 28) < 1e-6 for box in lines)


def test_a_chain_shares_a_line() -> None:
    ink = laid(below("a", 0, 40, "40"), below("b", 40, 90, "50"), below("c", 90, 150, "60"))
    assert level(ink, "a") == level(ink, "b") == level(ink, "c")


def test_a_figure_without_room_stands_outside_and_free() -> None:
    ink = laid(below("a", 60, 64, "12.5"), below("b", 64, 120, "56"), below("c", 0, 60, "60"))
    assert free(ink)


def test_narrow_neighbours_do_not_lie_on_each_other() -> None:
    ink = laid(below("a", 60, 64, "4"), below("b", 64, 68, "4"), below("c", 68, 71, "3"))
    assert free(ink)


def test_many_places_from_one_plane_share_a_line_of_their_own() -> None:
    places = [below(str(x), 0, x, str(x), datum=0) for x in (20, 45, 70, 95, 120)]
    sizes = [below(f"size {x}", x, x + 12, "12") for x in (20, 45, 70, 95, 120)]
    ink = laid(*places, *sizes)
    assert len({level(ink, each.id) for each in places}) == 1
    assert level(ink, places[0].id) not in {level(ink, each.id) for each in sizes}
    assert free(ink)


def test_places_too_near_to_each_other_for_one_line_take_two() -> None:
    places = (20, 25, 60, 95, 130, 135)
    ink = laid(*(below(str(place), 0, place, str(place), datum=0) for place in places), below("all", 0, 150, "150"))
    lines = {level(ink, str(place)) for place in places}
    assert len(lines) == 2 and level(ink, "20") != level(ink, "25") and level(ink, "130") != level(ink, "135")
    assert level(ink, "all") > max(lines) and free(ink)


def test_places_that_would_take_as_many_lines_anyway_are_dimensioned_one_by_one() -> None:
    places = (20, 21, 22, 23, 24)
    ink = laid(*(below(str(place), 0, place, str(place), datum=0) for place in places))
    assert len({level(ink, str(place)) for place in places}) == len(places)


def test_figures_of_close_places_stand_on_their_extension_lines() -> None:
    """Fifteen places every 7 mm, each figure wider than that: one line, the figures side by side across it."""
    places = [below(str(x), 0, x, "15 13/16", datum=0) for x in range(8, 113, 7)]
    ink = laid(*places, below("all", 0, 150, "150"))
    figures = [each for each in ink.texts if each.text == "15 13/16"]
    assert {each.angle for each in figures} == {90.0} and len({each.at[1] for each in figures}) == 1
    assert level(ink, "all") > figures[0].at[1] and free(ink)


def test_a_size_stands_where_its_extension_lines_do_not_run_over_the_view() -> None:
    slot = Wanted("slot", "8", (6.0, 14.0), ((140.0, 150.0), (140.0, 150.0)), (Side.LEFT, Side.RIGHT))
    (text,) = laid(slot).texts
    assert text.at[0] > 150


def test_four_places_are_dimensioned_one_by_one() -> None:
    places = [below(str(x), 0, x, str(x), datum=0) for x in (20, 45, 70, 95)]
    assert len({level(laid(*places), each.id) for each in places}) == 4


spots = st.lists(st.integers(0, 150), min_size=2, max_size=6, unique=True).map(sorted)


@settings(max_examples=40)
@given(spots)
def test_chains_of_any_widths_stay_legible(spots: list[int]) -> None:
    chain = [below(f"{a}-{b}", a, b, str(b - a)) for a, b in zip(spots, spots[1:], strict=False)]
    overall = [below("all", spots[0], spots[-1], str(spots[-1] - spots[0]))] if len(spots) > 2 else []
    assert free(laid(*chain, *overall))


def test_notes_find_a_free_place_off_the_wood() -> None:
    paper = Paper()
    paper.add(Ink((OUTLINE,)))
    ink = arrange([below("all", 0, 150, "150")], BOX, paper)
    for number, tip in enumerate(((150.0, 10.0), (150.0, 12.0), (75.0, 20.0))):
        ink = ink.plus(place_note([(f"note {number}", ""), ("second line", "")], tip, BOX, paper))
    assert free(ink)
    assert not any(0 < text.at[0] < 150 and 0 < text.at[1] < 20 for text in ink.texts)


def test_a_narrow_size_between_places_of_others_goes_out_beyond_the_one_that_passes() -> None:
    """A housing in a case bottom at 1:16, with screws before and behind it: no room beside it near the board."""
    places = [(f"screw {number}", at) for number, at in enumerate((1.8, 5.8, 20.6, 35.4, 50.2, 54.2))]
    wanted = [below(id, 0, at, f"{at:.1f} 5/16", datum=0) for id, at in places]
    housing = below("housing", 27.5, 28.6, "23/32")
    ink = laid(*wanted, below("place", 0, 27.5, "17 5/16", datum=0), housing, below("all", 0, 56, "35 5/16"))
    assert free(ink)
    assert level(ink, "housing") > level(ink, "screw 3")
