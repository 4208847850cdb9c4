"""Holes and slots: bored by their sheet, counterbored and countersunk for the heads of screws."""

from __future__ import annotations

from planbuild.core.units import drill_text
from planbuild.derive import phrases
from planbuild.derive.steps.job import Draft, Job, Use, features_of, said
from planbuild.derive.steps.operations import Verb
from planbuild.derive.steps.tasks import Task
from planbuild.records.features import Hole, Mortise
from planbuild.records.piece import Part


def bore(job: Job, task: Task) -> Draft:
    part = job.piece.part(task.parts[0])
    cuts = features_of(task, Verb.BORE, part.id)
    holes = [each.hole if isinstance(each, Mortise) else each for each in cuts if isinstance(each, Hole | Mortise)]
    drills = dict.fromkeys(drill_text(each.diameter, job.edition.ruler) for each in holes if each.purpose != "cup")
    cups = dict.fromkeys(job.with_unit(each.diameter) for each in holes if each.purpose == "cup")
    slots = any(each.slot for each in holes)
    return Draft(
        title=f"Bore the {_things(holes)} of the {job.kind(task.parts)}",
        actions=said(
            f"Mark the {_things(holes)} of {phrases.the(part)} from its sheet ([[sheet:{part.id}]]); prick their centres",
            "Fill each mortise with a scrap as thick as its tenon, so that the bit leaves its walls clean"
            if any(each.purpose == "peg" for each in holes)
            else "",
            "Bore the wide counterbores first, to a depth stop" if any(each.counterbore for each in holes) else "",
            "Drill square to the face, scrap under the work, to a depth stop where a hole does not go through",
            "Drill each slot at its two ends; clear the wood between with a router along a fence, or chisel it" if slots else "",
            "Countersink until a head lies flush" if any(each.countersink for each in holes) else "",
        ),
        sizes=tuple(dict.fromkeys(_hole_words(job, part, each) for each in holes)),
        check=_check(slots),
        uses=(
            *(Use("bore", (("diameter", f"{each} {job.edition.ruler.unit.symbol}"),)) for each in drills),
            *(Use("bore", (("diameter", job.with_unit(each)),)) for each in _wide(holes)),
            *(Use("cup", (("diameter", each),)) for each in cups),
            *([Use("countersink")] if any(each.countersink for each in holes) else []),
        ),
    )


def _things(holes: list[Hole]) -> str:
    names = [("holes", any(not each.slot for each in holes)), ("slots", any(each.slot for each in holes))]
    return " and ".join(name for name, there in names if there)


def _wide(holes: list[Hole]) -> list[float]:
    """Bits for the counterbores."""
    return list(dict.fromkeys(each.counterbore[0] for each in holes if each.counterbore))


def _check(slots: bool) -> str:
    travels = " A screw slides from end to end of every slot." if slots else ""
    return f"Every hole is on its mark, and none has come through that should not.{travels}"


def _hole_words(job: Job, part: Part, hole: Hole) -> str:
    deep = "through" if hole.depth is None else f"{job.size(hole.depth)} deep"
    drill = drill_text(hole.diameter, job.edition.ruler)
    words = f"{drill} drill, {deep}"
    if hole.slot:
        words = f"slot {drill} wide, {job.size(hole.slot.length)} long {hole.slot.along.words}, {deep}"
    if hole.counterbore:
        wide, depth = hole.counterbore
        words += f"; counterbore {job.size(wide)} wide, {job.size(depth)} deep"
    if hole.countersink:
        words += f"; countersink {job.size(hole.countersink[0])} wide"
    return f"{phrases.mark(part.id)} {phrases.facing(part, hole.face, job.piece)} face: {words}"
