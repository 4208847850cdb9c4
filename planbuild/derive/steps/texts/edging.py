"""Edging: strips ripped, glued to the edges of sheets and trimmed flush, before any joint is cut."""

from __future__ import annotations

from planbuild.derive import phrases
from planbuild.derive.lists.edging import strip_size
from planbuild.derive.steps.clamps import Clamps, clamp_text, edging_clamps
from planbuild.derive.steps.job import Draft, Job, Use, said
from planbuild.derive.steps.tasks import Task
from planbuild.records.edging import Edging, edgings_of
from planbuild.records.piece import Part, Stock


def edge(job: Job, task: Task) -> Draft:
    parts = job.parts(task.parts)
    strips = [(part, strip) for part in parts for strip in edgings_of(part.features)]
    first = strips[0][1]
    board = next(each for each in job.piece.stock if each.id == first.stock)
    clamps: tuple[Clamps, ...] = tuple(edging_clamps(job.edition, part) for part in parts)
    longest = max(clamps, key=lambda each: (each.span, each.count))
    return Draft(
        title=f"Edge the {job.kind(task.parts)} with {first.wood}",
        actions=said(
            _ripped(job, board, strips),
            _tongued(job, first),
            _turned(strips),
            "Glue them on under tape or clamps with a caul, standing over on both faces, and wipe off what runs out",
            "Plane the strips level with the faces without touching these; saw the ends flush",
        ),
        sizes=tuple(_size(job, part, strip) for part, strip in strips),
        check="No gap takes a sheet of paper, and a fingertip feels no step between strip and face.",
        wait=f"{phrases.time_text(job.piece.glue.clamp_time)} under pressure before each next strip, and before planing.",
        note="" if not clamps else f"Instead of tape: {clamp_text(job.edition, longest)} for the largest.",
        uses=(Use("edge"), *([Use("groove", (("width", job.with_unit(first.tongue[0])),))] if first.tongue else [])),
        clamps=(longest,),
    )


def _ripped(job: Job, board: Stock, strips: list[tuple[Part, Edging]]) -> str:
    """The strips are as wide as the planed board is thick, and trimmed to the sheet when they are on."""
    thick = job.with_unit(strips[0][1].thickness + (strips[0][1].tongue[1] if strips[0][1].tongue else 0.0))
    return (
        f"Plane {board.quarters} {board.species} to {job.with_unit(board.thickness)}, joint an edge, rip a strip {thick} thick "
        "off it, and begin again"
    )


def _tongued(job: Job, strip: Edging) -> str:
    if strip.tongue is None:
        return ""
    thick, long = (job.size(each) for each in strip.tongue)
    return f"Groove the middle of the edges {thick} wide and a little over {long} deep, and cut a tongue on each strip to fit"


def _turned(strips: list[tuple[Part, Edging]]) -> str:
    """In which order the strips of one part go on, where they meet at corners."""
    meeting = [each for part in {part.id: part for part, _ in strips}.values() for each in edgings_of(part.features)]
    if any(each.mitred for each in meeting):
        return "Mitre the ends that meet at a corner, each strip cut to fit the one that is on"
    order = list(dict.fromkeys(each.edge.value for each in meeting))
    across = len({each.edge.axis for each in meeting}) > 1
    return f"Go on in this order: {phrases.listed(order)}; each later strip covers the ends of the earlier ones" if across else ""


def _size(job: Job, part: Part, strip: Edging) -> str:
    length, width, thick = strip_size(part, strip)
    each = f"{phrases.number_word(len(part.copies))} of " if len(part.copies) > 1 else ""
    return f"{phrases.mark(part.id)} {strip.edge.value}: {each}{job.sizes(thick, width)}, {job.size(length)} long"
