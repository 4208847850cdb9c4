"""Gluing up: strips edge to edge into a panel, layers face to face; and cutting what comes of it to size."""

from __future__ import annotations

from planbuild.derive import phrases
from planbuild.derive.steps import checks
from planbuild.derive.steps.clamps import clamp_text, layer_clamps, panel_clamps
from planbuild.derive.steps.job import Draft, Job, Use, said
from planbuild.derive.steps.tasks import Task
from planbuild.joints.proportions import habit_number
from planbuild.records.piece import Part
from planbuild.records.stock import GlueUp


def panel(job: Job, task: Task) -> Draft:
    part = job.piece.part(task.parts[0])
    assert part.glue_up is not None
    return _layers(job, part, part.glue_up) if part.glue_up.strips == 1 else _strips(job, part, part.glue_up)


def _strips(job: Job, part: Part, glue_up: GlueUp) -> Draft:
    clamps = panel_clamps(job.piece, job.edition, part)
    rest = f"then {habit_number('panel_rest_hours'):.0f} h on stickers before planing"
    return Draft(
        title=f"Glue up the {_named(part)} from {_its(part)} strips",
        actions=said(
            _laid_out(part, glue_up),
            "Plane each pair of meeting edges until no light shows between them",
            _splined(job, glue_up),
            "Clamp dry, open, and spread glue on one edge of each joint",
            "Clamp from both faces in turn, strips flush"
            + (", and scrape off the glue when it is rubbery" if glue_up.splines or glue_up.layers > 1 else ""),
            "" if glue_up.splines or glue_up.layers > 1 else "Scrape off the squeezed-out glue when it is rubbery",
            _stacked(glue_up),
        ),
        sizes=(f"{clamp_text(job.edition, clamps)}, {job.habit('clamp_spacing')} apart",),
        check=f"Faces are flush within {job.habit('agree')}; a straightedge laid across shows no hollow.",
        wait=f"{phrases.time_text(job.piece.glue.clamp_time)} in the clamps, {rest}.",
        uses=(Use("panel"), *([Use("groove", (("width", job.with_unit(glue_up.splines)),))] if glue_up.splines else [])),
        clamps=(clamps,),
    )


def _named(part: Part) -> str:
    """`top`, `two panels`."""
    return part.name if len(part.copies) == 1 else phrases.counted(len(part.copies), part.name)


def _its(part: Part) -> str:
    return "its" if len(part.copies) == 1 else "their"


def _laid_out(part: Part, glue_up: GlueUp) -> str:
    """How the strips lie; a match decides more than the rings do."""
    rings = "their rings alternating" if glue_up.rings.startswith("alt") else "their rings the same way"
    laid = {
        "bookmatched": "opened like the pages of a book, each the mirror image of the last",
        "slip": "slid side by side as they came off the board, none turned over",
    }.get(glue_up.match, rings)
    each = " for each layer" if glue_up.layers > 1 else " for each" if len(part.copies) > 1 else ""
    strips = phrases.number_word(glue_up.strips)
    return f"Lay out the {strips} strips of {phrases.mark(part.id)}{each}, {laid}; draw a triangle across them"


def _splined(job: Job, glue_up: GlueUp) -> str:
    if not glue_up.splines:
        return ""
    wide, deep = job.size(glue_up.splines), job.habit("spline_deep")
    return f"Groove the middle of each meeting edge {wide} wide and {deep} deep; fit the splines to slide in by hand"


def _stacked(glue_up: GlueUp) -> str:
    if glue_up.layers == 1:
        return ""
    panels = f"the {phrases.number_word(glue_up.layers)} panels"
    return f"Plane {panels} flat, spread glue on one face of each two, and clamp them all over"


def _layers(job: Job, part: Part, glue_up: GlueUp) -> Draft:
    clamps = layer_clamps(job.edition, part)
    sheet = job.piece.stock_of(part).sheet is not None
    return Draft(
        title=f"Glue up the {_named(part)} from {_its(part)} layers",
        actions=said(
            f"Stack the {phrases.number_word(glue_up.layers)} layers of {phrases.mark(part.id)} dry, "
            + ("the grain of their faces one way" if sheet else "their grain one way and their rings the same way")
            + "; draw a triangle across the edges",
            "Spread glue thinly all over one face of each two",
            "Pin the layers with small nails in the waste at both ends, so that they do not slide",
            "Clamp between stiff cauls, from the middle to the ends",
            "Scrape off the squeezed-out glue when it is rubbery",
        ),
        sizes=(f"{clamp_text(job.edition, clamps)}, {job.habit('clamp_spacing')} apart",),
        check="A line of glue shows along every joint; no gap takes a sheet of paper.",
        wait=f"{phrases.time_text(job.piece.glue.clamp_time)} in the clamps, "
        f"then {habit_number('panel_rest_hours'):.0f} h before it is sawn.",
        uses=(Use("panel"),),
        clamps=(clamps,),
    )


def size(job: Job, task: Task) -> Draft:
    part = job.piece.part(task.parts[0])
    length, width, thickness = part.finished
    stacked = part.glue_up is not None and part.glue_up.strips == 1
    mark, it = phrases.mark(part.id), "it" if len(part.copies) == 1 else "them"
    first = "" if stacked else f"Plane {mark} across the grain, then along it, flat and {job.with_unit(thickness)} thick"
    return Draft(
        title=f"{'Square' if stacked else 'Flatten'} the {_named(part)} and cut {it} to size",
        actions=said(
            first,
            f"Plane one long edge straight; saw the other parallel to it, {job.size(width)} wide",
            f"Saw one end square to that edge, then the other, {job.size(length)} long; plane off the saw marks",
        ),
        sizes=(f"{mark} {job.sizes(thickness, width)}, {job.size(length)} long",),
        check=checks.diagonals(job, part.name, length, width),
        uses=(Use("size"),),
    )
