"""How thick, wide and long a tenon is: what was said, filled up by the trade's rules.

All lengths in mm, places in the frame of the piece for the drawn copy.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from planbuild.core.diagnostics import Span
from planbuild.core.geometry import TINY, Axis, Box, Face, Span1
from planbuild.joints.base import Site
from planbuild.joints.faults import refuse
from planbuild.joints.mortise_and_tenon.fields import MortiseAndTenonSaid, TuskSaid
from planbuild.joints.mortise_and_tenon.section import outlines
from planbuild.joints.mortise_and_tenon.slants import behind, is_askew
from planbuild.joints.proportions import length_rule, share_rule, used, used_practice
from planbuild.joints.sides import Side


@dataclass(frozen=True)
class Sizes:
    """A tenon on an end.  `section` is its outline on the shoulder, a box without thickness; `length` reaches from
    shoulder to tip, `depth` is that of the mortise, which is `play` longer than the tenon is wide at each side; `defaults`
    are the printable lines of the rules that were used."""

    end: Side
    thick: Axis
    wide: Axis
    section: Box
    length: float
    depth: float
    through: bool
    proud: float
    defaults: tuple[str, ...]
    play: float = 0.0
    round: bool = False

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
        wide = self.section.along(self.wide)
        mouth = self.section.with_span(self.wide, Span1(wide.low - self.play, wide.high + self.play))
        return reaching(mouth, self.end.face, self.depth)

    def shoulder(self, face: Face) -> float:
        """How far a face of the board stands outside the tenon."""
        return abs(self.end.board.body.at(face) - self.section.at(face))


def reaching(plane: Box, toward: Face, far: float) -> Box:
    """The block that stands `far` out from a box without thickness."""
    start = plane.at(toward)
    return plane.with_span(toward.axis, Span1(*sorted((start, start + toward.sign * far))))


def size_up(end: Side, said: MortiseAndTenonSaid, site: Site) -> list[Sizes] | None:
    """The tenons of one end; None after reporting a number that cannot be understood or does not add up."""
    defaults: list[str] = []
    found = outlines(end, said, site, defaults)
    if found is None:
        return None
    thick, wide, sections = found
    first = _with_length(end, said, site, (thick, wide, sections[0]), defaults)
    return [replace(first, section=section, round=said.round is not None) for section in sections] if first else None


# ---------------------------------------------------------------- length


def _with_length(
    end: Side, said: MortiseAndTenonSaid, site: Site, laid_out: tuple[Axis, Axis, Box], defaults: list[str]
) -> Sizes | None:
    thick, wide, section = laid_out
    through = site.words.yes(said.through) if said.through else said.tusk is not None
    play = site.words.length(said.play) if said.play else 0.0
    if through is None or play is None or not _through_fits(end, said, through, site):
        return None
    if through:
        proud = _proud(said, section.size(end.board.face.axis), site)
        if proud is None or not _comes_out(end, said, section, proud, site):
            return None
        return Sizes(end, *laid_out, end.depth + proud, end.depth, True, proud, tuple(defaults), play)
    length = _blind_length(end, said, section.size(thick), site, defaults)
    if length is None:
        return None
    defaults.append(used_practice("Mortise deeper than the tenon is long", "mortise_deeper"))
    depth = length + site.practice.mortise_deeper
    return Sizes(end, thick, wide, section, length, depth, False, 0.0, tuple(defaults), play)


def _comes_out(end: Side, said: MortiseAndTenonSaid, section: Box, proud: float, site: Site) -> bool:
    """False after reporting `joint-proud` for a tenon that comes out askew, one side of its tip still inside."""
    late = behind(end, section, said.round is not None) if is_askew(end) else 0.0
    if proud > late - TINY:
        return True
    figure, at = site.ruler.plain, said.proud or said.through or said.kind
    message = f'{end.spoken} comes out of "{end.mate.id}" askew: on one side its tip stays {figure(late - proud)} inside.'
    hint = f"Say `proud: {figure(late + site.ruler.step * site.ruler.unit.mm)}` or more; it can be sawn flush when it is dry."
    refuse(site, "joint-proud", at.span, message, f"at least {figure(late)} proud in its middle", hint)
    return False


def _proud(said: MortiseAndTenonSaid, thickness: float, site: Site) -> float | None:
    """How far the tip stands out: as said; for a key, its mortise and the wood beyond it.  `thickness` is what a key goes
    through."""
    if said.proud or not said.tusk:
        return site.words.length(said.proud) if said.proud else 0.0
    opening = key_opening(said.tusk, thickness, site)
    if opening is None:
        return None
    return opening * (1 + share_rule("key_beyond", site.ruler)) - length_rule("key_inside", site.ruler)


def key_opening(said: TuskSaid, thickness: float, site: Site) -> float | None:
    """How long the mortise for a key is where the key goes in; None after reporting."""
    return site.words.length(said.opening) if said.opening else share_rule("key_opening", site.ruler) * thickness


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
    if said.tusk and (not through or said.wedges):
        message = "A key draws a through tenon tight from outside; a tenon that is wedged needs none."
        expected, hint = "a through tenon, and no wedges", "Leave `through` and `wedges` out beside `tusk`."
        refuse(site, "joint-key", said.tusk.origin, message, expected, hint)
        return False
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
        what, rule = _LENGTHS[said.round is not None]
        defaults.append(used(what, rule, site.ruler))
        length = min(share_rule(rule, site.ruler) * thickness, most)
    if TINY < length <= most + TINY:
        return length
    _too_long(end, said.length.span if said.length else end.span, length, most, site)
    return None


_LENGTHS = {
    False: ("Tenon length is three times its thickness, as far as the mate allows", "tenon_length"),
    True: ("Length of a round tenon by its thickness, as far as the mate allows", "round_length"),
}
"""The rule for the length of a blind tenon, by whether it is round."""


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
