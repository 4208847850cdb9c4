"""What is said of each feature, in whose words, from which plane."""

from __future__ import annotations

from timber import BOTTOM_TOP, FRONT_BACK, LEFT_RIGHT, board, box, said, wedged_rail

from planbuild.core.geometry import Axis, Face
from planbuild.derive.dimensions.measure import Datum, Measure, Style, Weight
from planbuild.derive.dimensions.measures import measures_of
from planbuild.derive.dimensions.tree import choose
from planbuild.records.features import Arch, Chamfer, Hole, Mate, Mitre, Mortise, Rabbet, Taper, Tenon
from planbuild.records.piece import Part

MATE = Mate("rail", (0,))
FROM_TOP_LEFT_FRONT = Datum({BOTTOM_TOP: Face.TOP, LEFT_RIGHT: Face.LEFT, FRONT_BACK: Face.FRONT})
ON_A_BOARD = Datum({LEFT_RIGHT: Face.LEFT, FRONT_BACK: Face.FRONT, BOTTOM_TOP: Face.TOP})


def told(part: Part, datum: Datum, feature: str) -> dict[str, Measure]:
    return {each.states: each for each in measures_of(part, datum) if each.feature == feature}


def values(found: dict[str, Measure]) -> dict[str, float]:
    return {word: each.value for word, each in found.items()}


def leg(*features: object) -> Part:
    return board(*features, body=box(0, 45, 0, 45, 0, 700), grain=BOTTOM_TOP, face=Face.FRONT, edge=Face.LEFT)  # type: ignore[arg-type]


def test_a_mortise_is_set_out_from_the_top_end_and_the_face_side() -> None:
    mortise = Mortise(**said("rail"), face=Face.RIGHT, void=box(15, 45, 14, 24, 610, 670), mate=MATE)
    found = told(leg(mortise), FROM_TOP_LEFT_FRONT, "rail")
    assert values(found) == {"from top end": 30, "length": 60, "from front face": 14, "width": 10, "depth": 30}
    assert found["from top end"].ends == (700, 670)
    assert found["depth"].inside and not found["length"].inside


def test_a_through_mortise_has_no_depth_and_says_how_it_opens() -> None:
    mortise = Mortise(
        **said("rail"), face=Face.BACK, void=box(15, 25, 0, 45, 100, 140), mate=MATE,
        through=True, flare=2.0, flare_axis=BOTTOM_TOP, flare_from=30.0,
    )  # fmt: skip
    found = values(told(leg(mortise), FROM_TOP_LEFT_FRONT, "rail"))
    assert "depth" not in found
    assert (found["flare at the top"], found["flare at the bottom"], found["flare begins"]) == (2, 2, 30)


def test_a_taper_by_its_start_and_what_it_leaves() -> None:
    taper = Taper(**said("taper"), faces=(Face.RIGHT,), end=Face.BOTTOM, start=570.0, leaving=((LEFT_RIGHT, 28.0),))
    found = told(leg(taper), FROM_TOP_LEFT_FRONT, "taper")
    assert values(found) == {"start from top end": 130, "left at bottom end": 28}
    assert found["left at bottom end"].ends == (0, 28)


def test_a_taper_on_four_sides_says_each_direction_by_itself() -> None:
    sides = (Face.LEFT, Face.RIGHT, Face.FRONT, Face.BACK)
    leaving = ((LEFT_RIGHT, 29.0), (FRONT_BACK, 25.0))
    taper = Taper(**said("taper"), faces=sides, end=Face.BOTTOM, start=570.0, leaving=leaving)
    assert values(told(leg(taper), FROM_TOP_LEFT_FRONT, "taper")) == {
        "start from top end": 130,
        "left at bottom end left-right": 29, "in at bottom end left-right": 8,
        "left at bottom end front-back": 25, "in at bottom end front-back": 10,
    }  # fmt: skip


def test_a_tenon_by_length_cheek_thickness_shoulders_and_width() -> None:
    tenon = Tenon(**said("tenon"), end=Face.LEFT, block=box(-30, 0, 12, 54, 6, 14), mate=MATE)
    found = told(board(tenon), ON_A_BOARD, "tenon")
    assert values(found) == {
        "length": 30, "cheek from top face": 6, "thickness": 8, "shoulder at front": 12, "width": 42, "shoulder at back": 6,
    }  # fmt: skip
    assert found["shoulder at back"].weight is Weight.REFERENCE


