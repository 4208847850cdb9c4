"""The sides of a part that go into others (ends, or edges too), and the part that each of them enters."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field

from planbuild.core.diagnostics import Span
from planbuild.core.geometry import TINY, Axis, Box, Face, Span1
from planbuild.joints.base import Board, Chosen, Site
from planbuild.joints.faults import apart, copies_differ, refuse
from planbuild.joints.touching import Touch, nearest, touches_of
from planbuild.records.design import Said


@dataclass(frozen=True)
class Side:
    """One side of a part that goes in: `face` is its own, on the drawn copy; `homes` is what it meets, copy by copy."""

    board: Board
    face: Face
    span: Span
    homes: tuple[Touch, ...]

    @property
    def mate(self) -> Board:
        return self.homes[0].board

    @property
    def spoken(self) -> str:
        return _spoken(self.board, self.face)

    def strip(self, size: float) -> Box:
        """What the body gains if it grows by `size` into its mate, on the drawn copy."""
        plane = self.board.body.at(self.face)
        return self.board.body.with_span(self.face.axis, Span1(*sorted((plane, plane + self.face.sign * size))))

    def seen(self, copy: int) -> Box:
        """The straight body that a copy enters, as it lies when that copy is laid onto the drawn one."""
        home = self.homes[copy]
        return self.board.copies[copy].motion.inverse.box(home.board.copies[home.copy].motion.box(home.board.body))

    def mate_grain(self, copy: int = 0) -> Axis:
        """How the grain of the mate runs, seen likewise."""
        return self.board.copies[copy].motion.inverse.axis(self.homes[copy].grain)

    @property
    def depth(self) -> float:
        """Thickness of the mate in the direction in which the side goes in, mm; one that is met askew is longer to cross."""
        if not self.board.pose and not self.mate.pose:
            return self.seen(0).size(self.face.axis)
        home = self.homes[0]
        way = home.board.stands(home.copy).inverse.after(self.board.stands(0)).direction(self.face.normal)
        axis = max(Axis, key=lambda each: abs(way[each.value]))
        return home.board.body.size(axis) / abs(way[axis.value])


def by_board(sides: Iterable[Side]) -> list[list[Side]]:
    """The sides of each board together, in the order in which the boards were named."""
    found: dict[str, list[Side]] = {}
    for side in sides:
        found.setdefault(side.board.id, []).append(side)
    return list(found.values())


def growth(sides: Iterable[tuple[Side, float]]) -> dict[str, dict[Face, float]]:
    """How much longer each board is sawn at each side, given how far that side goes in (see `Joined.grows`)."""
    found: dict[str, dict[Face, float]] = {}
    for side, depth in sides:
        found.setdefault(side.board.id, {})[side.face] = depth
    return found


@dataclass
class _Wanted:
    """A side as chosen, with the copies for which it was."""

    board: Board
    face: Face
    span: Span
    copies: set[int]

    @property
    def spoken(self) -> str:
        return _spoken(self.board, self.face)


def _spoken(board: Board, face: Face) -> str:
    return f'The {face.value} {"end" if face.axis is board.grain else "edge"} of "{board.id}"'


Sides = Callable[[Board], tuple[Face, ...]]
"""The sides of a board that a joint can take; those that are not named are all meant."""

Into = Said | Sequence[Said] | Mapping[str, Said] | None
"""The parts that sides go into, as said: one, several among which each side finds its own, or one for each side."""


@dataclass(frozen=True)
class _Mates:
    """The parts that are meant as mates; none: whatever is met."""

    anywhere: tuple[Chosen, ...] = ()
    by_side: Mapping[str, tuple[Chosen, ...]] = field(default_factory=dict)

    def at(self, face: Face) -> tuple[Chosen, ...]:
        return self.by_side.get(face.value, self.anywhere)


def ends(board: Board) -> tuple[Face, ...]:
    return board.grain.low, board.grain.high


def all_round(board: Board) -> tuple[Face, ...]:
    """Ends and edges: every side but the two faces."""
    return (*ends(board), board.width_axis.low, board.width_axis.high)


def find_sides(
    parts: Sequence[Said], into: Into, sides: Sides, site: Site, named: Sides | None = None
) -> list[Side] | None:
    """Every side that goes in, in the order said; None after reporting what is wrong with any.

    `named` are sides that may be named (`runner.left`), if more than those that a bare part means.

    Reports `joint-not-an-end`, `joint-no-mate`, `joint-two-mates`, `joint-copies-differ`, `joint-into-side`, `joint-side`.
    """
    chosen = [site.words.part(each) for each in parts]
    mates = _mates(into, site)
    if mates is None or any(each is None for each in chosen):
        return None
    wanted = _wanted([each for each in chosen if each], sides, named or sides, site)
    if wanted is None or not _sides_are_known(into, wanted, site):
        return None
    found = [_side(each, mates.at(each.face), site) for each in wanted]
    return None if any(side is None for side in found) else [side for side in found if side]


def _mates(into: Into, site: Site) -> _Mates | None:
    """The mates that were said; None after reporting."""
    if isinstance(into, Mapping):
        named = {word: site.words.parts(each) for word, each in into.items()}
        known = {word: each for word, each in named.items() if each}
        return _Mates(by_side=known) if len(known) == len(named) else None
    said = (into,) if isinstance(into, Said) else into or ()
    chosen = [each for each in (site.words.parts(word) for word in said) if each]
    return _Mates(tuple(part for each in chosen for part in each)) if len(chosen) == len(said) else None


def _sides_are_known(into: Into, wanted: Sequence[_Wanted], site: Site) -> bool:
    """A mate said for a side that does not go in would be said in vain."""
    known = dict.fromkeys(each.face.value for each in wanted)
    vain = [(word, said) for word, said in into.items() if word not in known] if isinstance(into, Mapping) else []
    for word, said in vain:
        message = f'`into` names a mate at the "{word}", where nothing of this joint goes in.'
        refuse(site, "joint-into-side", said.span, message, ", ".join(known))
    return not vain


def _wanted(chosen: Sequence[Chosen], sides: Sides, named: Sides, site: Site) -> list[_Wanted] | None:
    """Every side that was chosen; None after reporting."""
    found: dict[tuple[str, Face], _Wanted] = {}
    sound = True
    for each in chosen:
        able = named(each.board)
        if each.face and each.face not in able:
            _not_a_side(each, able, site)
            sound = False
            continue
        for face in (each.face,) if each.face else sides(each.board):
            wish = found.setdefault((each.board.id, face), _Wanted(each.board, face, each.span, set()))
            wish.copies |= set(each.copies)
    for wish in found.values():
        sound = _whole(wish, site) and sound
    return list(found.values()) if sound else None


def _not_a_side(chosen: Chosen, able: tuple[Face, ...], site: Site) -> None:
    assert chosen.face is not None
    id = chosen.board.id
    lies = "lies along its grain; an end goes in" if len(able) == 2 else "is one of its two faces"
    message = f'The {chosen.face.value} of "{id}" {lies}.'
    refuse(site, "joint-not-an-end", chosen.span, message, " or ".join(f"{id}.{face.value}" for face in able))


def _whole(wish: _Wanted, site: Site) -> bool:
    missing = [copy.hand or "first" for index, copy in enumerate(wish.board.copies) if index not in wish.copies]
    if missing:
        message = f'The joint leaves out the {missing[0]} "{wish.board.id}", so its copies would differ.'
        copies_differ(site, wish.span, wish.board, message)
    return not missing


def _side(wish: _Wanted, into: tuple[Chosen, ...], site: Site) -> Side | None:
    homes = [_home(wish, copy, into, site) for copy in range(len(wish.board.copies))]
    if any(home is None for home in homes):
        return None
    side = Side(wish.board, wish.face, wish.span, tuple(home for home in homes if home))
    return side if _alike(side, site) else None


def _home(wish: _Wanted, copy: int, into: tuple[Chosen, ...], site: Site) -> Touch | None:
    """The one neighbour that a side of a standing copy lies against."""
    face = wish.board.copies[copy].motion.face(wish.face)
    met = touches_of(wish.board, copy, face, site.boards.values())
    fitting = [touch for touch in met if not into or any(_is(touch, each) for each in into)]
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
    refuse(site, "joint-two-mates", wish.span, message, "one part at each side", hint)


def _no_mate(wish: _Wanted, copy: int, into: tuple[Chosen, ...], site: Site) -> None:
    """Names the part that is meant, or the nearest, and how far off it is."""
    meant = [each.board for each in into if each.board.id != wish.board.id]
    if into and not meant:
        message = f'"{wish.board.id}" cannot enter itself.'
        refuse(site, "joint-no-mate", into[0].span, message, "the part that it goes into")
        return
    face, me = wish.board.copies[copy].motion.face(wish.face), (wish.board.id, copy)
    entering = _entering(wish.board, copy, site)
    if entering and not meant:
        told = f'"{wish.board.id}" ends in nothing here; "{entering.id}" ends in it.'
        message = f"{told} A joint is declared from the part that goes in."
        refuse(site, "joint-side", wish.span, message, "the part whose end or edge goes in", f"Swap them: name `{entering.id}`.")
        return
    others = [board for board in site.boards.values() if board.id != wish.board.id]
    near = nearest(wish.board.standing(copy), face, meant or others, me)
    hint = ""
    if near is None:
        message = f"{wish.spoken} meets nothing; there is no other part."
    elif near[1] <= TINY:
        message = f'{wish.spoken} does not lie flat against "{near[0].id}": they overlap, or touch only along an edge.'
    else:
        meets = f'does not meet "{near[0].id}"; it is' if meant else f'meets nothing; the nearest is "{near[0].id}",'
        message, hint = f"{wish.spoken} {meets} {apart(near[1], site)} away.", f"Place it `between: {near[0].id}`."
    refuse(site, "joint-no-mate", wish.span, message, "a side that lies flat against the part it enters", hint)


def _entering(board: Board, copy: int, site: Site) -> Board | None:
    """A board whose end lies flat on one of the faces along this one's grain: it is the one that goes in."""
    motion = board.copies[copy].motion
    along = [motion.face(face) for face in Face if face.axis is not board.grain]
    met = [touch for face in along for touch in touches_of(board, copy, face, site.boards.values())]
    ending = (touch.board for touch in met if touch.face.axis is touch.grain)
    return next(ending, None)


def _alike(side: Side, site: Site) -> bool:
    """All copies must enter the same part, as deep, across the same grain."""
    first = side.seen(0).along(side.face.axis)
    for copy, home in enumerate(side.homes):
        span = side.seen(copy).along(side.face.axis)
        as_deep = abs(first.low - span.low) < TINY and abs(first.high - span.high) < TINY
        if home.board.id != side.mate.id or not as_deep or side.mate_grain(copy) is not side.mate_grain():
            message = (
                f'{side.spoken} enters "{side.homes[0].spoken}" in one copy, and in another "{home.spoken}", otherwise placed.'
            )
            copies_differ(site, side.span, side.board, message)
            return False
    return True
