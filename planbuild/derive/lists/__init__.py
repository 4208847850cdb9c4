"""Lists of the plan: parts, cut list, wood and hardware to buy, supplies, joints, sizes to change, finish.

Everything here is counted or computed from the piece; volumes come from the solids.
"""

from __future__ import annotations

from dataclasses import dataclass

from planbuild.derive.lists.bill import bill
from planbuild.derive.lists.cut_list import allowance_note, cut_list
from planbuild.derive.lists.finish import finish_facts
from planbuild.derive.lists.hardware import hardware
from planbuild.derive.lists.joints import joint_facts
from planbuild.derive.lists.matched import batches, matched_sets
from planbuild.derive.lists.parts import part_facts
from planbuild.derive.lists.piece import piece_facts
from planbuild.derive.lists.practice import practice
from planbuild.derive.lists.ranges import ranges
from planbuild.derive.lists.seasons import seasons
from planbuild.derive.lists.supplies import supplies
from planbuild.derive.lists.to_buy import to_buy
from planbuild.records.edition import Edition
from planbuild.records.facts import (
    Batch,
    BillLine,
    CutGroup,
    FinishFacts,
    HardwareLine,
    JointFacts,
    MatchedSet,
    PartFacts,
    PieceFacts,
    SeasonRow,
    SizeRange,
    StockLine,
    Supply,
)
from planbuild.records.findings import Findings
from planbuild.records.piece import Piece
from planbuild.records.solids import Solids


@dataclass(frozen=True)
class Lists:
    """All lists of one edition; `parts` lack their dimensions and sheet, `joints` the ids of their drawings."""

    piece: PieceFacts
    parts: tuple[PartFacts, ...]
    cut_list: tuple[CutGroup, ...]
    matched: tuple[MatchedSet, ...]
    batches: tuple[Batch, ...]
    bill: tuple[BillLine, ...]
    allowance_note: str
    stock: tuple[StockLine, ...]
    hardware: tuple[HardwareLine, ...]
    supplies: tuple[Supply, ...]
    joints: tuple[JointFacts, ...]
    sizes: tuple[SizeRange, ...]
    seasons: tuple[SeasonRow, ...]
    finish: FinishFacts
    practice: tuple[str, ...]


def compile_lists(piece: Piece, solids: Solids, findings: Findings, edition: Edition) -> Lists:
    """Every list that does not depend on the order of work (tools and general cautions come with the steps)."""
    return Lists(
        piece=piece_facts(piece, solids, edition),
        parts=part_facts(piece, solids, findings, edition),
        cut_list=cut_list(piece, findings, edition),
        matched=matched_sets(piece, edition),
        batches=batches(piece),
        bill=bill(piece),
        allowance_note=allowance_note(piece, edition),
        stock=to_buy(piece, edition),
        hardware=hardware(piece, edition),
        supplies=supplies(piece, edition),
        joints=joint_facts(piece, edition),
        sizes=ranges(piece, edition),
        seasons=seasons(piece.as_cut, edition),
        finish=finish_facts(piece, edition),
        practice=practice(piece, edition),
    )