def test_a_mitred_tenon_by_its_short_side_and_angle() -> None:
    tenon = Tenon(
        **said("tenon"), end=Face.LEFT, block=box(-30, 0, 12, 54, 6, 14), mate=MATE, mitre=Mitre(Face.BOTTOM, 21.0)
    )
    found = told(board(tenon), ON_A_BOARD, "tenon")
    assert found["short side"].ends == (0, -21)
    assert (found["mitre"].value, found["mitre"].unit) == (45, "deg")


def test_kerfs_from_the_nearer_edge_with_depth_and_width() -> None:
    found = values(told(wedged_rail(), ON_A_BOARD, "wedged.left"))
    assert (found["kerf 1 from edge"], found["kerf 2 from edge"]) == (8, 8)
    assert (found["kerf 1 depth"], found["kerf width"], found["tip chamfer"]) == (38, 1.5, 0.5)


def test_an_arch_from_both_ends_with_its_rise_and_a_radius_to_check() -> None:
    """r = (c^2/4 + h^2) / 2h: chord 300, rise 10 gives 1130."""
    found = told(board(Arch(**said("arch"), face=Face.FRONT, rise=10.0, start=50.0, stop=350.0)), ON_A_BOARD, "arch")
    assert values(found) == {"start from left end": 50, "start from right end": 50, "rise": 10, "radius": 1130}
    assert found["radius"].weight is Weight.REFERENCE and found["radius"].style is Style.LEADER


def test_a_tongue_by_what_is_left_standing() -> None:
    free = board(Rabbet(**said("step"), edge=(Face.TOP, Face.LEFT), void=box(0, 12, 0, 60, 14, 20)))
    assert values(told(free, ON_A_BOARD, "step")) == {"in from top face": 6, "in from left face": 12}
    joined = board(Rabbet(**said("step", "seat"), edge=(Face.TOP, Face.LEFT), void=box(0, 12, 0, 60, 14, 20)))
    assert values(told(joined, ON_A_BOARD, "step")) == {"tongue thickness": 14, "tongue length": 12}


def test_a_stopped_step_says_from_where_to_where() -> None:
    stopped = board(Rabbet(**said("step"), edge=(Face.TOP, Face.FRONT), void=box(30, 330, 0, 5, 14, 20)))
    found = values(told(stopped, ON_A_BOARD, "step"))
    assert found == {"in from top face": 6, "in from front face": 5, "from left end": 30, "length": 300}


def test_words_of_notes() -> None:
    part = board(
        Chamfer(**said("edges"), edges=((Face.FRONT, Face.TOP),), size=2.0, group="long"),
        Hole(**said("hole"), face=Face.TOP, centre=(40, 30, 20), diameter=4.5, depth=None, gauge="8"),
    )
    assert told(part, ON_A_BOARD, "edges")["size"].say == "{} × 45° long edges"
    assert told(part, ON_A_BOARD, "hole")["diameter"].say == "⌀ {} through, for a No. 8 screw"


def test_what_a_board_is_planed_to_is_printed_even_where_it_follows() -> None:
    """Two mortises that meet in the middle of a leg: 18 + 27 would give the thickness, yet 45 is what is planed."""
    one = Mortise(**said("one"), face=Face.RIGHT, void=box(18, 45, 18, 28, 610, 670), mate=MATE)
    other = Mortise(**said("other"), face=Face.BACK, void=box(18, 28, 18, 45, 610, 670), mate=MATE)
    chosen = choose(measures_of(leg(one, other), FROM_TOP_LEFT_FRONT))
    printed = {(each.feature, each.states) for each in chosen.printed}
    assert {("body", "thickness"), ("body", "width"), ("body", "length")} <= printed
    assert len(chosen.bracketed) == 2
    across = {round(each.value) for each in chosen.all if each.feature != "body" and each.axis is not BOTTOM_TOP}
    assert across == {10, 18, 27}


def test_axes_of_all_measures_are_those_of_their_planes() -> None:
    for each in measures_of(wedged_rail(), ON_A_BOARD):
        assert each.axis in (None, *Axis)
        if each.axis is not None:
            assert each.value == abs(each.ends[1] - each.ends[0])
