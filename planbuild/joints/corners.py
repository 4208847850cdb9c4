"""Boards that share the wood of a corner, each at an end, both placed to the full outside: what dovetails and finger
joints ask first."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from planbuild.core.geometry import TINY, Axis, Box, Face, Span1
from planbuild.joints.bars import Bar, Pair
from planbuild.joints.base import Chosen, Site
from planbuild.joints.faults import apart, refuse
from planbuild.joints.touching import gap, patch_between


@dataclass(frozen=True)
class Corner:
    """`one` stands with its `end` in the outside of `other`, and `other` with its `far` end in that of `one`."""

    one: Bar
    other: Bar
    shared: Box
    end: Face
    far: Face

    @property
    def across(self) -> Axis:
        """The way in which neither runs: along the width of both."""
        (axis,) = (each for each in Axis if each not in (self.end.axis, self.far.axis))
        return axis

    @property
    def swapped(self) -> Corner:
        return Corner(self.other, self.one, self.shared, self.far, self.end)

    @property
    def base(self) -> Box:
        """Where the shoulders of `one` close: the inner face of `other`, a box without thickness."""
        place = self.shared.at(self.end.opposite)
        return self.shared.with_span(self.end.axis, Span1(place, place))


def corners(pairs: Sequence[Pair], kind: str, site: Site) -> list[Corner] | None:
    """The corner of each pair that overlaps.  None after reporting `joint-corner`."""
    found = [_corner(one, other, kind, site) for one, other in pairs]
    return None if any(each is None for each in found) else [each for each in found if each]


def _corner(one: Bar, other: Bar, kind: str, site: Site) -> Corner | None:
    shared = one.body.meet(other.body)
    if one.grain is other.grain:
        message = f'"{one.board.id}" and "{other.board.id}" both run {one.grain.words}, so they make no corner.'
        refuse(site, "joint-corner", one.span, message, "two boards that meet at their ends")
        return None
    end, far = (_end(bar, against, shared, kind, site) for bar, against in ((one, other), (other, one)))
    return Corner(one, other, shared, end, far) if end and far else None


def _end(bar: Bar, against: Bar, shared: Box, kind: str, site: Site) -> Face | None:
    """The end of a board that lies in the outer face of the other and takes up all of its thickness."""
    axis = bar.grain
    reached = [face for face in (axis.low, axis.high) if abs(shared.at(face) - bar.body.at(face)) < TINY]
    if len(reached) != 1:
        message = f'"{against.board.id}" does not cross an end of "{bar.board.id}".'
        hint = f'Place both to the full outside of the corner: "{bar.board.id}" ends where "{against.board.id}" does.'
        refuse(site, "joint-corner", bar.span, message, f"a {kind} at the end of both boards", hint)
        return None
    (face,) = reached
    for side in (face, face.opposite):
        off = abs(against.body.at(side) - shared.at(side))
        if off > TINY:
            away = f'{apart(off, site)} off the {side.value} of "{against.board.id}"'
            message = f'The {face.value} end of "{bar.board.id}" lies {away}.'
            flush = f"Write `{face.value}: {against.board.id}.{face.value}`."
            hint = flush if side is face else "Let the two boards cross whole."
            refuse(site, "joint-corner", bar.span, message, "both placed to the full outside of the corner", hint)
            return None
    return face


def say_no_corner(some: Chosen, others: Chosen, kind: str, site: Site) -> None:
    """They share no wood: reports `joint-wrong-family`, with how they lie."""
    bodies = [(some.board.standing(a), others.board.standing(b)) for a in some.copies for b in others.copies]
    flat = any(patch_between(one, face, other) for one, other in bodies for face in Face)
    off = min((gap(one, other) for one, other in bodies), default=0.0)
    how = "touch but do not overlap" if flat else f"are {apart(off, site)} apart" if off > TINY else "meet only along an edge"
    message = f'"{some.board.id}" and "{others.board.id}" {how}. A {kind} shares wood.'
    hint = "Place both to the full outside of the corner."
    refuse(site, "joint-wrong-family", some.span, message, "bodies that overlap", hint)
