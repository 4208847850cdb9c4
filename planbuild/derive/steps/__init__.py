"""The order of work: which steps there are, in which order and why, what each says and shows.

Features and joints give operations, like operations make a step, rules of the trade put the steps in
order, and a writer for each kind of work words it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from planbuild.core.diagnostics import Diagnostic, Severity
from planbuild.derive.cautions import caution, general_cautions
from planbuild.derive.phrases import sentence
from planbuild.derive.scene import Scene
from planbuild.derive.steps.assembly import Joining, plan_joinings
from planbuild.derive.steps.equipment import ClampRack, cautions_of, tool_list, tools_of
from planbuild.derive.steps.job import Draft, Job
from planbuild.derive.steps.order import Placed, put_in_order
from planbuild.derive.steps.photos import photos_of_things
from planbuild.derive.steps.progress import stages
from planbuild.derive.steps.replay import replay
from planbuild.derive.steps.scenes import scene_of
from planbuild.derive.steps.tasks import Task, brought_whole, tasks
from planbuild.derive.steps.texts import write
from planbuild.derive.steps.texts.assembly import minutes
from planbuild.joints.balance import needs_a_warning
from planbuild.joints.weights import piece_mass
from planbuild.records.edition import Edition
from planbuild.records.facts import Caution, Tool, WorkStep
from planbuild.records.findings import Findings, Proof
from planbuild.records.photos import Photo
from planbuild.records.piece import Piece, StepWish
from planbuild.records.solids import Solids


@dataclass(frozen=True)
class StepPlan:
    """Steps in order, the scenes of those that have a picture (`scene.id` is `WorkStep.drawing`), the tools with
    the steps that use them, the general cautions for the front, and what was found."""

    steps: tuple[WorkStep, ...]
    scenes: tuple[Scene, ...]
    tools: tuple[Tool, ...]
    cautions: tuple[Caution, ...]
    diagnostics: tuple[Diagnostic, ...]
    proofs: tuple[Proof, ...] = ()


def plan_steps(piece: Piece, solids: Solids, findings: Findings, edition: Edition) -> StepPlan:
    """The whole order of work.

    Reports `step-locked` (a glue-up cannot be closed), `step-order` (a wish against a rule), `step-unknown`,
    `step-blocked` (what comes home in a step meets what is there), and as a warning `step-open-time` (more joints than the glue
    stays open for).
    """
    joinings, locked = plan_joinings(piece)
    order = put_in_order(piece, tasks(piece, joinings))
    job = Job(piece, findings, edition, joinings, piece_mass(piece, solids), tuple(each.task for each in order.steps))
    drafts = [write(job, each.task) for each in order.steps]
    rack = ClampRack(drafts, edition)
    scenes = _scenes(job, [each.task for each in order.steps])
    tried = replay(piece, findings.freedom, [each.task for each in order.steps], scenes) if findings.freedom else None
    wishes = [order.wishes.get(each.task.id, ()) for each in order.steps]
    found = [_Found(*each) for each in zip(order.steps, drafts, wishes, scenes, strict=True)]
    takes = [frozenset(id for id, _ in draft.hardware) for draft in drafts]
    photos = photos_of_things(piece, [each.task for each in order.steps], takes)
    steps = [_step(job, rack, number, each, photos.get(each.placed.task.id, ())) for number, each in enumerate(found, 1)]
    return StepPlan(
        steps=tuple(steps),
        scenes=tuple(each for each in scenes if each),
        tools=tool_list(steps, rack),
        cautions=(*general_cautions(), *(Caution(*each) for each in piece.cautions), *_anchoring(piece, solids)),
        diagnostics=(*locked, *order.diagnostics, *_too_slow(piece, joinings), *(tried.diagnostics if tried else ())),
        proofs=(tried.proof,) if tried and tried.proof.checked else (),
    )


def _anchoring(piece: Piece, solids: Solids) -> tuple[Caution, ...]:
    """The general caution of pieces that can tip, unless the designer has one of tipping."""
    told = any("tip" in text.lower().split() for each in piece.cautions for text in each)
    return (caution("tipping"),) if not told and needs_a_warning(piece, solids) else ()


def _scenes(job: Job, order: Sequence[Task]) -> list[Scene | None]:
    """The picture of each step, None if words say it better."""
    scenes, seen, brought = list[Scene | None](), set[str](), list[Joining]()
    for task, parts in zip(order, stages(job.piece, order), strict=True):
        scenes.append(scene_of(job, task, parts, seen, brought))
        whole = brought_whole(job.piece, job.joinings, task) if job.joinings else None
        brought += [whole] if whole and whole not in brought else []
    return scenes


def order_faults(piece: Piece) -> tuple[Diagnostic, ...]:
    """What keeps the piece from having an order of work, as far as it is known without solids: a glue-up that cannot be
    closed, and wishes about steps.  Reports `step-locked`, `step-order`, `step-unknown`."""
    joinings, locked = plan_joinings(piece)
    return (*locked, *put_in_order(piece, tasks(piece, joinings)).diagnostics)


@dataclass(frozen=True)
class _Found:
    """All that is known of a step before it is bound."""

    placed: Placed
    draft: Draft
    wishes: tuple[StepWish, ...]
    scene: Scene | None


def _step(job: Job, rack: ClampRack, number: int, found: _Found, photos: tuple[Photo, ...]) -> WorkStep:
    task, draft, wishes = found.placed.task, found.draft, found.wishes
    tools = (*tools_of(draft.uses, job.piece.practice.way), *rack.names(draft.clamps))
    pictured = tuple(dict.fromkeys(wish.photo for wish in wishes if wish.photo))
    own = tuple(Caution(*wish.caution) for wish in wishes if wish.caution)
    return WorkStep(
        id=task.id,
        number=number,
        phase=found.placed.phase.value,
        title=next((wish.title for wish in wishes if wish.title), draft.title),
        parts=task.parts,
        counts=_counts(job, task),
        actions=draft.actions,
        sizes=draft.sizes,
        tools=tools,
        hardware=draft.hardware,
        check=_once(draft.check, *(wish.check for wish in wishes)),
        cautions=(*dict.fromkeys(own), *cautions_of(job, task, draft, tools)),
        why=_once(*(sentence(wish.why) for wish in wishes if wish.why)) or found.placed.reason,
        wait=draft.wait,
        note=_once(draft.note, *(wish.note for wish in wishes)),
        drawing=found.scene.id if found.scene else "",
        photo=pictured[0].file if pictured else "",
        photos=(*pictured, *photos),
    )


def _once(*texts: str) -> str:
    """What is said of several parts of one step in the same words is printed once: a block may be used twice."""
    return " ".join(dict.fromkeys(each for each in texts if each))


def _counts(job: Job, task: Task) -> tuple[tuple[str, int], ...]:
    """Pieces handled: all copies, or those that a glue-up adds."""
    if task.joining is None:
        return tuple((id, len(job.piece.part(id).copies)) for id in task.parts)
    added = [key[0] for key in task.joining.added]
    return tuple((id, added.count(id)) for id in task.parts)


def _too_slow(piece: Piece, joinings: tuple[Joining, ...]) -> tuple[Diagnostic, ...]:
    """Glue-ups that take longer than the glue stays open, by a rule of thumb."""
    return tuple(
        Diagnostic(
            "step-open-time",
            f'Gluing "{each.name}" takes about {minutes(each):g} min for {len(each.glued)} joints; '
            f"{piece.glue.kind} stays open for {piece.glue.open_time:g} min.",
            Severity.WARNING,
            span=next((a.origin for a in piece.assemblies if a.id == each.id), None),
            hints=("Name smaller assemblies, or use a glue with a longer open time.",),
            source="tables/making, row minutes_a_joint (heuristic)",
        )
        for each in joinings
        if minutes(each) > piece.glue.open_time
    )
