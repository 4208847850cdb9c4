"""Pegs: the holes in the tenons, marked through the mate and moved by the draw; the pegs made, driven and sawn flush."""

from __future__ import annotations

from collections.abc import Sequence

from planbuild.core.units import drill_text
from planbuild.derive import phrases
from planbuild.derive.steps.job import Draft, Job, Use, features_of, said, same
from planbuild.derive.steps.operations import Verb
from planbuild.derive.steps.tasks import Task
from planbuild.records.features import Tenon
from planbuild.records.piece import Part
from planbuild.records.tenon_work import PegHole


def bore(job: Job, task: Task) -> Draft:
    """The holes in all tenons that are pegged."""
    features = [(id, f) for id in task.parts for f in features_of(task, Verb.PEG, id)]
    tenons = [(id, f) for id, f in features if isinstance(f, Tenon) and f.pegs]
    holes, mates = [hole for _, f in tenons for hole in f.pegs], job.marks(f.mate.part for _, f in tenons)
    drawn = any(hole.draw for hole in holes)
    bits = dict.fromkeys(drill_text(hole.diameter, job.edition.ruler) for hole in holes)
    return Draft(
        title=f"Bore the peg holes in the tenons of the {job.kind(task.parts)}",
        actions=said(
            f"Push each tenon home in {mates}, its shoulder tight, and clamp it",
            "Put the bit through the hole in the cheek and turn it, so that its point marks the tenon; take the tenon out again",
            "Prick a new centre for each hole, nearer to the shoulder by the draw" if drawn else "",
            f"Bore on the {'new centres' if drawn else 'marks'}, square to the cheek, with scrap under the tenon",
        ),
        sizes=tuple(f"{job.marks(ids)} {text}" for ids, text in same([(id, _words(job, f)) for id, f in tenons])),
        check=_check(drawn),
        uses=tuple(Use("peg_hole", (("diameter", f"{bit} {job.edition.ruler.unit.symbol}"),)) for bit in bits),
    )


def _check(drawn: bool) -> str:
    if drawn:
        return "With the joint closed each hole shows a thin crescent of the tenon, on the side away from the shoulder."
    return "With the joint closed a straight rod slides through by hand."


def _words(job: Job, tenon: Tenon) -> str:
    hole = tenon.pegs[0]
    drawn = f", {job.size(hole.draw)} nearer to it than in the mate" if hole.draw else ""
    count = phrases.counted(len(tenon.pegs), "hole")
    return f"{count} {_thick(job, hole)} thick in each tenon, middle {job.size(hole.start)} from the shoulder{drawn}"


def _thick(job: Job, hole: PegHole) -> str:
    return f"{drill_text(hole.diameter, job.edition.ruler)} {job.edition.ruler.unit.symbol}"


def make(job: Job, part: Part) -> Draft:
    """From sticks, round or nearly so, pointed, longer than they will be."""
    length, thick, _ = part.finished
    whole, point = job.size(length + part.rough_length), job.size(part.rough_length / 2)
    return Draft(
        title=f"Make the {phrases.counted(len(part.copies), part.name)}",
        actions=said(
            f"Split or saw straight-grained sticks for {phrases.mark(part.id)}, a little thicker than {job.size(thick)}",
            "Plane their corners off to eight sides, and drive them through a dowel plate, or shave them round",
            f"Cut them {whole} long; taper the first {point} of each to a blunt point",
        ),
        sizes=(f"{phrases.mark(part.id)} {job.size(thick)} thick, {job.size(length)} long when it is sawn flush",),
        check="Each goes through a hole of its size in scrap under light taps, and its grain runs from end to end.",
        uses=(Use("peg"),),
    )


def drive(job: Job, ids: Sequence[str]) -> tuple[str, ...]:
    """The last actions of a joining that pegs hold."""
    marks, drawn = job.marks(ids), any(job.piece.part(id).bend for id in ids)
    pull = "; the shoulders close as they go through" if drawn else ""
    return (
        f"Drive {marks}, point first, right through, until their full thickness shows on the far side{pull}",
        "Saw the pegs flush at both sides and pare them level",
    )
