"""Flat outlines: notches, cut-outs and recesses, whole outlines, corners clipped or rounded."""

from __future__ import annotations

from collections.abc import Callable

from planbuild.derive import phrases
from planbuild.derive.steps.job import Draft, Job, Use, features_of, said
from planbuild.derive.steps.operations import Verb
from planbuild.derive.steps.tasks import Task
from planbuild.records.piece import Part
from planbuild.records.shaped import Sawn


def _cuts(job: Job, task: Task, verb: Verb, id: str = "") -> tuple[Part, list[Sawn]]:
    part = job.piece.part(id or task.parts[0])
    return part, [each for each in features_of(task, verb, part.id) if isinstance(each, Sawn)]


def _lines(job: Job, part: Part, cuts: list[Sawn], say: Callable[[Job, Part, Sawn], str]) -> tuple[str, ...]:
    """One line a cut; like cuts in one."""
    texts = [say(job, part, each) for each in cuts]
    counts = {text: texts.count(text) for text in dict.fromkeys(texts)}
    return tuple(f"{phrases.mark(part.id)} {f'{count} times ' if count > 1 else ''}{text}" for text, count in counts.items())


def notch(job: Job, task: Task) -> Draft:
    parts = job.parts(task.parts)
    own = [(part, _cuts(job, task, Verb.NOTCH, part.id)[1]) for part in parts]
    part, cuts = parts[0], [each for _, several in own for each in several]
    mates = list(dict.fromkeys(phrases.mark(each.mate.part) for each in cuts if each.mate))
    named = phrases.listed(mates) if mates else ""
    tenons = any(each.joint for each in cuts)
    return Draft(
        title=f"{'Saw the tenons of' if tenons else 'Notch'} the {job.kind(task.parts)}",
        actions=said(
            f"Hold {named} in place and mark the notch from it" if mates else "",
            f"Mark the tenons on the tongues of {phrases.the(part)} from its sheet; notch out the waste" if tenons else "",
            "" if mates or tenons else f"Square the lines of the notch round {phrases.the(part)} with a knife",
            "Saw down both sides on the waste side of the line",
            "Take out the waste with a coping saw or a chisel, from both faces toward the middle",
            "Pare the walls to the knife line",
        ),
        sizes=tuple(line for each, several in own for line in _lines(job, each, several, _square)),
        check=f"{named} goes in by hand, with the stated gap." if mates else "The walls are square to the face.",
        uses=(Use("notch"),),
    )


def _square(job: Job, part: Part, f: Sawn) -> str:
    """Along the grain by across it, and where it opens."""
    sizes = dict(zip(f.face.axis.others, f.spans, strict=True))
    order = sorted(sizes, key=lambda axis: axis is not part.grain)
    deep = "" if f.depth is None else f", {job.size(f.depth)} deep"
    return f"{job.sizes(*(sizes[axis].size for axis in order))}{_where(part, f)}{deep}"


def _where(part: Part, f: Sawn) -> str:
    rims = [f.rim(part.body, corner.at) for corner in f.corners]
    tip = max(rims, key=len)
    if len(tip) == 2:
        return f" at the {' '.join(face.value for face in reversed(tip))} corner"
    return f" in from the {tip[0].value}" if tip else f" in the {f.face.value} face"


def cut_out(job: Job, task: Task) -> Draft:
    part, cuts = _cuts(job, task, Verb.CUT_OUT)
    through = [each for each in cuts if each.depth is None]
    sunk = [each for each in cuts if each.depth is not None]
    keyed = list(dict.fromkeys(phrases.mark(each.mate.part) for each in cuts if each.joint and each.mate))
    inner = [each for each in through if "face" in _where(part, each)]
    return Draft(
        title=f"Cut {'the openings' if through else 'the recesses'} of the {job.kind(task.parts)}",
        actions=said(
            "" if keyed else f"Draw each outline on {phrases.the(part)}; round corners with a pair of compasses",
            f"Set the boards together, lay each {phrases.listed(keyed)} over the seam, and knife round it" if keyed else "",
            "Bore a hole inside each opening for the blade of the saw" if inner else "",
            "Saw on the waste side of the line" if through else "",
            "Rout the recess to its depth in several passes, from the middle outward" if sunk else "",
            "Clean its corners with a chisel" if sunk else "",
            "Smooth the walls to the line, and ease the edges that a hand will hold" if through else "",
        ),
        sizes=_lines(job, part, cuts, _opening),
        check="The openings are smooth to the finger, and square to the face." if through else "The floor is at one depth.",
        uses=(*([Use("cut_out")] if through else []), *([Use("recess")] if sunk else [])),
    )


def _opening(job: Job, part: Part, f: Sawn) -> str:
    round_to = phrases.listed(job.size(radius) for radius in f.radii) if f.radii else ""
    return _square(job, part, f) + (f", corners of radius {round_to}" if round_to else "")


def outline(job: Job, task: Task) -> Draft:
    part, cuts = _cuts(job, task, Verb.OUTLINE)
    return Draft(
        title=f"Saw the outline of the {job.kind(task.parts)}",
        actions=said(
            f"Set out the corners on {phrases.the(part)} from its low ends, as its sheet gives them, and join them",
            "Round the corners with a pair of compasses" if any(each.radii for each in cuts) else "",
            "Saw on the waste side of the line",
            "Smooth to the line, square to the face",
        ),
        sizes=_lines(job, part, cuts, lambda job, part, f: f"{f.face.value} face: {phrases.counted(len(f.corners), 'corner')}"),
        check="Both faces show the same outline: the edge is square to them all round.",
        uses=(Use("outline"),),
    )


def corner(job: Job, task: Task) -> Draft:
    part, cuts = _cuts(job, task, Verb.CORNER)
    clipped, rounded = ([each for each in cuts if each.is_round_corner is is_round] for is_round in (False, True))
    verb = phrases.listed(each for each in ("clip" if clipped else "", "round" if rounded else "") if each)
    return Draft(
        title=f"{phrases.heading(verb)} the corners of the {job.kind(task.parts)}",
        actions=said(
            f"Mark both distances from each corner of {phrases.the(part)} and join them" if clipped else "",
            "Draw each arc with a pair of compasses, its middle one radius in from both edges" if rounded else "",
            "Saw on the waste side of the line",
            "Plane or file to the line from the edges inward, so that no grain breaks out",
        ),
        sizes=_lines(job, part, cuts, _corner),
        check="The corners are alike, and square to the face.",
        uses=(Use("corner"),),
    )


def _corner(job: Job, part: Part, f: Sawn) -> str:
    if f.is_round_corner:
        return f"radius {job.size(f.radii[0])}{_where(part, f)}"
    return _square(job, part, f)
