"""Ends that land on a slanted face are cut to its plane, provided the whole end lands on it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from planbuild.core.diagnostics import Diagnostic, Related
from planbuild.core.geometry import TINY, Face, Vec
from planbuild.core.poses import STRAIGHT, area, common, corners, dot
from planbuild.joints.base import Board
from planbuild.joints.slanting import Plate, plate
from planbuild.records.features import Taper
from planbuild.records.slanted import EndCut
from planbuild.resolve.poses import slopes_of
from planbuild.resolve.setting_out import SettingOut

FACING = -0.5
"""The cosine of the angle at which an end must at least look at a face to be cut to it: within 60 degrees."""

WHOLE = 1e-3
"""Share of an end that may hang over by the noise of turning."""


@dataclass(frozen=True)
class _Landing:
    """An end of a board on a slanted face: the face and the copy of its board."""

    end: Face
    mate: Board
    copy: int
    face: Face

    @property
    def plate(self) -> Plate:
        return plate(self.mate, self.copy, self.face)


def shouldered(boards: Mapping[str, Board], setting_out: SettingOut) -> dict[str, Board]:
    """The boards, each end that lands on a slanted face cut to it; without those that cannot be.  Reports
    `place-shoulder-planes`."""
    slanted = [board for board in boards.values() if board.pose]
    if not slanted:
        return dict(boards)
    cut = {id: board if board.pose else _cut(board, slanted, setting_out) for id, board in boards.items()}
    return {id: board for id, board in cut.items() if board}


def _cut(board: Board, slanted: list[Board], setting_out: SettingOut) -> Board | None:
    """None after reporting that an end does not land as a whole, or that both meet."""
    before, cuts = len(setting_out.report.found), []
    for landing in _landings(board, slanted):
        cut = _to_plane(board, landing)
        if cut is None:
            continue
        if _lands_whole(board, cut, landing):
            cuts.append(cut)
        else:
            setting_out.report.add(_refused(board, landing, setting_out))
    if len(cuts) == 2 and _cross(board, *cuts):
        setting_out.report.add(_crossed(board, setting_out))
    if len(setting_out.report.found) > before:
        return None
    return replace(board, shapes=(*cuts, *board.shapes))


def _cross(board: Board, low: EndCut, high: EndCut) -> bool:
    """True if the two slanted ends meet inside the board."""
    return any(high.place(board.body, spot) - low.place(board.body, spot) < TINY for spot in corners(board.body))


def _crossed(board: Board, setting_out: SettingOut) -> Diagnostic:
    said = setting_out.design.parts[board.id]
    span = said.between[0].span if said.between else board.origin
    message = f'The two ends of "{board.id}" are so slanted that they meet.'
    hint = "Make it narrower, lean the parts beside it less, or set them farther apart."
    return Diagnostic("place-shoulder-planes", message, span=span, hints=(hint,))


def _landings(board: Board, slanted: list[Board]) -> Iterator[_Landing]:
    """At most one for each end: the middle of the end lies on the face."""
    for end in (board.grain.low, board.grain.high):
        middle, looks = _middle(board.outline(end, 0)), board.normal(end, 0)
        every = (_Landing(end, mate, copy, face) for mate in slanted for copy in range(len(mate.copies)) for face in _sides(mate))
        found = next((each for each in every if _meets(middle, looks, each.plate)), None)
        if found:
            yield found


def _sides(board: Board) -> tuple[Face, ...]:
    return tuple(face for face in Face if face.axis is not board.grain)


def _middle(outline: list[Vec]) -> Vec:
    x, y, z = (sum(places) / len(outline) for places in zip(*outline, strict=True))
    return x, y, z


def _meets(point: Vec, looks: Vec, face: Plate) -> bool:
    corner = face.outline[0]
    off = dot(face.normal, (point[0] - corner[0], point[1] - corner[1], point[2] - corner[2]))
    if dot(looks, face.normal) > FACING or abs(off) > TINY:
        return False
    x, y, z = point
    spot = [(x + dx, y + dy, z + dz) for dx, dy, dz in _round_about(face)]
    return area(common(spot, face.outline, face.normal)) > 0


def _round_about(face: Plate) -> list[Vec]:
    """A small triangle in a plane, about the origin."""
    a, b = face.outline[0], face.outline[1]
    run = (b[0] - a[0], b[1] - a[1], b[2] - a[2])
    c = face.outline[2]
    side = (c[0] - b[0], c[1] - b[1], c[2] - b[2])
    first, second = (tuple(TINY * part / max(1.0, abs(dot(v, v)) ** 0.5) for part in v) for v in (run, side))
    return [
        (first[0], first[1], first[2]),
        (second[0], second[1], second[2]),
        (-first[0] - second[0], -first[1] - second[1], -first[2] - second[2]),
    ]


def _to_plane(board: Board, landing: _Landing) -> EndCut | None:
    """The cut that brings an end into the plane of the face, None if it lies in it as it is."""
    normal = board.stands(0).inverse.direction(landing.plate.normal)
    if abs(normal[board.grain.value]) > 1.0 - STRAIGHT:
        return None
    id, at = f"shoulder.{landing.end.value}", board.body.at(landing.end)
    return EndCut(id, board.origin, "", "", landing.end, at, slopes_of(normal, board.grain))


def _lands_whole(board: Board, cut: EndCut, landing: _Landing) -> bool:
    """True if the whole end lies on the face, clear of any taper of it."""
    outline = [board.stands(0).point(corner) for corner in cut.outline(board.body)]
    face = landing.plate
    if area(common(outline, face.outline, face.normal)) < area(outline) * (1 - WHOLE):
        return False
    home = landing.mate.stands(landing.copy).inverse
    return all(_before(taper, home.point(corner), landing.face) for taper in _tapers(landing.mate) for corner in outline)


def _tapers(board: Board) -> list[Taper]:
    return [shape for shape in board.shapes if isinstance(shape, Taper)]


def _before(taper: Taper, point: Vec, face: Face) -> bool:
    return face not in taper.faces or taper.end.sign * (taper.start - point[taper.end.axis.value]) > -TINY


def _refused(board: Board, landing: _Landing, setting_out: SettingOut) -> Diagnostic:
    said = setting_out.design.parts[board.id]
    span = said.between[0].span if said.between else board.origin
    where = f'the {landing.face.value} of "{landing.mate.id}"'
    message = f'The {landing.end.value} end of "{board.id}" does not land wholly on {where}.'
    hint = f'Move it, make it narrower, or make "{landing.mate.id}" wider.'
    related = (Related(landing.mate.origin, f'"{landing.mate.id}" is placed here'),)
    return Diagnostic("place-shoulder-planes", message, span=span, hints=(hint,), related=related)
