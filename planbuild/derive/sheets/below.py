"""How much of a page the words of a sheet take, so that its drawing can have the rest.

A heuristic: lines are counted by their letters, generously; whether a sheet then stays on its page is looked at
when the pages are set (`page-split`).  Units: paper mm.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from math import ceil

from planbuild.derive.lists.features import feature_facts
from planbuild.derive.lists.joints import joint_title
from planbuild.derive.lists.notes import part_notes
from planbuild.records.piece import Part, Piece
from planbuild.records.rooms import CAPTION, PART_PHOTO

_HEAD, _HEADING, _AIR = 13.5, 8.5, 3.0
"""Mark and name above the drawing; the headings below it with the gap before them; what is left over."""
_LINE, _BETWEEN = 4.25, 0.9
_IN_LIST, _IN_NOTES, _IN_SMALL = 54, 62, 70
"""Letters in a line of what is cut, of the notes, and of the small print below them."""
_GRAIN, _STEPS, _PAGE = "-" * 100, "-" * 46, "-" * 11
"""Stand for the sentence about the grain, the steps a part is needed in, and the page of a joint."""
_MARK = re.compile(r"\[\[\w+:\w+\]\]")


def words_room(piece: Piece, part: Part) -> float:
    """For the title above the drawing and the two columns of words below it."""
    cut = dict.fromkeys(each.words for each in feature_facts(piece, part))
    own = {feature.joint for feature in part.features}
    joints = [joint_title(piece, joint) for joint in piece.joints if joint.id in own]
    notes = _tall((_GRAIN, *part_notes(piece, part)), _IN_NOTES) + _tall((_STEPS + _PAGE.join(joints),), _IN_SMALL)
    notes += PART_PHOTO[1] + CAPTION if part.photo else 0.0
    return _HEAD + _HEADING + max(_tall(cut, _IN_LIST), notes) + _AIR


def _tall(texts: Iterable[str], letters: int) -> float:
    """Of paragraphs with so many letters in a line."""
    return sum(_LINE * ceil(len(_MARK.sub("(A1)", each)) / letters) + _BETWEEN for each in texts)
