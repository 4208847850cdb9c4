"""Which work is one step: what is cut at one setting of a tool, on whatever parts, is one step of the plan."""

from __future__ import annotations

from collections.abc import Callable

from planbuild.derive.lists.measures import cheeks, mortise_size, tenon_size
from planbuild.derive.steps.operations import Operation, Verb
from planbuild.records.edging import edgings_of
from planbuild.records.features import Bevel, Feature, Hole, Mortise, Rabbet, Tenon
from planbuild.records.piece import Piece
from planbuild.records.pockets import Pocket
from planbuild.records.shaped import Sawn

Key = tuple[object, ...]


def _set_up(piece: Piece, op: Operation) -> Key:
    """What two tenons must share to be cut at one setting of the saw: thickness and both cheeks."""
    part = piece.part(op.part)
    first = next(f for f in op.features if isinstance(f, Tenon))
    numbers = (tenon_size(part, first).thickness, *cheeks(part, first))
    return tuple(round(each, 1) for each in numbers)


def _edging_set_up(op: Operation) -> Key:
    """Strips of one wood and one size are ripped and glued on together."""
    strips = {(each.stock, round(each.thickness, 2), each.tongue is None) for each in edgings_of(op.features)}
    return tuple(sorted(strips))


def _pocket_set_up(op: Operation) -> Key:
    """Pockets in parts of one thickness, with one stop on the bit."""
    pockets = (each for each in op.features if isinstance(each, Pocket))
    return tuple(sorted({(round(each.deep, 2), round(each.shoulder, 2), each.width) for each in pockets}))


_SAME: Key = ()
"""Key of work that is one step for the whole piece."""


def _kind(piece: Piece, feature: Feature) -> str:
    """The kind of the joint that a feature belongs to: tails that slide are fitted otherwise than those that are let in."""
    return next((each.kind for each in piece.joints if each.id == feature.joint), "")


def _marked(piece: Piece, op: Operation) -> Key:
    """Which halves of its dovetails are cut first: what is marked from its mate waits for that."""
    joints = {feature.joint for feature in op.features}
    return tuple(sorted({each.operations[0] for each in piece.joints if each.id in joints}))


def _mortised(op: Operation) -> Key:
    """Mortises of the same sizes for the same parts are cut at one set-up, as those of both stiles of a door."""
    straight = [each for each in op.features if isinstance(each, Mortise)]
    if len(straight) < len(op.features) or any(each.haunch for each in straight):
        return (op.part,)
    return tuple(sorted({_mortise_key(each) for each in straight}))


def _mortise_key(mortise: Mortise) -> Key:
    size = mortise_size(mortise)
    numbers = (round(each, 1) for each in (size.width, size.length, size.depth, mortise.flare))
    return (mortise.mate.part, mortise.through, *numbers)


def _bored(op: Operation) -> Key:
    """Holes for one joint by one drill: the slots for the screws of a top in all that carries it."""
    holes = [each for each in op.features if isinstance(each, Hole)]
    if len(holes) < len(op.features) or any(each.purpose == "peg" or not each.joint for each in holes):
        return (op.part,)
    bits = {(each.joint, round(each.diameter, 2), each.counterbore, each.countersink) for each in holes}
    return tuple(sorted(map(str, bits)))


def _notched(op: Operation) -> Key:
    """Notches of one size for one part, marked from it one after the other."""
    cuts = [each for each in op.features if isinstance(each, Sawn)]
    if not all(each.mate and not each.joint and each.what == "notch" for each in cuts):
        return (op.part,)
    return tuple(sorted({(each.mate.part, *(round(span.size, 1) for span in each.spans)) for each in cuts if each.mate}))


def _rabbeted(op: Operation) -> Key:
    """The same step for the same part, or a shape of the same sizes."""
    cuts = [each for each in op.features if isinstance(each, Rabbet)]
    sizes = [sorted(round(each.void.size(face.axis), 1) for face in each.edge) for each in cuts]
    pairs = zip(cuts, sizes, strict=True)
    return tuple(sorted({(each.joint, each.mate.part if each.mate else "", *sized) for each, sized in pairs}))


def _bevelled(op: Operation) -> Key:
    """One setting of the blade."""
    bevels = [each for each in op.features if isinstance(each, Bevel)]
    return tuple(sorted({round(each.angle, 1) for each in bevels})) if len(bevels) == len(op.features) else (op.part,)


KEYS: dict[Verb, Callable[[Piece, Operation], Key]] = {
    Verb.ROUGH: lambda piece, op: _SAME,
    Verb.MILL: lambda piece, op: (piece.stock_of(piece.part(op.part)).quarters,),
    Verb.EDGE: lambda piece, op: _edging_set_up(op),
    Verb.BREAK_DOWN: lambda piece, op: (piece.part(op.part).stock,),
    Verb.TRIM: lambda piece, op: ("mitres",) if all(f.joint for f in op.features) else (op.part,),
    Verb.SLOT: lambda piece, op: _SAME,
    Verb.CORNERS: lambda piece, op: _SAME,
    Verb.LAY_OUT: lambda piece, op: _SAME,
    Verb.TENON: _set_up,
    Verb.MORTISE: lambda piece, op: _mortised(op),
    Verb.BORE: lambda piece, op: _bored(op),
    Verb.NOTCH: lambda piece, op: _notched(op),
    Verb.BEVEL: lambda piece, op: _bevelled(op),
    Verb.RABBET: lambda piece, op: _rabbeted(op),
    Verb.HINGE: lambda piece, op: _SAME,
    Verb.MITRE: lambda piece, op: _SAME,
    Verb.KERF: lambda piece, op: _SAME,
    Verb.ROUND_TENON: lambda piece, op: _SAME,
    Verb.PEG: lambda piece, op: _SAME,
    Verb.POCKET: lambda piece, op: _pocket_set_up(op),
    Verb.HOUSE: lambda piece, op: _SAME,
    Verb.LAP: lambda piece, op: _SAME,
    Verb.TRENCH: lambda piece, op: _SAME,
    Verb.TAIL: lambda piece, op: tuple(sorted({_kind(piece, feature) for feature in op.features})),
    Verb.SOCKET: lambda piece, op: _SAME,
    Verb.TAILS: lambda piece, op: _marked(piece, op),
    Verb.PINS: lambda piece, op: _marked(piece, op),
    Verb.FINGERS: lambda piece, op: _SAME,
    Verb.GROOVE: lambda piece, op: _SAME,
    Verb.ROWS: lambda piece, op: _SAME,
    Verb.LET_IN: lambda piece, op: _SAME,
    Verb.CHAMFER: lambda piece, op: _SAME,
    Verb.MOULD: lambda piece, op: _SAME,
}
"""Operations with equal keys are one step; verbs that are not here make a step for each part."""
