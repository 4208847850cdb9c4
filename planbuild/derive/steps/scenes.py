"""What the picture of a step shows: the part and what is cut on it, or what moves onto what."""

from __future__ import annotations

from collections.abc import Callable

from planbuild.core.geometry import Vec
from planbuild.derive.scene import Scene, State
from planbuild.derive.steps.assembly import Joining
from planbuild.derive.steps.job import Job
from planbuild.derive.steps.operations import Operation, Verb
from planbuild.derive.steps.tasks import Task
from planbuild.records.features import Chamfer, Hole, RoundOver
from planbuild.records.solids import Key


def scene_of(job: Job, task: Task, seen: set[str]) -> Scene | None:
    """The picture of a step, None if words say it better.  `seen` are parts already drawn by the same kind of step."""
    maker = _MAKERS.get(task.verb)
    return maker(job, task, seen) if maker else None


def scene_id(task: Task) -> str:
    return f"step.{task.id}"


# ---------------------------------------------------------------- one part, drawn large


def _cut(state: State) -> Callable[[Job, Task, set[str]], Scene]:
    """The part on which most is cut, of those that were not drawn before."""

    def make(job: Job, task: Task, seen: set[str]) -> Scene:
        fresh = [op for op in task.operations if op.part not in seen] or list(task.operations)
        op = max(fresh, key=lambda each: len(each.features))
        seen.add(op.part)
        features = tuple((op.part, f.id) for f in op.features)
        return Scene(scene_id(task), new=((op.part, 0),), features=features, state=state, close=True, marks=(op.part,))

    return make


def _edges(job: Job, task: Task, seen: set[str]) -> Scene:
    """The part with the widest chamfer or round-over."""

    def widest(op: Operation) -> float:
        sizes = [f.size if isinstance(f, Chamfer) else f.radius for f in op.features if isinstance(f, (Chamfer, RoundOver))]
        return max(sizes, default=0.0)

    part = max(task.operations, key=widest).part
    features = tuple((op.part, f.id) for op in task.operations if op.part == part for f in op.features)
    return Scene(scene_id(task), new=((part, 0),), features=features, close=True, marks=(part,))


# ---------------------------------------------------------------- parts that come together


def moves_of(joining: Joining) -> dict[Key, Vec]:
    """The way home of every copy that moves in the first group: all of a unit alike, then what is driven in."""
    return {key: way for unit, way in joining.outer for key in unit.keys} | dict(joining.made)


def _dry_fit(job: Job, task: Task, seen: set[str]) -> Scene:
    """How it looks when everything is home: the pictures of the glue-ups show the motions."""
    keys = tuple(key for unit in job.joinings[-1].units for key in unit.keys)
    fitted = tuple(key for key in keys if not job.piece.part(key[0]).made_by)
    return Scene(scene_id(task), new=fitted, marks=tuple(dict.fromkeys(key[0] for key in fitted)))


def _join(job: Job, task: Task, seen: set[str]) -> Scene | None:
    joining = task.joining
    if joining is None:
        return None
    added = set(joining.added)
    keys = [key for unit in joining.units for key in unit.keys] + [key for key, _ in joining.made]
    return Scene(
        scene_id(task),
        new=tuple(key for key in keys if key in added),
        context=tuple(key for key in keys if key not in added),
        moves=moves_of(joining),
        marks=joining.parts,
    )


def _fit(job: Job, task: Task, seen: set[str]) -> Scene:
    """The part above what carries it, what holds it already in place; its holes, so that the picture is taken from their side."""
    part = job.piece.part(task.parts[0])
    own = [(part.id, copy) for copy in range(len(part.copies))]
    made = [(id, copy) for id in task.parts[1:] for copy in range(len(job.piece.part(id).copies))]
    ways = [contact.insert for joint in task.joints for contact in joint.contacts if contact.a[0] == part.id]
    moves: dict[Key, Vec] = dict.fromkeys(own, ways[0] if ways else (0.0, 0.0, -1.0))
    context = [key for unit in job.joinings[-1].units for key in unit.keys] if job.joinings else []
    holes = tuple((part.id, f.id) for f in part.features if isinstance(f, Hole))
    return Scene(scene_id(task), new=(*own, *made), context=tuple(context), moves=moves, features=holes, marks=task.parts)


_MAKERS: dict[Verb, Callable[[Job, Task, set[str]], Scene | None]] = {
    Verb.MORTISE: _cut(State.JOINED),
    Verb.TENON: _cut(State.JOINED),
    Verb.MITRE: _cut(State.JOINED),
    Verb.KERF: _cut(State.JOINED),
    Verb.GROOVE: _cut(State.JOINED),
    Verb.RABBET: _cut(State.JOINED),
    Verb.BORE: _cut(State.JOINED),
    Verb.MAKE: _cut(State.SHAPED),
    Verb.TAPER: _cut(State.SHAPED),
    Verb.ARCH: _cut(State.SHAPED),
    Verb.CURVE: _cut(State.SHAPED),
    Verb.BEVEL: _cut(State.SHAPED),
    Verb.CHAMFER: _edges,
    Verb.ROUND: _edges,
    Verb.DRY_FIT: _dry_fit,
    Verb.JOIN: _join,
    Verb.FIT: _fit,
}
