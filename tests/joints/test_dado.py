"""Dadoes: the part grows by the depth of its housing, and what is housed fills the housing."""

from __future__ import annotations

import pytest
from boards_by_hand import BOTTOM_TOP, FRONT_BACK, LEFT_RIGHT, PAIR_LR, board, box, inches, joined, refused, site
from hypothesis import given
from hypothesis import strategies as st
from joined_pieces import cut_and_proved, told_of
from joined_solids import of_boxes, together

from planbuild.core.geometry import Face
from planbuild.joints import KINDS
from planbuild.joints.base import Joined
from planbuild.records.features import Groove, Rabbet

KIND = KINDS["dado"]
SIDE = board("side", box(0, 0.75, 0, 5, 0, 16), BOTTOM_TOP, Face.LEFT)
FAR = board("far_side", box(23.25, 24, 0, 5, 0, 16), BOTTOM_TOP, Face.LEFT)
SHELF = board("shelf", box(0.75, 23.25, 0, 5, 3, 3.75), LEFT_RIGHT, Face.TOP, stock="frame_ash")


def housing(made: Joined, part: str) -> Groove:
    (found,) = made.features[part]
    assert isinstance(found, Groove) and found.what == "housing"
    return found


def test_a_quarter_of_the_side_as_wide_as_the_shelf_is_thick() -> None:
    """3/16 is a quarter of 3/4, to the printed step of 1/32."""
    made = joined(KIND, "shelves", site(SIDE, FAR, SHELF), part="shelf")
    near, far = housing(made, "side"), housing(made, "far_side")
    assert (near.face, inches(near.void)) == (Face.RIGHT, (0.5625, 0.75, 0, 5, 3, 3.75))
    assert (far.face, inches(far.void)) == (Face.LEFT, (23.25, 23.4375, 0, 5, 3, 3.75))
    assert "shelf" not in made.features
    grown = made.grows["shelf"]
    assert grown == {Face.LEFT: pytest.approx(4.7625), Face.RIGHT: pytest.approx(4.7625)}
    assert any("quarter" in line for line in made.joint.defaults)


def test_the_shelf_goes_home_along_its_length_and_closes_on_the_floor() -> None:
    made = joined(KIND, "shelves", site(SIDE, FAR, SHELF), part="shelf", depth="1/4")
    first, second = made.joint.contacts
    assert (first.a, first.b, first.insert) == (("shelf", 0), ("side", 0), (-1, 0, 0))
    assert (second.b, second.insert) == (("far_side", 0), (1, 0, 0))
    assert inches(first.shoulder) == (0.5, 0.5, 0, 5, 3, 3.75)
    assert first.glue_area == pytest.approx(2 * 0.25 * 5 * 25.4**2)  # both cheeks; end grain does not hold
    assert first.cross_grain == pytest.approx(0.75 * 25.4)  # the thickness of the shelf lies along the grain of the side


def test_a_stopped_housing_leaves_a_corner_to_cut_off() -> None:
    made = joined(KIND, "shelves", site(SIDE, FAR, SHELF), part="shelf.left", depth="1/4", stopped={"front": "3/8"})
    assert inches(housing(made, "side").void) == (0.5, 0.75, 0.375, 5, 3, 3.75)
    (corner,) = made.features["shelf"]
    assert isinstance(corner, Rabbet)
    assert (corner.edge, inches(corner.void)) == ((Face.LEFT, Face.FRONT), (0.5, 0.75, 0, 0.375, 3, 3.75))
    whole = joined(KIND, "shelves", site(SIDE, FAR, SHELF), part="shelf.left", stopped="yes")
    assert housing(whole, "side").void.y.low == pytest.approx(0.375 * 25.4)


@given(thick=st.integers(4, 32), depth=st.integers(1, 8), front=st.integers(0, 40), back=st.integers(0, 30))
def test_what_is_housed_fills_the_housing(thick: int, depth: int, front: int, back: int) -> None:
    """In sixteenths: what the shelf grows by, less its corners, is what the housing takes away."""
    side = board("side", box(0, 3, 0, 5, 0, 16), BOTTOM_TOP, Face.LEFT)
    shelf = board("shelf", box(3, 23, 0, 5, 3, 3 + thick / 16), LEFT_RIGHT, Face.TOP)
    stopped = {face: f"{size}/16" for face, size in (("front", front), ("back", back)) if size}
    made = joined(KIND, "shelves", site(side, shelf), part="shelf.left", depth=f"{depth}/16", stopped=stopped)
    grown = shelf.body.grown(Face.LEFT, made.grows["shelf"][Face.LEFT]).volume - shelf.body.volume
    corners = sum(each.void.volume for each in made.features.get("shelf", ()) if isinstance(each, Rabbet))
    assert housing(made, "side").void.volume == pytest.approx(grown - corners)


def test_copies_of_one_shelf_share_the_housing_of_a_mirrored_side() -> None:
    sides = board("side", box(0, 0.75, 0, 5, 0, 16), BOTTOM_TOP, Face.LEFT, PAIR_LR)
    across = board("shelf", box(0.75, 43.25, 0, 5, 3, 3.75), LEFT_RIGHT, Face.TOP)
    made = joined(KIND, "shelves", site(sides, across), part="shelf")
    assert len(made.features["side"]) == 1 and len(made.joint.contacts) == 2


