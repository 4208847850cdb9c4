"""Ends and shoulders that are not square to the grain."""

from __future__ import annotations

from planbuild.derive import phrases
from planbuild.derive.steps.job import Draft, Job, Use, features_of, said
from planbuild.derive.steps.operations import Verb
from planbuild.derive.steps.tasks import Task
from planbuild.records.piece import Part
from planbuild.records.slanted import NO_ANGLE, EndCut


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


def end_line(part: Part, cut: EndCut, what: str) -> str:
    """Each angle with the faces on which it is drawn, and the face that stays longer."""
    shown = [(axis, angle, next(a for a in cut.end.axis.others if a is not axis)) for axis, angle in cut.slopes]
    drawn = [
        f"{round(abs(angle), 1):g}° on the {on.low.value} and {on.high.value}, longer at the {cut.longer(axis).value}"
        for axis, angle, on in shown
        if abs(angle) > NO_ANGLE
    ]
    return f"{phrases.mark(part.id)} {cut.end.value} {what}, off square: {'; '.join(drawn)}"
