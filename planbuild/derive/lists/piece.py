"""What is said of the piece as a whole: imprint, overall size, mass, count of parts, sources."""

from __future__ import annotations

from collections.abc import Iterable

from planbuild.core import tables
from planbuild.core.geometry import Axis, Box, hull
from planbuild.core.thicknesses import sawn_named
from planbuild.core.woods import wood_named
from planbuild.joints.proportions import wood_of
from planbuild.joints.screws import gauge_of
from planbuild.joints.sheet_goods import sheet_row
from planbuild.joints.weights import together, weigh, weigh_all
from planbuild.records.edition import Edition
from planbuild.records.facts import GroupWeight, PieceFacts
from planbuild.records.hardware import CASTOR
from planbuild.records.photos import shown
from planbuild.records.piece import Part, Piece
from planbuild.records.solids import Solids


def piece_facts(piece: Piece, solids: Solids, edition: Edition) -> PieceFacts:
    """Overall sizes are those of all parts as they stand.  Units: mm, kg."""
    imprint, whole = piece.imprint, weigh_all(piece, solids)
    overall = hull([standing(part, copy) for part in piece.parts for copy in range(len(part.copies))])
    return PieceFacts(
        title=imprint.title,
        series=imprint.series,
        summary=imprint.summary,
        designer=imprint.designer,
        contact=imprint.contact,
        licence=imprint.licence,
        revision=imprint.revision,
        date=imprint.date,
        revisions=imprint.revisions,
        built=imprint.built,
        width=overall.size(Axis.LEFT_RIGHT),
        depth=overall.size(Axis.FRONT_BACK),
        height=overall.size(Axis.BOTTOM_TOP),
        on_castors=_on_castors(piece, overall),
        mass=whole.mass,
        centre=whole.centre,
        groups=_groups(piece, solids),
        part_kinds=len(piece.parts),
        part_count=sum(len(each.copies) for each in piece.parts),
        species=tuple(dict.fromkeys(piece.stock_of(each).species for each in piece.parts)),
        sources=(*imprint.sources, *sources(piece)),
        words=piece.words,
        photos=shown(imprint.photo),
    )


def _on_castors(piece: Piece, overall: Box) -> float:
    castors = {each.id for each in piece.items if each.kind == CASTOR}
    floor = [each.box.z.low for placed in piece.hardware if placed.item in castors for each in placed.bought]
    return overall.z.high - min(floor) if floor else 0.0


def _groups(piece: Piece, solids: Solids) -> tuple[GroupWeight, ...]:
    """The first copy of each subassembly as it stands."""
    weights = [(each, together(weigh(piece, solids, key) for key in each.groups[0])) for each in piece.assemblies if each.groups]
    return tuple(GroupWeight(each.name, len(each.groups), found.mass, found.centre) for each, found in weights)


def standing(part: Part, copy: int) -> Box:
    """Body and tenons of one copy where it stands."""
    return part.box(copy, part.extent)


def sources(piece: Piece) -> tuple[str, ...]:
    """Where the table values used for this plan were published, each once."""
    used = [piece.stock_of(each) for each in piece.parts]
    woods = dict.fromkeys(wood for each in used if (wood := wood_of(each)))
    sheets = dict.fromkeys(each.species for each in used if each.sheet)
    quarters = dict.fromkeys(each.quarters for each in used if each.quarters)
    gauges = dict.fromkeys(gauge_of(item) for item in piece.items if item.kind == "wood screw")
    found = [
        *(f"{'Woods' if wood_named(each.name) else each.name.capitalize()}: {each.source}." for each in woods),
        *(f"Weight of {each}: {_sheet_source(each)}." for each in sheets),
        *(f"Thickness of {', '.join(names)} boards: {source}." for source, names in _thicknesses(quarters).items()),
        *(["Board measure: NHLA rules, thickness × width × length in inches / 144."] if woods else []),
        *(f"Screws: {_row('fasteners', 'gauge', each)}." for each in gauges),
        "Trade practice: common practice of the trade where the plan says so; rules of thumb are called that.",
    ]
    return tuple(dict.fromkeys(each for each in found if not each.endswith(": .")))


def _thicknesses(quarters: Iterable[str]) -> dict[str, list[str]]:
    """Names of thicknesses by where what they give was published."""
    found: dict[str, list[str]] = {}
    for each in quarters:
        sawn = sawn_named(each)
        if sawn:
            found.setdefault(sawn.source.partition(";")[0], []).append(each)
    return found


def _sheet_source(name: str) -> str:
    found = sheet_row(name)
    return found["source"] if found else ""


def _row(table: str, key: str, value: str) -> str:
    found = tables.row(table, key, value)
    return found["source"] if found else ""
