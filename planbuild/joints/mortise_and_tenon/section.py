"""Where the tenons of one end stand on it: one, or a row of them, with the shoulders that the trade leaves beside them.

Thickness is measured across the grain of the mortised part, so that the cheeks of the tenon lie against long
grain; width along it.  Twin tenons stand side by side in the thickness, divided ones in line in the width.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from planbuild.core.diagnostics import Span
from planbuild.core.geometry import TINY, Axis, Box, Face, Span1, hull
from planbuild.joints.base import Board, Site
from planbuild.joints.faults import refuse
from planbuild.joints.mortise_and_tenon.fields import MortiseAndTenonSaid
from planbuild.joints.proportions import nearest_chisel, used_practice
from planbuild.joints.sides import Side
from planbuild.records.design import Said

MOST_TWIN, MOST_DIVIDED = 3, 8
"""More tenons than these at one end are no joint of the trade."""


@dataclass(frozen=True)
class Row:
    """What was said of one direction of the end: how many tenons stand in it, the size of each, the gap between two,
    and the shoulder at either face."""

    count: int
    size: float | None
    apart: float | None
    shoulders: Mapping[Face, float]

    def beside(self, axis: Axis) -> tuple[float | None, float | None]:
        return self.shoulders.get(axis.low), self.shoulders.get(axis.high)


@dataclass(frozen=True)
class _Numbers:
    """The sizes that were said, understood."""

    thickness: float | None
    width: float | None
    apart: float | None
    twin: int
    divided: int


def outlines(end: Side, said: MortiseAndTenonSaid, site: Site, defaults: list[str]) -> tuple[Axis, Axis, list[Box]] | None:
    """Thickness, width, and the outlines of the tenons on the shoulder, low to high; None after reporting numbers that
    cannot be understood or do not add up."""
    wide = end.mate_grain()
    (thick,) = (axis for axis in Axis if axis not in (end.face.axis, wide))
    if said.round:
        return _round(end, said, said.round, thick, wide, site)
    shoulders, numbers = _shoulders(end, said, thick, wide, site), _numbers(said, site)
    if shoulders is None or numbers is None:
        return None
    across = _thick_row(end, Row(numbers.twin, numbers.thickness, numbers.apart, shoulders), thick, site, defaults)
    along = _wide_row(end, Row(numbers.divided, numbers.width, numbers.apart, shoulders), wide, site, defaults)
    if across is None or along is None:
        _does_not_add_up(end, said, thick if across is None else wide, site)
        return None
    plane = Span1(end.board.body.at(end.face), end.board.body.at(end.face))
    return thick, wide, [Box.of({thick: a, wide: b, end.face.axis: plane}) for a in across for b in along]


def _round(
    end: Side, said: MortiseAndTenonSaid, round: Said, thick: Axis, wide: Axis, site: Site
) -> tuple[Axis, Axis, list[Box]] | None:
    """The square around a round tenon, in the middle of the end; None after reporting."""
    diameter = site.words.length(round)
    later = next((word for word in ("tusk", "haunch", "peg", "play") if getattr(said, word)), "")
    if later:
        message = f"`{later}` with a round tenon is not built yet."
        refuse(site, "not-built-yet", round.span, message, "a plain or wedged round tenon", f"Leave `{later}` out.")
        return None
    others = ("thickness", "width", "shoulders", "from_face", "bare", "twin", "divided", "apart")
    word = next((word for word in others if getattr(said, word)), "")
    if diameter is None:
        return None
    body, figure = end.board.body, site.ruler.plain
    thin = min(body.size(thick), body.size(wide))
    if word or diameter > thin + TINY:
        message = f"`{word}` has no meaning beside `round`: such a tenon stands in the middle of its end."
        if not word:
            message = f'"{end.board.id}" is {figure(thin)} thick: no round tenon of {figure(diameter)} comes out of it.'
        hint = f"Leave `{word}` out." if word else f"At most {figure(thin)}."
        refuse(site, "joint-round", round.span, message, "one diameter, at most that of the part", hint)
        return None
    plane = Span1(body.at(end.face), body.at(end.face))
    middles = {axis: body.along(axis).middle for axis in (thick, wide)}
    spans = {axis: Span1(middle - diameter / 2, middle + diameter / 2) for axis, middle in middles.items()}
    return thick, wide, [Box.of({**spans, end.face.axis: plane})]


def _numbers(said: MortiseAndTenonSaid, site: Site) -> _Numbers | None:
    lengths = [site.words.length(each) if each else None for each in (said.thickness, said.width, said.apart)]
    twin, divided = _count(said.twin, MOST_TWIN, site), _count(said.divided, MOST_DIVIDED, site)
    unheard = any(each and length is None for each, length in zip((said.thickness, said.width, said.apart), lengths, strict=True))
    if unheard or twin is None or divided is None:
        return None
    if twin > 1 and divided > 1 and said.divided:
        message = "`twin` tenons stand side by side in the thickness, `divided` ones in line in the width."
        refuse(site, "joint-tenon-count", said.divided.span, message, "one of the two", "Leave one of them out.")
        return None
    if said.apart and twin == divided == 1:
        message = "`apart` is the gap between two tenons of one end, and this end has one."
        refuse(site, "joint-tenon-count", said.apart.span, message, "`twin: 2` or `divided: 2` beside it", "Leave `apart` out.")
        return None
    thickness, width, apart = lengths
    return _Numbers(thickness, width, apart, twin, divided)


def _count(said: Said | None, most: int, site: Site) -> int | None:
    count = site.words.count(said) if said else 1
    if said and count is not None and not 2 <= count <= most:
        refuse(site, "joint-tenon-count", said.span, f"{count} tenons at one end.", f"2 to {most}", "Leave it out for one.")
        return None
    return count


# ---------------------------------------------------------------- shoulders


def _shoulders(end: Side, said: MortiseAndTenonSaid, thick: Axis, wide: Axis, site: Site) -> dict[Face, float] | None:
    """Shoulders by face of the drawn copy, 0 at a bare face; None after reporting."""
    found: dict[Face, float] = {}
    sound = True
    for words, axes in ((said.shoulders, (thick, wide)), (said.from_face, (thick,))):
        for word, value in words.items():
            face, size = face_beside(end.board, word, value.span, axes, site), site.words.length(value)
            if face is None or size is None:
                sound = False
            else:
                found[face] = size
    for bare in said.bare:
        faces = _bare(end.board, bare, (wide, thick), site)
        sound = sound and bool(faces) and not any(_both(face, found, bare, site) for face in faces)
        found |= dict.fromkeys(faces, 0.0)
    return found if sound else None


def _bare(board: Board, word: Said, axes: tuple[Axis, ...], site: Site) -> tuple[Face, ...]:
    """The faces without a shoulder; none after reporting."""
    if word.text == "all":
        return tuple(face for axis in axes for face in (axis.low, axis.high))
    face = face_beside(board, word.text, word.span, axes, site)
    return (face,) if face else ()


def _both(face: Face, shoulders: Mapping[Face, float], bare: Said, site: Site) -> bool:
    if not shoulders.get(face):
        return False
    message = f"The tenon is bare at the {face.value} and has a shoulder there."
    refuse(site, "joint-shoulder-face", bare.span, message, "one of the two")
    return True


def face_beside(board: Board, word: str, span: Span, axes: tuple[Axis, ...], site: Site) -> Face | None:
    """A face beside the tenon, by its own name or as `outside` or `inside`."""
    faces = {face.value: face for axis in axes for face in (axis.low, axis.high)}
    if word in faces:
        return faces[word]
    if word in ("outside", "inside"):
        outside = outside_face(board, axes[-1], site)
        if outside:
            return outside if word == "outside" else outside.opposite
        message = f'"{board.id}" stands in the middle {axes[-1].words}, so it has no {word} there.'
    else:
        message = f'"{word}" is no face beside this tenon of "{board.id}".'
    refuse(site, "joint-shoulder-face", span, message, ", ".join([*faces, "outside", "inside"]))
    return None


def outside_face(board: Board, axis: Axis, site: Site) -> Face | None:
    """The face of a board that looks away from the middle of the piece; None if the board stands there."""
    whole = hull([each.standing(copy) for each in site.boards.values() for copy in range(len(each.copies))])
    off = board.body.along(axis).middle - whole.along(axis).middle
    if abs(off) < TINY:
        return None
    return axis.high if off > 0 else axis.low


# ---------------------------------------------------------------- rows


def _thick_row(end: Side, row: Row, axis: Axis, site: Site, defaults: list[str]) -> list[Span1] | None:
    """A third of the thinner part where nothing else decides; twins, and the wood beside and between them, alike."""
    body = end.board.body.along(axis)
    size, (low, high) = row.size, row.beside(axis)
    if size is None and (low is None or high is None or (row.count > 1 and row.apart is None)):
        thinner = min(body.size, end.seen(0).size(axis))
        if row.count == 1:
            size = nearest_chisel(thinner * site.practice.tenon_share, site.practice)
            defaults.append(used_practice("Tenon thickness is a third of the thinner part, nearest chisel", "tenon_share"))
        else:
            size = nearest_chisel(thinner / (2 * row.count + 1), site.practice)
            defaults.append("Twin tenons are as thick as the wood beside and between them, nearest chisel")
    return in_row(body, Row(row.count, size, row.apart, row.shoulders), axis)


def _wide_row(end: Side, row: Row, axis: Axis, site: Site, defaults: list[str]) -> list[Span1] | None:
    """Between shoulders; those that were not said are the trade's, unless the tenons themselves decide."""
    low, high = row.beside(axis)
    decided = row.size is not None and (row.count == 1 or row.apart is not None)
    shoulders = dict(row.shoulders)
    if not decided and (low is None or high is None):
        defaults.append(used_practice("Shoulder where none was said", "shoulder"))
        shoulders = {axis.low: site.practice.shoulder, axis.high: site.practice.shoulder, **row.shoulders}
    return in_row(end.board.body.along(axis), Row(row.count, row.size, row.apart, shoulders), axis)


