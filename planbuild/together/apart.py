"""Taking bodies apart: what can leave first, and then what; or which of them lock each other.

Four answers that a maker must tell apart: one body comes off along a straight line; only several together do; one comes off by
straight moves in a row (along a slot, then out of it); nothing does.  Turning, tilting and bending are not tried, nor are
pairs of opposite moves of more than one set at a time.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from enum import Enum

import numpy as np
from scipy.sparse.csgraph import connected_components

from planbuild.core.geometry import Vec
from planbuild.together.blocking import TOUCH, Blocking, blocking
from planbuild.together.columns import Mesh

MOST_STATES = 64
"""Places at which a body is tried in a search for moves in a row."""
MOST_MOVES = 4
"""Moves in a row that a maker can be asked for."""


class Way(Enum):
    """How a set comes off."""

    SINGLE = "one alone"
    GROUP = "only several together"
    MOVES = "moves in a row"
    LOCKED = "nothing moves"


@dataclass(frozen=True)
class Move:
    """Along a direction by so many mm; infinite: out and away."""

    way: Vec
    by: float


@dataclass(frozen=True)
class Parting:
    """`off` comes off what `stays`, by moves in this order.  Backwards it is how they go together."""

    off: frozenset[int]
    stays: frozenset[int]
    moves: tuple[Move, ...]

    @property
    def kind(self) -> Way:
        if len(self.moves) > 1:
            return Way.MOVES
        return Way.SINGLE if 1 in (len(self.off), len(self.stays)) else Way.GROUP


@dataclass(frozen=True)
class Dismantled:
    """All partings, each before those of the two halves that it leaves; `locked` are sets that do not come apart."""

    partings: tuple[Parting, ...]
    locked: tuple[frozenset[int], ...]


Rank = Callable[[Parting], tuple[float, ...]]
"""How little a parting is liked; the least liked one is taken last."""


def fewest(parting: Parting) -> tuple[float, ...]:
    """One body at a time, what is lifted off before what is drawn off, the order of the bodies where all is equal."""
    way = parting.moves[-1].way
    return (len(parting.off), len(parting.moves), -way[2], min(parting.off))


def straight(among: Iterable[int], held: Blocking) -> list[Parting]:
    """The smallest sets that leave along one straight line each, every way: the sinks of the blocking graph of that way."""
    bodies = sorted(among)
    found: dict[tuple[frozenset[int], Vec], Parting] = {}
    for way in held.ways:
        for off in _sinks(np.isfinite(held.gap(way)[np.ix_(bodies, bodies)])):
            chosen = frozenset(bodies[each] for each in off)
            if len(chosen) < len(bodies):
                found[chosen, way] = Parting(chosen, frozenset(bodies) - chosen, (Move(way, float("inf")),))
    return list(found.values())


def _sinks(meets: np.ndarray) -> list[list[int]]:
    """Sets that meet nothing outside, none within another: strong components from which no arrow leaves."""
    count, label = connected_components(meets, directed=True, connection="strong")
    rows, others = np.nonzero(meets)
    leaving = set(label[rows][label[rows] != label[others]].tolist())
    return [np.flatnonzero(label == each).tolist() for each in range(count) if each not in leaving]


def dismantle(among: Iterable[int], held: Blocking, rank: Rank = fewest, bodies: Sequence[Mesh] | None = None) -> Dismantled:
    """Takes a set apart to its last body, the best liked parting first.

    `bodies`, if given, are also tried with moves in a row where nothing leaves along a straight line.
    """
    partings, locked, todo = list[Parting](), list[frozenset[int]](), [frozenset(among)]
    while todo:
        whole = todo.pop()
        if len(whole) < 2:
            continue
        able = straight(whole, held) or (in_a_row(whole, held, bodies) if bodies is not None else [])
        if not able:
            locked.append(whole)
            continue
        best = min(able, key=rank)
        partings.append(best)
        todo += [best.off, best.stays]
    return Dismantled(tuple(partings), tuple(locked))


def in_a_row(among: Iterable[int], held: Blocking, bodies: Sequence[Mesh]) -> list[Parting]:
    """The bodies that come off alone by some straight moves one after the other, each as far as it goes or part of it."""
    whole = frozenset(among)
    found = []
    for one in sorted(whole):
        moves = moves_out(bodies[one], [bodies[each] for each in sorted(whole - {one})], held.ways)
        if moves:
            found.append(Parting(frozenset({one}), whole - {one}, moves))
    return found


def moves_out(body: Mesh, rest: Sequence[Mesh], ways: Sequence[Vec], first: Vec | None = None) -> tuple[Move, ...]:
    """Straight moves by which a body comes off the rest, the first of them along `first` if given; empty if it never gets out.

    Breadth first over where the body can stop.  Heuristic: it stops where it meets something, and at quarters of a way.
    """
    fixed = np.concatenate(rest)
    todo: list[tuple[tuple[float, ...], tuple[Move, ...]]] = [((0.0, 0.0, 0.0), ())]
    seen = {todo[0][0]}
    while todo and len(seen) < MOST_STATES:
        place, moves = todo.pop(0)
        here = blocking([body + np.asarray(place), fixed], ways)
        for way in here.ways if moves or first is None else (first,):
            reach = here.reach([0], [1], way)
            if np.isinf(reach):
                return (*moves, Move(way, reach))
            for by in (reach, 0.75 * reach, 0.5 * reach, 0.25 * reach):
                stop = tuple(round(at + by * along, 3) for at, along in zip(place, way, strict=True))
                if by > TOUCH and stop not in seen and len(moves) + 1 < MOST_MOVES:
                    seen.add(stop)
                    todo.append((stop, (*moves, Move(way, by))))
    return ()
