"""Fitting: what is fixed or laid in place when everything else is done."""

from __future__ import annotations

from collections.abc import Mapping

from planbuild.core.geometry import TINY, Axis
from planbuild.derive import phrases
from planbuild.derive.lists.hardware import item_size, only_in_pockets
from planbuild.derive.steps.arrivals import comes_from
from planbuild.derive.steps.assembly import Joining, hull_of
from planbuild.derive.steps.job import Draft, Job, Use, lifting, said
from planbuild.derive.steps.slid_in import slid_in
from planbuild.derive.steps.tasks import Task, brought_whole, fixed_from_below, over_a_case
from planbuild.derive.steps.texts.hardware import (
    actions_of,
    check_of,
    fit_title,
    fix,
    notes_of,
    pilot_of,
    pilots_of,
    places_of,
    uses_of,
)
from planbuild.derive.steps.texts.wall import hang
from planbuild.joints.plates import NAME as PLATES
from planbuild.joints.plates.forms import CLIP, EIGHT
from planbuild.records.features import Feature, Hole, Rabbet
from planbuild.records.piece import Item, Part


def fit(job: Job, task: Task) -> Draft:
    if task.alone:
        return fix(job, task)
    part = job.piece.part(task.parts[0])
    if part.stays_on:
        return hang(job, task)
    hardware = _hardware(task)
    used = [each for each in job.piece.items if each.id in dict(hardware)]
    with_hardware = {id for each in task.placed for id, _ in each.screws}
    screws = [each for each in used if each.kind == "wood screw" and each.id not in with_hardware]
    fixed, whole = bool(task.joints or task.placed), brought_whole(job.piece, job.joinings, task) if job.joinings else None
    return Draft(
        title=f"Set the {whole.name} on the {job.joinings[-1].name}" if whole else fit_title(job, part, task.placed, fixed),
        actions=said(
            _lay(job, task, part), *_plates(job, task), *_made(job, task), *_put(job, task),
            *_screwed(job, task, part, screws, dict(hardware)),
        ),
        sizes=(
            *_overhangs(job, task, part, whole),
            *(line for each in job.parts(task.parts[1:]) for line in _rows(job, part, each)),
            *(f"{each.name}: {item_size(each, job.edition.ruler)}" for each in used),
            *(line for each in task.placed for line in (*places_of(job, each), *pilots_of(job, each))),
        ),
        check=_check(job, task, part),
        note=notes_of(task.placed),
        uses=(
            *uses_of(job, part, task.placed),
            *(Use("screw", (("pilot", pilot_of(job, each)),)) for each in used if _is_drilled_for(job, each)),
        ),
        cautions=lifting(job),
        hardware=hardware,
    )


def _is_drilled_for(job: Job, item: Item) -> bool:
    return item.kind == "wood screw" and not only_in_pockets(job.piece, item)


def _hardware(task: Task) -> tuple[tuple[str, int], ...]:
    counts: dict[str, int] = {}
    placed = [pair for each in task.placed for pair in each.takes]
    for id, count in [pair for joint in task.joints for pair in joint.hardware] + placed:
        counts[id] = counts.get(id, 0) + count
    return tuple(counts.items())


def _put(job: Job, task: Task) -> tuple[str, ...]:
    """Hinges and pins first: they bring the part to its place."""
    placed = sorted(task.placed, key=lambda each: not each.brings)
    return tuple(action for each in placed for action in actions_of(job, each))


def _lay(job: Job, task: Task, part: Part) -> str:
    """A top that is fixed from below is fixed lying on its face; what hangs or lies on hardware comes with that."""
    if any(each.brings == part.id for each in task.placed):
        return ""
    whole = brought_whole(job.piece, job.joinings, task) if job.joinings else None
    if whole:
        return f"Set the {whole.name} on the {job.joinings[-1].name}, square and as far in on both sides, and clamp it lightly"
    side = comes_from(job, task)
    if side:
        return f"Slide {phrases.the(part)} to {'its' if len(part.copies) == 1 else 'their'} place from the {side.value}"
    if over_a_case(job.piece, task):
        on = _carrier(job, task)
        return f"Set {phrases.the(part)} on {f'the {on.name}' if on else 'the case'}, standing over as listed, and clamp it"
    if fixed_from_below(job.piece, task) and job.joinings:
        return f"Lay {phrases.the(part)} face down on a blanket; centre the {job.joinings[-1].name} on it, upside down"
    its, it = ("its", "it") if len(part.copies) == 1 else ("their", "them")
    behind = slid_in(job.piece, part.id)
    if behind:
        return f"Slide {phrases.the(part)} into {its} grooves from the {behind.value}, without glue"
    return f"Set {phrases.the(part)} in {its} place{f' and clamp {it} lightly' if task.joints or task.placed else ''}"


def _carrier(job: Job, task: Task) -> Joining | None:
    """The largest glue-up that holds what the joints of a step fix it to, else the last one."""
    keys = {contact.b for joint in task.joints for contact in joint.contacts}
    holding = [each for each in job.joinings if any(keys & set(group) for group in each.groups)]
    return max(holding or job.joinings[-1:], key=lambda each: len(each.groups[0]), default=None)


def _made(job: Job, task: Task) -> tuple[str, ...]:
    return tuple(f"Set {phrases.the(each)} at the listed places{_tongued(each)}" for each in job.parts(task.parts[1:]))


def _tongued(made: Part) -> str:
    """A part with a step has a tongue, and must not be driven up to its shoulder: the wood it holds moves."""
    return ", tongues in the groove, with a gap before each shoulder" if any(isinstance(f, Rabbet) for f in made.features) else ""


