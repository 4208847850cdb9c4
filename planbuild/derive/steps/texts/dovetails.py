"""Single dovetails that slide or are let in, and the fingers of box corners."""

from __future__ import annotations

from collections.abc import Sequence

from planbuild.core.geometry import TINY, Span1
from planbuild.core.units import slope_text
from planbuild.derive import phrases
from planbuild.derive.steps.job import Draft, Job, features_of, said, same
from planbuild.derive.steps.operations import Verb
from planbuild.derive.steps.tasks import Task
from planbuild.derive.steps.texts.tails import by_ends, chiselled
from planbuild.records.piece import Part
from planbuild.records.tails import Comb, Sockets, Tails


def trench(job: Job, task: Task) -> Draft:
    """Dovetail housings: straight first, then their walls undercut."""
    parts, cuts = job.parts(task.parts), _sockets(job, task, Verb.TRENCH)
    mates = list(dict.fromkeys(each.mate.part for _, each in cuts))
    beside = "Lay like parts side by side; s" if any(len(each.copies) > 1 for each in parts) else "S"
    return Draft(
        title=f"Cut the dovetail housings for the {job.kind(mates)} in the {job.kind(task.parts)}",
        actions=said(
            f"{beside}quare the housings across {phrases.the_all(parts)} and knife their mouths",
            "Clear most of the waste with a straight cut inside the lines, short of the depth",
            f"Undercut both walls at {_slopes(cuts)}, to the full depth, along a straightedge; keep the offcut to try tails in",
            _tapered_walls(cuts),
        ),
        sizes=tuple(f"{job.marks(ids)} {text}" for ids, text in same([(p.id, _socket_words(job, p, c)) for p, c in cuts])),
        check="Walls and floor are straight: "
        + ("no light shows under a straightedge along any of them." if _slim(cuts)
           else "a slip of wood with the same slope slides from end to end."),
        uses=chiselled(job, [each.mouth.size for _, each in cuts if each.mouth], "trench"),
    )


def tail(job: Job, task: Task) -> Draft:
    """Tails at the ends of rails, shelves and brackets."""
    cuts = [(part, each) for part in job.parts(task.parts) for each in features_of(task, Verb.TAIL, part.id)]
    tails = [(part, each) for part, each in cuts if isinstance(each, Tails)]
    necks = [each.comb.neck(row).size for _, each in tails for row in each.comb.tails]
    slides = any(job.joint(each.joint).kind == "sliding dovetail" for _, each in tails)
    fit = "try the tail in its housing and plane its flanks, a shaving at a time" if slides else "pare the flanks square across"
    return Draft(
        title=f"Cut the dovetails of the {job.kind(task.parts)}",
        actions=said(
            f"Scribe the shoulders of {job.marks(task.parts)} all round, the listed length from the ends",
            f"Draw the tails on the ends, their flanks at {_slopes(tails)} to the shoulder",
            f"Cut the flanks on the waste side, then the shoulders; {fit}",
            "Of a tail that narrows, plane the slanting flank alone, and stop while the last of the way still wants light taps"
            if _slim(tails)
            else "",
        ),
        sizes=by_ends(job, [(part, each, _tail_words(job, each)) for part, each in tails]),
        check="The tail goes in by hand for most of the way and needs light taps for the rest." if slides
        else "Both flanks are square to the face, and the shoulders lie in one plane.",
        uses=chiselled(job, necks, "tail" if slides else "tails"),
    )  # fmt: skip


def socket(job: Job, task: Task) -> Draft:
    """Sockets in the ends of posts, marked from their tails."""
    cuts = _sockets(job, task, Verb.SOCKET)
    mates = list(dict.fromkeys(each.mate.part for _, each in cuts))
    return Draft(
        title=f"Cut the dovetail sockets of the {job.kind(task.parts)}",
        actions=said(
            f"Lay each tail of {job.marks(mates)} on its own post, shoulder close; knife round it and number both",
            "Gauge the depth from the end of the post",
            "Saw inside the knife lines as far as they go, slanting; chop out the rest and pare to the lines",
        ),
        sizes=tuple(f"{job.marks(ids)} {text}" for ids, text in same([(p.id, _socket_words(job, p, c)) for p, c in cuts])),
        check="The tail goes down with light taps until it lies flush, its shoulder close to the post.",
        uses=chiselled(job, [each.mouth.size for _, each in cuts if each.mouth], "socket"),
    )


