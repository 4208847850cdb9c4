"""Screws driven while the glue of their joint is wet: which, how many, into what."""

from __future__ import annotations

from planbuild.core.units import drill_text
from planbuild.derive import phrases
from planbuild.derive.lists.hardware import holes_of, item_size, only_in_pockets
from planbuild.derive.steps.assembly import Joining
from planbuild.derive.steps.driven import driven_in
from planbuild.derive.steps.job import Job, Use
from planbuild.records.hardware import Item
from planbuild.records.piece import Joint


def hardware_of(job: Job, joining: Joining) -> tuple[tuple[str, int], ...]:
    """(item id, count) of what the joints closed here take.  A joint closed in several glue-ups counts in the last."""
    counts: dict[str, int] = {}
    for joint in _joints(job, joining):
        for item, count in joint.hardware:
            counts[item] = counts.get(item, 0) + count
    return tuple(counts.items())


def driven(job: Job, joining: Joining) -> tuple[str, ...]:
    """A sentence for all screws, whatever their kinds, and one for each other thing."""
    counts = dict(hardware_of(job, joining))
    here = [each for each in job.piece.items if each.id in counts]
    words = {each: _screw_words(job, each, counts[each.id]) for each in here if each.kind == "wood screw"}
    pocketed = [text for each, text in words.items() if only_in_pockets(job.piece, each)]
    screws = [text for text in words.values() if text not in pocketed]
    others = [each for each in here if each.kind != "wood screw"]
    return (
        *([f"Drill on through the holes and drive {phrases.listed(screws)}"] if screws else []),
        *([f"Clamp the joint flush; through the pockets drive {phrases.listed(pocketed)}"] if pocketed else []),
        *(f"Set {phrases.counted(counts[each.id], each.name)} {item_size(each, job.edition.ruler)}" for each in others),
    )


def _screw_words(job: Job, item: Item, count: int) -> str:
    """How many, how large, and the drill for them: heads and metals are on the list of hardware."""
    holes, unit = holes_of(job.piece, item, job.edition.ruler), job.edition.ruler.unit.symbol
    pilot = f" (pilot {drill_text(holes.pilot, job.edition.ruler)} {unit})" if holes else ""
    return f"{phrases.counted(count, 'screw')} {item_size(item, job.edition.ruler).split(',')[0]}{pilot}"


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
    driven = [id for id, closing in driven_in(job.piece, job.joinings).items() if closing is joining]
    return [job.joint(id) for id in (*here, *driven) if id not in again]