def _plates(job: Job, task: Task) -> tuple[str, ...]:
    """Plates are screwed to the rails first, so that they can still turn; clips are hooked in with the top in its place."""
    kinds = {each.id: each for each in job.piece.items if each.kind in (EIGHT, CLIP)}
    found = []
    for joint in task.joints if any(each.kind == PLATES for each in task.joints) else ():
        for item, count in joint.hardware:
            if item in kinds and kinds[item].kind == EIGHT:
                found.append(f"Screw {phrases.counted(count, kinds[item].name)} into their recesses, so that they just turn")
            elif item in kinds:
                found.append(f"Hook {phrases.counted(count, kinds[item].name)} into the slots, each half of its tongue deep")
    return tuple(found)


def _rows(job: Job, top: Part, made: Part) -> list[str]:
    """Where small parts sit along each side: their middles from one end of the top, a line for each direction."""
    rows: dict[Axis, list[str]] = {}
    for copy in made.copies:
        along = next(axis for axis in (Axis.LEFT_RIGHT, Axis.FRONT_BACK) if axis is not copy.motion.axis(made.grain))
        middle = copy.motion.box(made.body).along(along).middle - top.body.along(along).low
        rows.setdefault(along, []).append(job.size(middle))
    return [_row(made, along, list(dict.fromkeys(places))) for along, places in rows.items()]


def _row(made: Part, along: Axis, places: list[str]) -> str:
    across = along.others[0]
    where = f"along {across.low.value} and {across.high.value}"
    return f"{phrases.mark(made.id)} {where}: {', '.join(places)} from the {along.low.value}"


def _screwed(job: Job, task: Task, part: Part, screws: list[Item], counts: Mapping[str, int]) -> tuple[str, ...]:
    found = []
    for each in screws:
        if only_in_pockets(job.piece, each):
            count = phrases.counted(counts[each.id], "screw")
            found.append(f"Clamp the joint flush; drive {count} through the pockets until they are snug")
            continue
        held = _held_in(job, task, each) or [part]
        marks = job.marks([part.id for part in held])
        inside = " from inside" if over_a_case(job.piece, task) else ""
        found.append(f"Drill pilot holes{inside} {pilot_of(job, each)} into {marks}, {_stop(job, task, held, each)}")
        found.append(f"Drive {phrases.counted(counts[each.id], 'screw')} by hand until they are snug{_travels(job, task)}")
    return tuple(found)


def _held_in(job: Job, task: Task, item: Item) -> list[Part]:
    """The parts with pilot holes for that screw, by the joints of the task."""
    return [part for part in job.piece.parts if any(_is_pilot(f, task, item) for f in part.features)]


def _is_pilot(feature: Feature, task: Task, item: Item) -> bool:
    served = {joint.id for joint in task.joints if item.id in dict(joint.hardware)}
    return isinstance(feature, Hole) and feature.purpose == "pilot" and feature.joint in served


def _travels(job: Job, task: Task) -> str:
    joints = {joint.id for joint in task.joints}
    slots = any(isinstance(f, Hole) and f.slot and f.joint in joints for part in job.piece.parts for f in part.features)
    return ", in the middle of each slot; not so hard that they cannot travel" if slots else ""


def _stop(job: Job, task: Task, held: list[Part], item: Item) -> str:
    """How deep the pilot holes go: one depth, or the sheets where there are several."""
    holes = [f for part in held for f in part.features if isinstance(f, Hole) and _is_pilot(f, task, item)]
    depths = {job.size(each.depth) for each in holes if each.depth}
    if len(depths) == 1:
        return f"{depths.pop()} deep"
    return "to the depths of their sheets" if depths else "with a stop on the drill"


def _overhangs(job: Job, task: Task, part: Part, whole: Joining | None) -> tuple[str, ...]:
    """How far a top stands over what carries it, on both pairs of sides, where it is alike at both."""
    carrier = _carrier(job, task)
    if carrier is None:
        return ()
    base = hull_of(job.piece, carrier.groups[0])
    copies = [(part.id, copy) for copy in range(len(part.copies))]
    own = hull_of(job.piece, whole.groups[0] if whole else copies)
    found, thin = [], min(own.size(axis) for axis in (Axis.LEFT_RIGHT, Axis.FRONT_BACK))
    for axis in (Axis.LEFT_RIGHT, Axis.FRONT_BACK):
        low, high = base.along(axis).low - own.along(axis).low, own.along(axis).high - base.along(axis).high
        if low > 0 and job.size(low) == job.size(high):
            found.append(f"overhang {job.size(low)} at {axis.low.value} and {axis.high.value}")
        elif min(low, high) >= -TINY and max(low, high) > TINY and part.body.size(Axis.BOTTOM_TOP) < thin:
            found.append(f"overhang {_over(job, axis.low.value, low)}, {_over(job, axis.high.value, high)}")
    return tuple(found)


def _over(job: Job, side: str, size: float) -> str:
    return f"{job.size(size)} at the {side}" if size > TINY else f"flush at the {side}"


def _check(job: Job, task: Task, part: Part) -> str:
    brought = next((each for each in task.placed if each.brings == part.id), None)
    if brought:
        return check_of(job, brought)
    whole = brought_whole(job.piece, job.joinings, task) if job.joinings else None
    it = f"The {whole.name}" if whole else phrases.heading(phrases.the(part))
    if any(joint.makes for joint in task.joints):
        made = phrases.listed(each.name for each in job.parts(task.parts[1:]))
        return f"{it} lies close all round and cannot be lifted; no {made} is hard against the rail at its shoulder."
    sits = "sits where it belongs" if len(part.copies) == 1 else "sit where they belong"
    return f"{it} {sits}, and nothing stands proud that should not."
