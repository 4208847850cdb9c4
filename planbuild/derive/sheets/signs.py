"""Signs on a view: which part goes where, the grain, face side and face edge, section letters, centre lines.

Units: paper mm, y down.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from itertools import product

import shapely

from planbuild.core.geometry import Axis, Box, Face
from planbuild.core.lettering import text_width
from planbuild.core.poses import around
from planbuild.derive.dimension_lines import ARROW, ARROW_HALF, LETTERING, Ink
from planbuild.derive.dimensions.notes import find_note
from planbuild.derive.dimensions.paper import Paper, grown
from planbuild.derive.sheets.lie import facing
from planbuild.derive.sheets.pane import Pane
from planbuild.derive.sheets.plan import Kind
from planbuild.derive.sheets.wanted import box_on_paper
from planbuild.records.drawing import Anchor, Fill, Path, Pen, Point, Stroke, Text, TextRole, Tint, line, ring
from planbuild.records.face_marks import face_edge_mark, face_side_mark
from planbuild.records.features import Arch, Hole, Mortise, Tenon
from planbuild.records.legibility import BELOW, PaperBox, path_box, text_box
from planbuild.records.piece import Part, Piece
from planbuild.records.shaped import Turned
from planbuild.records.slanted import AngledMortise

Mark = Callable[[Point, Point], Path]
"""A face mark as a path from its foot on the wood and the way off it."""

_MARKS = (3.0, 2.5)
_NEAR, _MARK_GAP = (1.2, 2.2, 3.5, 5.0), 0.2
_ARROW_LENGTH, _GRAIN_RISE = 12.0, 1.3
_SHARES = (0.38, 0.5, 0.62, 0.28, 0.72, 0.2, 0.8)
"""Where a face mark may stand along its face, the habitual place first."""
_BLOCKED, _PLAIN = 500.0, 30.0
"""What a mark costs that stands on other ink, and what one costs at most whose words are near and clear."""
_CROSS = 1.8
"""A centre line passes a hole by so much."""


# ---------------------------------------------------------------- which part goes where


def mate_marks(piece: Piece, part: Part, pane: Pane, paper: Paper) -> Ink:
    """The mark of the neighbour beside each mortise and tenon that a long view shows."""
    ink = Ink()
    for feature, region in _joinery(part, pane.seen.plan.face):
        mate = piece.part(feature.mate.part)
        words = mate.mark + (" through" if isinstance(feature, Mortise | AngledMortise) and feature.through else "")
        box = box_on_paper(pane, region)
        found = _beside(words, mate.id, box, pane, paper, inside=isinstance(feature, Mortise | AngledMortise))
        paper.add(found)
        ink = ink.plus(found)
    return ink


def _joinery(part: Part, face: Face) -> Iterator[tuple[Mortise | AngledMortise | Tenon, Box]]:
    """Mortises that open on a face and tenons that are seen from it, with where they are."""
    for feature in part.features:
        if isinstance(feature, Mortise) and (feature.face is face or (feature.through and feature.face.opposite is face)):
            yield feature, feature.void
        if isinstance(feature, AngledMortise) and feature.face is face:
            yield feature, around(feature.rim)
        if isinstance(feature, Tenon) and feature.end.axis is not face.axis:
            yield feature, feature.block


def _beside(words: str, refers: str, box: PaperBox, pane: Pane, paper: Paper, inside: bool) -> Ink:
    """The largest lettering for which there is a free place close by; nothing if there is none."""
    wood = pane.box if inside else (-99.0, -99.0, 999.0, 999.0)
    for height, gap in product(_MARKS, _NEAR):
        width = text_width(words, height, bold=True)
        spots = list(_around(box, width, height, gap))
        for left, base in spots if inside else spots[:2]:
            text = Text(words, (left, base), height, TextRole.MARK, Anchor.START, 0.0, True, refers)
            room = text_box(text)
            within = wood[0] <= room[0] and wood[1] <= room[1] and room[2] <= wood[2] and room[3] <= wood[3]
            if within and not paper.is_taken(grown(room, _MARK_GAP)):
                return Ink(texts=(text,))
    return Ink()


def _around(box: PaperBox, width: float, height: float, gap: float) -> Iterator[Point]:
    """Lower left corners of a text above a box, below it, right and left of it."""
    middle, level = (box[0] + box[2] - width) / 2, (box[1] + box[3] + height) / 2
    yield middle, box[1] - gap - BELOW * height
    yield middle, box[3] + gap + height
    yield box[2] + gap, level
    yield box[0] - gap - width, level


# ---------------------------------------------------------------- grain


def grain_arrow(part: Part, pane: Pane, paper: Paper) -> Ink:
    """A double arrow along the grain with the word above it, on the wood where there is room, else beside it."""
    left, top, right, bottom = box_on_paper(pane, part.body)
    height = LETTERING + 2 * _GRAIN_RISE
    levels = _steps((top + bottom - height) / 2, top + 1, bottom - height - 1)
    inside = product(levels, _steps((left + right) / 2, left + 2, right - _ARROW_LENGTH - 2))
    outside = product((top - height - 2.0, bottom + 2.0, bottom + 9.0), _steps(right, left, right - _ARROW_LENGTH))
    wood = pane.outline
    for places, on_wood in ((inside, True), (outside, False)):
        for y, x in places:
            box = (x, y, x + _ARROW_LENGTH, y + height)
            held = not on_wood or shapely.covers(wood, shapely.box(*box))
            if held and not paper.is_taken(grown(box, 0.8)):
                ink = _grain(x, y + LETTERING)
                paper.add(ink)
                return ink
    return Ink()


def _steps(wish: float, low: float, high: float) -> list[float]:
    """Places from low to high in steps of 2 mm, the nearest to a wish first."""
    count = max(0, int((high - low) / 2.0) + 1)
    return sorted((low + 2.0 * i for i in range(count)), key=lambda place: (abs(place - wish), place))


def _grain(x: float, base: float) -> Ink:
    y, stop = base + _GRAIN_RISE, x + _ARROW_LENGTH
    heads = tuple(_head((tip, y), way) for tip, way in ((x, -1.0), (stop, 1.0)))
    text = Text("grain", ((x + stop) / 2, base), LETTERING, TextRole.NOTE)
    return Ink((Stroke(Pen.LEADER, line((x, y), (stop, y))),), heads, (text,))


def _head(tip: Point, way: float) -> Fill:
    """A level arrowhead that points right (+1) or left (-1)."""
    base = tip[0] - way * ARROW
    return Fill(Tint.INK, ring(tip, (base, tip[1] - ARROW_HALF), (base, tip[1] + ARROW_HALF)))


# ---------------------------------------------------------------- face marks


def face_marks(part: Part, pane: Pane, paper: Paper) -> Ink:
    """Face side and face edge on an end or a cross-section, where both are seen as lines; a round peg has neither."""
    ink = Ink()
    if part.made_by and any(isinstance(feature, Turned) for feature in part.features):
        return ink
    for face, words, mark in ((part.face, "face side", face_side_mark), (part.edge, "face edge", face_edge_mark)):
        found = _face_mark(words, mark, _along(pane, face), pane, paper)
        paper.add(found)
        ink = ink.plus(found)
    return ink


def _face_mark(words: str, mark: Mark, spots: Sequence[tuple[Point, Point]], pane: Pane, paper: Paper) -> Ink:
    """A mark with its words, at the first spot where both are clear of other ink; else at the best there is."""
    tried: list[tuple[float, Ink]] = []
    for spot, way in spots:
        sign = Ink((Stroke(Pen.LEADER, mark(spot, way)),))
        blocked = paper.is_taken(_standing(mark(spot, way), way))
        tip = spot[0] + 3.0 * way[0], spot[1] + 3.0 * way[1]
        note, cost = find_note([(words, "")], tip, pane.box, paper, arrow=False)
        tried.append((cost + _BLOCKED * blocked, sign.plus(note)))
        if tried[-1][0] < _PLAIN:
            break
    return min(tried, key=lambda each: each[0])[1]


def _standing(path: Path, way: Point) -> PaperBox:
    """The box of a mark without the line of the wood on which it stands."""
    left, top, right, bottom = path_box(path)
    x, y = 0.6 * way[0], 0.6 * way[1]
    return left + max(x, 0), top + max(y, 0), right + min(x, 0), bottom + min(y, 0)


def _along(pane: Pane, face: Face) -> list[tuple[Point, Point]]:
    """Spots on the side of the outline that is a face, from a little off its middle outward, and the way outward."""
    camera, (left, top, right, bottom) = pane.seen.plan.camera, pane.box
    across = [left + share * (right - left) for share in _SHARES]
    down = [top + share * (bottom - top) for share in _SHARES]
    if face.axis is facing(camera.right).axis:
        x, way = (right, 1.0) if face is facing(camera.right) else (left, -1.0)
        return [((x, y), (way, 0.0)) for y in down]
    y, way = (top, -1.0) if face is facing(camera.up) else (bottom, 1.0)
    return [((x, y), (0.0, way)) for x in across]


# ---------------------------------------------------------------- section planes, centre lines


def section_trace(pane: Pane, letter: str, station: float, toward: Face, below: bool) -> Ink:
    """A cutting plane across a long view: thick ends, a letter and the way one looks at one of them (ISO 128-3 habit).

    The lettered end is the lower one with `below`: the side on which no dimensions stand.
    """
    x, (_, top, _, bottom) = _level(pane, station, toward.axis), pane.box
    way = -1.0 if facing(pane.seen.plan.camera.right) is toward else 1.0
    out, start = (1.0, bottom) if below else (-1.0, top)
    end, away = start + out * 4.2, (top if below else bottom) - out * 2.6
    strokes = (
        Stroke(Pen.CUTTING, line((x, start + out * 0.8), (x, end))),
        Stroke(Pen.CUTTING, line((x, away), (x, away + out * 1.8))),
        Stroke(Pen.CENTRE, line((x, top), (x, bottom))),
        Stroke(Pen.LEADER, line((x, end), (x + way * 5.0, end))),
    )
    base = end + (2.6 if below else 0.0)
    text = Text(letter, (x - way * 2.2, base), 3.0, TextRole.TITLE, Anchor.MIDDLE, 0.0, True)
    return Ink(strokes, (_head((x + way * 5.0, end), way),), (text,))


def _within(point: Point, box: PaperBox) -> bool:
    """A pane may show only an end of the part."""
    return box[0] <= point[0] <= box[2] and box[1] <= point[1] <= box[3]


def _cross(hole: Hole, pane: Pane) -> list[Path]:
    """A little over the rim of the hole, or of the slot."""
    x, y = pane.spot(hole.centre)
    left, top, right, bottom = box_on_paper(pane, hole.reach(hole.diameter))
    return [line((left - _CROSS, y), (right + _CROSS, y)), line((x, top - _CROSS), (x, bottom + _CROSS))]


def _level(pane: Pane, place: float, axis: Axis) -> float:
    spot = [0.0, 0.0, 0.0]
    spot[axis.value] = place
    return pane.spot((spot[0], spot[1], spot[2]))[0]


def centre_lines(part: Part, pane: Pane) -> Ink:
    """A cross on each hole that is seen round, a line through the middle of an arch."""
    paths: list[Path] = []
    for feature in part.features:
        if isinstance(feature, Hole) and feature.face.axis is pane.seen.plan.face.axis:
            paths += _cross(feature, pane) if _within(pane.spot(feature.centre), pane.box) else []
        if isinstance(feature, Arch) and pane.seen.plan.kind is Kind.LONG:
            x = _level(pane, (feature.start + feature.stop) / 2, part.grain)
            paths.append(line((x, pane.box[1] - 2.0), (x, pane.box[3] + 2.0)))
    return Ink(tuple(Stroke(Pen.CENTRE, path) for path in paths))

