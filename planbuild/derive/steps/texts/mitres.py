"""Mitres: the ends cut on the slant, the slots of splines, and the keys of corners that are glued already."""

from __future__ import annotations

from planbuild.derive import phrases
from planbuild.derive.lists.blanks import is_corner_key
from planbuild.derive.steps.job import Draft, Job, Use, features_of, said, same
from planbuild.derive.steps.operations import Verb
from planbuild.derive.steps.tasks import Task
from planbuild.derive.steps.texts import slants
from planbuild.records.corner_slots import CornerSlot
from planbuild.records.piece import Part
from planbuild.records.slanted import EndCut


def trim(job: Job, task: Task) -> Draft:
    """Ends that lean by their own word, or mitres: those of all parts at one setting of the saw."""
    if not all(f.joint for op in task.operations for f in op.features):
        return slants.trim(job, task)
    angles = {id: _angles(task, id) for id in task.parts}
    settings = phrases.listed(dict.fromkeys(angle for each in angles.values() for angle in each))
    longs = {part.id: job.size(part.finished[0]) for part in job.parts(task.parts)}
    texts = [(id, f"{phrases.listed(angles[id])}, {longs[id]} long outside") for id in task.parts]
    return Draft(
        title=f"Cut the mitres of the {job.kind(task.parts)}",
        actions=said(
            f"Set the saw to {settings} on scrap: two cut pieces laid together must make the corner true",
            "Mitre one end of each part, the long side outside",
            "Clamp a stop for the other end; cut like parts one after another, so that they are equally long",
            "Plane them to the line on a shooting board where the saw has left marks",
        ),
        sizes=tuple(f"{job.marks(ids)} {text}" for ids, text in same(texts)),
        check="Each two mitres close without light, and the corner is square inside and outside.",
        uses=(Use("mitre_ends"),),
    )


def _angles(task: Task, part: str) -> list[str]:
    cuts = [each for each in features_of(task, Verb.TRIM, part) if isinstance(each, EndCut)]
    return list(dict.fromkeys(f"{each.from_square:.4g}\u00b0" for each in cuts))


def slot(job: Job, task: Task) -> Draft:
    slots = {part.id: _slots(task, Verb.SLOT, part.id) for part in job.parts(task.parts)}
    first = next(each for several in slots.values() for each in several)
    part = job.piece.part(task.parts[0])
    flat = first.across.size < part.body.size(first.axis) - 1e-6
    where = "in the middle of the thickness, the face side always against the fence"
    if not flat:
        where = f"its inner wall {job.size(first.mitre(part.body) - first.stop)} from the inner corner"
    texts = [(id, _slot_words(job, each[0])) for id, each in slots.items()]
    return Draft(
        title="Cut the slots for the splines",
        actions=said(
            f"Set a blade or straight cutter {job.size(first.thickness)} wide and {_deep(job, first)} high; try it on scrap",
            "Hold each part so that its mitre lies flat on the table",
            f"Cut the slot along each mitre, {where}",
        ),
        sizes=tuple(f"{job.marks(ids)} {text}" for ids, text in same(texts)),
        check="A strip as thick as the spline slides in by hand, and the two mitres still close over it.",
        uses=(Use("mitre_slots", (("width", job.with_unit(first.thickness)),)),),
    )


def _slots(task: Task, verb: Verb, part: str) -> list[CornerSlot]:
    return [each for each in features_of(task, verb, part) if isinstance(each, CornerSlot)]


def _deep(job: Job, slot: CornerSlot) -> str:
    return job.size(slot.stop if slot.deep is None else slot.deep)


def _slot_words(job: Job, slot: CornerSlot) -> str:
    return f"slots {job.size(slot.thickness)} wide, {_deep(job, slot)} deep, for {phrases.mark(slot.mate.part)}"


def key(job: Job, task: Task) -> Draft:
    """Sawn across the corner as it stands, so that both halves of a slot line up."""
    keys = [part for part in job.parts(task.parts) if is_corner_key(job.piece, part)]
    cut = {id: _slots(task, Verb.CORNERS, id) for id in task.parts}
    first = next(each for several in cut.values() for each in several)
    marks = job.marks(part.id for part in keys)
    texts = [(id, _slot_words(job, each[0])) for id, each in cut.items() if each]
    return Draft(
        title=f"Key the corners with the {job.kind(part.id for part in keys)}",
        actions=said(
            "Make a cradle that holds the corner straight over the saw, both outer faces against it",
            f"Set the blade {_deep(job, first)} above the bottom of the cradle; saw all corners at each setting of the fence",
            f"Glue {marks} in, grain across the corner, home on the bottom of the slots; leave them standing proud",
            "Once dry saw them off close to both faces, and plane them flush from the corner inward",
        ),
        sizes=tuple(f"{job.marks(ids)} {text}" for ids, text in same(texts)),
        check="No key shows a gap along its sides or at its bottom.",
        wait=f"{phrases.time_text(job.piece.glue.clamp_time)} before they are trimmed.",
        uses=(Use("corner_keys"),),
    )


def make(job: Job, part: Part) -> Draft:
    """Splines and keys: thin wood whose grain runs the short way, across the joint."""
    length, width, thickness = part.finished
    wood, keys = job.piece.stock_of(part).species, is_corner_key(job.piece, part)
    shape = "Saw them to triangles a little larger than drawn, the grain along the long side"
    strips = f"Saw strips {job.size(length)} wide off its end, so that the grain runs across; cut them {job.size(width)} long"
    into = "a saw cut in scrap" if keys else "its slot"
    return Draft(
        title=f"Make the {phrases.counted(len(part.copies), part.name)}",
        actions=said(
            f"Plane {wood} to {job.size(thickness)} thick, until it slides into {into} by hand",
            shape if keys else strips,
            "" if keys or not part.features else "Cut the outer end to a point; the rest is trimmed flush when it is in",
        ),
        sizes=(f"{phrases.mark(part.id)} {job.sizes(thickness, width)}, {job.size(length)} along the grain",),
        check="Each slides in under the pressure of a thumb, and does not fall out.",
        uses=(Use("strip"),),
    )
