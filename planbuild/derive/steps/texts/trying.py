"""Blocks tried in their openings before they get their finish: a drawer runs, a door has even gaps."""

from __future__ import annotations

from planbuild.core.geometry import Axis, Box, hull
from planbuild.derive import phrases
from planbuild.derive.steps.job import Draft, Job, Use, said
from planbuild.derive.steps.tasks import Task
from planbuild.records.openings import Block


def try_in(job: Job, task: Task) -> Draft:
    block = task.block
    assert block is not None, "the step is made for a block"
    count = len(block.motions)
    return Draft(
        title=f"Fit the {block.name if count == 1 else phrases.counted(count, block.name)}",
        actions=said(*_actions(block, any(each.on in block.parts for each in job.piece.hardware))),
        sizes=_sizes(job, block),
        check=_check(block),
        note=block.note,
        uses=(Use("try"),),
    )


def _each(block: Block) -> str:
    return f"{'each' if len(block.motions) > 1 else 'the'} {block.name}"


def _actions(block: Block, has_pull: bool) -> tuple[str, ...]:
    """`has_pull`: something is fixed to it that would be in the way."""
    moves = block.moves
    if moves and moves.swings:
        about = moves.about.value if moves.about else "hinge"
        return (
            f"Set {_each(block)} into its opening on thin shims, tight to the side of its hinges (the {about} as drawn)",
            "Mark where the gap is narrow; plane there and try again",
            "Plane the ends of stiles from the outer edge inward, or they split",
        )
    if moves and moves.opens:
        return (
            f"Slide {_each(block)} into its opening from the {(moves.goes_in or moves.opens).value}"
            f"{', without its hardware' if has_pull else ''}",
            "Where it binds it leaves shiny spots; take a thin shaving off there and try again",
        )
    way = f" from the {moves.goes_in.value}" if moves and moves.goes_in else ""
    return (f"Put {_each(block)} in its place{way}", "Where it binds, take a thin shaving off and try again")


def _sizes(job: Job, block: Block) -> tuple[str, ...]:
    """Width and height of the opening, and of what goes into it."""
    parts = [job.piece.part(id) for id in block.parts]
    bodies = [part.box(copy, part.body) for part in parts for copy in range(len(part.copies) // len(block.motions))]
    return (f"opening {_across(job, block.box)}", f"{block.name} {_across(job, hull(bodies))}")


def _across(job: Job, box: Box) -> str:
    return f"{job.size(box.size(Axis.LEFT_RIGHT))} wide, {job.size(box.size(Axis.BOTTOM_TOP))} high"


def _check(block: Block) -> str:
    it = phrases.heading(_each(block))
    moves = block.moves
    if moves and moves.swings:
        return f"{it} has an even gap all round and lies flush at the {moves.swings.value}."
    if moves and moves.opens:
        return f"{it} follows the hand all the way without a push, and does not rattle."
    return f"{it} goes in by hand and comes out again."
