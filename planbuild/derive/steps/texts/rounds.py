"""Round tenons: turned, or shaved to fit, each in the hole that is bored for it."""

from __future__ import annotations

from planbuild.core.units import drill_text
from planbuild.derive.lists.cut_list import shoulder_length
from planbuild.derive.steps import checks
from planbuild.derive.steps.job import Draft, Job, Use, features_of, said, same
from planbuild.derive.steps.operations import Verb
from planbuild.derive.steps.tasks import Task
from planbuild.derive.steps.texts.slants import slanted_shoulders
from planbuild.records.features import Tenon
from planbuild.records.piece import Part


def tenon(job: Job, task: Task) -> Draft:
    """All of the piece in one step."""
    found = [(id, f) for id in task.parts for f in features_of(task, Verb.ROUND_TENON, id) if isinstance(f, Tenon)]
    texts = [(id, _words(job, job.piece.part(id), f)) for id, f in found]
    mates = job.marks(f.mate.part for _, f in found)
    slanted = slanted_shoulders(job, task, Verb.ROUND_TENON)
    return Draft(
        title=f"Cut the round tenons of the {job.kind(task.parts)}",
        actions=said(
            "Bore a hole of each size in scrap of the same wood, with the bit that bored the mates",
            "Mark the middle of each end, and the shoulder all round" + (" with a sliding bevel" if slanted else ""),
            "Turn the tenon on the lathe, or saw it square, take off its corners and shave it round, a little too thick",
            "Scrape and try until it goes into the scrap with light taps; ease the rim of its tip",
            *_split(job, [f for _, f in found]),
            f"Number each with its hole in {mates}",
        ),
        sizes=tuple(f"{job.marks(ids)} {text}" for ids, text in same(texts)) + tuple(slanted),
        check=checks.fit(job.joint(found[0][1].joint)),
        uses=(
            Use("round_tenon"),
            *((Use("trim"),) if slanted else ()),
            *((Use("kerf"),) if any(f.wedging for _, f in found) else ()),
        ),
    )


def _split(job: Job, tenons: list[Tenon]) -> tuple[str, ...]:
    """The kerf lies across the grain of the mate, so that the wedge presses on its end grain and cannot split it."""
    mates = [f.mate.part for f in tenons if f.wedging]
    if not mates:
        return ()
    grain = f"across the grain of {job.marks(mates)}"
    return (f"Push it home in its mate and draw the kerf on its tip, {grain}; saw it down the middle",)


def _kerfs(job: Job, f: Tenon) -> str:
    kerfs = f.wedging.kerfs if f.wedging else ()
    return "".join(f"; kerf {job.size(each.width)} wide, {job.size(each.depth)} deep" for each in kerfs)


def _words(job: Job, part: Part, f: Tenon) -> str:
    thick = f"{drill_text(f.block.size(f.end.axis.others[0]), job.edition.ruler)} {job.edition.ruler.unit.symbol}"
    between = shoulder_length(part)
    shoulders = f"{job.size(between)} between shoulders; " if between is not None else ""
    return f"{shoulders}tenon {thick} thick, {job.size(f.block.size(f.end.axis))} long{_kerfs(job, f)}"
