"""From where a part that is fitted comes to its place: as its joints say, unless the solids show that it cannot.

A top is let down on its base; where a gallery stands over it, it is slid under that from the front.
"""

from __future__ import annotations

from collections.abc import Sequence

from planbuild.core.geometry import Face, Vec
from planbuild.derive.steps.job import Job
from planbuild.derive.steps.operations import Verb
from planbuild.derive.steps.slid_in import slid_in
from planbuild.derive.steps.tasks import Task, fixed_from_below
from planbuild.records.freedom import Freedom
from planbuild.records.piece import Part
from planbuild.records.solids import Key
from planbuild.together import opposite

DOWN: Vec = (0.0, 0.0, -1.0)
_TRIED = (Face.TOP, Face.FRONT, Face.BACK, Face.LEFT, Face.RIGHT, Face.BOTTOM)
"""The sides from which a part may come, the handiest first."""


def way_home(job: Job, task: Task, part: Part, copy: int) -> Vec:
    """The direction in which a copy goes to its place."""
    own = _said(job, task, part, copy)
    side = comes_from(job, task)
    return side.opposite.normal if side else own


def comes_from(job: Job, task: Task) -> Face | None:
    """The side from which the part of a step comes, where it cannot come as its joints say; None where it can, or where
    the solids know no better way."""
    part, freedom = job.piece.part(task.parts[0]), job.findings.freedom
    if freedom is None or task.alone:
        return None
    copies = [(part.id, copy) for copy in range(len(part.copies))]
    there = [*standing_on(job, task), *_fitted_before(job, task)]
    rest = [key for key in dict.fromkeys(there) if key not in copies]
    if not rest or all(_free(freedom, [key], rest, _said(job, task, part, key[1])) for key in copies):
        return None
    return next((side for side in _TRIED if _free(freedom, copies, rest, side.opposite.normal)), None)


def _fitted_before(job: Job, task: Task) -> list[Key]:
    """What other steps have put in its place by then."""
    ids = [each.id for each in job.order]
    earlier = job.order[: ids.index(task.id)] if task.id in ids else ()
    parts = dict.fromkeys(id for each in earlier if each.verb is Verb.FIT and not each.alone for id in each.parts)
    return [(id, copy) for id in parts for copy in range(len(job.piece.part(id).copies))]


def _free(freedom: Freedom, moved: Sequence[Key], rest: Sequence[Key], way: Vec) -> bool:
    """Whether it comes off again the other way; a way that was not looked along is taken as said."""
    x, y, z = (round(each, 6) + 0.0 for each in opposite(way))
    out = (x, y, z)
    return not freedom.knows(out) or not freedom.in_the_way(moved, rest, out)


def laid_on_its_face(job: Job, task: Task) -> bool:
    """Whether the rest is set on the part upside down, to fix it from below."""
    return fixed_from_below(job.piece, task) and comes_from(job, task) is None


def _said(job: Job, task: Task, part: Part, copy: int) -> Vec:
    """As its grooves or joints say, or the hardware that hangs or carries it, else down."""
    behind = slid_in(job.piece, part.id)
    if behind:
        return part.copies[copy].direction(behind.opposite.normal)
    contacts = [contact for joint in task.joints for contact in joint.contacts]
    ways = [each.insert for each in contacts if each.a[0] == part.id]
    ways += [opposite(each.insert) for each in contacts if each.b == (part.id, copy)]
    brought = [part.copies[copy].direction(each.way) for each in task.placed if each.brings == part.id]
    return (*ways, *brought, DOWN)[0]


def standing_on(job: Job, task: Task) -> list[Key]:
    """All that is joined to what carries the part: the last glue-ups in which that is, as both drawers for their knobs, else
    the very last."""
    on = {(each.on, copy) for each in task.placed for copy in range(len(job.piece.part(each.on).copies))}
    carriers = on if task.alone else {contact.b for joint in task.joints for contact in joint.contacts} - on
    largest: dict[Key, tuple[Key, ...]] = {}
    for joining in job.joinings:
        for group in joining.groups:
            largest |= {key: group for key in group if len(group) > len(largest.get(key, ()))}
    found = dict.fromkeys(key for each in sorted(carriers) for key in largest.get(each, ()))
    last = [key for unit in job.joinings[-1].units for key in unit.keys] if job.joinings else []
    return list(found) or last
