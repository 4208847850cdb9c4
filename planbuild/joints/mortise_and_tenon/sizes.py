"""How thick, wide and long a tenon is and where it stands on its end: what was said, filled up by the trade's rules.

Thickness is measured across the grain of the mortised part, so that the cheeks of the tenon lie against long
grain; width along it.  All lengths in mm, places in the frame of the piece for the drawn copy.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from planbuild.core.diagnostics import Span
from planbuild.core.geometry import TINY, Axis, Box, Face, Span1, hull
from planbuild.joints.base import Board, Site
from planbuild.joints.faults import refuse
from planbuild.joints.mortise_and_tenon.fields import MortiseAndTenonSaid
from planbuild.joints.proportions import nearest_chisel, share_rule, used, used_practice
from planbuild.joints.sides import Side
from planbuild.records.design import Said


@dataclass(frozen=True)
class Sizes:
    """A tenon on an end.  `section` is its outline on the shoulder, a box without thickness; `length` reaches from
    shoulder to tip, `depth` is that of the mortise; `defaults` are the printable lines of the rules that were used."""

    end: Side
    thick: Axis
    wide: Axis
    section: Box
    length: float
    depth: float
    through: bool
    proud: float
    defaults: tuple[str, ...]

    @property
    def thickness(self) -> float:
        return self.section.size(self.thick)

    @property
    def width(self) -> float:
        return self.section.size(self.wide)

    @property
    def block(self) -> Box:
        """The tenon from shoulder to tip."""
        return reaching(self.section, self.end.face, self.length)

    @property
    def void(self) -> Box:
        """The mortise as it lies on the drawn copy of the tenon part."""
        return reaching(self.section, self.end.face, self.depth)

    def shoulder(self, face: Face) -> float:
        """How far a face of the board stands outside the tenon."""
        return abs(self.end.board.body.at(face) - self.section.at(face))


def reaching(plane: Box, toward: Face, far: float) -> Box:
    """The block that stands `far` out from a box without thickness."""
    start = plane.at(toward)
    return plane.with_span(toward.axis, Span1(*sorted((start, start + toward.sign * far))))


@dataclass(frozen=True)
class _Told:
    """What was said of one direction of the section: the tenon's size, and the shoulder at either face."""

    size: float | None
    shoulders: Mapping[Face, float]


def size_up(end: Side, said: MortiseAndTenonSaid, site: Site) -> Sizes | None:
    """The tenon of one end; None after reporting a number that cannot be understood or does not add up."""
    wide = end.mate_grain()
    (thick,) = (axis for axis in Axis if axis not in (end.face.axis, wide))
    shoulders = _shoulders(end, said, thick, wide, site)
    thickness, width = _length(said.thickness, site), _length(said.width, site)
    if shoulders is None or (said.thickness and thickness is None) or (said.width and width is None):
        return None
    defaults: list[str] = []
    across = _thick_span(end, _Told(thickness, shoulders), thick, site, defaults)
    along = _wide_span(end, _Told(width, shoulders), wide, site, defaults)
    if across is None or along is None:
        _does_not_add_up(end, said, thick if across is None else wide, site)
        return None
    shoulder_plane = Span1(end.board.body.at(end.face), end.board.body.at(end.face))
    section = Box.of({thick: across, wide: along, end.face.axis: shoulder_plane})
    return _with_length(end, said, site, (thick, wide, section), defaults)


def _length(said: Said | None, site: Site) -> float | None:
    return site.words.length(said) if said else None


# ---------------------------------------------------------------- section


def _shoulders(end: Side, said: MortiseAndTenonSaid, thick: Axis, wide: Axis, site: Site) -> dict[Face, float] | None:
    """Shoulders by face of the drawn copy; None after reporting."""
    found: dict[Face, float] = {}
    sound = True
    for words, axes in ((said.shoulders, (thick, wide)), (said.from_face, (thick,))):
        for word, value in words.items():
            face, size = _face(end.board, word, value.span, axes, site), site.words.length(value)
            if face is None or size is None:
                sound = False
            else:
                found[face] = size
    return found if sound else None


def _face(board: Board, word: str, span: Span, axes: tuple[Axis, ...], site: Site) -> Face | None:
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


