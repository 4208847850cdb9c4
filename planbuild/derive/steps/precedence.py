"""What must come before what in a piece, and why: where the rules of the trade hold."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

from planbuild.derive.steps.operations import Verb
from planbuild.derive.steps.rules import RULES, Scope
from planbuild.derive.steps.tasks import Task, fixed_from_below, is_tie, over_a_case
from planbuild.records.features import Hole, Mortise, Tenon
from planbuild.records.piece import Piece
from planbuild.records.slanted import AngledMortise
from planbuild.records.tails import Sockets, Tails


@dataclass(frozen=True)
class Edge:
    """Step `before` (id) comes before step `after` (id)."""

    before: str
    after: str
    reason: str


def edges(piece: Piece, steps: Sequence[Task]) -> tuple[Edge, ...]:
    """Every pair of steps that a rule puts in order, each pair once, with the reason of the first such rule."""
    found: dict[tuple[str, str], Edge] = {}
    for edge in _all_edges(piece, steps):
        found.setdefault((edge.before, edge.after), edge)
    return tuple(found.values())


def path(kept: Sequence[Edge], start: str, goal: str) -> list[Edge]:
    """The shortest chain of edges from one step to another, [] if there is none."""
    reached: dict[str, list[Edge]] = {start: []}
    edge_of_search = [start]
    while edge_of_search:
        here = edge_of_search.pop(0)
        for edge in kept:
            if edge.before == here and edge.after not in reached:
                reached[edge.after] = [*reached[here], edge]
                edge_of_search.append(edge.after)
    return reached.get(goal, [])


def _all_edges(piece: Piece, steps: Sequence[Task]) -> Iterator[Edge]:
    for rule in RULES:
        for first in steps:
            for second in steps:
                named = first is not second and _is_one_of(first, rule.before) and _is_one_of(second, rule.after)
                if named and _HOLDS[rule.scope](piece, first, second):
                    yield Edge(first.id, second.id, rule.reason)


def _is_one_of(task: Task, verbs: frozenset[Verb]) -> bool:
    return task.verb in verbs or any(op.verb in verbs for op in task.operations)


def _same_part(piece: Piece, first: Task, second: Task) -> bool:
    return bool(set(first.parts) & set(second.parts))


_ENTERED = Mortise | AngledMortise | Tails | Sockets


def _mate(piece: Piece, first: Task, second: Task) -> bool:
    """What the first cuts is for a part on which the second cuts the other half."""
    entered = {(f.joint, f.mate.part) for op in first.operations for f in op.features if isinstance(f, _ENTERED)}
    entering = {(f.joint, op.part) for op in second.operations for f in op.features if isinstance(f, Tenon | Tails | Sockets)}
    pegs = _pegged(first, Hole) & _pegged(second, Tenon) if second.verb is Verb.PEG else set()
    return bool(entered & entering or pegs)


def _marked(piece: Piece, first: Task, second: Task) -> bool:
    """The first cuts what a joint wants first, the second its other half."""
    one, other = ({f.joint for op in task.operations for f in op.features} for task in (first, second))
    wanted = {each.id for each in piece.joints if each.operations[:1] == (first.verb.word,)}
    return bool(one & other & wanted) and _mate(piece, first, second)


def _pegged(task: Task, kind: type[Hole | Tenon]) -> set[str]:
    """The joints for whose pegs a step bores that half."""
    features = [f for op in task.operations for f in op.features if isinstance(f, kind)]
    return {f.joint for f in features if (isinstance(f, Tenon) and f.pegs) or (isinstance(f, Hole) and f.purpose == "peg")}


def _same_joint(piece: Piece, first: Task, second: Task) -> bool:
    """The second makes a part for a joint on which the first works."""
    wanted = {piece.part(op.part).made_by for op in second.operations}
    return bool(wanted & {f.joint for op in first.operations for f in op.features})


def _inside(piece: Piece, first: Task, second: Task) -> bool:
    if first.joining is None or second.joining is None:
        return False
    joined = {key for group in first.joining.groups for key in group}
    return joined < {key for group in second.joining.groups for key in group}


def _under(piece: Piece, first: Task, second: Task) -> bool:
    """Contacts that close downward or upward tell which lies on which; heights rise, so that no circle can come of it."""
    contacts = [contact for joint in piece.joints for contact in joint.contacts if abs(contact.insert[2]) > 0.5]
    pairs = {(c.b[0], c.a[0]) if c.insert[2] < 0 else (c.a[0], c.b[0]) for c in contacts}
    whole = [{key[0] for group in each.groups for key in group} for each in piece.assemblies if not each.of_block]
    if second.joints and any(first.parts[0] in own and any((id, second.parts[0]) in pairs for id in own) for own in whole):
        return second.parts[0] not in {id for own in whole for id in own}
    return (first.parts[0], second.parts[0]) in pairs and (second.parts[0], first.parts[0]) not in pairs


def _on_wall(piece: Piece, task: Task) -> bool:
    return bool(piece.part(task.parts[0]).stays_on)


def _ties(piece: Piece, task: Task) -> bool:
    """Whether a step only ties what stands on the floor to the wall."""
    return task.alone and all(is_tie(piece, each) for each in task.placed)


_HOLDS: dict[Scope, Callable[[Piece, Task, Task], bool]] = {
    Scope.PART: _same_part,
    Scope.MATE: _mate,
    Scope.MARKED: _marked,
    Scope.JOINT: _same_joint,
    Scope.MADE: lambda piece, first, second: _same_joint(piece, second, first),
    Scope.INSIDE: _inside,
    Scope.UNDER: _under,
    Scope.CLOSED_IN: lambda piece, first, second: first.alone and not second.alone and fixed_from_below(piece, second),
    Scope.INTO_CASE: lambda piece, first, second: over_a_case(piece, first) and any(each.brings for each in second.placed),
    Scope.HUNG: lambda piece, first, second: _on_wall(piece, first) and any(each.brings for each in second.placed),
    Scope.WALL: lambda piece, first, second: _ties(piece, second) and not _ties(piece, first),
    Scope.ALL: lambda piece, first, second: True,
}
