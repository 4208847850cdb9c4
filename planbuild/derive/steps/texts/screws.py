"""Screws driven while the glue of their joint is wet: which, how many, into what."""

from __future__ import annotations

from planbuild.core.units import drill_text
from planbuild.derive import phrases
from planbuild.derive.lists.hardware import holes_of, item_size, only_in_pockets
from planbuild.derive.steps.assembly import Joining
from planbuild.derive.steps.job import Job, Use
from planbuild.records.piece import Joint


def hardware_of(job: Job, joining: Joining) -> tuple[tuple[str, int], ...]:
    """(item id, count) of what the joints closed here take.  A joint closed in several glue-ups counts in the last."""
    counts: dict[str, int] = {}
    for joint in _joints(job, joining):
        for item, count in joint.hardware:
            counts[item] = counts.get(item, 0) + count
    return tuple(counts.items())


def driven(job: Job, joining: Joining) -> tuple[str, ...]:
    """A sentence for each kind of screw."""
    found = []
    counts = dict(hardware_of(job, joining))
    for item in job.piece.items:
        if item.id in counts and item.kind == "wood screw":
            holes, unit = holes_of(job.piece, item, job.edition.ruler), job.edition.ruler.unit.symbol
            pocketed = "Clamp the joint flush; through the pockets drive" if only_in_pockets(job.piece, item) else "Drive"
            pilot = f"Drill through the holes, {drill_text(holes.pilot, job.edition.ruler)} {unit}; drive" if holes else pocketed
            found.append(f"{pilot} {phrases.counted(counts[item.id], 'screw')} {item_size(item, job.edition.ruler)}")
        elif item.id in counts:
            found.append(f"Set {phrases.counted(counts[item.id], item.name)} {item_size(item, job.edition.ruler)}")
    return tuple(found)


def uses(job: Job, joining: Joining) -> tuple[Use, ...]:
    """The tools for the screws."""
    counts = dict(hardware_of(job, joining))
    found = [holes_of(job.piece, each, job.edition.ruler) for each in job.piece.items if each.id in counts]
    unit = job.edition.ruler.unit.symbol
    pilots = dict.fromkeys(f"{drill_text(each.pilot, job.edition.ruler)} {unit}" for each in found if each)
    return tuple(Use("screw", (("pilot", each),)) for each in pilots)


def _joints(job: Job, joining: Joining) -> list[Joint]:
    here = dict.fromkeys(link.joint.id for link in joining.links)
    later = job.joinings[job.joinings.index(joining) + 1 :]
    again = {link.joint.id for each in later for link in each.links}
    return [job.joint(id) for id in here if id not in again]
