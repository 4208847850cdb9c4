"""Like work grouped into steps: one set-up of a tool, or one glue-up, is one step."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from planbuild.core.geometry import Axis, hull
from planbuild.derive.steps.assembly import Joining, is_assembled, piece_word
from planbuild.derive.steps.driven import driven_in
from planbuild.derive.steps.operations import Operation, Verb, operations
from planbuild.derive.steps.set_ups import KEYS, Key
from planbuild.records.features import Hole
from planbuild.records.hardware import SLIDE
from planbuild.records.openings import Block
from planbuild.records.piece import Coating, Joint, Part, Piece, Placed


@dataclass(frozen=True)
class Task:
    """A step before it has words and a number.

    `parts` are ids in the order of the piece; `operations` what is cut; `joining` the glue-up, `joints`
    and `placed` what is fitted, as far as the task is of that sort.
    """

    id: str
    verb: Verb
    parts: tuple[str, ...]
    operations: tuple[Operation, ...] = ()
    joining: Joining | None = None
    tries: Joining | None = None
    """What is put together dry."""
    joints: tuple[Joint, ...] = ()
    placed: tuple[Placed, ...] = ()
    alone: bool = False
    """True if what is placed is fixed to a part that stands already."""
    block: Block | None = None
    """The block that is tried in its opening."""
    joined: tuple[Task, ...] = ()
    """The steps that it was made of by the designer's wish, each with words of its own."""
    own: tuple[str, ...] = ()
    """What is done in a step of the designer's own."""
    also: tuple[str, ...] = ()
    """Other ids by which a design may call it: the same work by the name of any part in it."""


def tasks(piece: Piece, joinings: Sequence[Joining]) -> tuple[Task, ...]:
    """All steps of the piece, not yet in order."""
    return _told_apart((*_cutting(piece), *_assembling(piece, joinings), *_ending(piece, joinings)))


def _told_apart(found: Sequence[Task]) -> tuple[Task, ...]:
    """No two steps of one id: a later one of the same name is counted on (`glue.shelf`, `glue.shelf_2`).

    The panel of a shelf and the whole shelf are both glued, and a design may call both a shelf.
    """
    taken: dict[str, Task] = {}
    for each in found:
        names = (each.id, *(f"{each.id}_{number}" for number in range(2, len(found) + 2)))
        id = next(name for name in names if name not in taken)
        taken[id] = replace(each, id=id)
    return tuple(taken.values())


# ---------------------------------------------------------------- work on parts


_ONE_STEP = {Verb.ROUND: Verb.CHAMFER}
"""Work that shares a step: all edges are eased in one go."""


def _cutting(piece: Piece) -> tuple[Task, ...]:
    groups: dict[Key, list[Operation]] = {}
    for op in operations(piece):
        verb = _ONE_STEP.get(op.verb, op.verb)
        key = KEYS[verb](piece, op) if verb in KEYS else (op.part,)
        groups.setdefault((verb, *key), []).append(op)
    return tuple(_task(piece, group) for group in groups.values())


def _task(piece: Piece, group: list[Operation]) -> Task:
    verb = _ONE_STEP.get(group[0].verb, group[0].verb) if len({op.verb for op in group}) > 1 else group[0].verb
    parts = tuple(dict.fromkeys(op.part for op in group))
    thing = "stock" if verb is Verb.ROUGH else thing_of(piece, parts)
    also = tuple(f"{op.verb.word}.{op.part}" for op in group)
    return Task(f"{verb.word}.{thing}", verb, parts, tuple(group), also=also)


def thing_of(piece: Piece, parts: Sequence[str]) -> str:
    """How several parts are called in a step's id: the part itself, their common last word (`rail`) if no
    other part has it, their common stock if nothing else is cut from it, or the first of them."""
    if len(parts) == 1:
        return parts[0]
    tails = {each.split("_")[-1] for each in parts}
    others = {each.id.split("_")[-1] for each in piece.parts if each.id not in parts}
    if len(tails) == 1 and not tails & others:
        return tails.pop()
    stocks = {piece.part(each).stock for each in parts}
    whole = len(stocks) == 1 and all(p.id in parts for p in piece.parts if p.stock in stocks)
    return stocks.pop() if whole else parts[0]


# ---------------------------------------------------------------- putting together


