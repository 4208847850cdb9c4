"""Which step shows the photo of a thing: a block where it is glued up, hardware where it is fixed."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence

from planbuild.derive.steps.tasks import Task
from planbuild.records.photos import Photo
from planbuild.records.piece import Piece

Wanted = Callable[[Task], bool]


def photos_of_things(piece: Piece, tasks: Sequence[Task], hardware: Sequence[frozenset[str]]) -> Mapping[str, tuple[Photo, ...]]:
    """By the id of the step; what suits no step stands with the last glue-up.  `hardware` are the items of each step."""
    found: dict[str, tuple[Photo, ...]] = {}
    last = next((task for task in reversed(tasks) if task.joining), tasks[-1] if tasks else None)
    taken = dict(zip((task.id for task in tasks), hardware, strict=True))
    for photo, wishes in _things(piece, taken):
        task = next((task for wanted in wishes for task in tasks if wanted(task)), last)
        if task:
            found[task.id] = (*found.get(task.id, ()), photo)
    return found


def _things(piece: Piece, taken: Mapping[str, frozenset[str]]) -> Iterator[tuple[Photo, tuple[Wanted, ...]]]:
    """Each photo with the steps that would suit it, the best first."""
    pictured = [(each.id, each.photo) for each in piece.assemblies] + [(each.id, each.photo) for each in piece.blocks]
    for id, photo in pictured:
        if photo:
            parts = _parts_of(piece, id)
            yield photo, (_joins(id), _tries(id), _joins_all(parts), _works(parts))
    for opening in piece.openings:
        if opening.photo:
            filling = [block.id for block in piece.blocks if block.box == opening.box]
            yield opening.photo, tuple(suits(id) for suits in (_tries, _joins) for id in filling)
    for placed in piece.hardware:
        if placed.photo:
            yield placed.photo, (_fixes(placed.id), _takes(placed.item, taken), _works(frozenset({placed.on})))
    for item in piece.items:
        if item.photo:
            yield item.photo, (_takes(item.id, taken),)


def _parts_of(piece: Piece, id: str) -> frozenset[str]:
    blocks = [part for block in piece.blocks if block.id == id for part in block.parts]
    return frozenset(blocks or [part for each in piece.assemblies if each.id == id for group in each.groups for part, _ in group])


def _joins(id: str) -> Wanted:
    return lambda task: task.joining is not None and task.joining.id == id


def _joins_all(parts: frozenset[str]) -> Wanted:
    """The glue-up in which a block that is built into something is put together."""
    return lambda task: task.joining is not None and parts <= set(task.joining.parts)


def _tries(id: str) -> Wanted:
    return lambda task: task.block is not None and task.block.id == id


def _works(parts: frozenset[str]) -> Wanted:
    return lambda task: task.joining is None and not task.operations and bool(parts & set(task.parts))


def _fixes(id: str) -> Wanted:
    return lambda task: any(placed.id == id for placed in task.placed)


def _takes(item: str, taken: Mapping[str, frozenset[str]]) -> Wanted:
    return lambda task: item in taken[task.id]
