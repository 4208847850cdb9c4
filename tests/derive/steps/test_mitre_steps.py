"""A mitred case: mitres at one setting, keys sawn and let in when the corners stand."""

from __future__ import annotations

from boards_by_hand import FRONT_BACK, LEFT_RIGHT, board, box, joined, mirrored, site
from joined_pieces import cut_and_proved

from planbuild.core.geometry import Face
from planbuild.derive.steps import plan_steps
from planbuild.joints import KINDS
from planbuild.records.edition import Edition
from planbuild.records.piece import Copy


def test_keys_come_after_the_glue_and_before_the_finish(letter: Edition) -> None:
    front = (Copy("front", mirrored()), Copy("back", mirrored(FRONT_BACK)))
    left = (Copy("left", mirrored()), Copy("right", mirrored(LEFT_RIGHT)))
    long = board("long", box(0, 44, 0, 0.5, 0, 3.5), LEFT_RIGHT, Face.FRONT, front)
    short = board("short", box(0, 0.5, 0, 15, 0, 3.5), FRONT_BACK, Face.LEFT, left)
    made = joined(KINDS["mitre"], "corners", site(long, short), parts=("long", "short"), keys={})
    piece, solids, found = cut_and_proved(made, long, short)
    steps = [each.id for each in plan_steps(piece, solids, found, letter).steps]
    words = [each.split(".")[0] for each in steps]
    assert words.count("trim") == 1, "both sorts of sides are mitred at one setting"
    assert words.index("trim") < words.index("make") < words.index("glue") < words.index("key"), steps