def fingers(job: Job, task: Task) -> Draft:
    """Fingers of all boards with one setting; one board begins with a finger, its mate with a space."""
    cuts = [(part, each) for part in job.parts(task.parts) for each in features_of(task, Verb.FINGERS, part.id)]
    rows = [(part, each) for part, each in cuts if isinstance(each, Tails)]
    return Draft(
        title=f"Cut the fingers of the {job.kind(task.parts)}",
        actions=said(
            "Set the width of cut and the stop on two offcuts, until their fingers push together and come out flush",
            f"Scribe the lengths of the fingers on {job.marks(task.parts)}; mark the edge from which each board is counted",
            "Cut the boards that begin with a finger; use the first space of each to start its mate",
        ),
        sizes=by_ends(job, [(part, each, _finger_words(job, each)) for part, each in rows]),
        check="Each corner pushes together by hand; edges are flush, and no finger stands short.",
        uses=chiselled(job, [row.size for _, each in rows for row in each.comb.tails], "fingers"),
    )


def _sockets(job: Job, task: Task, verb: Verb) -> list[tuple[Part, Sockets]]:
    cuts = [(part, each) for part in job.parts(task.parts) for each in features_of(task, verb, part.id)]
    return [(part, each) for part, each in cuts if isinstance(each, Sockets)]


def _slopes(cuts: list[tuple[Part, Sockets]] | list[tuple[Part, Tails]]) -> str:
    return phrases.listed(dict.fromkeys(slope_text(each.comb.slope) for _, each in cuts))


def _socket_words(job: Job, part: Part, cut: Sockets) -> str:
    mouth, bottom = job.size(cut.mouth.size if cut.mouth else 0.0), job.size(cut.comb.tails[0].size)
    stopped = cut.comb.block.size(cut.comb.run) < part.body.size(cut.comb.run) - TINY
    run = f", {job.size(cut.comb.block.size(cut.comb.run))} long" if stopped else ""
    face = phrases.facing(part, cut.face, job.piece)
    words = f"{face} face: {mouth} wide at the mouth, {bottom} at the bottom, {job.size(cut.comb.depth)} deep{run}"
    return words + (_narrowing(job, cut.comb, cut.mouth) if cut.mouth else "")


def _tail_words(job: Job, cut: Tails) -> str:
    (row,) = cut.comb.tails
    tip, neck = job.size(row.size), job.size(cut.comb.neck(row).size)
    return f"{job.size(cut.comb.depth)} long, {tip} at the tip, {neck} at the shoulder{_narrowing(job, cut.comb, row)}"


def _narrowing(job: Job, comb: Comb, wide: Span1) -> str:
    """From which end to which a tail narrows, and to what."""
    slim = comb.slim
    if slim is None:
        return ""
    where, word = ("tip", "flank") if wide == comb.tails[0] else ("mouth", "wall")
    narrow = f"at the {slim.wide.opposite.value} {job.size(comb.narrow(wide).size)} at the {where}"
    return f"; these at the {slim.wide.value}, {narrow}: only the {slim.side.value} {word} slants"


def _slim(cuts: Sequence[tuple[Part, Sockets]] | Sequence[tuple[Part, Tails]]) -> bool:
    return any(each.comb.slim for _, each in cuts)


def _tapered_walls(cuts: Sequence[tuple[Part, Sockets]]) -> str:
    if not _slim(cuts):
        return ""
    return "Of a housing that narrows, lay the straightedge to the slanting line for that wall alone"


def _finger_words(job: Job, cut: Tails) -> str:
    comb = cut.comb
    begins = abs(comb.tails[0].low - comb.block.along(comb.spread).low) < TINY
    start = "finger" if begins else "space"
    count = phrases.counted(len(comb.tails), "finger")
    return f"{count} {job.size(comb.tails[0].size)} wide, {job.size(comb.depth)} long, beginning with a {start}"
