"""Steps as the designer wants them: several joined into one, and steps of the designer's own among those that are planned."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace

from planbuild.core.diagnostics import Diagnostic
from planbuild.derive.steps.operations import Verb
from planbuild.derive.steps.precedence import Edge, edges, path
from planbuild.derive.steps.tasks import Task, find
from planbuild.records.piece import Piece, StepWish


def regrouped(piece: Piece, planned: Sequence[Task]) -> tuple[tuple[Task, ...], list[Diagnostic]]:
    """All steps.  Reports `step-join` for a step that cannot be one with another, `step-own` for one that cannot be added."""
    faults: list[Diagnostic] = []
    steps, rules = tuple(planned), list[Edge]()
    if any(wish.joined or wish.gathers for wish in piece.steps):
        rules = list(edges(piece, steps))
    for wish in piece.steps:
        for one, other in _pairs(wish, steps):
            told = apart(wish, one, other, rules)
            if told:
                faults.append(told)
                break
            steps = _with_joined(piece, steps, one, other)
            rules = _renamed(rules, one.id, other.id)
    for wish in piece.steps:
        if wish.own:
            told = _misplaced(wish, steps)
            faults += [told] if told else []
            steps = steps if told else (*steps, Task(wish.id, Verb.OWN, wish.parts, own=wish.own))
    return steps, faults


def _pairs(wish: StepWish, steps: Sequence[Task]) -> Iterable[tuple[Task, Task]]:
    """Which step is to go into which other one; those that are one already are left out."""
    goal = find(steps, wish.joined) if wish.joined else find(steps, wish.id) if wish.gathers else None
    if goal is None:
        return ()
    each = [find(steps, wish.id)] if wish.joined else [step for step in steps if step.verb is goal.verb]
    return _in_turn([step.id for step in each if step and step is not goal], goal.id, steps)


def _in_turn(ids: Sequence[str], goal: str, steps: Sequence[Task]) -> list[tuple[Task, Task]]:
    """The goal grows with each step that goes into it."""
    by_id = {step.id: step for step in steps}
    found, into = [], by_id[goal]
    for id in ids:
        found.append((by_id[id], into))
        into = _one(into, by_id[id], into.parts + by_id[id].parts)
    return found


def apart(wish: StepWish, one: Task, other: Task, rules: Sequence[Edge]) -> Diagnostic | None:
    """Why two steps cannot be one."""
    message = f'"{one.id}" and "{other.id}" cannot be one step'
    if one.verb is not other.verb or not one.operations or not other.operations:
        reason = "only like work on parts can be joined, such as two tapers"
        return Diagnostic("step-join", f"{message}: {reason}.", span=wish.origin, hints=("Leave it out, or use `after`.",))
    between = path(rules, one.id, other.id) or path(rules, other.id, one.id)
    if not between:
        return None
    chain = " before ".join(f'"{each}"' for each in (between[0].before, *(edge.after for edge in between)))
    reason = between[0].reason
    return Diagnostic("step-join", f"{message}: {reason[:1].lower()}{reason[1:]}", span=wish.origin, expected=chain)


def _with_joined(piece: Piece, steps: Sequence[Task], one: Task, other: Task) -> tuple[Task, ...]:
    place = {part.id: index for index, part in enumerate(piece.parts)}
    parts = tuple(sorted(dict.fromkeys((*other.parts, *one.parts)), key=place.__getitem__))
    whole = _one(other, one, parts)
    return tuple(whole if step.id == other.id else step for step in steps if step.id != one.id)


def _one(other: Task, one: Task, parts: tuple[str, ...]) -> Task:
    made_of = (*(other.joined or (other,)), *(one.joined or (one,)))
    also = tuple(dict.fromkeys((*other.also, one.id, *one.also)))
    return replace(other, parts=parts, operations=other.operations + one.operations, joined=made_of, also=also)


def _renamed(rules: Iterable[Edge], one: str, other: str) -> list[Edge]:
    names = {one: other}
    moved = [replace(edge, before=names.get(edge.before, edge.before), after=names.get(edge.after, edge.after)) for edge in rules]
    return [edge for edge in moved if edge.before != edge.after]


def _misplaced(wish: StepWish, steps: Sequence[Task]) -> Diagnostic | None:
    """An added step must have a name of its own and a place."""
    if find(steps, wish.id):
        message = f'The order of work has a step "{wish.id}" already.'
        return Diagnostic("step-own", message, span=wish.origin, hints=("Say it without `add`, or give it another name.",))
    if not wish.after and not wish.before:
        message = f'It is not said where "{wish.id}" stands in the order of work.'
        return Diagnostic("step-own", message, span=wish.origin, expected="`after` or `before`, with the id of a step")
    return None
