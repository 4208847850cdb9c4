"""Dovetails by hand: one half first, usually the tails; the other is marked from it."""

from __future__ import annotations

from collections.abc import Sequence

from planbuild.core.geometry import TINY
from planbuild.core.units import slope_text
from planbuild.derive import phrases
from planbuild.derive.steps.job import Draft, Job, Use, features_of, said, same
from planbuild.derive.steps.operations import Verb
from planbuild.derive.steps.tasks import Task
from planbuild.records.piece import Part
from planbuild.records.tails import Comb, Sockets, Tails

_BLIND = "half-blind dovetail"


def tails(job: Job, task: Task) -> Draft:
    """The tails of all boards, like boards sawn as one."""
    parts = job.parts(task.parts)
    cuts = [(part, each) for part in parts for each in features_of(task, Verb.TAILS, part.id) if isinstance(each, Tails)]
    slopes = dict.fromkeys(slope_text(each.comb.slope) for _, each in cuts)
    after = _marked_later(job, [each for _, each in cuts], "pins")
    drawn = [each for _, each in cuts if each.mate.part not in after]
    return Draft(
        title=f"Cut the tails of the {job.kind(task.parts)}",
        actions=said(
            f"Scribe the base lines on {phrases.the_all(parts)} all round from the ends, at the listed lengths",
            f"Set out the tails on one end and square them over it; draw their flanks at {phrases.listed(slopes)} on both faces"
            if drawn
            else "",
            f"Lay each board inside face up on the bench, stand {job.marks(after)} on its end, edges flush, and knife round "
            "the pins; square the lines over the end, and number both halves of each corner"
            if after
            else "",
            "Clamp like boards together, ends flush, and saw down the flanks on the waste side, square across"
            if drawn
            else "Saw down the flanks on the waste side, square across",
            "Saw out most of the waste; chop to the base lines from both faces; saw off the half pins at the edges",
        ),
        sizes=by_ends(job, [(part, each, _words(job, each)) for part, each in cuts]),
        check="All flanks and base lines are square to the face: a small square touches along its whole blade.",
        uses=_chisels(job, [each.comb for _, each in cuts], "tails", gaps=True),
    )


def _marked_later(job: Job, cuts: Sequence[Tails | Sockets], first: str) -> list[str]:
    """The parts whose halves are cut before these, which are marked from them."""
    return list(dict.fromkeys(each.mate.part for each in cuts if job.joint(each.joint).operations[0] == first))


def pins(job: Job, task: Task) -> Draft:
    """Each pin marked from its own tails, the two numbered."""
    parts = job.parts(task.parts)
    cuts = [(part, each) for part in parts for each in features_of(task, Verb.PINS, part.id) if isinstance(each, Sockets)]
    texts = [(part.id, _depth(job, part, each)) for part, each in cuts]
    mates = list(dict.fromkeys(each.mate.part for _, each in cuts))
    blind = any(job.joint(each.joint).kind == _BLIND for _, each in cuts)
    after = _marked_later(job, [each for _, each in cuts], "tails")
    slopes = dict.fromkeys(slope_text(each.comb.slope) for _, each in cuts)
    return Draft(
        title=f"Cut the pins of the {job.kind(task.parts)}",
        actions=said(
            f"Scribe the listed depths on {phrases.the_all(parts)}, and the thickness of the tail boards on the inside",
            f"Stand each board in the vise, lay the tails of {job.marks(after)} on its end, edges flush, and knife round them; "
            "number both halves of each corner"
            if after
            else f"Set out the pins on the end from the sheet of {job.marks(mates)}, at {phrases.listed(slopes)} to the face",
            "Square the lines down to the base line and saw inside them, in the waste"
            + ("; where the front keeps its lap, saw slanting as far as both lines go" if blind else ""),
            "Chop out the sockets from the base line, in layers; pare to the knife lines",
        ),
        sizes=tuple(f"{job.marks(ids)} {text}" for ids, text in same(texts)),
        check="Each corner goes together by hand or with light taps; no gap shows at flank or base line.",
        uses=_chisels(job, [each.comb for _, each in cuts], "pins", gaps=False),
    )


def by_ends(job: Job, cuts: Sequence[tuple[Part, Tails, str]]) -> tuple[str, ...]:
    """A line for each part and what is said of it: `A1 left and right ends: ...`."""
    gathered: dict[tuple[str, str], list[str]] = {}
    for part, cut, text in cuts:
        gathered.setdefault((part.id, text), []).append(phrases.facing(part, cut.end, job.piece))
    return tuple(f"{phrases.mark(id)} {_ends(ends)}: {text}" for (id, text), ends in gathered.items())


def _ends(words: Sequence[str]) -> str:
    named = list(dict.fromkeys(words))
    return f"{phrases.listed(named)} {'end' if len(words) == 1 else 'ends'}"


def _words(job: Job, cut: Tails) -> str:
    return f"{_row(job, cut.comb)}, {job.size(cut.comb.depth)} long"


def _row(job: Job, comb: Comb) -> str:
    """How many, how wide, how far apart; the half pins."""
    count = phrases.counted(len(comb.tails), "tail")
    if not comb.even:
        return f"{count}, set out as on its sheet"
    half = comb.tails[0].low - comb.block.along(comb.spread).low
    apart = f", {job.size(comb.between[0])} apart" if comb.between else ""
    beside = f", {job.size(half)} in from the edges" if half > TINY else ""
    return f"{count} {job.size(comb.tails[0].size)} wide at the tip{apart}{beside}"


def _depth(job: Job, part: Part, cut: Sockets) -> str:
    comb, face = cut.comb, phrases.facing(part, cut.face, job.piece)
    lap = part.body.size(comb.tip.axis) - comb.depth
    kept = f", leaving a lap of {job.size(lap)}" if lap > TINY else ", right through"
    reach = f"{job.size(comb.block.size(comb.run))} in from the end"
    return f"sockets {job.size(comb.depth)} deep from the {face} face{kept}; {reach}"


def _chisels(job: Job, combs: list[Comb], operation: str, gaps: bool) -> tuple[Use, ...]:
    return chiselled(job, [room for comb in combs for room in _rooms(comb, gaps)], operation)


def chiselled(job: Job, rooms: list[float], operation: str) -> tuple[Use, ...]:
    """The widest chisel of the shop that goes into the narrowest of several places."""
    owned = sorted(job.piece.practice.chisels)
    fitting = [each for each in owned if each <= min(rooms, default=0.0) + TINY]
    return (Use(operation, (("width", job.with_unit(fitting[-1] if fitting else owned[0])),)),)


def _rooms(comb: Comb, gaps: bool) -> list[float]:
    """Widths in which a chisel works: between tails at the tips, in sockets at their mouths."""
    return list(comb.between) if gaps else [comb.neck(tail).size for tail in comb.tails]