def _thick_span(end: Side, told: _Told, axis: Axis, site: Site, defaults: list[str]) -> Span1 | None:
    body = end.board.body.along(axis)
    low, high = told.shoulders.get(axis.low), told.shoulders.get(axis.high)
    size = told.size
    if size is None and (low is None or high is None):
        thinner = min(body.size, end.seen(0).size(axis))
        size = nearest_chisel(thinner * site.practice.tenon_share, site.practice)
        defaults.append(used_practice("Tenon thickness is a third of the thinner part, nearest chisel", "tenon_share"))
    return laid(body, size, low, high)


def _wide_span(end: Side, told: _Told, axis: Axis, site: Site, defaults: list[str]) -> Span1 | None:
    body = end.board.body.along(axis)
    low, high = told.shoulders.get(axis.low), told.shoulders.get(axis.high)
    if told.size is None and (low is None or high is None):
        defaults.append(used_practice("Shoulder where none was said", "shoulder"))
        low = site.practice.shoulder if low is None else low
        high = site.practice.shoulder if high is None else high
    return laid(body, told.size, low, high)


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


# ---------------------------------------------------------------- length


def _with_length(
    end: Side, said: MortiseAndTenonSaid, site: Site, laid_out: tuple[Axis, Axis, Box], defaults: list[str]
) -> Sizes | None:
    thick, wide, section = laid_out
    through = site.words.yes(said.through) if said.through else False
    proud = site.words.length(said.proud) if said.proud else 0.0
    if through is None or proud is None or not _through_fits(end, said, through, site):
        return None
    if through:
        return Sizes(end, thick, wide, section, end.depth + proud, end.depth, True, proud, tuple(defaults))
    length = _blind_length(end, said, section.size(thick), site, defaults)
    if length is None:
        return None
    defaults.append(used_practice("Mortise deeper than the tenon is long", "mortise_deeper"))
    depth = length + site.practice.mortise_deeper
    return Sizes(end, thick, wide, section, length, depth, False, 0.0, tuple(defaults))


def _through_fits(end: Side, said: MortiseAndTenonSaid, through: bool, site: Site) -> bool:
    """Some fields belong to a through tenon, one to a blind one."""
    before = len(site.report.found)
    if through and said.length:
        message = f'A through tenon is as long as "{end.mate.id}" is thick, and proud of it by `proud`.'
        refuse(site, "joint-through-length", said.length.span, message, "no length", "Leave `length` out.")
    if not through and said.proud:
        message = "Only a through tenon can stand proud."
        refuse(
            site, "joint-proud", said.proud.span, message, "`through: yes` beside it", "Add `through: yes`, or leave `proud` out."
        )
    if not through and said.wedges:
        hint = "Add `through: yes`, or leave `wedges` out."
        refuse(
            site,
            "joint-wedges-blind",
            said.wedges.origin,
            "Only a through tenon can be wedged from outside.",
            "`through: yes` beside it",
            hint,
        )
    return len(site.report.found) == before


def _blind_length(end: Side, said: MortiseAndTenonSaid, thickness: float, site: Site, defaults: list[str]) -> float | None:
    """As said, or three times the thickness as far as the mate allows; None after reporting `joint-wall`."""
    most = end.depth - site.practice.mortise_deeper - site.practice.wall
    length = site.words.length(said.length) if said.length else None
    if said.length and length is None:
        return None
    if length is None:
        defaults.append(used("Tenon length is three times its thickness, as far as the mate allows", "tenon_length", site.ruler))
        length = min(share_rule("tenon_length", site.ruler) * thickness, most)
    if TINY < length <= most + TINY:
        return length
    _too_long(end, said.length.span if said.length else end.span, length, most, site)
    return None


def _too_long(end: Side, span: Span, length: float, most: float, site: Site) -> None:
    figure, left = site.ruler.plain, end.depth - site.practice.mortise_deeper - length
    if most <= TINY:
        wall = figure(site.practice.wall)
        message = f'"{end.mate.id}" is {figure(end.depth)} thick: too thin for a blind mortise with {wall} of wall.'
        refuse(site, "joint-wall", span, message, "a thicker part, or a through tenon", "Say `through: yes`.")
    elif left <= TINY:
        message = f'Tenon {figure(length)} long comes out of "{end.mate.id}", which is {figure(end.depth)} thick.'
        refuse(site, "joint-wall", span, message, f"at most {figure(most)}", f"At most {figure(most)}, or say `through: yes`.")
    else:
        message = f'Tenon {figure(length)} long leaves {figure(left)} of "{end.mate.id}"; {figure(site.practice.wall)} is wanted.'
        refuse(site, "joint-wall", span, message, f"at most {figure(most)}", f"At most {figure(most)}.")
