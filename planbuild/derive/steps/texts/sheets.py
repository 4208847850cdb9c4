"""Sheet goods: measuring them, and sawing the parts out of them."""

from __future__ import annotations

from planbuild.derive import phrases
from planbuild.derive.cautions import caution
from planbuild.derive.lists.blanks import blank_of
from planbuild.derive.steps.job import Draft, Job, Use, said
from planbuild.derive.steps.tasks import Task
from planbuild.joints.proportions import habit_number
from planbuild.joints.weights import stock_density
from planbuild.records.facts import Caution
from planbuild.records.piece import Part
from planbuild.records.stock import Sheet, Stock


def break_down(job: Job, task: Task) -> Draft:
    parts = job.parts(task.parts)
    stock = job.piece.stock_of(parts[0])
    assert stock.sheet is not None
    thick = job.with_unit(stock.thickness)
    return Draft(
        title=f"Saw the {job.kind(task.parts)} out of {stock.species}",
        actions=said(
            f"Measure the sheet at all four edges; where it is not {thick}, fit grooves and housings to it and not to the figure",
            f"Lay out the parts{_lie(stock.sheet)}, a saw cut apart and clear of the factory edges",
            "Lay the sheet flat on boards and saw the parts a little oversize, the better face "
            + ("up" if job.piece.practice.way == "hand" else "down under a hand-held saw"),
            "Trim one long edge straight, saw the other parallel to it, and the ends square: like parts at one stop",
            "Write its mark on each, on the face that will not be seen",
        ),
        sizes=tuple(_cut(job, each) for each in parts),
        check=f"Corners are square, like parts agree within {job.habit('agree')}, and no face is splintered along the cut.",
        uses=(Use("break_down"),),
        cautions=_heavy(job, stock),
    )


def _lie(sheet: Sheet) -> str:
    return " with the grain of their faces along that of the sheet" if sheet.grain else ""


def _cut(job: Job, part: Part) -> str:
    """Sawn size: less than the finished one by the edging that comes on."""
    length, width, _ = blank_of(job.piece, part, job.edition.ruler).each
    count = blank_of(job.piece, part, job.edition.ruler).count
    each = f"{phrases.number_word(count)} × " if count > 1 else ""
    return f"{phrases.mark(part.id)} {each}{job.sizes(length, width)}"


def _heavy(job: Job, stock: Stock) -> tuple[Caution, ...]:
    assert stock.sheet is not None
    along, across = stock.sheet.size
    mass = along * across * stock.thickness * 1e-9 * stock_density(stock, job.piece.moisture[2])
    if mass <= habit_number("lift_kg"):
        return ()
    return (caution("whole sheet", {"sheet_mass": f"{mass:.0f} kg"}),)