@pytest.mark.parametrize(
    ("fields", "code"),
    [
        ({"part": "shelf", "depth": "3/8"}, "joint-dado-depth"),
        ({"part": "shelf", "stopped": {"top": "3/8"}}, "joint-dado-stop"),
        ({"part": "shelf", "stopped": {"front": "3", "back": "2"}}, "joint-dado-stop"),
        ({"part": "shelf.top"}, "joint-not-an-end"),
    ],
)
def test_what_cannot_be_housed_is_refused(fields: dict[str, object], code: str) -> None:
    assert code in [each.code for each in refused(KIND, "shelves", site(SIDE, FAR, SHELF), **fields)]


def test_a_housing_at_the_edge_holds_by_one_cheek() -> None:
    """Level with the foot of the side it is open there; half beyond it there is no wood to cut it from."""
    low = board("shelf", box(0.75, 23.25, 0, 5, 0, 0.75), LEFT_RIGHT, Face.TOP, stock="frame_ash")
    made = joined(KIND, "shelves", site(SIDE, FAR, low), part="shelf", depth="1/4")
    assert [each.glue_area for each in made.joint.contacts] == [pytest.approx(0.25 * 5 * 25.4**2)] * 2
    beyond = board("shelf", box(0.75, 23.25, 0, 5, -0.375, 0.375), LEFT_RIGHT, Face.TOP, stock="frame_ash")
    found = refused(KIND, "shelves", site(SIDE, FAR, beyond), part="shelf")
    assert {each.code for each in found} == {"joint-dado-beside"} and "3/8" in found[0].message


def test_a_shelf_that_stands_out_in_front_needs_a_stop() -> None:
    """A housing right to its front edge would run on in the air, 2 before the side; stopped behind that it is sound."""
    out = board("shelf", box(0.75, 23.25, -2, 5, 3, 3.75), LEFT_RIGHT, Face.TOP, stock="frame_ash")
    found = refused(KIND, "shelves", site(SIDE, FAR, out), part="shelf")
    assert {each.code for each in found} == {"joint-dado-beside"} and "2 beyond" in found[0].message
    made = joined(KIND, "shelves", site(SIDE, FAR, out), part="shelf", stopped={"front": "2-3/8"})
    assert housing(made, "side").void.y.low == pytest.approx(0.375 * 25.4)


def test_several_shelves_are_said_in_one_joint() -> None:
    upper = board("upper_shelf", box(0.75, 23.25, 0, 5, 9, 9.75), LEFT_RIGHT, Face.TOP, stock="frame_ash")
    made = joined(KIND, "shelves", site(SIDE, FAR, SHELF, upper), part=("shelf", "upper_shelf"), stopped={"front": "3/8"})
    assert set(made.grows) == {"shelf", "upper_shelf"} and len(made.joint.contacts) == 4
    assert [len(made.features[each]) for each in ("side", "far_side", "shelf", "upper_shelf")] == [2, 2, 2, 2]


def test_a_barefaced_tongue_is_a_third_and_flush_with_the_face_side() -> None:
    """The shelf's face side is its top: a tongue of 1/4 under it, a step below."""
    made = joined(KIND, "shelves", site(SIDE, FAR, SHELF), part="shelf.left", depth="1/4", tongue="third")
    assert inches(housing(made, "side").void) == (0.5, 0.75, 0, 5, 3.5, 3.75)
    (step,) = made.features["shelf"]
    assert isinstance(step, Rabbet)
    assert (step.edge, inches(step.void)) == ((Face.LEFT, Face.BOTTOM), (0.5, 0.75, 0, 5, 3, 3.5))
    assert ("housing width", pytest.approx(6.35)) in made.joint.numbers
    assert told_of(made, SIDE, SHELF) == []


@pytest.mark.parametrize("fields", [{}, {"tongue": "third"}])
def test_a_housing_stopped_at_both_ends_is_hidden_and_full(fields: dict[str, str]) -> None:
    both = {"front": "3/8", "back": "1/2"}
    made = joined(KIND, "shelves", site(SIDE, SHELF), part="shelf.left", depth="1/4", stopped=both, **fields)
    assert inches(housing(made, "side").void)[2:4] == (0.375, 4.5)
    assert told_of(made, SIDE, SHELF) == []
    _, solids, _ = cut_and_proved(made, SIDE, SHELF)
    assert together(solids, *solids.placed) == pytest.approx(of_boxes(SIDE.body, SHELF.body), rel=1e-9)


def test_a_tongue_without_a_shoulder_is_refused() -> None:
    (told,) = refused(KIND, "shelves", site(SIDE, SHELF), part="shelf.left", tongue="5/8")
    assert told.code == "joint-dado-tongue" and "1/2" in told.expected


RUNNER = board("runner", box(0.75, 2.75, 0, 5, 3, 3.75), FRONT_BACK, Face.TOP, stock="frame_ash")


def test_an_edge_goes_in_where_it_is_named() -> None:
    """The runner of a web frame stands in the side with its whole long edge; a bare name would mean its ends."""
    made = joined(KIND, "webs", site(SIDE, RUNNER), part="runner.left", depth="1/4", glue="no")
    assert inches(housing(made, "side").void) == (0.5, 0.75, 0, 5, 3, 3.75)
    assert made.grows["runner"] == {Face.LEFT: pytest.approx(6.35)}
    stopped = joined(KIND, "webs", site(SIDE, RUNNER), part="runner.left", depth="1/4", stopped={"front": "1/2"})
    assert inches(housing(stopped, "side").void) == (0.5, 0.75, 0.5, 5, 3, 3.75)
    told = refused(KIND, "webs", site(SIDE, RUNNER), part="runner.top")
    assert [each.code for each in told] == ["joint-not-an-end"]
