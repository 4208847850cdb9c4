"""Channels by the way they run: a housing across the board, a groove along it, stopped or not."""

from __future__ import annotations

import pytest
from timber import board, box, said

from planbuild.core.geometry import Axis, Box, Face
from planbuild.derive.lists.measures import groove_size
from planbuild.records.features import Groove

LEFT_RIGHT, FRONT_BACK, _ = Axis


@pytest.mark.parametrize(
    ("void", "run", "stopped"),
    [
        (box(100, 120, 0, 60, 14, 20), FRONT_BACK, False),  # from edge to edge
        (box(100, 120, 10, 60, 14, 20), FRONT_BACK, True),  # stopped, still longer across
        (box(0, 400, 20, 26, 14, 20), LEFT_RIGHT, False),
        (box(50, 350, 20, 26, 14, 20), LEFT_RIGHT, True),
    ],
)
def test_the_way_a_channel_runs(void: Box, run: Axis, stopped: bool) -> None:
    """On a board 400 long, 60 wide, 20 thick."""
    cut = Groove(**said(), face=Face.TOP, void=void)
    part = board(cut)
    size = groove_size(part, cut)
    assert cut.run(part.body, part.grain) is run
    assert (size.length, size.stopped, size.depth) == (void.size(run), stopped, 6)
