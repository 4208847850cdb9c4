"""One order of the steps that keeps all rules and every wish that can be kept; the same input gives the same order."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from planbuild.core.diagnostics import Diagnostic
from planbuild.core.spelling import did_you_mean
from planbuild.derive.steps.operations import Phase
from planbuild.derive.steps.precedence import Edge, edges, path
from planbuild.derive.steps.regroup import regrouped
from planbuild.derive.steps.tasks import Task, find
from planbuild.records.piece import Piece, StepWish

MOST_NAMED = 40
"""Steps named in a message; a large piece has hundreds."""


@dataclass(frozen=True)
class Placed:
    """A step in its place: the phase under which it is printed, and why it stands here."""

    task: Task
    phase: Phase
    reason: str


@dataclass(frozen=True)
class Order:
    """`wishes` gives the wish for a step by the step's id."""

    steps: tuple[Placed, ...]
    wishes: Mapping[str, tuple[StepWish, ...]]
    diagnostics: tuple[Diagnostic, ...]


def put_in_order(piece: Piece, planned: Sequence[Task]) -> Order:
    """Reports `step-unknown` for a wish about a step that is not there, `step-order` for one that cannot be kept, and
    what `regrouped` reports."""
    steps, faults = regrouped(piece, planned)
    rules = list(edges(piece, steps))
    wishes, unknown = _meant(piece, steps)
    faults += unknown
    kept = list(rules)
    for wish, edge in _wished(piece, steps, wishes):
        if edge.before == edge.after:
            faults.append(_itself(steps, wish, edge.before))
            continue
        against = path(kept, edge.after, edge.before)
        if against:
            faults.append(_refused(wish, edge, against))
        else:
            kept.append(edge)
    return Order(_placed(_sorted(piece, steps, kept), kept), wishes, tuple(faults))


# ---------------------------------------------------------------- wishes


def _meant(piece: Piece, steps: Sequence[Task]) -> tuple[dict[str, tuple[StepWish, ...]], list[Diagnostic]]:
    wishes: dict[str, tuple[StepWish, ...]] = {}
    faults: list[Diagnostic] = []
    for wish in piece.steps:
        step = find(steps, wish.id)
        if step is None and wish.own:
            continue
        if step:
            wishes[step.id] = (*wishes.get(step.id, ()), wish)
        for id in (wish.id, *wish.after, *wish.before, *([wish.joined] if wish.joined else [])):
            if find(steps, id) is None:
                faults.append(_unknown(steps, wish, id))
    return wishes, faults


def _wished(piece: Piece, steps: Sequence[Task], wishes: Mapping[str, tuple[StepWish, ...]]) -> list[tuple[StepWish, Edge]]:
    found = []
    for own, several in wishes.items():
        for wish in several:
            pairs = [(find(steps, id), True) for id in wish.after] + [(find(steps, id), False) for id in wish.before]
            for other, comes_first in pairs:
                if other:
                    ends = (other.id, own) if comes_first else (own, other.id)
                    found.append((wish, Edge(*ends, "")))
    return found


def _unknown(steps: Sequence[Task], wish: StepWish, id: str) -> Diagnostic:
    known = [name for each in steps for name in (each.id, *each.also)]
    return Diagnostic(
        "step-unknown",
        f'There is no step "{id}" in the order of work.',
        span=wish.origin,
        label="no such step",
        expected="one of " + ", ".join([each.id for each in steps][:MOST_NAMED] + ["..."] * (len(steps) > MOST_NAMED)),
        hints=did_you_mean(id, known),
    )


def _itself(steps: Sequence[Task], wish: StepWish, own: str) -> Diagnostic:
    """Either named twice, or by two of the parts that are worked on in one step."""
    names = {id: None for id in (wish.id, *wish.after, *wish.before) if (step := find(steps, id)) and step.id == own}
    one, *others = (f'"{id}"' for id in names)
    message = f"{one} is asked to come before or after itself."
    if others:
        message = f'{one} and {others[0]} are one step, "{own}": their parts are worked on together, none before the other.'
    hint = "Leave it out of `after` and `before`, or name another step."
    return Diagnostic("step-order", message, span=wish.origin, label="cannot be kept", hints=(hint,))


def _refused(wish: StepWish, edge: Edge, against: list[Edge]) -> Diagnostic:
    reason = next((each.reason for each in against if each.reason), "another wish asks for the contrary")
    chain = " before ".join(f'"{each}"' for each in (against[0].before, *(edge.after for edge in against)))
    return Diagnostic(
        "step-order",
        f'"{edge.before}" before "{edge.after}" cannot be: {reason[:1].lower()}{reason[1:].rstrip(".")}.',
        span=wish.origin,
        label="cannot be kept",
        expected=chain,
        hints=("Leave this `after` or `before` out, or ask for an order that keeps the rule.",),
    )


# ---------------------------------------------------------------- sorting


def _sorted(piece: Piece, steps: Sequence[Task], kept: Sequence[Edge]) -> list[Task]:
    """Of the steps that are free, the first by phase, then by kind of work, then by part."""
    place = {part.id: index for index, part in enumerate(piece.parts)}
    own = {wish.id: wish for wish in piece.steps if wish.own}

    def rank(task: Task) -> tuple[int, int, int, str]:
        """A step of the designer's own stands right after the last one that it is to follow, or right before the first."""
        if task.own and own[task.id].after:
            return -1, 0, 0, task.id
        target = find(steps, own[task.id].before[0]) if task.own else None
        if target and not target.own:
            return *rank(target)[:3], ""
        first = min((place[each] for each in task.parts), default=len(place))
        return task.verb.phase.rank, task.verb.rank, first, task.id

    left, done = sorted(steps, key=rank), list[Task]()
    while left:
        waiting = {each.id for each in left}
        free = next(each for each in left if not any(edge.after == each.id and edge.before in waiting for edge in kept))
        left.remove(free)
        done.append(free)
    return done


def _placed(ordered: Sequence[Task], kept: Sequence[Edge]) -> tuple[Placed, ...]:
    """A step that a wish has moved is printed under the phase that has begun by then."""
    rank, placed = {task.id: index for index, task in enumerate(ordered)}, list[Placed]()
    phase = Phase.STOCK
    for task in ordered:
        phase = max(phase, task.verb.phase, key=lambda each: each.rank)
        before = [edge for edge in kept if edge.after == task.id and edge.reason]
        last = max(before, key=lambda edge: rank[edge.before], default=None)
        placed.append(Placed(task, phase, last.reason if last else ""))
    return tuple(placed)
