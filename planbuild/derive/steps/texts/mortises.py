"""Laying out from one rod, and cutting mortises."""

from __future__ import annotations

from collections.abc import Sequence

from planbuild.core.geometry import TINY, Axis, Face
from planbuild.derive import phrases
from planbuild.derive.dimensions.where import place_words
from planbuild.derive.lists.cut_list import hands_text
from planbuild.derive.lists.measures import from_face
from planbuild.derive.sheets.lie import lie_of
from planbuild.derive.steps.job import Draft, Job, Use, features_of, said
from planbuild.derive.steps.operations import Verb
from planbuild.derive.steps.places import MortiseKind, datum_words, mortise_kinds, reach
from planbuild.derive.steps.tasks import Task
from planbuild.derive.steps.texts.slants import angle_words
from planbuild.records.features import Mortise
from planbuild.records.piece import Part
from planbuild.records.slanted import AngledMortise

_ENDS = {Axis.BOTTOM_TOP: "top and bottom", Axis.LEFT_RIGHT: "left and right end", Axis.FRONT_BACK: "front and back end"}
_MANY = 3
"""More mortises than this in one face are printed as one row."""
_LISTED = 8
"""The places of more than this are read off the sheet."""


def lay_out(job: Job, task: Task) -> Draft:
    parts = job.parts(task.parts)
    several = [each for each in parts if len(each.copies) > 1]
    handed = [each.id for each in parts if hands_text(job.findings, each)]
    return Draft(
        title=f"Lay out {'all mortises' if job.kind(task.parts) == 'parts' else f'the mortises of the {job.kind(task.parts)}'}",
        actions=said(
            "Turn the best faces outward; write on each part its place",
            "Mark the listed lengths on a rod, one edge for each part",
            "Lay like parts side by side; square the lines across all at once",
            f"Carry them to the other mortised faces, {job.marks(handed)} in mirrored pairs" if handed else "",
            "Gauge across from the listed face, the gauge set to the chisel",
        ),
        sizes=tuple(line for each in parts for line in (*_lines(job, task, each), *_angled_lines(job, task, each))),
        check=f"Stood in their places, {phrases.the_all(several or parts)} show every mortise to the part that enters it.",
        uses=(Use("lay_out"),),
    )


def _cut(task: Task, verb: Verb, part: Part) -> list[Mortise]:
    return [each for each in features_of(task, verb, part.id) if isinstance(each, Mortise)]


def _angled(task: Task, verb: Verb, part: Part) -> list[AngledMortise]:
    return [each for each in features_of(task, verb, part.id) if isinstance(each, AngledMortise)]


def _angled_lines(job: Job, task: Task, part: Part) -> list[str]:
    """Those that stand askew: the middle of each mouth, and the angle at which its lines are drawn."""
    found = []
    for each in _angled(task, Verb.LAY_OUT, part):
        places = [f"{job.size(inset)} {place_words(part, face)}" for face, inset in _middle(part, each)]
        angles = angle_words(part, each)
        found.append(f"{phrases.mark(part.id)} for {job.marks([each.mate.part])}, middle {', '.join(places)}; {angles}")
    return found


def _middle(part: Part, mortise: AngledMortise) -> list[tuple[Face, float]]:
    datum = lie_of(part).datum
    return [(datum[a], abs(part.body.at(datum[a]) - mortise.mouth[a.value])) for a in mortise.face.axis.others]


def _lines(job: Job, task: Task, part: Part) -> list[str]:
    """One line for each row of like mortises: where they begin and end along the part, where they lie across it."""
    mortises = _cut(task, Verb.LAY_OUT, part)
    rows: dict[tuple[str, ...], list[Mortise]] = {}
    for each in mortises:
        across = _across(job, part, each)
        key = (across,) if len(mortises) > _MANY else (_stretch(job, part, each), across)
        rows.setdefault(key, []).append(each)
    return [_line(job, part, each) for each in rows.values()]


def _line(job: Job, part: Part, row: Sequence[Mortise]) -> str:
    stretches = "; ".join(dict.fromkeys(_stretch(job, part, each) for each in row))
    mates = job.marks(each.mate.part for each in row)
    if len(row) > _LISTED:
        placed = f"{len(row)} of them, placed as on its sheet ([[sheet:{part.id}]])"
        return f"{phrases.mark(part.id)} for {mates}: {placed}; {_across(job, part, row[0])}"
    start = datum_words(job, part, lie_of(part).start)
    return f"{phrases.mark(part.id)} for {mates}, from {start}: {stretches}; {_across(job, part, row[0])}"


def _stretch(job: Job, part: Part, mortise: Mortise) -> str:
    near, far = reach(part, mortise, lie_of(part).start)
    return f"{job.size(near)} to {job.size(far)}"


