"""Everything that is printed, derived from the piece for one edition: lists, order of work, drawings.

In two functions: `portray` draws what needs no order of work, so that the pipeline can have it done in a
process beside; `derive` does the rest and puts all together.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace

from planbuild.core.diagnostics import Collector, Diagnostic
from planbuild.derive.drawings import of_the_piece, of_the_steps
from planbuild.derive.lists import compile_lists
from planbuild.derive.pictures.studio import Studio
from planbuild.derive.sheets.part_sheet import Sheet, part_sheet
from planbuild.derive.steps import order_faults, plan_steps
from planbuild.records.drawing import Drawing
from planbuild.records.edition import Edition
from planbuild.records.facts import SCHEMA, Facts, JointFacts, PartFacts
from planbuild.records.findings import Findings, Proof
from planbuild.records.piece import Piece
from planbuild.records.solids import Solids

__all__ = ["Portraits", "derive", "order_faults", "portray"]


@dataclass(frozen=True)
class Portraits:
    """Pictures of the piece and its joints, sheets of some parts by id, and which pictures cannot be trusted."""

    drawings: tuple[Drawing, ...]
    sheets: Mapping[str, Sheet]
    diagnostics: tuple[Diagnostic, ...]
    proofs: tuple[Proof, ...] = ()
    """What was measured in the pictures."""


def portray(piece: Piece, solids: Solids, findings: Findings, edition: Edition) -> Portraits:
    """About half of all drawing: the piece, its joints and the sheets of every other part."""
    studio = Studio(piece, solids, edition, Collector())
    sheets = {part.id: part_sheet(part, piece, solids, findings, edition) for part in piece.parts[::2]}
    return Portraits(tuple(of_the_piece(studio)), sheets, tuple(studio.report.found), tuple(studio.proofs))


def derive(
    piece: Piece, solids: Solids, findings: Findings, edition: Edition, portraits: Callable[[], Portraits]
) -> tuple[Facts, Findings]:
    """All facts of one edition, and what was found while deriving them (steps that cannot be, views not to be trusted).

    `portraits` is asked for last, since they may still be at work elsewhere.
    """
    studio = Studio(piece, solids, edition, Collector())
    lists = compile_lists(piece, solids, findings, edition)
    plan = plan_steps(piece, solids, findings, edition)
    own = {part.id: part_sheet(part, piece, solids, findings, edition) for part in piece.parts[1::2]}
    steps = tuple(of_the_steps(studio, plan.scenes))
    of_piece = portraits()
    sheets = {**of_piece.sheets, **own}
    drawn = (*of_piece.drawings, *steps, *(sheet.drawing for sheet in sheets.values()))
    drawings = {drawing.id: drawing for drawing in drawn}
    facts = Facts(
        schema=SCHEMA,
        piece=lists.piece,
        unit=edition.ruler.unit.value,
        step_text=edition.ruler.printed(float(edition.ruler.step * edition.ruler.unit.mm), with_unit=True),
        projection=edition.projection.value,
        parts=tuple(_with_sheet(part, sheets[part.id]) for part in lists.parts),
        cut_list=lists.cut_list,
        matched=lists.matched,
        batches=lists.batches,
        bill=lists.bill,
        allowance_note=lists.allowance_note,
        stock=lists.stock,
        hardware=lists.hardware,
        supplies=lists.supplies,
        tools=plan.tools,
        joints=tuple(_with_drawings(joint, set(drawings)) for joint in lists.joints),
        steps=plan.steps,
        cautions=plan.cautions,
        finish=lists.finish,
        sizes=lists.sizes,
        seasons=lists.seasons,
        practice=lists.practice,
        drawings=dict(sorted(drawings.items())),
        proofs=tuple(_printable(proof) for proof in (*findings.proofs, *plan.proofs, *of_piece.proofs)),
    )
    proofs = (*plan.proofs, *of_piece.proofs)
    return facts, Findings((*plan.diagnostics, *studio.report.found, *of_piece.diagnostics), proofs)


def _printable(proof: Proof) -> str:
    return f"{proof.claim}: {proof.checked} checked; {proof.worst}."


def _with_sheet(part: PartFacts, sheet: Sheet) -> PartFacts:
    return replace(part, dimensions=sheet.dimensions, features=sheet.features, sheet=sheet.drawing.id)


def _with_drawings(joint: JointFacts, known: set[str]) -> JointFacts:
    picture, section = f"joint.{joint.id}", f"joint.{joint.id}.section"
    return replace(joint, drawing=picture if picture in known else "", section=section if section in known else "")