def _assembling(piece: Piece, joinings: Sequence[Joining]) -> tuple[Task, ...]:
    if not joinings:
        return ()
    involved = {key[0] for each in joinings for group in each.groups for key in group}
    parts = tuple(each.id for each in piece.parts if each.id in involved and not each.made_by)
    return (*_dry_fits(piece, joinings), _prepare(piece, parts), *(_join(each) for each in joinings))


def _dry_fits(piece: Piece, joinings: Sequence[Joining]) -> Iterator[Task]:
    """One for each thing that stands by itself when it is glued: the base, the case, the doors."""
    for whole in (each for each in joinings if not any(holds(other, each) for other in joinings)):
        inside = {key[0] for group in whole.groups for key in group}
        parts = tuple(each.id for each in piece.parts if each.id in inside and not each.made_by)
        also = tuple(f"{Verb.DRY_FIT.word}.{each}" for each in parts)
        yield Task(f"{Verb.DRY_FIT.word}.{whole.id}", Verb.DRY_FIT, parts, tries=whole, also=also)


def holds(whole: Joining, part: Joining) -> bool:
    """Whether one glue-up takes in another as it is."""
    all_of = {key for group in whole.groups for key in group}
    return whole is not part and {key for group in part.groups for key in group} < all_of


def _prepare(piece: Piece, parts: tuple[str, ...]) -> Task:
    """Sanding before the glue, and the finish that cannot be put on later."""
    early = early_finish(piece)
    also = tuple(f"sand.{each}" for each in parts)
    if not early:
        return Task(f"sand.{piece_word(piece)}", Verb.PREPARE, parts, also=also)
    ids = tuple(dict.fromkeys(part.id for part, _ in early))
    also = (*also, f"sand.{piece_word(piece)}", *(f"prefinish.{each}" for each in ids))
    return Task(f"prefinish.{thing_of(piece, ids)}", Verb.PREPARE, parts, also=also)


def early_finish(piece: Piece) -> tuple[tuple[Part, Coating], ...]:
    """Parts that get their finish before the glue-up, with the finish."""
    return tuple((piece.part(id), coating) for coating in piece.coatings for id, _ in coating.before_gluing)


def _join(joining: Joining) -> Task:
    also = tuple(f"glue.{each}" for each in joining.parts)
    return Task(f"glue.{joining.id}", Verb.JOIN, joining.parts, joining=joining, also=also)


# ---------------------------------------------------------------- finish and fitting


def _ending(piece: Piece, joinings: Sequence[Joining]) -> tuple[Task, ...]:
    word = piece_word(piece)
    coated = any(each.everywhere for each in piece.coatings)
    everything = tuple(each.id for each in piece.parts if not each.made_by)
    done = {id for coating in piece.coatings for id, face in coating.before_gluing if face is None}
    also = tuple(f"finish.{each}" for each in everything)
    finish = Task(f"finish.{word}", Verb.FINISH, tuple(each for each in everything if each not in done), also=also)
    return (*_trying(piece), *([finish] if coated else []), *_fitting(piece, joinings))


def _trying(piece: Piece) -> tuple[Task, ...]:
    """One step for each sort of block that moves in its opening; what runs on slides is not fitted to wood."""
    slides = {each.id for each in piece.items if each.kind == SLIDE}
    hung = {each.on for each in piece.hardware if each.item in slides}
    moving = [each for each in piece.blocks if "." not in each.id and each.moves and not each.moves.trapped]
    loose = [each for each in moving if not hung & set(each.parts)]
    return tuple(Task(f"fit.{each.id}", Verb.TRY, each.parts, block=each) for each in loose)


def _fitting(piece: Piece, joinings: Sequence[Joining]) -> tuple[Task, ...]:
    """One step for each part that joints or hardware fix after the glue-ups, and for each that is only laid in place."""
    glued = {key[0] for each in joinings for group in each.groups for key in group}
    joints: dict[str, list[Joint]] = {}
    driven = driven_in(piece, joinings)
    for joint in piece.joints:
        carried = _carried(joint, glued)
        if carried and not is_assembled(piece, joint) and (joint.hardware or joint.makes) and joint.id not in driven:
            joints.setdefault(carried[0], []).append(joint)
    laid = [each.id for each in piece.parts if not each.made_by and each.id not in glued]
    things = [each.id for each in piece.parts if each.id in joints or each.id in laid]
    placed: dict[str, list[Placed]] = {}
    for each in piece.hardware:
        placed.setdefault(each.brings or each.on, []).append(each)
    last = {part: [each for each in several if is_tie(piece, each)] for part, several in placed.items()}
    placed = {part: [each for each in several if each not in last[part]] for part, several in placed.items()}
    alone = [each for part, several in placed.items() if part not in things for each in several]
    alone += [each for several in last.values() for each in several]
    return (*(_fit(id, joints.get(id, []), placed.get(id, [])) for id in things), *(_fix(piece, each) for each in alone))


