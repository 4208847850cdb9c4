"""The ends that get a tenon, and the part that each of them enters."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from planbuild.core.diagnostics import Span
from planbuild.core.geometry import TINY, Axis, Box, Face
from planbuild.joints.base import Board, Chosen, Site
from planbuild.joints.faults import apart, copies_differ, refuse
from planbuild.joints.mortise_and_tenon.fields import MortiseAndTenonSaid
from planbuild.joints.touching import Touch, nearest, touches


@dataclass(frozen=True)
class End:
    """One end of a tenon part: `face` is its own, on the drawn copy; `homes` is what it meets, copy by copy."""

    board: Board
    face: Face
    span: Span
    homes: tuple[Touch, ...]

    @property
    def mate(self) -> Board:
        return self.homes[0].board

    @property
    def spoken(self) -> str:
        return f'The {self.face.value} end of "{self.board.id}"'

    def seen(self, copy: int) -> Box:
        """The body that a copy enters, as it lies when that copy is laid onto the drawn one."""
        return self.board.copies[copy].motion.inverse.box(self.homes[copy].body)

    def mate_grain(self, copy: int = 0) -> Axis:
        """How the grain of the mate runs, seen likewise."""
        return self.board.copies[copy].motion.inverse.axis(self.homes[copy].grain)

    @property
    def depth(self) -> float:
        """Thickness of the mate in the direction of the tenon, mm."""
        return self.seen(0).size(self.face.axis)


@dataclass
class _Wanted:
    """An end as chosen, with the copies for which it was."""

    board: Board
    face: Face
    span: Span
    copies: set[int]

    @property
    def spoken(self) -> str:
        return f'The {self.face.value} end of "{self.board.id}"'


def find_ends(said: MortiseAndTenonSaid, site: Site) -> list[End] | None:
    """Every end that gets a tenon, in the order said; None after reporting what is wrong with any."""
    chosen = [site.words.part(each) for each in said.tenon]
    into = site.words.part(said.into) if said.into else None
    if (said.into and into is None) or any(each is None for each in chosen):
        return None
    wanted = _wanted([each for each in chosen if each], site)
    if wanted is None:
        return None
    ends = [_end(each, into, site) for each in wanted]
    return None if any(end is None for end in ends) else [end for end in ends if end]


def _wanted(chosen: Sequence[Chosen], site: Site) -> list[_Wanted] | None:
    """Every end that was chosen; None after reporting."""
    found: dict[tuple[str, Face], _Wanted] = {}
    sound = True
    for each in chosen:
        grain = each.board.grain
        if each.face and each.face.axis is not grain:
            _not_an_end(each, site)
            sound = False
            continue
        for face in (each.face,) if each.face else (grain.low, grain.high):
            wish = found.setdefault((each.board.id, face), _Wanted(each.board, face, each.span, set()))
            wish.copies |= set(each.copies)
    for wish in found.values():
        sound = _whole(wish, site) and sound
    return list(found.values()) if sound else None


def _not_an_end(chosen: Chosen, site: Site) -> None:
    assert chosen.face is not None
    id, grain = chosen.board.id, chosen.board.grain
    message = f'The {chosen.face.value} of "{id}" lies along its grain; a tenon stands on an end.'
    refuse(site, "joint-not-an-end", chosen.span, message, f"{id}.{grain.low.value} or {id}.{grain.high.value}")


def _whole(wish: _Wanted, site: Site) -> bool:
    missing = [copy.hand or "first" for index, copy in enumerate(wish.board.copies) if index not in wish.copies]
    if missing:
        message = f'The joint leaves out the {missing[0]} "{wish.board.id}", so its copies would differ.'
        copies_differ(site, wish.span, wish.board, message)
    return not missing


def _end(wish: _Wanted, into: Chosen | None, site: Site) -> End | None:
    homes = [_home(wish, copy, into, site) for copy in range(len(wish.board.copies))]
    if any(home is None for home in homes):
        return None
    end = End(wish.board, wish.face, wish.span, tuple(home for home in homes if home))
    return end if _alike(end, site) and _lands(end, site) else None


def _home(wish: _Wanted, copy: int, into: Chosen | None, site: Site) -> Touch | None:
    """The one neighbour that an end of a standing copy lies against."""
    motion, body = wish.board.copies[copy].motion, wish.board.standing(copy)
    face, me = motion.face(wish.face), (wish.board.id, copy)
    met = touches(body, face, site.boards.values(), me)
    fitting = [touch for touch in met if into is None or _is(touch, into)]
    if len(fitting) == 1:
        return fitting[0]
    if fitting:
        _two_mates(wish, fitting, site)
    else:
        _no_mate(wish, copy, into, site)
    return None


def _is(touch: Touch, into: Chosen) -> bool:
    own_face = touch.board.copies[touch.copy].motion.inverse.face(touch.face)
    return touch.board.id == into.board.id and touch.copy in into.copies and into.face in (None, own_face)


def _two_mates(wish: _Wanted, met: Sequence[Touch], site: Site) -> None:
    message = f'{wish.spoken} meets "{met[0].spoken}" and "{met[1].spoken}".'
    hint = f"Say `into: {met[0].board.id}`." if met[0].board.id != met[1].board.id else "Move it so that it meets one of them."
    refuse(site, "joint-two-mates", wish.span, message, "one part at each end", hint)


def _no_mate(wish: _Wanted, copy: int, into: Chosen | None, site: Site) -> None:
    """Names the part that is meant, or the nearest, and how far off it is."""
    if into and into.board.id == wish.board.id:
        message = f'"{wish.board.id}" cannot enter itself.'
        refuse(site, "joint-no-mate", into.span, message, "the part that gets the mortise")
        return
    face, me = wish.board.copies[copy].motion.face(wish.face), (wish.board.id, copy)
    others = [board for board in site.boards.values() if board.id != wish.board.id]
    near = nearest(wish.board.standing(copy), face, [into.board] if into else others, me)
    hint = ""
    if near is None:
        message = f"{wish.spoken} meets nothing; there is no other part."
    elif near[1] <= TINY:
        message = f'{wish.spoken} does not lie flat against "{near[0].id}": they overlap, or touch only along an edge.'
    else:
        meets = f'does not meet "{near[0].id}"; it is' if into else f'meets nothing; the nearest is "{near[0].id}",'
        message, hint = f"{wish.spoken} {meets} {apart(near[1], site)} away.", f"Place it `between: {near[0].id}`."
    refuse(site, "joint-no-mate", wish.span, message, "an end that lies flat against the part it enters", hint)


def _alike(end: End, site: Site) -> bool:
    """All copies must enter the same part, as deep, across the same grain."""
    first = end.seen(0).along(end.face.axis)
    for copy, home in enumerate(end.homes):
        span = end.seen(copy).along(end.face.axis)
        as_deep = abs(first.low - span.low) < TINY and abs(first.high - span.high) < TINY
        if home.board.id != end.mate.id or not as_deep or end.mate_grain(copy) is not end.mate_grain():
            message = (
                f'{end.spoken} enters "{end.homes[0].spoken}" in one copy, and in another "{home.spoken}", otherwise placed.'
            )
            copies_differ(site, end.span, end.board, message)
            return False
    return True


def _lands(end: End, site: Site) -> bool:
    """The mortised part must have long grain there."""
    if end.mate_grain() is not end.face.axis:
        return True
    message = f'{end.spoken} enters the end grain of "{end.mate.id}"; cheeks glued to end grain do not hold.'
    expected, hint = "a face along the grain of the mate", "Turn the joint round, or use dowels."
    refuse(site, "joint-end-grain", end.span, message, expected, hint)
    return False
