"""The numbers that must stand on a sheet as they are, so that nobody has to add or subtract at the bench.

Written from the features alone, apart from the room that chooses dimensions, so that what was forgotten there
is found here.  Units: mm, degrees; positions in the frame of the piece.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Any

from planbuild.core.geometry import TINY, Axis, Box
from planbuild.proofread.needs import Need, between, ends
from planbuild.proofread.numbers_of_joints import (
    of_angled_mortise,
    of_comb,
    of_corner_slot,
    of_edging,
    of_end_cut,
    of_groove,
    of_hole,
    of_mortise,
    of_pocket,
    of_rabbet,
    of_tenon,
)
from planbuild.proofread.numbers_of_shapes import (
    of_arch,
    of_bevel,
    of_chamfer,
    of_curve,
    of_dished,
    of_edge_bevel,
    of_moulding,
    of_round_over,
    of_sawn,
    of_taper,
    of_turned,
)
from planbuild.records.corner_slots import CornerSlot
from planbuild.records.edging import Edging
from planbuild.records.features import (
    Arch,
    Bevel,
    Chamfer,
    Curve,
    EdgeBevel,
    Feature,
    Groove,
    Hole,
    Mortise,
    Rabbet,
    RoundOver,
    Taper,
    Tenon,
)
from planbuild.records.piece import Part
from planbuild.records.pockets import Pocket
from planbuild.records.shaped import Dished, Moulding, Sawn, Turned
from planbuild.records.slanted import AngledMortise, EndCut
from planbuild.records.tails import Sockets, Tails


def needs_of(part: Part) -> tuple[Need, ...]:
    """Every number of the board and its features, those that are 0 left out."""
    found = [between("body", words, axis, *ends(box, axis)) for words, axis, box in _whole(part)]
    for feature in part.features:
        found += _KINDS[type(feature)](part, feature)
    return tuple(each for each in found if each.axis is None or any(b - a > TINY for a, b in each.spans))


def _whole(part: Part) -> tuple[tuple[str, Axis, Box], ...]:
    return (
        ("length", part.grain, part.extent),
        ("length between shoulders", part.grain, part.body),
        ("width", part.width_axis, part.body),
        ("thickness", part.thickness_axis, part.body),
    )


_KINDS: dict[type[Feature], Callable[[Part, Any], Iterator[Need]]] = {
    Tenon: of_tenon,
    Mortise: of_mortise,
    AngledMortise: of_angled_mortise,
    Groove: of_groove,
    Rabbet: of_rabbet,
    Edging: of_edging,
    Hole: of_hole,
    Tails: of_comb,
    Sockets: of_comb,
    Taper: of_taper,
    Chamfer: of_chamfer,
    RoundOver: of_round_over,
    Arch: of_arch,
    Curve: of_curve,
    Bevel: of_bevel,
    EdgeBevel: of_edge_bevel,
    Sawn: of_sawn,
    EndCut: of_end_cut,
    CornerSlot: of_corner_slot,
    Pocket: of_pocket,
    Moulding: of_moulding,
    Dished: of_dished,
    Turned: of_turned,
}
