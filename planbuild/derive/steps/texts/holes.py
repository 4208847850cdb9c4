"""Holes and slots: bored by their sheet, counterbored and countersunk for the heads of screws."""

from __future__ import annotations

from collections.abc import Sequence

from planbuild.core.units import drill_text
from planbuild.derive import phrases
from planbuild.derive.steps.job import Draft, Job, Use, features_of, said, same
from planbuild.derive.steps.operations import Verb
from planbuild.derive.steps.tasks import Task
from planbuild.derive.steps.texts.slants import angle_words
from planbuild.records.features import Feature, Hole, Mortise
from planbuild.records.piece import Part
from planbuild.records.slanted import AngledMortise


def bore(job: Job, task: Task) -> Draft:
    parts = job.parts(task.parts)
    cuts = [(part, each) for part in parts for each in features_of(task, Verb.BORE, part.id)]
    own = [(part, each.hole if isinstance(each, Mortise) else each) for part, each in cuts if isinstance(each, Hole | Mortise)]
    holes, part = [each for _, each in own], parts[0]
    leaning = [each for _, each in cuts if isinstance(each, AngledMortise)]  # these are a step of their own part
    across = [*(each.diameter for each in holes if each.purpose != "cup"), *(each.breadth for each in leaning)]
    drills = dict.fromkeys(drill_text(each, job.edition.ruler) for each in across)
    cups = dict.fromkeys(job.with_unit(each.diameter) for each in holes if each.purpose == "cup")
    slots, things = any(each.slot for each in holes), _things(holes, leaning)
    return Draft(
        title=f"Bore the {things} of the {job.kind(task.parts)}",
        actions=said(
            f"Mark the {things} of {phrases.the_all(parts)} from {_sheets(parts)}; prick their centres",
            "Fill each mortise with a scrap as thick as its tenon, so that the bit leaves its walls clean"
            if any(each.purpose == "peg" for each in holes)
            else "",
            "Bore the wide counterbores first, to a depth stop" if any(each.counterbore for each in holes) else "",
            "Drill square to the face, scrap under the work, to a depth stop where a hole does not go through" if holes else "",
            *_leaning_actions(job, leaning),
            *_opened(job, [each for _, each in cuts]),
            "Drill each slot at its two ends; clear the wood between with a router along a fence, or chisel it" if slots else "",
            "Countersink until a head lies flush" if any(each.countersink for each in holes) else "",
        ),
        sizes=tuple(f"{job.marks(ids)} {text}" for ids, text in same([(p.id, _hole_words(job, p, each)) for p, each in own]))
        + tuple(_leaning_words(job, part, alike) for alike in _bored_alike(leaning)),
        check=_check(slots, bool(leaning)),
        uses=(
            *(Use("bore", (("diameter", f"{each} {job.edition.ruler.unit.symbol}"),)) for each in drills),
            *(Use("bore", (("diameter", job.with_unit(each)),)) for each in _wide(holes)),
            *(Use("cup", (("diameter", each),)) for each in cups),
            *([Use("countersink")] if any(each.countersink for each in holes) else []),
        ),
    )


def _sheets(parts: list[Part]) -> str:
    """`its sheet (page 9)`, `their sheets (pages 9 and 10)`."""
    if len(parts) == 1:
        return f"its sheet ([[sheet:{parts[0].id}]])"
    return f"their sheets ({phrases.listed(f'[[sheet:{each.id}]]' for each in parts)})"


def _things(holes: list[Hole], leaning: list[AngledMortise]) -> str:
    names = [("holes", bool(leaning) or any(not each.slot for each in holes)), ("slots", any(each.slot for each in holes))]
    return " and ".join(name for name, there in names if there)


def _wide(holes: list[Hole]) -> list[float]:
    """Bits for the counterbores."""
    return list(dict.fromkeys(each.counterbore[0] for each in holes if each.counterbore))


def _check(slots: bool, leaning: bool) -> str:
    travels = " A screw slides from end to end of every slot." if slots else ""
    leans = " A rod in each slanted hole stands along its bevel, and rods in mirrored holes lean alike." if leaning else ""
    return f"Every hole is on its mark, and none has come through that should not.{travels}{leans}"


def _opened(job: Job, cuts: Sequence[Feature]) -> tuple[str, ...]:
    """Round holes in which a wedge will spread the tenon."""
    opened = [each for each in cuts if isinstance(each, Mortise) and each.round and each.flare and each.flare_axis]
    if not opened:
        return ()
    one, mates = opened[0], job.marks(each.mate.part for each in opened)
    assert one.flare_axis is not None
    ends = f"{one.flare_axis.low.value} and {one.flare_axis.high.value}"
    far, by = f"the {one.face.opposite.value} face", f"{job.size(one.flare)} at {ends}"
    return (f"Rasp the holes for {mates} wider toward {far}, there by {by}, along the grain: room for the wedge",)


def _leaning_actions(job: Job, leaning: list[AngledMortise]) -> tuple[str, ...]:
    """A bore that leans both ways is set out by the one plane in which it leans: its sightline."""
    if not leaning:
        return ()
    mates = job.marks(dict.fromkeys(each.mate.part for each in leaning))
    through = any(each.through for each in leaning)
    return (
        f"For {mates} draw through each centre the line along which it leans; stand a sliding bevel on it, set to the angle",
        "Start the bit square until its point holds, then tilt it and bore along the bevel",
        "Bore the first one in scrap and stand a rod in it to try the angles",
        "Clamp scrap under the work, so that the bit does not break out below" if through else "",
    )


def _bored_alike(leaning: list[AngledMortise]) -> list[list[AngledMortise]]:
    """Those that are bored with one bit, stop and bevel, whichever way they lean."""
    found: dict[tuple[object, ...], list[AngledMortise]] = {}
    for each in leaning:
        sizes = (round(each.breadth, 3), round(each.depth, 3), round(each.from_square, 2))
        found.setdefault((each.face, each.through, sizes), []).append(each)
    return list(found.values())


def _leaning_words(job: Job, part: Part, alike: list[AngledMortise]) -> str:
    one = alike[0]
    deep = "through" if one.through else f"{job.size(one.depth)} deep along its middle"
    drill = f"{drill_text(one.breadth, job.edition.ruler)} drill, {deep}"
    ways = dict.fromkeys(angle_words(part, each) for each in alike)
    several = f"{round(one.from_square, 1):g}° off square, each to the sides that its sheet says"
    leans = several if len(ways) > 1 else next(iter(ways))
    many = f"{len(alike)} holes, " if len(alike) > 1 else ""
    return f"{phrases.mark(part.id)} {phrases.facing(part, one.face, job.piece)} face: {many}{drill}, {leans}"


def _hole_words(job: Job, part: Part, hole: Hole) -> str:
    deep = "through" if hole.depth is None else f"{job.size(hole.depth)} deep"
    drill = drill_text(hole.diameter, job.edition.ruler)
    words = f"{drill} drill, {deep}"
    if hole.slot:
        words = f"slot {drill} wide, {job.size(hole.slot.length)} long {hole.slot.along.words}, {deep}"
    if hole.counterbore:
        wide, depth = hole.counterbore
        words += f"; counterbore {job.size(wide)} wide, {job.size(depth)} deep"
    if hole.countersink:
        words += f"; countersink {job.size(hole.countersink[0])} wide"
    return f"{phrases.facing(part, hole.face, job.piece)} face: {words}"
