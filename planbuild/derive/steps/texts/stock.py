"""Stock preparation of solid wood: rough sawing, rest, milling."""

from __future__ import annotations

from planbuild.derive import phrases
from planbuild.derive.lists.blanks import blank_of
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
            *_resawn(job, job.parts(task.parts)),
            "Plane both faces just clean; leave the rest of the extra thickness",
            "Stack them in the workshop on stickers, with air on all sides",
        ),
        sizes=tuple(_blanks(job, each) for each in job.parts(task.parts) if each.glue_up or each.made_by),
        check=f"Each blank has its mark; a moisture meter reads about {moisture}.",
        wait=f"{habit_number('rest_days'):.0f} days or more, until two readings a day apart agree.",
        uses=(Use("rough"),),
    )


def _resawn(job: Job, parts: list[Part]) -> list[str]:
    """Boards that are opened through their thickness, by how many leaves each gives."""
    leaves = same([(each.id, f"{job.piece.stock_of(each).leaves}") for each in parts if job.piece.stock_of(each).leaves > 1])
    each = [f"the blanks of {job.marks(ids)} into {phrases.counted(int(count), 'leaf')}" for ids, count in leaves]
    return [f"Joint one face and one edge, then saw {phrases.listed(each)} through the thickness"] if each else []


def blank_word(part: Part) -> str:
    """What a part is glued up of, or sawn from."""
    return "layer" if part.glue_up and part.glue_up.strips == 1 else "strip"


def _blanks(job: Job, part: Part) -> str:
    """`A1 four strips`, `A8 one strip for all twelve`: where blanks are not as many as parts."""
    strips = phrases.counted(blank_of(job.piece, part, job.edition.ruler).count, blank_word(part))
    return f"{phrases.mark(part.id)} {strips}{f' for all {phrases.number_word(len(part.copies))}' if part.made_by else ''}"


def mill(job: Job, task: Task) -> Draft:
    parts = job.parts(task.parts)
    whole = [each for each in parts if not each.glue_up and not each.made_by]
    long = [each for each in parts if each not in whole]
    square = bool(whole) and all(job.size(each.finished[1]) == job.size(each.finished[2]) for each in whole)
    return Draft(
        title=f"Mill the {_milled_title(job, parts)}",
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


def _milled_title(job: Job, parts: list[Part]) -> str:
    """The parts, or where they are many the stock that they come from: one setting of the planer is one step."""
    names = _blank_names(job, parts)
    if "parts" not in names and len(names) <= job.MOST_NAMED:
        return phrases.listed(names)
    stock = job.piece.stock_of(parts[0])
    return f"{stock.quarters} {stock.species}" if stock.quarters else f"parts of {stock.species}"


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
    strips = [f"{each.name} {blank_word(each)}s" if each.glue_up else f"{each.name} strip" for each in parts if each not in whole]
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
    """Panel strips keep some wood for flattening; layers do not; small parts come from a strip of the stock's thickness."""
    thickness = job.piece.stock_of(part).thickness
    if part.made_by:
        return thickness
    if part.glue_up is None:
        return part.finished[2]
    return part.finished[2] / part.glue_up.layers + (panel_over(job) if part.glue_up.strips > 1 else 0.0)


def panel_over(job: Job) -> float:
    """What strips are thicker than their panel will be."""
    return habit_length("panel_over", job.edition.ruler)


def _milled(job: Job, part: Part) -> str:
    mark, thick, blank = phrases.mark(part.id), _milled_thickness(job, part), blank_of(job.piece, part, job.edition.ruler)
    if part.glue_up:
        strips = phrases.counted(blank.count, blank_word(part))
        wide = f"wider than {job.size(part.glue_up.strip_width)}"
        return f"{mark} {strips}, {job.size(thick)} thick, {wide}, {job.size(blank.each[0])} long"
    if part.made_by:
        return f"{mark} strip {job.sizes(thick, part.finished[1])}, {job.size(blank.each[0])} long"
    length, width, _ = part.finished
    return f"{mark} {job.sizes(thick, width)}, {job.size(length)} long"
