"""Ends, shoulders and mortises that are not square to their part."""

from __future__ import annotations

import math

from planbuild.derive import phrases
from planbuild.derive.steps.job import Draft, Job, Use, features_of, said
from planbuild.derive.steps.operations import Verb
from planbuild.derive.steps.tasks import Task
from planbuild.records.piece import Part
from planbuild.records.slanted import NO_ANGLE, AngledMortise, EndCut


def trim(job: Job, task: Task) -> Draft:
    """Ends that are not square to the grain: before anything is measured from them."""
    part = job.piece.part(task.parts[0])
    cuts = [each for each in features_of(task, Verb.TRIM, part.id) if isinstance(each, EndCut)]
    compound = any(all(abs(angle) > NO_ANGLE for _, angle in each.slopes) for each in cuts)
    return Draft(
        title=f"Cut the slanted ends of the {job.kind(task.parts)}",
        actions=said(
            "Set a sliding bevel to each angle; knife the line round all four faces from the longest corner",
            "Set the mitre and the tilt of the saw on scrap until the cut follows both lines" if compound else "",
            "Saw on the waste side and plane to the lines",
        ),
        sizes=tuple(end_line(part, each, "end") for each in cuts),
        check="The sliding bevel shows no light on any face; mirrored parts lie against each other as mirror images.",
        uses=(Use("trim"),),
    )


def level(job: Job, task: Task) -> Draft:
    """The same on what is turned: it has no faces to draw lines on."""
    part = job.piece.part(task.parts[0])
    cuts = [each for each in features_of(task, Verb.LEVEL, part.id) if isinstance(each, EndCut)]
    return Draft(
        title=f"Saw the slanted ends of the turned {job.kind(task.parts)}",
        actions=said(
            f"Mark on each end of {job.marks(task.parts)} where its faces were, front toward the front",
            "Lay it in a notched cradle, that mark up; set a sliding bevel to each angle and tilt the cradle under the saw by it",
            "Saw; plane the end until it stands flat",
        ),
        sizes=tuple(end_line(part, each, "end") for each in cuts),
        check="Stood on its end, each part leans as the sheet says; mirrored parts lean against each other as mirror images.",
        uses=(Use("trim"),),
    )


def end_line(part: Part, cut: EndCut, what: str) -> str:
    """Each angle with the faces on which it is drawn, and the face that stays longer."""
    shown = [(axis, angle, next(a for a in cut.end.axis.others if a is not axis)) for axis, angle in cut.slopes]
    drawn = [
        f"{round(abs(angle), 1):g}° on the {on.low.value} and {on.high.value}, longer at the {cut.longer(axis).value}"
        for axis, angle, on in shown
        if abs(angle) > NO_ANGLE
    ]
    return f"{phrases.mark(part.id)} {cut.end.value} {what}, off square: {'; '.join(drawn)}"


def slanted_shoulders(job: Job, task: Task, verb: Verb) -> list[str]:
    """The angles of the slanted shoulders of a step, like ones in one line."""
    cuts = [(part, f) for part in job.parts(task.parts) for f in features_of(task, verb, part.id) if isinstance(f, EndCut)]
    return list(dict.fromkeys(end_line(part, each, "shoulder") for part, each in cuts))


def angle_words(part: Part, mortise: AngledMortise) -> str:
    """How its lines run on the face, and how it leans inward."""
    run = part.grain if part.grain in mortise.face.axis.others else mortise.face.axis.others[0]
    off, words = mortise.off(run), []
    if NO_ANGLE < off < 90 - NO_ANGLE:
        words.append(f"long sides {round(off, 1):g}° to {'the grain' if run is part.grain else run.words}")
    leans = [(axis, mortise.lean(axis)) for axis in mortise.face.axis.others]
    told = [f"{round(abs(a), 1):g}° to the {(x.high if a > 0 else x.low).value}" for x, a in leans if abs(a) > NO_ANGLE]
    if told:
        words.append(f"its inner end leans {phrases.listed(told)}{_sightline(mortise) if len(told) > 1 else ''}")
    return ", ".join(words) or "square to the face"


def _sightline(mortise: AngledMortise) -> str:
    """The one plane in which it leans, as drawn on the face, and how far it leans in it (plane geometry)."""
    first, second = mortise.face.axis.others
    one, other = (mortise.way[axis.value] for axis in (first, second))
    sight = math.degrees(math.atan2(abs(other), abs(one)))
    return f" (sightline {round(sight, 1):g}° from the {first.words} line, resultant {round(mortise.from_square, 1):g}°)"
