"""Where a board ends on a tapered face: its shoulder would have to lean, which is not built yet, so it is refused."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from planbuild.core.diagnostics import Diagnostic, Related
from planbuild.core.geometry import TINY, Box, Face, Span1
from planbuild.joints.base import Board
from planbuild.records.features import Taper
from planbuild.resolve.setting_out import SettingOut


def check_shoulders(setting_out: SettingOut, boards: Mapping[str, Board]) -> None:
    """Each end of a board meets its mate clear of any taper.  Reports `place-shoulder-planes`."""
    for board in boards.values():
        for mate in boards.values():
            found = dict.fromkeys(_on_tapers(board, mate))
            if found:
                setting_out.report.add(_refused(board, mate, tuple(found), setting_out))


def _on_tapers(board: Board, mate: Board) -> Iterator[tuple[Face, Taper, bool]]:
    """Ends of the board that lie on a taper of the mate; True if wholly."""
    tapers = [shape for shape in mate.shapes if isinstance(shape, Taper)]
    if not tapers or mate.pose:
        return  # the ends that land on a slanted face are looked at where they are cut to it
    for own in board.copies:
        for copy in mate.copies:
            # Seen from the mate as it is drawn, so that its tapers are where they were said.
            seen = copy.motion.inverse.after(own.motion)
            body = seen.box(board.pose.around(board.body) if board.pose else board.body)
            for end in (board.grain.low, board.grain.high):
                for taper in tapers:
                    whole = _lies_on(body, seen.face(end), mate, taper)
                    if whole is not None:
                        yield own.motion.face(end), taper, whole


def _lies_on(body: Box, end: Face, mate: Board, taper: Taper) -> bool | None:
    """Whether an end lies on the taper: True wholly, False partly, None not at all."""
    touched = end.opposite
    if touched not in taper.faces or abs(body.at(end) - mate.body.at(touched)) > TINY:
        return None
    if any(body.along(axis).meet(mate.body.along(axis)).size <= TINY for axis in end.axis.others):
        return None
    stop = mate.body.at(taper.end)
    sloping = Span1(min(taper.start, stop), max(taper.start, stop))
    along = body.along(mate.grain)
    on = along.meet(sloping).size
    return None if on <= TINY else on >= along.size - TINY


def _refused(board: Board, mate: Board, found: tuple[tuple[Face, Taper, bool], ...], setting_out: SettingOut) -> Diagnostic:
    said = setting_out.design.parts[board.id]
    span = said.between[0].span if said.between else board.origin
    _, taper, whole = found[0]
    ends = list(dict.fromkeys(end.value for end, _, _ in found))
    lands = f"{' and '.join(ends)} ends of \"{board.id}\" land" if len(ends) > 1 else f'{ends[0]} end of "{board.id}" lands'
    how = "on the taper" if whole else "partly on the taper"
    message = f'The {lands} {how} of "{mate.id}", where a square shoulder cannot close.'
    square = ", ".join(face.value for face in Face if face not in taper.faces and face.axis is not mate.grain)
    hints = [f"Move it, or start the taper nearer to the {taper.end.value}."]
    hints += [f"Only the {', '.join(face.value for face in taper.faces)} is tapered: {square} stay square."] if square else []
    related = (Related(taper.origin, "the taper is said here"),)
    return Diagnostic("place-shoulder-planes", message, span=span, hints=tuple(hints), related=related)
