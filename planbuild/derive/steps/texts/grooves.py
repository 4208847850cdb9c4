"""Grooves, steps along edges, and holes."""

from __future__ import annotations

from planbuild.core.units import drill_text
from planbuild.derive import phrases
from planbuild.derive.lists.measures import groove_size, rabbet_size
from planbuild.derive.steps.job import Draft, Job, Use, features_of, said, same
from planbuild.derive.steps.operations import Verb
from planbuild.derive.steps.tasks import Task
from planbuild.records.features import Groove, Hole, Rabbet, Tenon
from planbuild.records.piece import Part


def groove(job: Job, task: Task) -> Draft:
    parts = job.parts(task.parts)
    grooves = [(part, each) for part in parts for each in features_of(task, Verb.GROOVE, part.id) if isinstance(each, Groove)]
    widths = dict.fromkeys(job.with_unit(groove_size(part, each).width) for part, each in grooves)
    texts = [(part.id, _groove_words(job, part, each)) for part, each in grooves]
    ends = any(isinstance(f, Tenon) for part in parts for f in part.features)
    stopped = any(groove_size(part, each).stopped for part, each in grooves)
    run = ", from shoulder to shoulder" if ends and not stopped else ", between the marks" if stopped else ""
    return Draft(
        title=f"Groove the {job.kind(task.parts)}{_purpose(job, grooves[0][1])}",
        actions=said(
            f"Mark on {phrases.the_all(parts)} the face that gets the groove",
            "Set fence and depth on an offcut; keep the fence against the listed edge",
            f"Cut to depth in two passes{run}",
        ),
        sizes=tuple(f"{job.marks(ids)} {text}" for ids, text in same(texts)),
        check="One marked strip shows the same depth, and the same distance from the edge, on every part.",
        uses=tuple(Use("groove", (("width", each),)) for each in widths),
    )


def _groove_words(job: Job, part: Part, groove: Groove) -> str:
    size = groove_size(part, groove)
    edge, face = (phrases.facing(part, each, job.piece) for each in (size.edge, groove.face))
    return f"{face} face: {job.size(size.width)} wide, {job.size(size.depth)} deep, {job.size(size.inset)} from the {edge} edge"


def _purpose(job: Job, groove: Groove) -> str:
    made = job.parts(job.joint(groove.joint).makes) if groove.joint else []
    if made:
        return f" for the {phrases.listed(phrases.plural(each.name) for each in made)}"
    return f" for the {job.piece.part(groove.mate.part).name}" if groove.mate else ""


def rabbet(job: Job, task: Task) -> Draft:
    part = job.piece.part(task.parts[0])
    sizes = [rabbet_size(each) for each in features_of(task, Verb.RABBET, part.id) if isinstance(each, Rabbet)]
    lines = [[f"{job.size(depth)} from the {face.value} face" for face, depth in (each.first, each.second)] for each in sizes]
    return Draft(
        title=f"Cut the step along the edge of the {job.kind(task.parts)}",
        actions=said(
            f"Gauge both depths on {phrases.the(part)} from the two faces of the edge",
            "Saw to the lines; plane the corner clean",
        ),
        sizes=tuple(f"{phrases.mark(part.id)} {' and '.join(each)}" for each in lines),
        check="The step is square, and its depth alike from end to end.",
        uses=(Use("rabbet"),),
    )


def bore(job: Job, task: Task) -> Draft:
    part = job.piece.part(task.parts[0])
    holes = [each for each in features_of(task, Verb.BORE, part.id) if isinstance(each, Hole)]
    drills = dict.fromkeys(drill_text(each.diameter, job.edition.ruler) for each in holes)
    return Draft(
        title=f"Bore the holes of the {job.kind(task.parts)}",
        actions=said(
            f"Mark the holes of {phrases.the(part)} from its sheet ([[sheet:{part.id}]]); prick their centres",
            "Drill square to the face, scrap under the work, to a depth stop where a hole does not go through",
        ),
        sizes=tuple(dict.fromkeys(_hole_words(job, part, each) for each in holes)),
        check="Every hole is on its mark, and none has come through that should not.",
        uses=tuple(Use("bore", (("diameter", f"{each} {job.edition.ruler.unit.symbol}"),)) for each in drills),
    )


def _hole_words(job: Job, part: Part, hole: Hole) -> str:
    deep = "through" if hole.depth is None else f"{job.size(hole.depth)} deep"
    drill = drill_text(hole.diameter, job.edition.ruler)
    return f"{phrases.mark(part.id)} {phrases.facing(part, hole.face, job.piece)} face: {drill} drill, {deep}"
