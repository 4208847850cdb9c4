"""Surfaces: sanding before the glue, what is finished before it, and the finish."""

from __future__ import annotations

from dataclasses import replace

from planbuild.core import tables
from planbuild.core.geometry import Face
from planbuild.derive import phrases
from planbuild.derive.lists.finish import finish_cautions, finish_row, main_coating
from planbuild.derive.steps.job import Draft, Job, Use, lifting, said
from planbuild.derive.steps.tasks import Task, early_finish
from planbuild.records.features import Tenon
from planbuild.records.piece import Coating


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
    return _finished_early(job, sanded, early[0][1], [part.id for part, _ in early]) if early else sanded


def _finished_early(job: Job, sanded: Draft, coating: Coating, parts: list[str]) -> Draft:
    """Sanding, and the finish on what the glue-up will close off."""
    wipes = finish_row(coating)["rags"] == "yes"
    return replace(
        sanded,
        title=f"Sand the parts and finish the {job.kind(parts)}",
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


def _early_faces(job: Job, coating: Coating) -> str:
    """`A6 all round`, `the inside face of A5`."""
    return phrases.listed(_early(job, id, face) for id, face in coating.before_gluing)


def _early(job: Job, id: str, face: Face | None) -> str:
    if face is None:
        return f"{phrases.mark(id)} all round"
    return f"the {phrases.facing(job.piece.part(id), face, job.piece)} face of {phrases.mark(id)}"


def finish(job: Job, task: Task) -> Draft:
    coating = main_coating(job.piece)
    if coating is None:
        raise ValueError("a finish step without a finish")
    row = finish_row(coating)
    panels = [each.id for each in job.parts(task.parts) if each.glue_up]
    again = f"Sand lightly with grit {_grit('between coats')} and repeat: {phrases.counted(coating.coats, 'coat')} in all"
    return Draft(
        title=f"Finish the {task.id.split('.')[1].replace('_', ' ')}",
        actions=said(
            _last_sanding(job, task),
            row["apply"],
            row["after"],
            again if coating.coats > 1 else "",
            f"Coat {job.marks(panels)} alike on all faces to keep it flat" if panels else "",
        ),
        check="The surface is even in light from the side, and dry to the touch.",
        wait=" ".join(_finish_times(coating)),
        uses=(Use("sand"), Use("finish")),
        cautions=(*finish_cautions(coating), *lifting(job)),
    )


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
