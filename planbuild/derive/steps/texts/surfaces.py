"""Surfaces: sanding before the glue, what is finished before it, and the finish."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from planbuild.core import tables
from planbuild.derive import phrases
from planbuild.derive.lists.finish import finish_cautions, finish_row, main_coating
from planbuild.derive.steps.job import Draft, Job, Use, lifting, said
from planbuild.derive.steps.tasks import Task, early_finish
from planbuild.records.features import Tenon
from planbuild.records.piece import Coating, Surface


def _grit(when: str) -> str:
    return next(row["grit"] for row in tables.rows("abrasives") if row["when"] == when)


def prepare(job: Job, task: Task) -> Draft:
    early = early_finish(job.piece)
    grits = f"grit {_grit('levelling')}, then {_grit('last before the finish')}"
    tenons = any(isinstance(f, Tenon) for part in job.parts(task.parts) for f in part.features)
    joints = "tenons and mortises" if tenons else "joints"
    sanded = Draft(
        title="Sand the parts",
        actions=said(f"Sand {job.marks(task.parts)} along the grain with {grits}; keep off all joints"),
        check=f"No scratch shows in light from the side; {joints} are clean and sharp.",
        uses=(Use("sand"),),
    )
    ids = list(dict.fromkeys(part.id for part, _ in early))
    return _finished_early(job, sanded, early[0][1], ids) if early else sanded


def _finished_early(job: Job, sanded: Draft, coating: Coating, parts: list[str]) -> Draft:
    """Sanding, and the finish on what the glue-up will close off."""
    wipes = finish_row(coating)["rags"] == "yes"
    return replace(
        sanded,
        title=f"Sand the parts and finish {_early_title(job, parts)}",
        actions=(
            *sanded.actions,
            *said(
                "Mask tenons and mortises: glue does not hold on a finish",
                f"Put {coating.product} on {_early_faces(job, coating)}: {phrases.counted(coating.coats, 'coat')}",
                "Wipe off what has not soaked in; take the masking off" if wipes else "Take the masking off",
            ),
        ),
        wait=f"{coating.dries} after each coat." if coating.dries else "",
        uses=(*sanded.uses, Use("finish")),
        cautions=finish_cautions(coating)[:1],
    )


def _early_title(job: Job, parts: list[str]) -> str:
    """Many parts are not named in a title: the action lists their faces."""
    return f"the {job.kind(parts)}" if len(parts) <= job.MOST_NAMED else "what cannot be reached later"


def _early_faces(job: Job, coating: Coating) -> str:
    """`A6 all round`, `the inside face of A5`."""
    whole = [id for id, face in coating.before_gluing if face is None]
    rest = [(id, face) for id, face in coating.before_gluing if face is not None and id not in whole]
    return phrases.strung([*([f"{job.marks(whole)} all round"] if whole else []), *([_faces(job, rest)] if rest else [])])


def finish(job: Job, task: Task) -> Draft:
    coating = main_coating(job.piece)
    if coating is None:
        raise ValueError("a finish step without a finish")
    row = finish_row(coating)
    apart = {id for each in job.piece.coatings for id, _ in (*each.bare, *each.on)}
    panels = [each.id for each in job.parts(task.parts) if each.glue_up and each.id not in apart]
    it = "it" if sum(len(job.piece.part(each).copies) for each in panels) == 1 else "them"
    again = f"Sand lightly with grit {_grit('between coats')} and repeat: {phrases.counted(coating.coats, 'coat')} in all"
    return Draft(
        title=f"Finish the {task.id.split('.')[1].replace('_', ' ')}",
        actions=said(
            _last_sanding(job, task),
            *_put_on(row),
            again if coating.coats > 1 else "",
            _left_out(job, coating),
            f"Coat {job.marks(panels)} alike on all faces to keep {it} flat" if panels else "",
        ),
        check="The surface is even in light from the side, and dry to the touch.",
        wait=" ".join(_finish_times(coating)),
        uses=(Use("sand"), Use("finish")),
        cautions=(*finish_cautions(coating), *lifting(job)),
    )


def _put_on(row: Mapping[str, str]) -> tuple[str, ...]:
    """How a coat goes on, and what is done to it at once: one action, since the second cannot wait."""
    after = row["after"]
    return (f"{row['apply'].rstrip('.')}; {after[:1].lower()}{after[1:]}" if after else row["apply"],)


def _left_out(job: Job, coating: Coating) -> str:
    """What stays bare, and what gets something else instead."""
    others = [each for each in job.piece.coatings if each.on]
    whole = {id for each in others for id, face in each.on if face is None}
    left = [each for each in coating.bare if each[0] not in whole]
    bare = f"leave {_faces(job, left)} bare" if left else ""
    instead = [f"put {each.product} on {_faces(job, each.on)} instead" for each in others]
    return phrases.heading("; ".join(each for each in (bare, *instead) if each))


def _faces(job: Job, surfaces: Sequence[Surface]) -> str:
    """`B7 and A9`, `the inside face of B6`: whole parts first, then like faces together."""
    whole = [phrases.mark(id) for id, face in surfaces if face is None]
    looking: dict[str, list[str]] = {}
    for id, face in surfaces:
        if face is not None and phrases.mark(id) not in whole:
            looking.setdefault(phrases.facing(job.piece.part(id), face, job.piece), []).append(id)
    return phrases.strung([*whole, *(f"the {face} face of {job.marks(ids)}" for face, ids in looking.items())])


def _last_sanding(job: Job, task: Task) -> str:
    """What was glued up is sanded already, and some of its faces are finished."""
    last, glued = _grit("last before the finish"), {key[0] for each in job.joinings for group in each.groups for key in group}
    fresh = [id for id in task.parts if id not in glued]
    sand = f"Sand {job.marks(fresh)} with grit {_grit('levelling')}, then {last}" if fresh else ""
    scrape = f"scrape off glue marks{' elsewhere' if fresh else ''}" if glued else ""
    return f"{phrases.heading('; '.join(each for each in (sand, scrape) if each))}; dust off"


def _finish_times(coating: Coating) -> list[str]:
    dries = [f"{coating.dries} after each coat."] if coating.dries else []
    return dries + ([f"Fully hard after {coating.cures}."] if coating.cures else [])
