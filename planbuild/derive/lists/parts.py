"""Facts of each part: sizes as numbers and as printed, mass, features; the sheets add dimensions and drawing."""

from __future__ import annotations

from planbuild.derive.lists.blanks import blank_of
from planbuild.derive.lists.cut_list import grain_words, shoulder_length, stock_title, strips_text
from planbuild.derive.lists.features import feature_facts
from planbuild.derive.lists.notes import part_notes
from planbuild.joints.weights import part_mass, weigh
from planbuild.records.edition import Edition
from planbuild.records.facts import PartFacts
from planbuild.records.findings import Findings
from planbuild.records.photos import shown
from planbuild.records.piece import Part, Piece
from planbuild.records.solids import Solids


def part_facts(piece: Piece, solids: Solids, findings: Findings, edition: Edition) -> tuple[PartFacts, ...]:
    """One entry a part, in the order of the piece.  `dimensions` and `sheet` are empty until the sheet is drawn."""
    return tuple(_facts(piece, solids, findings, edition, each) for each in piece.parts)


def _facts(piece: Piece, solids: Solids, findings: Findings, edition: Edition, part: Part) -> PartFacts:
    stock = piece.stock_of(part)
    rough = blank_of(piece, part, edition.ruler).each
    return PartFacts(
        id=part.id,
        mark=part.mark,
        name=part.name,
        count=len(part.copies),
        mirrored=len(findings.alike(part.id).mirrored),
        finished=part.finished,
        finished_text=_printed(edition, part.finished),
        rough=rough,
        rough_text=_printed(edition, rough),
        shoulder_text=shoulder_text(part, edition),
        stock=stock.id,
        stock_name=stock_title(stock, edition),
        grain=grain_words(part),
        face=part.face.value,
        edge=part.edge.value,
        volume=solids.of[part.id].volume,
        mass=part_mass(piece, solids, part),
        centre=weigh(piece, solids, (part.id, 0)).centre,
        features=feature_facts(piece, part),
        dimensions=(),
        strips=strips_text(part, edition),
        notes=part_notes(piece, part),
        made_for=part.made_by,
        sheet="",
        photos=shown(part.photo),
    )


def _printed(edition: Edition, size: tuple[float, float, float]) -> tuple[str, str, str]:
    length, width, thickness = (edition.ruler.printed(each) for each in size)
    return length, width, thickness


def shoulder_text(part: Part, edition: Edition) -> str:
    """`36 1/2 between shoulders`, "" without a tenon at both ends."""
    between = shoulder_length(part)
    return f"{edition.ruler.printed(between)} between shoulders" if between is not None else ""
