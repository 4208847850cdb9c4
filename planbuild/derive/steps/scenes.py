"""What the picture of a step shows: the part and what is cut on it, or what moves onto what."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence

from planbuild.core.geometry import Vec
from planbuild.derive.lists.blanks import is_corner_key
from planbuild.derive.scene import Scene, Stage
from planbuild.derive.steps.arrivals import DOWN, laid_on_its_face, standing_on, way_home
from planbuild.derive.steps.assembly import Joining
from planbuild.derive.steps.job import Job
from planbuild.derive.steps.operations import Operation, Verb
from planbuild.derive.steps.tasks import Task, brought_whole
from planbuild.records.features import Chamfer, Hole, RoundOver
from planbuild.records.hardware import Placed, key_of
from planbuild.records.piece import Part
from planbuild.records.solids import Key


def scene_of(
    job: Job, task: Task, stages: Mapping[str, Stage], seen: set[str], brought: Sequence[Joining] = ()
) -> Scene | None:
    """The picture of a step, None if words say it better.  `stages` are those of its parts, `seen` are parts
    already drawn by the same kind of step, `brought` what was glued up by itself and is fitted by then."""
    if task.verb in _ON_A_PART:
        return _worked(task, stages, seen)
    if task.verb is Verb.FIT:
        return _fit(job, task, brought)
    maker = _TOGETHER.get(task.verb)
    return maker(job, task) if maker else None


def scene_id(task: Task) -> str:
    return f"step.{task.id}"


# ---------------------------------------------------------------- one part, drawn large


def _worked(task: Task, stages: Mapping[str, Stage], seen: set[str]) -> Scene:
    """The part on which most is cut, of those that were not drawn before; of eased edges the widest."""
    fresh = [op for op in task.operations if op.part not in seen] or list(task.operations)
    part = max(task.operations, key=_widest).part if task.verb in _EDGES else max(fresh, key=lambda op: len(op.features)).part
    seen |= set() if task.verb in _EDGES else {part}
    features = tuple(dict.fromkeys((part, f.id) for op in task.operations if op.part == part for f in op.features))
    return Scene(scene_id(task), new=((part, 0),), features=features, close=stages[part], marks=(part,))


def _widest(op: Operation) -> float:
    sizes = [f.size if isinstance(f, Chamfer) else f.radius for f in op.features if isinstance(f, (Chamfer, RoundOver))]
    return max(sizes, default=0.0)


# ---------------------------------------------------------------- parts that come together


def moves_of(joining: Joining) -> dict[Key, Vec]:
    """The way home of every copy that moves in the first group: all of a unit alike, then what is driven in."""
    return {key: way for unit, way in joining.outer for key in unit.keys} | dict(joining.made)


def _dry_fit(job: Job, task: Task) -> Scene:
    """How it looks when everything is home: the pictures of the glue-ups show the motions."""
    whole = task.tries or job.joinings[-1]
    keys = tuple(key for unit in whole.units for key in unit.keys)
    fitted = tuple(key for key in keys if not job.piece.part(key[0]).made_by)
    return Scene(scene_id(task), new=fitted, marks=tuple(dict.fromkeys(key[0] for key in fitted)))


def _join(job: Job, task: Task) -> Scene | None:
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


def _key_corners(job: Job, task: Task) -> Scene:
    """All keys on their way into the corners of what is glued."""
    keys = [part.id for part in job.parts(task.parts) if is_corner_key(job.piece, part)]
    ways = {c.a: c.insert for joint in job.piece.joints for c in joint.contacts if c.a[0] in keys}
    whole = [group for joining in job.joinings for group in joining.groups if any(key[0] in task.parts for key in group)]
    around = tuple(dict.fromkeys(key for group in whole for key in group))
    return Scene(scene_id(task), new=tuple(ways), context=around, moves=ways, marks=tuple(keys))


def _fit(job: Job, task: Task, brought: Sequence[Joining]) -> Scene:
    """The part and what carries it, what holds it already in place; its holes, so that the picture is taken from their side.

    What is fixed from below is drawn as it is done: the part lies on its face, the rest is set on it upside down.  What stays
    on the wall is there first, and the piece is let down on it.
    """
    part, over = job.piece.part(task.parts[0]), laid_on_its_face(job, task)
    own = _own(job, task, part)
    carrying = _standing(job, standing_on(job, task), brought)
    bought = tuple(key_of(placed, i) for placed in task.placed for i in range(len(placed.bought)))
    if task.alone:
        hung = _hung(job, task.placed[0])
        rest = tuple(key for key in carrying or own if key not in hung)
        return Scene(scene_id(task), new=tuple(hung), context=rest, moves=hung, bought=bought, marks=task.parts)
    made = [(id, copy) for id in task.parts[1:] for copy in range(len(job.piece.part(id).copies))]
    moves: dict[Key, Vec] = {key: way_home(job, task, part, key[1] if key[0] == part.id else 0) for key in own}
    if part.stays_on and carrying:
        moves = dict.fromkeys(carrying, DOWN)
    elif over and carrying:
        moves = dict.fromkeys([*carrying, *made], _UP)
    holes = tuple((part.id, f.id) for f in part.features if isinstance(f, Hole))
    return Scene(
        scene_id(task),
        new=(*own, *made),
        context=tuple(carrying),
        moves=moves,
        features=holes,
        over=over,
        bought=bought,
        marks=task.parts,
    )


def _standing(job: Job, carrying: list[Key], brought: Sequence[Joining]) -> list[Key]:
    """With what carries the part all that stands on one another by then, as a case on its base; what is still apart is not."""
    if not brought:
        return carrying
    together = [key for each in (job.joinings[-1], *brought) for group in each.groups for key in group]
    return list(dict.fromkeys([*carrying, *together])) if set(carrying) & set(together) else carrying


def _own(job: Job, task: Task, part: Part) -> list[Key]:
    """All that comes with a part: what it is glued to already, or its copies."""
    whole = brought_whole(job.piece, job.joinings, task) if job.joinings else None
    if whole is not None:
        return [key for group in whole.groups for key in group]
    return [(part.id, copy) for copy in range(len(part.copies))]


def _hung(job: Job, placed: Placed) -> dict[Key, Vec]:
    """A door that was glued up before it is hung, with the way home of all its parts; {} if nothing is brought."""
    moves: dict[Key, Vec] = {}
    for index, copy in enumerate(job.piece.part(placed.brings).copies if placed.brings else ()):
        key = (placed.brings, index)
        groups = [group for joining in job.joinings for group in joining.groups if key in group]
        apart = [group for group in groups if not any(part == placed.meets for part, _ in group)]
        whole: tuple[Key, ...] = max((*apart, (key,)), key=len)
        moves.update(dict.fromkeys(whole, copy.direction(placed.way)))
    return moves


def _try_in(job: Job, task: Task) -> Scene | None:
    """The blocks drawn out of their openings, seen from there; what is fitted after the glue-ups is not there yet."""
    block = task.block
    side = block.moves.goes_in or block.moves.opens or block.moves.swings if block and block.moves else None
    if block is None or side is None:
        return None
    moves: dict[Key, Vec] = {}
    glued = {key[0] for joining in job.joinings for group in joining.groups for key in group}
    for part in (each for each in job.parts(block.parts) if each.id in glued or not glued & set(block.parts)):
        for copy in range(len(part.copies)):
            out = block.motions[copy * len(block.motions) // len(part.copies)].face(side)
            turned = part.copies[copy].turned
            moves[part.id, copy] = turned.direction(out.opposite.normal) if turned else out.opposite.normal
    made_of = set(block.parts)
    built = glued - made_of
    rest = [part for part in job.piece.parts if part.id not in made_of and (part.id in built or not built)]
    around = [(part.id, copy) for part in rest for copy in range(len(part.copies))]
    return Scene(
        scene_id(task),
        new=tuple(moves),
        context=tuple(around),
        moves=moves,
        seen_from=(side.normal,),
        out=_OUT * block.box.size(side.axis),
        marks=task.parts,
    )


_OUT = 0.6
"""How far a block is drawn out of its opening, as a share of its depth: so that its sides are seen."""

_UP: Vec = (0.0, 0.0, 1.0)
_EDGES = (Verb.CHAMFER, Verb.ROUND)
_ON_A_PART = (
    *(Verb.EDGE,),
    *(Verb.SLOT, Verb.MORTISE, Verb.TENON, Verb.MITRE, Verb.KERF, Verb.KEY, Verb.PEG),
    *(Verb.HOUSE, Verb.LAP, Verb.GROOVE, Verb.RABBET, Verb.BORE, Verb.POCKET),
    *(Verb.TRENCH, Verb.TAIL, Verb.SOCKET, Verb.TAILS, Verb.PINS, Verb.FINGERS, Verb.ROWS, Verb.LET_IN, Verb.HINGE),
    *(Verb.MAKE, Verb.TAPER, Verb.ARCH, Verb.CURVE, Verb.BEVEL, *_EDGES),
    *(Verb.OUTLINE, Verb.CUT_OUT, Verb.NOTCH, Verb.CORNER, Verb.TURN, Verb.LEVEL, Verb.ROUND_TENON, Verb.DISH, Verb.MOULD),
)
"""Kinds of work that are drawn as one part, large."""

_TOGETHER: dict[Verb, Callable[[Job, Task], Scene | None]] = {
    Verb.DRY_FIT: _dry_fit,
    Verb.JOIN: _join,
    Verb.CORNERS: _key_corners,
    Verb.TRY: _try_in,
}
