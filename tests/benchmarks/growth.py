"""How the time from a file to proved solids grows with the number of parts: a wall of cases, 50 to 400 boards.

    python tests/benchmarks/growth.py

Each case has two sides and six boards housed in them at both ends: 8 boards and 12 joined places, so 400 boards have
600.  The measure is the processor time of one process, loading of the CAD kernel left out; the fitted exponent is the
slope of log time over log boards (least squares), which has to stay at 1.2 or below.
"""

from __future__ import annotations

import math
import sys
import tempfile
import time
from pathlib import Path

from planbuild.pipeline import Clock, resolve_file
from planbuild.prove import prove
from planbuild.shape import shape

SIZES = ((6, 1), (6, 2), (5, 5), (10, 5))
"""Cases in a row, rows."""

WIDE, HIGH, DEEP, APART = 24, 30, 12, 0.5
"""Inches: a case, and the air between two."""

LEVELS = (1, 6, 11, 16, 21, 26)
"""Inches above the bottom of its row: where the housed boards lie."""

HEAD = """\
format: 1
title: Wall of cases
contact: benchmark@plans.example
licence: free
units: inch
frame: {{width: {width}, depth: 12, height: {height}}}
stock: {{board: {{species: white ash, rough: 4/4, thickness: 3/4, cut: quarter}}}}
climate: {{driest: 7 %, dampest: 9 %, workshop: 8 %}}
parts:
"""

SIDE = """\
  {hand}_side_{row}:
    stock: board
    grain: up
    face: left
    glue_up: no
    front: 0
    back: 0
    bottom: {bottom} above bottom
    top: {top} above bottom
    repeat: {{at: {{left: [{places}]}}}}
"""

SHELF = """\
  shelf_{row}_{level}:
    stock: board
    grain: left-right
    face: top
    glue_up: no
    front: 0
    back: 0
    length: 22-1/2
    bottom: {height} above bottom
    repeat: {{at: {{left: [{places}]}}}}
"""


def wall(cases: int, rows: int) -> str:
    """The design of `rows` rows of `cases` cases."""
    lefts = [case * (WIDE + APART) for case in range(cases)]
    parts, joints = [], []
    for row in range(rows):
        low = row * (HIGH + APART)
        for hand, off in (("left", 0), ("right", WIDE - 0.75)):
            places = ", ".join(f"{left + off:g}" for left in lefts)
            parts.append(SIDE.format(hand=hand, row=row, bottom=f"{low:g}", top=f"{low + HIGH:g}", places=places))
        shelves = ", ".join(f"{left + 0.75:g}" for left in lefts)
        for level, height in enumerate(LEVELS):
            parts.append(SHELF.format(row=row, level=level, height=f"{low + height:g}", places=shelves))
            joints.append(f"  shelf_{row}_{level}: {{kind: dado, part: shelf_{row}_{level}, depth: 1/4}}\n")
    whole = HEAD.format(width=f"{lefts[-1] + WIDE:g}", height=f"{(rows - 1) * (HIGH + APART) + HIGH:g}")
    loads = "".join(f"  shelf_{row}_{level}: {{load: 20 lb}}\n" for row in range(rows) for level in range(len(LEVELS)))
    return whole + "".join(parts) + "joints:\n" + "".join(joints) + "loads:\n" + loads


def measured(cases: int, rows: int) -> tuple[int, int, float]:
    """Boards, joined places, processor seconds from file to proof."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "wall.yaml"
        path.write_text(wall(cases, rows), "utf-8")
        start = time.process_time()
        piece = resolve_file(path, Clock())
        findings = prove(piece, shape(piece))
        seconds = time.process_time() - start
    assert not [each for each in findings.diagnostics if each.stops], findings.diagnostics
    places = sum(len(joint.contacts) for joint in piece.joints)
    return sum(len(part.copies) for part in piece.parts), places, seconds


def exponent(found: list[tuple[int, int, float]]) -> float:
    """The slope of log time over log boards by least squares."""
    xs, ys = [math.log(boards) for boards, _, _ in found], [math.log(seconds) for *_, seconds in found]
    middle, height = sum(xs) / len(xs), sum(ys) / len(ys)
    return sum((x - middle) * (y - height) for x, y in zip(xs, ys, strict=True)) / sum((x - middle) ** 2 for x in xs)


def main() -> int:
    measured(2, 1)  # loads the kernel
    found = [measured(*size) for size in SIZES]
    for boards, places, seconds in found:
        print(f"{boards:4} boards {places:4} joined places {seconds:7.2f} s")
    print(f"time grows as boards^{exponent(found):.2f}")
    return 0 if exponent(found) <= 1.2 else 1


if __name__ == "__main__":
    sys.exit(main())
