"""Stock preparation: rough sawing, rest, milling, gluing up panels and cutting them to size."""

from __future__ import annotations

from planbuild.derive import phrases
from planbuild.derive.lists.blanks import blank_of
from planbuild.derive.steps import checks
from planbuild.derive.steps.clamps import clamp_text, panel_clamps
from planbuild.derive.steps.job import Draft, Job, Use, said, same
from planbuild.derive.steps.tasks import Task
from planbuild.joints.proportions import habit_length, habit_number
from planbuild.records.piece import Part


def rough(job: Job, task: Task) -> Draft:
    moisture = f"{job.piece.moisture[2]:g}\u00a0%"
    return Draft(
        title="Saw the blanks oversize and let them rest",
        actions=said(
            "Mark out the blanks of the cut list, clear of knots and splits",
            "Saw them to rough length and width, and write its mark on each",
            "Plane both faces just clean; leave the rest of the extra thickness",
            "Stack them in the workshop on stickers, with air on all sides",
        ),
        sizes=tuple(_blanks(job, each) for each in job.parts(task.parts) if each.glue_up or each.made_by),
        check=f"Each blank has its mark; a moisture meter reads about {moisture}.",
        wait=f"{habit_number('rest_days'):.0f} days or more, until two readings a day apart agree.",
        uses=(Use("rough"),),
    )


def _blanks(job: Job, part: Part) -> str:
    """`A1 four strips`, `A8 one strip for all twelve`: where blanks are not as many as parts."""
    strips = phrases.counted(blank_of(job.piece, part, job.edition.ruler).count, "strip")
    return f"{phrases.mark(part.id)} {strips}{f' for all {phrases.number_word(len(part.copies))}' if part.made_by else ''}"


def mill(job: Job, task: Task) -> Draft:
    parts = job.parts(task.parts)
    whole = [each for each in parts if not each.glue_up and not each.made_by]
    long = [each for each in parts if each not in whole]
    square = bool(whole) and all(job.size(each.finished[1]) == job.size(each.finished[2]) for each in whole)
    return Draft(
        title=f"Mill the {phrases.listed(_blank_names(job, parts))}",
        actions=said(
            "Joint one face flat, then one edge square to it; mark both",
            f"{_thickness(job, parts)}{', both ways' if square and not long else ''}",
            "Rip to width and plane the sawn edges" if whole and not square else "",
            "Cut one end square, then like parts to length at one stop" if whole else "",
            _left(job, long),
        ),
        sizes=tuple(_milled(job, each) for each in parts),
        check=f"A square shows no light; like parts agree within {job.habit('agree')}.",
        uses=(Use("mill"),),
    )


def _left(job: Job, parts: list[Part]) -> str:
    """Strips keep their length; those of a panel their width too, which jointing and trimming it take away."""
    if not parts:
        return ""
    wide = [each for each in parts if each.glue_up]
    names = phrases.listed(_blank_names(job, parts))
    if not wide:
        return f"Leave the {names} long"
    more = "" if len(wide) == len(parts) else f", the {phrases.listed(_blank_names(job, wide))} wide as well"
    return f"Leave the {names} long{more or ' and wide'}"


def _blank_names(job: Job, parts: list[Part]) -> list[str]:
    """`seat strips`, `rails`, `button strip`."""
    whole = [each for each in parts if not each.glue_up and not each.made_by]
    strips = [f"{each.name} strips" if each.glue_up else f"{each.name} strip" for each in parts if each not in whole]
    return [*([job.kind(each.id for each in whole)] if whole else []), *strips]


def _thickness(job: Job, parts: list[Part]) -> str:
    """Thickest first, so that the planer is only ever set down."""
    by_size = same([(each.id, job.size(_milled_thickness(job, each))) for each in sorted(parts, key=lambda p: -_steps(job, p))])
    (first, thick), *rest = by_size
    if not rest:
        return f"Plane all of them to {thick} at one setting"
    then = phrases.listed(f"{job.marks(ids)} to {size}" for ids, size in rest)
    return f"Plane {job.marks(first)} to {thick}, then {then}, each at one setting"


def _steps(job: Job, part: Part) -> int:
    return job.edition.ruler.steps(_milled_thickness(job, part))


def _milled_thickness(job: Job, part: Part) -> float:
    """Panel strips keep some wood for flattening; small parts come from a strip of the stock's thickness."""
    thickness = job.piece.stock_of(part).thickness
    if part.made_by:
        return thickness
    return part.finished[2] + (habit_length("panel_over", job.edition.ruler) if part.glue_up else 0.0)


def _milled(job: Job, part: Part) -> str:
    mark, thick, blank = phrases.mark(part.id), _milled_thickness(job, part), blank_of(job.piece, part, job.edition.ruler)
    if part.glue_up:
        strips = phrases.counted(blank.count, "strip")
        wide = f"wider than {job.size(part.glue_up.strip_width)}"
        return f"{mark} {strips}, {job.size(thick)} thick, {wide}, {job.size(blank.each[0])} long"
    if part.made_by:
        return f"{mark} strip {job.sizes(thick, part.finished[1])}, {job.size(blank.each[0])} long"
    length, width, _ = part.finished
    return f"{mark} {job.sizes(thick, width)}, {job.size(length)} long"


def panel(job: Job, task: Task) -> Draft:
    part = job.piece.part(task.parts[0])
    strips, rings = (part.glue_up.strips, part.glue_up.rings) if part.glue_up else (1, "")
    laid = "their rings alternating" if rings.startswith("alt") else "their rings the same way"
    clamps = panel_clamps(job.piece, job.edition, part)
    rest = f"then {habit_number('panel_rest_hours'):.0f} h on stickers before planing"
    return Draft(
        title=f"Glue up the {part.name} from its strips",
        actions=said(
            f"Lay out the {phrases.number_word(strips)} strips of {phrases.mark(part.id)}, {laid}; draw a triangle across them",
            "Plane each pair of meeting edges until no light shows between them",
            "Clamp dry, open, and spread glue on one edge of each joint",
            "Clamp from both faces in turn, strips flush",
            "Scrape off the squeezed-out glue when it is rubbery",
        ),
        sizes=(f"{clamp_text(job.edition, clamps)}, {job.habit('clamp_spacing')} apart",),
        check=f"Faces are flush within {job.habit('agree')}; a straightedge laid across shows no hollow.",
        wait=f"{job.piece.glue.clamp_time:g} min in the clamps, {rest}.",
        uses=(Use("panel"),),
        clamps=(clamps,),
    )


def size(job: Job, task: Task) -> Draft:
    part = job.piece.part(task.parts[0])
    length, width, thickness = part.finished
    return Draft(
        title=f"Flatten the {part.name} and cut it to size",
        actions=said(
            f"Plane {phrases.mark(part.id)} across the grain, then along it, flat and {job.with_unit(thickness)} thick",
            f"Plane one long edge straight; saw the other parallel to it, {job.size(width)} wide",
            f"Saw one end square to that edge, then the other, {job.size(length)} long; plane off the saw marks",
        ),
        sizes=(f"{phrases.mark(part.id)} {job.sizes(thickness, width)}, {job.size(length)} long",),
        check=checks.diagonals(job, part.name, length, width),
        uses=(Use("size"),),
    )
