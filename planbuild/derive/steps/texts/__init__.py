"""The words of each kind of step, as a careful maker would give them to another: one writer a verb."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from planbuild.derive.steps.job import Draft, Job
from planbuild.derive.steps.operations import Verb
from planbuild.derive.steps.tasks import Task
from planbuild.derive.steps.texts import (
    added,
    assembly,
    dovetails,
    edging,
    fitting,
    grooves,
    hardware,
    holes,
    keys,
    made,
    mitres,
    mortises,
    moulded,
    panels,
    pegs,
    pockets,
    rounds,
    sawn,
    shaping,
    sheets,
    slants,
    stock,
    surfaces,
    tails,
    tenons,
    trying,
)
from planbuild.derive.steps.texts.added import together

Writer = Callable[[Job, Task], Draft]

WRITERS: Mapping[Verb, Writer] = {
    Verb.ROUGH: stock.rough,
    Verb.MILL: stock.mill,
    Verb.BREAK_DOWN: sheets.break_down,
    Verb.EDGE: edging.edge,
    Verb.PANEL: panels.panel,
    Verb.SIZE: panels.size,
    Verb.TRIM: mitres.trim,
    Verb.SLOT: mitres.slot,
    Verb.CORNERS: mitres.key,
    Verb.LAY_OUT: mortises.lay_out,
    Verb.MORTISE: mortises.mortise,
    Verb.TENON: tenons.tenon,
    Verb.MITRE: tenons.mitre,
    Verb.KERF: tenons.kerf,
    Verb.KEY: keys.key,
    Verb.PEG: pegs.bore,
    Verb.ROUND_TENON: rounds.tenon,
    Verb.HOUSE: grooves.house,
    Verb.LAP: grooves.lap,
    Verb.TRENCH: dovetails.trench,
    Verb.TAIL: dovetails.tail,
    Verb.SOCKET: dovetails.socket,
    Verb.FINGERS: dovetails.fingers,
    Verb.TAILS: tails.tails,
    Verb.PINS: tails.pins,
    Verb.GROOVE: grooves.groove,
    Verb.RABBET: grooves.rabbet,
    Verb.BORE: holes.bore,
    Verb.POCKET: pockets.bore,
    Verb.ROWS: hardware.drill_rows,
    Verb.LET_IN: hardware.let_in,
    Verb.HINGE: hardware.let_in,
    Verb.MAKE: made.make,
    Verb.TAPER: shaping.taper,
    Verb.ARCH: shaping.arch,
    Verb.CURVE: shaping.curve,
    Verb.BEVEL: shaping.bevel,
    Verb.OUTLINE: sawn.outline,
    Verb.CUT_OUT: sawn.cut_out,
    Verb.NOTCH: sawn.notch,
    Verb.CORNER: sawn.corner,
    Verb.TURN: moulded.turn,
    Verb.LEVEL: slants.level,
    Verb.DISH: moulded.dish,
    Verb.MOULD: moulded.mould,
    Verb.CHAMFER: shaping.edges,
    Verb.ROUND: shaping.edges,
    Verb.DRY_FIT: assembly.dry_fit,
    Verb.PREPARE: surfaces.prepare,
    Verb.JOIN: assembly.join,
    Verb.TRY: trying.try_in,
    Verb.FINISH: surfaces.finish,
    Verb.FIT: fitting.fit,
    Verb.OWN: added.own,
}


def write(job: Job, task: Task) -> Draft:
    """The draft of one step."""
    return together([WRITERS[each.verb](job, each) for each in task.joined or (task,)])