def in_row(body: Span1, row: Row, axis: Axis) -> list[Span1] | None:
    """Where the tenons of a row lie on their board, low to high; None if the numbers do not add up.

    Of size, gap and both shoulders one may be missing and follows from the others; with both shoulders alone, gaps are
    as wide as tenons; without a gap and one of the shoulders likewise.
    """
    low, high = row.beside(axis)
    if row.count == 1:
        span = laid(body, row.size, low, high)
        return [span] if span else None
    free = None if low is None or high is None else body.size - low - high
    size, apart = row.size, row.apart
    if size is None:
        assert free is not None
        size = free / (2 * row.count - 1) if apart is None else (free - (row.count - 1) * apart) / row.count
    if apart is None:
        apart = size if free is None else (free - row.count * size) / (row.count - 1)
    whole = laid(body, row.count * size + (row.count - 1) * apart, low, high) if min(size, apart) > TINY else None
    if whole is None:
        return None
    starts = [whole.low + number * (size + apart) for number in range(row.count)]
    return [Span1(start, start + size) for start in starts]


def laid(body: Span1, size: float | None, low: float | None, high: float | None) -> Span1 | None:
    """Where a tenon lies on its board, from two of {size, low shoulder, high shoulder}, or centred from the size
    alone; None if three do not add up or the board is too small."""
    if size is None:
        assert low is not None and high is not None
        size = body.size - low - high
    elif low is None and high is None:
        low = (body.size - size) / 2
    elif low is None and high is not None:
        low = body.size - size - high
    if low is None or size <= TINY or low < -TINY or low + size > body.size + TINY:
        return None
    if high is not None and abs(low + size + high - body.size) > TINY:
        return None
    return Span1(body.low + low, body.low + low + size)


def _does_not_add_up(end: Side, said: MortiseAndTenonSaid, axis: Axis, site: Site) -> None:
    size = site.ruler.plain(end.board.body.size(axis))
    field = said.width if axis is end.mate_grain() else said.thickness
    message = f'Tenon and shoulders do not add up to the {size} that "{end.board.id}" measures {axis.words}.'
    hint = "Leave one of them out: it follows from the others."
    refuse(site, "joint-tenon-size", field.span if field else end.span, message, f"together {size}, each part above zero", hint)
