"""Small parts that a joint calls for (buttons, wedges): made from a strip, to fit their joint."""

from __future__ import annotations

from planbuild.core.units import drill_text
from planbuild.derive import phrases
from planbuild.derive.lists.blanks import (
    is_corner_key,
    is_edge_spline,
    is_from_offcut,
    is_key,
    is_let_in,
    is_peg,
    is_spline,
    planed_axis,
)
from planbuild.derive.lists.measures import rabbet_size
from planbuild.derive.steps.job import Draft, Job, Use, said
from planbuild.derive.steps.tasks import Task
from planbuild.derive.steps.texts import keys, mitres, pegs
from planbuild.records.features import Chamfer, Groove, Hole, Rabbet, Taper, Tenon
from planbuild.records.piece import Joint, Part


def make(job: Job, task: Task) -> Draft:
    part = job.piece.part(task.parts[0])
    if is_corner_key(job.piece, part) or is_spline(job.piece, part):
        return mitres.make(job, part)
    if is_edge_spline(job.piece, part):
        return _edge_splines(job, part)
    if is_peg(job.piece, part):
        return pegs.make(job, part)
    if is_let_in(job.piece, part):
        return keys.let_in(job, part)
    joint = next(each for each in job.piece.joints if each.id == part.made_by)
    length, width, thickness = part.finished
    tapers = [each for each in part.features if isinstance(each, Taper)]
    return Draft(
        title=f"Make the {phrases.counted(len(part.copies), part.name)}",
        actions=said(
            _strip(job, part),
            *(_step(job, part, each) for each in part.features if isinstance(each, Rabbet)),
            *(_hole(job, part, each) for each in part.features if isinstance(each, Hole)),
            *(_slope(job, part, each) for each in tapers),
            "Plane the sawn faces smooth" if tapers else f"Cut it off {job.size(length)} long, square the end, and begin again",
        ),
        sizes=(f"{phrases.mark(part.id)} {job.sizes(thickness, width)}, {job.size(length)} long along the grain",),
        check=_check(job, part, joint),
        uses=_uses(job, part),
    )


def _edge_splines(job: Job, part: Part) -> Draft:
    length, width, thickness = part.finished
    stock = job.piece.stock_of(part)
    slides = "until it slides along its groove by hand"
    return Draft(
        title=f"Make the {phrases.counted(len(part.copies), part.name)}",
        actions=said(
            f"Try {stock.species} in a groove in scrap; set the cutter {slides}"
            if stock.sheet
            else f"Plane {stock.species} to {job.size(thickness)} thick, {slides}",
            f"Rip it {job.size(width)} wide along the grain; ease its long corners, so that glue finds room beside it",
            f"Cut it {job.size(length)} long",
        ),
        sizes=(f"{phrases.mark(part.id)} {job.sizes(thickness, width)}, {job.size(length)} long along the grain",),
        check="With it in its grooves the edges of both boards still close.",
        uses=(Use("strip"),),
    )


def _strip(job: Job, part: Part) -> str:
    if is_from_offcut(job.piece, part):
        wood, thickness = job.piece.stock_of(part).species, job.size(part.extent.size(planed_axis(part)))
        return f"Plane an offcut of {wood} to {thickness} thick; the grain runs along {phrases.mark(part.id)}"
    return f"Square the end of the strip for {phrases.mark(part.id)}"


def _step(job: Job, part: Part, rabbet: Rabbet) -> str:
    """The step across the end leaves a tongue, the thickness of which is what is left."""
    depths = dict([rabbet_size(rabbet).first, rabbet_size(rabbet).second])
    down = next(depth for face, depth in depths.items() if face.axis is part.thickness_axis)
    along = next(depth for face, depth in depths.items() if face.axis is not part.thickness_axis)
    return f"Saw a step across the end: it leaves a tongue {job.size(part.finished[2] - down)} thick and {job.size(along)} long"


def _slope(job: Job, part: Part, taper: Taper) -> str:
    """The thick end of a wedge is left longer, to be sawn off when it is home; a key keeps its head."""
    (axis, thin), *_ = taper.leaving
    length = part.finished[0]
    if is_key(job.piece, part):
        broad = job.size(part.extent.size(axis))
        return f"Saw them {job.size(length)} long, one edge straight, the other tapering from {broad} to {job.size(thin)}"
    taper_words = f"from {job.size(thin)} at the tip to {job.size(part.extent.size(axis))}"
    return f"Saw them {job.size(length + part.rough_length)} long, tapering {taper_words} at {job.size(length)}"


def _hole(job: Job, part: Part, hole: Hole) -> str:
    """Drilled while the part is still on its strip, so it is measured from the end that is already cut."""
    rabbets = [face for f in part.features if isinstance(f, Rabbet) for face in f.edge if face.axis is part.grain]
    end = rabbets[0] if rabbets else part.grain.low
    back = abs(part.extent.at(end) - hole.centre[part.grain.value])
    drill = f"{drill_text(hole.diameter, job.edition.ruler)} {job.edition.ruler.unit.symbol}"
    return f"Drill a {drill} hole for the screw, {job.size(back)} from the end and in the middle of the width"


def _check(job: Job, part: Part, joint: Joint) -> str:
    served = [f for p in job.piece.parts for f in p.features if f.joint == joint.id]
    if is_key(job.piece, part):
        return "The straight edge is square to the faces; each goes in by hand until it meets both walls, about level."
    if any(isinstance(f, Tenon) and f.wedging for f in served):
        return "Each enters its kerf by the thin end, and all stop at the same depth under the thumb."
    if any(isinstance(f, Groove) for f in served):
        return "Each tongue slides along its groove by hand."
    return "All are alike and enter their joint by hand."


def _uses(job: Job, part: Part) -> tuple[Use, ...]:
    unit = job.edition.ruler.unit.symbol
    holes = dict.fromkeys(drill_text(f.diameter, job.edition.ruler) for f in part.features if isinstance(f, Hole))
    return (
        Use("wedge") if any(isinstance(f, Taper) for f in part.features) else Use("strip"),
        *([Use("rabbet")] if any(isinstance(f, Rabbet) for f in part.features) else []),
        *([Use("chamfer")] if any(isinstance(f, Chamfer) for f in part.features) else []),
        *(Use("bore", (("diameter", f"{each} {unit}"),)) for each in holes),
    )
