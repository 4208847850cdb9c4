"""Grammar of lists and steps."""

from __future__ import annotations

import pytest
from timber import board, box, piece

from planbuild.core.geometry import Face, Motion
from planbuild.derive import phrases
from planbuild.joints.proportions import habit_length, habit_number
from planbuild.records.edition import Edition


@pytest.mark.parametrize(
    ("one", "many"),
    [("leg", "legs"), ("shelf", "shelves"), ("box", "boxes"), ("tray", "trays"), ("brush", "brushes"), ("battery", "batteries"),
     ("door leaf", "door leaves"), ("drawer side", "drawer sides"), ("chief", "chiefs")],
)  # fmt: skip
def test_plurals(one: str, many: str) -> None:
    assert phrases.plural(one) == many


def test_counts_and_lists() -> None:
    assert phrases.counted(1, "leg") == "one leg"
    assert phrases.counted(4, "leg") == "four legs"
    assert phrases.counted(16, "slat") == "16 slats"
    assert phrases.listed(["a"]) == "a"
    assert phrases.listed(["a", "b", "c"]) == "a, b and c"


def test_sentences() -> None:
    assert phrases.sentence("saw it") == "Saw it."
    assert phrases.sentence("Saw it.") == "Saw it."
    assert phrases.heading("oil", "", "two coats") == "Oil, two coats"


def test_several_parts_by_their_common_word() -> None:
    rails = [board(id="long_rail"), board(id="short_rail")]
    rails = [type(r)(**{**r.__dict__, "name": r.id.replace("_", " ")}) for r in rails]
    other = board(id="slat")
    assert phrases.of_kind(piece(*rails, other), rails) == "rails"
    assert phrases.of_kind(piece(*rails, other), [rails[0], other]) == "long rail and slat"


def test_faces_of_mirrored_copies() -> None:
    """A frame 1000 wide: the right face of a board at the left, mirrored to the right, looks inward on both."""
    pair = board(body=box(0, 400, 0, 60, 0, 20), copies=(Motion(), Motion((-1, 1, 1), (1000.0, 0.0, 0.0))))
    of = piece(pair)
    assert phrases.facing(pair, Face.RIGHT, of) == "inside"
    assert phrases.facing(pair, Face.LEFT, of) == "outside"
    assert phrases.facing(pair, Face.TOP, of) == "top"


def test_habits_are_round_in_the_unit_of_the_reader(letter: Edition, a4: Edition) -> None:
    assert habit_length("agree", letter.ruler) == pytest.approx(25.4 / 32)
    assert habit_length("agree", a4.ruler) == 0.5
    assert habit_number("rest_days") == 3
    with pytest.raises(LookupError):
        habit_number("patience")