def is_tie(piece: Piece, placed: Placed) -> bool:
    """Whether it ties the piece to the wall, so that it cannot fall over: that is done where it will stand."""
    return next(each.kind for each in piece.items if each.id == placed.item) == "tip restraint"


def _fix(piece: Piece, placed: Placed) -> Task:
    """Hardware on a part that is glued in: a step by its own name, or that of its part if a part is called so too."""
    taken = {each.id for each in piece.parts} | {each.id for each in piece.blocks}
    thing = placed.on if placed.id in taken else placed.id
    return Task(f"fit.{thing}", Verb.FIT, (placed.brings or placed.on,), placed=(placed,), alone=True)


def _carried(joint: Joint, glued: set[str]) -> list[str]:
    """What a joint fixes to the rest: its entering parts, or the other ones where these are glued in already."""
    entering = [contact.a[0] for contact in joint.contacts if contact.a[0] not in joint.makes]
    free = [contact.b[0] for contact in joint.contacts if contact.b[0] not in glued]
    return free if free and all(each in glued for each in entering) else entering


def _fit(id: str, joints: list[Joint], placed: list[Placed]) -> Task:
    made = [each for joint in joints for each in joint.makes]
    return Task(f"fit.{id}", Verb.FIT, (id, *dict.fromkeys(made)), joints=tuple(joints), placed=tuple(placed))


def fixed_from_below(piece: Piece, task: Task) -> bool:
    """Whether what a step fits comes down on the rest and is held from its underside, as the top of a table is.

    A case that is screwed down through its own bottom is not, nor is a top over a closed case: that is screwed on from
    inside, and nobody turns a cabinet over for it.
    """
    if over_a_case(piece, task):
        return False
    ways = [contact.insert for joint in task.joints for contact in joint.contacts if contact.a[0] == task.parts[0]]
    joints = {joint.id for joint in task.joints}
    holes = [f for f in piece.part(task.parts[0]).features if isinstance(f, Hole) and f.joint in joints]
    return bool(ways) and all(way[2] < -0.5 for way in ways) and not any(f.purpose == "clearance" for f in holes)


_COVERED = 0.6
"""A board under so large a share of a top closes what the top lies on (heuristic)."""


def over_a_case(piece: Piece, task: Task) -> bool:
    """Whether a top lies on a case that has a top board of its own, with which it is screwed together."""
    contacts = [each for joint in task.joints for each in joint.contacts if each.a[0] == task.parts[0]]
    if not contacts or any(each.insert[2] > -0.5 for each in contacts):
        return False
    plan = Axis.BOTTOM_TOP.others
    top = hull([piece.part(key[0]).box(key[1], piece.part(key[0]).body) for key in {each.a for each in contacts}])
    under = [piece.part(each.b[0]).box(each.b[1], piece.part(each.b[0]).body) for each in contacts]
    area = top.size(plan[0]) * top.size(plan[1])
    return any(each.size(plan[0]) * each.size(plan[1]) > _COVERED * area for each in under)


def brought_whole(piece: Piece, joinings: Sequence[Joining], task: Task) -> Joining | None:
    """What has a name of its own, was glued up by itself and is fixed to the rest by one of its parts: a case on its base."""
    if not joinings or task.verb is not Verb.FIT or task.alone or not task.joints:
        return None
    own = (task.parts[0], 0)
    if any(own in group for group in joinings[-1].groups):
        return None
    named = {each.id for each in piece.assemblies}
    found = [each for each in joinings if each.id in named and any(own in group for group in each.groups)]
    return max(found, key=lambda each: len(each.groups[0]), default=None)


def find(steps: Sequence[Task], id: str) -> Task | None:
    """The step of that id, or the one that does this work on a part of that name."""
    exact = next((each for each in steps if each.id == id), None)
    return exact or next((each for each in steps if id in each.also), None)
