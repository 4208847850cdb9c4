"""Keys: in the tip of a tenon, its mortise and how it is driven home; across a seam, how it is made."""

from __future__ import annotations

from planbuild.derive import phrases
from planbuild.derive.steps.job import Draft, Job, Use, features_of, said, same
from planbuild.derive.steps.operations import Verb
from planbuild.derive.steps.tasks import Task
from planbuild.records.features import Tenon
from planbuild.records.piece import Part
from planbuild.records.tenon_work import Keyway


def key(job: Job, task: Task) -> Draft:
    part = job.piece.part(task.parts[0])
    tenons = [each for each in features_of(task, Verb.KEY, part.id) if isinstance(each, Tenon)]
    found = [(each, each.keyway) for each in tenons if each.keyway]
    way, mates = found[0][1], job.marks(each.mate.part for each in tenons)
    texts = [(part.id, _size_words(job, each, keyway)) for each, keyway in found]
    near, far = (phrases.facing(part, face, job.piece) for face in (way.face, way.face.opposite))
    return Draft(
        title=f"Cut the key mortises in the tenons of the {job.kind(task.parts)}",
        actions=said(
            f"Push each tenon home, and draw a line on it along the far face of {mates}",
            f"Mark the mortise from the shoulder on the {near} face: it begins inside that line",
            f"Mark it on the {far} face too, where it is shorter",
            "Drill out the waste; pare the inner wall square, the outer wall in a slope from one mark to the other",
        ),
        sizes=tuple(f"{job.marks(ids)} {text}" for ids, text in same(texts)),
        check=f"With the shoulder tight against {mates}, the line on the tenon stands clear of the inner wall.",
        uses=(Use("key", (("width", job.with_unit(way.width)),)),),
    )


def _size_words(job: Job, tenon: Tenon, way: Keyway) -> str:
    long = f"{job.size(way.length)} long where the key goes in, {job.size(way.length_at(tenon.block.size(way.face.axis)))} below"
    return f"key mortise {job.size(way.width)} wide, {job.size(way.start)} from the shoulder, {long}"


def drive(marks: str) -> str:
    """The last action of a joining that keys hold."""
    return f"Set {marks} in from the wide end of their mortises; drive them in turn until all shoulders are tight, no glue"


def let_in(job: Job, part: Part) -> Draft:
    """A butterfly or a bar: it comes first, since its recess is knifed round it."""
    length, width, thickness = part.finished
    return Draft(
        title=f"Make the {phrases.counted(len(part.copies), part.name)}",
        actions=said(
            f"Plane {job.piece.stock_of(part).species} a little over {job.size(thickness)} thick, the grain along the key",
            "Glue the drawn outline on; saw beside the line and pare to it" if part.features else "Saw the bars to size",
            "Ease the lower edges a little, so that they start by hand",
            "Number each key, and knife its recess round it where it will lie",
        ),
        sizes=(f"{phrases.mark(part.id)} {job.sizes(thickness, width)}, {job.size(length)} long along the grain",),
        check="The sides are square to the face; each key lies across its seam with as much on either side.",
        uses=(Use("strip"),),
    )
