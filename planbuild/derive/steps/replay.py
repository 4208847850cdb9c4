"""The printed order carried out: every step's motions tried on the solids, with all that is there by then.

What a step brings together goes home along its arrows.  Backwards: each comes off again, out and away along one straight line,
or a little along it and then aside (a cabinet off the strip on the wall), clear of everything that it is joined to by then.
What lies on the bench apart is not in the way.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from planbuild.core.diagnostics import Diagnostic, Span
from planbuild.core.geometry import Vec
from planbuild.derive.phrases import listed
from planbuild.derive.scene import Scene
from planbuild.derive.steps.assembly import Joining, Unit, spoken, ways_home
from planbuild.derive.steps.operations import Verb
from planbuild.derive.steps.tasks import Task
from planbuild.records.findings import Proof
from planbuild.records.freedom import Freedom
from planbuild.records.piece import Piece
from planbuild.records.solids import Key
from planbuild.together import opposite

MOST_NAMED = 3
"""Blockers named in a message."""


@dataclass(frozen=True)
class Motion:
    """`moved` go home together along `way`, onto what `stays`."""

    moved: tuple[Key, ...]
    way: Vec
    stays: tuple[Key, ...]


@dataclass(frozen=True)
class Replayed:
    proof: Proof
    diagnostics: tuple[Diagnostic, ...]


def replay(piece: Piece, freedom: Freedom, tasks: Sequence[Task], scenes: Sequence[Scene | None]) -> Replayed:
    """Reports `step-blocked` for what cannot go home when its turn comes; a motion along a way that was not looked along is not
    counted."""
    whole, faults, checked = _Together(), list[Diagnostic](), 0
    for task, scene in zip(tasks, scenes, strict=True):
        for motion in _motions(task, scene, whole, freedom):
            out = opposite(_rounded(motion.way))
            if not freedom.knows(out):
                continue
            checked += 1
            met = freedom.in_the_way(motion.moved, motion.stays, out)
            if met and not freedom.out_in_moves(motion.moved, motion.stays, out):
                faults.append(_blocked(piece, task, motion, met))
        if task.verb is not Verb.TRY:
            _joined(task, scene, whole)
    claim = "The printed order can be carried out"
    return Replayed(Proof(claim, checked, "each motion to its place clear of all that is joined by then"), tuple(faults))


class _Together:
    """Which copies are joined to each other so far."""

    def __init__(self) -> None:
        self._of: dict[Key, frozenset[Key]] = {}

    def with_all(self, keys: Sequence[Key]) -> frozenset[Key]:
        return frozenset().union(*(self._of.get(key, frozenset({key})) for key in keys))

    def join(self, keys: Sequence[Key]) -> None:
        whole = self.with_all(keys)
        self._of |= dict.fromkeys(whole, whole)


def _joined(task: Task, scene: Scene | None, whole: _Together) -> None:
    groups = task.joining.groups if task.joining else ((*scene.new, *scene.context),) if scene and scene.moves else ()
    for group in groups:
        whole.join(group)


def _motions(task: Task, scene: Scene | None, whole: _Together, freedom: Freedom) -> Iterator[Motion]:
    """What moves in a step, in the order in which it comes off again."""
    if task.joining:
        yield from _of_joining(task.joining, freedom)
    elif scene and scene.moves and task.verb in (Verb.FIT, Verb.TRY):
        yield from _of_scene(scene, whole)


def _of_scene(scene: Scene, whole: _Together) -> Iterator[Motion]:
    """All that moves one way, onto what its picture shows and all that this is joined to."""
    by_way: dict[Vec, list[Key]] = {}
    for key, way in scene.moves.items():
        by_way.setdefault(way, []).append(key)
    for way, moved in by_way.items():
        on = [key for key in scene.context if key not in scene.moves]
        stays = whole.with_all(on) - set(moved) if on else frozenset(scene.new) - set(scene.moves)
        yield Motion(tuple(moved), way, tuple(sorted(stays)))


def _of_joining(joining: Joining, freedom: Freedom) -> Iterator[Motion]:
    """Unit after unit off the rest, as its joints let it go; the first that is free goes first."""
    left = list(joining.units)
    while len(left) > 1:
        able = [(unit, ways[0]) for unit in left if len(ways := ways_home(unit, left, joining.links)) == 1]
        off = [Motion(unit.keys, way, _rest(unit, left)) for unit, way in able]
        if not off:
            return
        free = (each for each in off if not _met(each, freedom))
        chosen = next(free, off[0])
        yield chosen
        left = [each for each in left if each.keys != chosen.moved]


def _met(motion: Motion, freedom: Freedom) -> bool:
    out = opposite(_rounded(motion.way))
    return freedom.knows(out) and bool(freedom.in_the_way(motion.moved, motion.stays, out))


def _rest(unit: Unit, left: Sequence[Unit]) -> tuple[Key, ...]:
    return tuple(key for each in left if each != unit for key in each.keys)


def _rounded(way: Vec) -> Vec:
    x, y, z = (round(each, 6) + 0.0 for each in way)
    return (x, y, z)


def _blocked(piece: Piece, task: Task, motion: Motion, met: Sequence[Key]) -> Diagnostic:
    moved, names = spoken(piece, motion.moved[0]), list(dict.fromkeys(spoken(piece, key) for key in met[:MOST_NAMED]))
    blockers = f"the {listed(names)} {'is' if len(names) == 1 else 'are'} in the way"
    return Diagnostic(
        "step-blocked",
        f'In "{task.id}" the {moved} cannot go to its place: {blockers}.',
        span=_where(piece, task, motion),
        label="meets what is there already",
        expected="a straight way to its place, clear of all that is joined by then",
        hints=("Let it come earlier (`before`), or join what is in the way after it.",),
    )


def _where(piece: Piece, task: Task, motion: Motion) -> Span:
    """The wish that moved the step, else the part."""
    wishes = [wish.origin for wish in piece.steps if wish.id in (task.id, *task.also) and (wish.after or wish.before)]
    return (*wishes, piece.part(motion.moved[0][0]).origin)[0]
