"""Grooves, and steps along edges."""

from __future__ import annotations

from planbuild.core.geometry import TINY
from planbuild.derive import phrases
from planbuild.derive.lists.measures import groove_size, is_corner_notch, rabbet_size
from planbuild.derive.steps.job import Draft, Job, Use, features_of, said, same
from planbuild.derive.steps.operations import Verb
from planbuild.derive.steps.tasks import Task
from planbuild.records.features import Groove, Rabbet, Tenon
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


def house(job: Job, task: Task) -> Draft:
    """Housings across the grain: marked on like parts at once, their walls knifed from what goes in."""
    parts = job.parts(task.parts)
    cuts, mates = _channels(job, task, Verb.HOUSE)
    return Draft(
        title=f"Cut the housings for the {job.kind(mates)} in the {job.kind(task.parts)}",
        actions=said(
            f"Lay {phrases.the_all(parts)} side by side and square the housings across all of them",
            f"Knife the walls from what goes in, {job.marks(mates)}",
            "Cut inside the lines along a straightedge, to depth in two passes; pare to the lines",
        ),
        sizes=_listed(job, cuts),
        check=f"{job.marks(mates)} {'goes' if len(mates) == 1 else 'go'} in by hand, down to the floor, without play.",
        uses=_widths(job, cuts, "house"),
    )


def lap(job: Job, task: Task) -> Draft:
    """Both halves of every crossing, sawn while like parts lie side by side."""
    parts = job.parts(task.parts)
    cuts, _ = _channels(job, task, Verb.LAP)
    if all(job.joint(each.joint).kind == "bridle" for _, each in cuts):
        return _bridles(job, task, cuts)
    if all(each.what == "notch" for _, each in cuts):
        return _notches(job, task, cuts)
    return Draft(
        title=f"Saw the laps of the {job.kind(task.parts)}",
        actions=said(
            f"Clamp {phrases.the_all(parts)} side by side, like with like, and square the laps across",
            "Knife the walls as wide as the part that will cross; gauge the depth from the face sides",
            "Saw inside the lines, clear to the depth, and pare the walls until the parts push together",
        ),
        sizes=_listed(job, cuts),
        check="Pushed together, the faces lie in one plane and the parts stand square.",
        uses=_widths(job, cuts, "lap"),
    )


def _notches(job: Job, task: Task, cuts: Cuts) -> Draft:
    """Marked from each other: what stays in the one must fill the other."""
    return Draft(
        title=f"Cut the notches of the {job.kind(task.parts)}",
        actions=said(
            "Lay like parts side by side, and square the walls across all of them at once",
            "Knife the walls from the part itself that will lie there; gauge the depth from the same face on all",
            "Saw inside the lines to the depth; chop the waste out from both sides and pare the floor flat",
        ),
        sizes=_listed(job, cuts),
        check="Pressed down by hand each rests on its whole seat, and does not rock or slide.",
        uses=_widths(job, cuts, "lap"),
    )


def _bridles(job: Job, task: Task, cuts: Cuts) -> Draft:
    """The slot first: its tongue is sawn to fit it."""
    return Draft(
        title=f"Saw the slots and tongues of the {job.kind(task.parts)}",
        actions=said(
            "Gauge the slots and the tongues with one setting, from the face sides",
            "Saw down both walls of the slots on the waste side; chop out the bottoms from both edges",
            "Saw the shoulders of the tongues, then their cheeks; pare until the parts push together",
        ),
        sizes=tuple(dict.fromkeys(_bridle_words(job, part, each) for part, each in cuts)),
        check="Pushed together by hand, the faces lie in one plane and the parts stand square.",
        uses=_widths(job, [(part, each) for part, each in cuts if each.what == "slot"], "lap"),
    )


def _bridle_words(job: Job, part: Part, cut: Groove) -> str:
    size = groove_size(part, cut)
    face, edge = (phrases.facing(part, each, job.piece) for each in (cut.face, size.edge))
    if cut.what == "slot":
        slot = f"slot {job.size(size.width)} wide, {job.size(size.depth)} deep, {job.size(size.inset)} from the {edge} face"
        return f"{phrases.mark(part.id)} {face} end: {slot}"
    return f"{phrases.mark(part.id)} {face} face: {job.size(size.depth)} off beside the tongue, {job.size(size.width)} along"


Cuts = list[tuple[Part, Groove]]


def _channels(job: Job, task: Task, verb: Verb) -> tuple[Cuts, list[str]]:
    """What is cut into which part, and the parts that it is for."""
    found = [(part, each) for part in job.parts(task.parts) for each in features_of(task, verb, part.id)]
    cuts = [(part, each) for part, each in found if isinstance(each, Groove)]
    return cuts, list(dict.fromkeys(each.mate.part for _, each in cuts if each.mate))


def _listed(job: Job, cuts: Cuts) -> tuple[str, ...]:
    """A line for each kind of cut of a part; many alike in a row are left to the sheet."""
    kinds: dict[tuple[str, str], list[Groove]] = {}
    for part, each in cuts:
        size = groove_size(part, each)
        face = phrases.facing(part, each.face, job.piece)
        words = f"{face} face: {job.size(size.width)} wide, {job.size(size.depth)} deep"
        kinds.setdefault((part.id, words), []).append(each)
    return tuple(f"{phrases.mark(id)} {words}, {_places(job, job.piece.part(id), alike)}" for (id, words), alike in kinds.items())


