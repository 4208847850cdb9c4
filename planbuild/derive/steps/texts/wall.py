"""Hanging: a strip that stays on the wall, and the piece that is lowered over it."""

from __future__ import annotations

from planbuild.derive import phrases
from planbuild.derive.cautions import caution
from planbuild.derive.lists.hardware import item_size
from planbuild.derive.steps.assembly import piece_word
from planbuild.derive.steps.job import Draft, Job, Use, lifting, said
from planbuild.derive.steps.tasks import Task
from planbuild.records.features import Bevel
from planbuild.records.piece import Part


def hang(job: Job, task: Task) -> Draft:
    """A wall holds by what it is built of, which no plan knows: fixings are left to who stands before it."""
    part = job.piece.part(task.parts[0])
    word, hung = piece_word(job.piece).replace("_", " "), _hung(job, part)
    counts = {id: count for each in task.placed for id, count in each.takes}
    used = [each for each in job.piece.items if each.id in counts]
    screws = phrases.listed(phrases.counted(counts[each.id], each.name) for each in used)
    return Draft(
        title=f"Fix the {part.name} to the wall" + (f" and hang the {word}" if hung else ""),
        actions=said(
            f"Hold {phrases.the(part)} level on the wall where it will hang{_bevelled(part)}; mark its holes",
            "Drill the wall and set fixings that suit what it is built of",
            f"Drive the {screws}; look at the level once more before the last" if used else "",
            f"Lift the {word} and lower {job.marks(hung)} over {phrases.mark(part.id)}" if hung else "",
        ),
        sizes=tuple(f"{each.name}: {item_size(each, job.edition.ruler)}" for each in used),
        check=f"{phrases.heading(phrases.the(part))} is level"
        + (f"; the {word} hangs close to the wall, and cannot be pulled forward." if hung else " and does not give."),
        note=" ".join(phrases.sentence(each.note) for each in used if each.note),
        uses=(Use("hang"),),
        cautions=(caution("wall"), *lifting(job)),
        hardware=tuple(counts.items()),
    )


def _hung(job: Job, part: Part) -> list[str]:
    """What hooks over it."""
    return [
        contact.a[0]
        for joint in job.piece.joints
        for contact in joint.contacts
        if joint.kind == "cleat" and contact.b[0] == part.id
    ]


def _bevelled(part: Part) -> str:
    """Which edge looks up and which of its corners stands out: the wrong way round it holds nothing."""
    bevel = next((each for each in part.features if isinstance(each, Bevel)), None)
    return f", bevel at the {bevel.face.value}, its sharp edge at the {bevel.keeps.value}" if bevel else ""