def _across(job: Job, part: Part, mortise: Mortise) -> str:
    face, inset = from_face(part, mortise)
    return f"{job.size(inset)} from the {phrases.facing(part, face, job.piece)} face"


def mortise(job: Job, task: Task) -> Draft:
    """Several parts are one step only where their mortises are alike, so that the first speaks for all."""
    part, copies = job.piece.part(task.parts[0]), sum(len(each.copies) for each in job.parts(task.parts))
    kinds = mortise_kinds(job, _cut(task, Verb.MORTISE, part))
    askew = _angled(task, Verb.MORTISE, part)
    widths = dict.fromkeys(job.with_unit(each) for each in (*(k.size.width for k in kinds), *(a.breadth for a in askew)))
    return Draft(
        title=f"Cut the mortises of the {job.kind(task.parts)}",
        actions=said(
            *(_blind(job, each, copies) for each in kinds if not each.through),
            *(_through(job, each) for each in kinds if each.through),
            *(_flared(job, part, each) for each in kinds if each.flare > TINY),
            *dict.fromkeys(_askew(job, each) for each in _alike(part, askew)),
            "Pare walls and ends square; clear out the chips",
        ),
        sizes=(*(_size_line(job, each, copies) for each in kinds), *_askew_sizes(job, part, askew)),
        check=f"A strip planed to {phrases.listed(widths)} slides in without play; a small square shows the walls upright.",
        uses=tuple(Use("mortise", (("width", each),)) for each in widths),
    )


def _alike(part: Part, askew: Sequence[AngledMortise]) -> list[list[AngledMortise]]:
    """Those that are cut with the same settings, together."""
    found: dict[tuple[object, ...], list[AngledMortise]] = {}
    for each in askew:
        sizes = (round(size, 3) for size in (each.breadth, each.length, each.depth))
        found.setdefault((each.through, *sizes, angle_words(part, each)), []).append(each)
    return list(found.values())


def _askew(job: Job, alike: Sequence[AngledMortise]) -> str:
    """Those that are only turned are cut as usual; one that leans wants a guide."""
    one, mates = alike[0], job.marks(each.mate.part for each in alike)
    through = " from both faces" if one.through else ""
    if one.is_square_in:
        return f"Set a sliding bevel for the turned mortises of {mates}, draw all sides, and cut square to the face{through}"
    return f"Drill and chop the mortises for {mates} along a guide block sawn to their lean{through}"


def _askew_sizes(job: Job, part: Part, askew: Sequence[AngledMortise]) -> list[str]:
    return [_askew_line(job, part, alike) for alike in _alike(part, askew)]


def _askew_line(job: Job, part: Part, alike: Sequence[AngledMortise]) -> str:
    one, mates = alike[0], job.marks(each.mate.part for each in alike)
    deep = "through" if one.through else f"{job.size(one.depth)} deep"
    size = f"{job.size(one.breadth)} wide, {job.size(one.length)} long, {deep}"
    return f"{len(alike) * len(part.copies)} for {mates}: {size}, {angle_words(part, one)}"


def _blind(job: Job, kind: MortiseKind, copies: int) -> str:
    meet = "; they meet inside" if _meet(kind.mortises) else ""
    mortises = "mortises" if len(kind.mortises) * copies > 1 else "mortise"
    return f"Drill and chop the {mortises} for {job.marks(kind.mates)} to a depth stop at {job.size(kind.size.depth)}{meet}"


def _meet(mortises: Sequence[Mortise]) -> bool:
    return any(a.void.meet(b.void).is_solid for a in mortises for b in mortises if a is not b)


def _through(job: Job, kind: MortiseKind) -> str:
    return f"Cut the through mortise for {job.marks(kind.mates)} from both faces, so that neither breaks out"


def _flared(job: Job, part: Part, kind: MortiseKind) -> str:
    """The slope that gives the wedges room, from where the kerfs end."""
    one = kind.mortises[0]
    near, far = (phrases.facing(part, face, job.piece) for face in (one.face, one.face.opposite))
    start = abs(one.flare_from - part.body.at(one.face)) if one.flare_from is not None else 0.0
    begin = f" from {job.size(start)} below the {near} face" if start > TINY else ""
    ends = _ENDS[one.flare_axis] if one.flare_axis else "both ends"
    return f"Slope its {ends}{begin} to {job.size(one.flare)} back at the {far} face"


def _size_line(job: Job, kind: MortiseKind, copies: int) -> str:
    deep = "through" if kind.through else f"{job.size(kind.size.depth)} deep"
    count = len(kind.mortises) * copies
    flare = f", {job.size(kind.size.length + 2 * kind.flare)} long at the far face" if kind.flare > TINY else ""
    size = f"{job.size(kind.size.width)} wide, {job.size(kind.size.length)} long, {deep}{flare}"
    return f"{count} for {job.marks(kind.mates)}: {size}"
