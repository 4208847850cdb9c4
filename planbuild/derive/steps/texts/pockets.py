"""Slanted pockets for screws: the jig, the stop of the stepped bit, the clamps."""

from __future__ import annotations

from collections.abc import Sequence

from planbuild.core.geometry import Face
from planbuild.core.units import drill_text
from planbuild.derive import phrases
from planbuild.derive.steps.job import Draft, Job, Use, features_of, said
from planbuild.derive.steps.operations import Verb
from planbuild.derive.steps.tasks import Task
from planbuild.joints.screws import screw_words
from planbuild.records.piece import Part
from planbuild.records.pockets import Pocket


def bore(job: Job, task: Task) -> Draft:
    cut = {id: [f for f in features_of(task, Verb.POCKET, id) if isinstance(f, Pocket)] for id in dict.fromkeys(task.parts)}
    first = cut[task.parts[0]][0]
    return Draft(
        title=f"Bore the pockets of the {job.kind(task.parts)}",
        actions=said(
            f"Set the pocket jig for a thickness of {job.size(2 * first.deep)}, so that the bit comes out in the middle of it",
            f"Set the stop so that the step of the bit is {job.size(first.shoulder)} from the joint along the bit; "
            "try it on scrap of the same thickness",
            f"Mark the middle of each pocket from the sheets of {job.marks(task.parts)}",
            "Clamp the part in the jig and bore, lifting the bit to clear the chips",
        ),
        sizes=tuple(line for id, pockets in cut.items() for line in _lines(job, job.piece.part(id), pockets)),
        check="A screw pushed in by hand comes out in the middle of the thickness, and its head rests on the step.",
        uses=(Use("pocket", (("diameter", f"{drill_text(first.width, job.edition.ruler)} {job.edition.ruler.unit.symbol}"),)),),
    )


def _lines(job: Job, part: Part, pockets: Sequence[Pocket]) -> list[str]:
    """One for each face and screw: at which ends or edges the screws come out."""
    out: dict[tuple[Face, float, str], list[str]] = {}
    for each in pockets:
        out.setdefault((each.face, each.angle, each.gauge), []).append(each.end.value)
    return [_line(job, part, *kind, list(dict.fromkeys(ends))) for kind, ends in out.items()]


def _line(job: Job, part: Part, face: Face, angle: float, gauge: str, ends: list[str]) -> str:
    where = f"{phrases.mark(part.id)} {phrases.facing(part, face, job.piece)} face, out at the {phrases.listed(ends)}"
    return f"{where}: {angle:g}° to the face, for {screw_words(gauge)} screws"