def _places(job: Job, part: Part, alike: list[Groove]) -> str:
    if len(alike) > 2:
        return f"{len(alike)} of them, placed as on its sheet ([[sheet:{part.id}]])"
    sizes = [groove_size(part, each) for each in alike]
    return phrases.listed(
        f"{job.size(size.inset)} from the {phrases.facing(part, size.edge, job.piece)} end" if size.inset > TINY
        else f"at the {phrases.facing(part, size.edge, job.piece)} end"
        for size in sizes
    )  # fmt: skip


def _widths(job: Job, cuts: Cuts, operation: str) -> tuple[Use, ...]:
    widths = dict.fromkeys(job.with_unit(groove_size(part, each).width) for part, each in cuts)
    return tuple(Use(operation, (("width", each),)) for each in widths)


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
    """Parts that share the step are cut alike; what clears a stopped housing is a notch, whatever it is cut with."""
    parts = job.parts(task.parts)
    own = [(part, f) for part in parts for f in features_of(task, Verb.RABBET, part.id) if isinstance(f, Rabbet)]
    cuts = [each for _, each in own]
    if all(is_corner_notch(part, each) for part, each in own):
        return _corner_notches(job, task, own)
    mates = list(dict.fromkeys(each.mate.part for each in cuts if each.mate))
    tries = f" {job.marks(mates)} {'lies' if len(mates) == 1 else 'lie'} in it with faces flush." if mates else ""
    return Draft(
        title=_rabbet_title(job, task, cuts, mates),
        actions=said(
            f"Gauge both depths on {phrases.the_all(parts)} from the two faces of the edge",
            "Saw to the lines; plane the corner clean",
        ),
        sizes=_rabbet_lines(job, own),
        check=f"The step is square, and its depth alike from end to end.{tries}",
        uses=(Use("rabbet"),),
    )


def _rabbet_lines(job: Job, own: list[tuple[Part, Rabbet]]) -> tuple[str, ...]:
    """A line for each kind of step on a part: `1/4 from the back face and 1/2 from the left and right faces`."""
    kinds: dict[tuple[str, str], list[str]] = {}
    for part, each in own:
        size = rabbet_size(each)
        first, second = sorted((size.first, size.second), key=lambda pair: pair[0].axis is not part.face.axis)
        face, other = (phrases.facing(part, pair[0], job.piece) for pair in (first, second))
        words = f"{job.size(first[1])} from the {face} face and {job.size(second[1])} from the"
        kinds.setdefault((part.id, words), []).append(other)
    texts = [(id, f"{words} {phrases.listed(faces)} {_faces(faces)}") for (id, words), faces in kinds.items()]
    return tuple(f"{job.marks(ids)} {text}" for ids, text in same(texts))


def _faces(faces: list[str]) -> str:
    return "face" if len(faces) == 1 else "faces"


def _corner_notches(job: Job, task: Task, own: list[tuple[Part, Rabbet]]) -> Draft:
    """They are marked from the housing itself, where it stops."""
    parts = job.parts(task.parts)
    lines: dict[tuple[str, str], list[str]] = {}
    for part, each in own:
        size = rabbet_size(each)
        end, edge = sorted((size.first, size.second), key=lambda pair: pair[0].axis is not part.grain)
        words = f"{job.size(edge[1])} from the {phrases.facing(part, edge[0], job.piece)} and {job.size(end[1])} from the"
        lines.setdefault((part.id, words), []).append(end[0].value)
    ends = [(id, f"{words} {phrases.listed(faces)} end{'s' if len(faces) > 1 else ''}") for (id, words), faces in lines.items()]
    return Draft(
        title=f"Notch the corners of the {job.kind(task.parts)}",
        actions=said(
            f"Hold {phrases.the_all(parts)} to the stopped end of each housing and mark the notch there",
            "Saw down both lines on the waste side; pare the corner clean",
        ),
        sizes=tuple(f"{job.marks(ids)} {text}" for ids, text in same(ends)),
        check="Pushed home, the corner covers the end of the housing, and the edges are flush.",
        uses=(Use("notch"),),
    )


_SHAPED = {
    "tongue and groove": "Cut the tongues of the",
    "panel in groove": "Rabbet the edges of the",
    "breadboard end": "Cut the tongues of the",
}
"""What rabbets leave on a part that goes in itself, by joint kind."""


def _rabbet_title(job: Job, task: Task, cuts: list[Rabbet], mates: list[str]) -> str:
    kind = job.kind(task.parts)
    if mates:
        return f"Cut the rabbets for the {job.kind(mates)} in the {kind}"
    kinds = {job.joint(each.joint).kind if each.joint else "" for each in cuts}
    work = _SHAPED.get(kinds.pop(), "Cut the step along the edge of the") if len(kinds) == 1 else "Cut the steps of the"
    return f"{work} {kind}"
