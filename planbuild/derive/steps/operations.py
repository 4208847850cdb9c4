"""What has to be done to each part, read from its features: the smallest pieces of work, before they are grouped."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from enum import Enum

from planbuild.derive.lists.blanks import is_corner_key, is_from_offcut
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
from planbuild.records.piece import Part, Piece
from planbuild.records.pockets import Pocket
from planbuild.records.shaped import Dished, Moulding, Sawn, Turned
from planbuild.records.slanted import AngledMortise, EndCut
from planbuild.records.tails import Sockets, Tails


class Phase(Enum):
    """The phases of the work, in their order, as printed."""

    STOCK = "Stock preparation"
    JOINERY = "Joinery"
    SHAPING = "Shaping"
    DRY = "Dry fit"
    GLUE = "Glue-up"
    FINISH = "Finish"
    FITTING = "Fitting"

    @property
    def rank(self) -> int:
        return list(Phase).index(self)


class Verb(Enum):
    """Kinds of work in their usual order: the word of a step's id, and the phase it belongs to."""

    ROUGH = ("rough", Phase.STOCK)
    MILL = ("mill", Phase.STOCK)
    BREAK_DOWN = ("break_down", Phase.STOCK)
    EDGE = ("edge", Phase.STOCK)
    PANEL = ("glue", Phase.STOCK)
    TRIM = ("trim", Phase.JOINERY)
    LAY_OUT = ("lay_out", Phase.JOINERY)
    MORTISE = ("mortise", Phase.JOINERY)
    TENON = ("tenon", Phase.JOINERY)
    MITRE = ("mitre", Phase.JOINERY)
    SLOT = ("slot", Phase.JOINERY)
    KERF = ("kerf", Phase.JOINERY)
    KEY = ("key", Phase.JOINERY)
    HOUSE = ("house", Phase.JOINERY)
    LAP = ("lap", Phase.JOINERY)
    TRENCH = ("trench", Phase.JOINERY)
    TAIL = ("tail", Phase.JOINERY)
    SOCKET = ("socket", Phase.JOINERY)
    TAILS = ("tails", Phase.JOINERY)
    PINS = ("pins", Phase.JOINERY)
    FINGERS = ("fingers", Phase.JOINERY)
    GROOVE = ("groove", Phase.JOINERY)
    RABBET = ("rabbet", Phase.JOINERY)
    BORE = ("bore", Phase.JOINERY)
    PEG = ("peg", Phase.JOINERY)
    POCKET = ("pocket", Phase.JOINERY)
    ROWS = ("drill_rows", Phase.JOINERY)
    LET_IN = ("let_in", Phase.JOINERY)
    MAKE = ("make", Phase.JOINERY)
    SIZE = ("size", Phase.SHAPING)
    TAPER = ("taper", Phase.SHAPING)
    ARCH = ("arch", Phase.SHAPING)
    CURVE = ("curve", Phase.SHAPING)
    OUTLINE = ("outline", Phase.SHAPING)
    CUT_OUT = ("cut_out", Phase.SHAPING)
    NOTCH = ("notch", Phase.SHAPING)
    CORNER = ("corner", Phase.SHAPING)
    TURN = ("turn", Phase.SHAPING)
    LEVEL = ("trim", Phase.SHAPING)
    """The slanted ends of what is turned between centres: they need square ones."""
    ROUND_TENON = ("round_tenon", Phase.SHAPING)
    DISH = ("dish", Phase.SHAPING)
    BEVEL = ("bevel", Phase.SHAPING)
    MOULD = ("mould", Phase.SHAPING)
    CHAMFER = ("chamfer", Phase.SHAPING)
    ROUND = ("round", Phase.SHAPING)
    DRY_FIT = ("dry_fit", Phase.DRY)
    PREPARE = ("sand", Phase.GLUE)
    JOIN = ("glue", Phase.GLUE)
    CORNERS = ("key", Phase.GLUE)
    TRY = ("fit", Phase.GLUE)
    HINGE = ("let_in", Phase.GLUE)
    FINISH = ("finish", Phase.FINISH)
    FIT = ("fit", Phase.FITTING)
    OWN = ("own", Phase.STOCK)
    """A step of the designer's own: it is printed under the phase that has begun where it stands."""

    def __new__(cls, word: str, phase: Phase) -> Verb:
        made = object.__new__(cls)
        made._value_ = (word, phase)
        return made

    @property
    def word(self) -> str:
        return str(self.value[0])

    @property
    def phase(self) -> Phase:
        phase: Phase = self.value[1]
        return phase

    @property
    def rank(self) -> int:
        return list(Verb).index(self)


_VERB_OF: dict[type[Feature], tuple[Verb, ...]] = {
    Mortise: (Verb.LAY_OUT, Verb.MORTISE),
    AngledMortise: (Verb.LAY_OUT, Verb.MORTISE),
    EndCut: (Verb.TRIM,),
    Tenon: (Verb.TENON,),
    Rabbet: (Verb.RABBET,),
    Edging: (Verb.EDGE,),
    Hole: (Verb.BORE,),
    Pocket: (Verb.POCKET,),
    Taper: (Verb.TAPER,),
    Arch: (Verb.ARCH,),
    Curve: (Verb.CURVE,),
    Bevel: (Verb.BEVEL,),
    EdgeBevel: (Verb.BEVEL,),
    Chamfer: (Verb.CHAMFER,),
    RoundOver: (Verb.ROUND,),
    Moulding: (Verb.MOULD,),
    Dished: (Verb.DISH,),
    Turned: (Verb.TURN,),
}

_COMBS = {
    "tails": Verb.TAILS, "pins": Verb.PINS, "tail": Verb.TAIL, "housing": Verb.TRENCH, "socket": Verb.SOCKET,
    "fingers": Verb.FINGERS,
}  # fmt: skip
_CHANNELS = {
    "groove": Verb.GROOVE, "housing": Verb.HOUSE, "lap": Verb.LAP, "slot": Verb.LAP, "notch": Verb.LAP, "recess": Verb.LET_IN,
}  # fmt: skip
"""By the trade's word for a channel."""

_SAWN = {
    "notch": Verb.NOTCH,
    "cut-out": Verb.CUT_OUT,
    "recess": Verb.CUT_OUT,
    "outline": Verb.OUTLINE,
    "clipped corner": Verb.CORNER,
    "rounded corner": Verb.CORNER,
}
"""By the trade's word for what is sawn to an outline."""


@dataclass(frozen=True)
class Operation:
    """One kind of work on one part; `features` are what it cuts, none for milling and the like."""

    verb: Verb
    part: str
    features: tuple[Feature, ...] = ()


def operations(piece: Piece) -> tuple[Operation, ...]:
    """All work on single parts, part by part, each kind once a part."""
    return tuple(each for part in piece.parts for each in _of_part(piece, part))


def _of_part(piece: Piece, part: Part) -> Iterator[Operation]:
    if piece.stock_of(part).sheet:
        yield Operation(Verb.BREAK_DOWN, part.id)
    elif not is_from_offcut(piece, part):
        yield Operation(Verb.ROUGH, part.id)
        yield Operation(Verb.MILL, part.id)
    if part.glue_up:
        yield Operation(Verb.PANEL, part.id)
        yield Operation(Verb.SIZE, part.id)
    if part.made_by:
        yield Operation(Verb.MAKE, part.id, part.features)
        if is_corner_key(piece, part):
            yield Operation(Verb.CORNERS, part.id)
        return
    cut: dict[Verb, list[Feature]] = {}
    for feature in part.features:
        for verb in _end_verbs(part, feature) or verbs_of(feature):
            late = verb is Verb.LET_IN and _is_tried(piece, part)
            cut.setdefault(Verb.HINGE if late else verb, []).append(feature)
    for verb in Verb:
        if verb in cut:
            yield Operation(verb, part.id, tuple(cut[verb]))


def _is_tried(piece: Piece, part: Part) -> bool:
    """Whether a part is planed to its opening when it is glued up: only then is its edge where the hinge will lie."""
    moving = (each for each in piece.blocks if each.moves and not each.moves.trapped)
    return part.fit_to_work and any(part.id in each.parts for each in moving)


def _end_verbs(part: Part, feature: Feature) -> tuple[Verb, ...]:
    """For a slanted end on which a tenon stands the work on that: it is no end to saw off, but the line of its shoulders.
    That of a turned part is sawn when it has been turned."""
    if not isinstance(feature, EndCut):
        return ()
    tenons = [each for each in part.features if isinstance(each, Tenon) and each.end is feature.end]
    if tenons:
        return verbs_of(tenons[0])[:1]
    return (Verb.LEVEL,) if any(isinstance(each, Turned) for each in part.features) else ()


def verbs_of(feature: Feature) -> tuple[Verb, ...]:
    """The kinds of work that make a feature, in their order; none for what is only made where the part is fitted."""
    if isinstance(feature, Hole) and feature.purpose == "pilot":
        return ()  # drilled when the piece is fitted, through the holes of its mate
    if isinstance(feature, Hole) and feature.purpose == "pin":
        return (Verb.ROWS,)
    if isinstance(feature, Mortise | AngledMortise) and feature.round:
        return (Verb.BORE,)
    if isinstance(feature, Tenon) and feature.round:
        return (Verb.ROUND_TENON,)
    if isinstance(feature, Tenon):
        tip = ((Verb.MITRE, feature.mitre), (Verb.KERF, feature.wedging), (Verb.KEY, feature.keyway), (Verb.PEG, feature.pegs))
        return (Verb.TENON, *(verb for verb, work in tip if work))
    if isinstance(feature, CornerSlot):
        return (Verb.CORNERS if feature.deep is None else Verb.SLOT,)
    if isinstance(feature, Groove):
        return (_CHANNELS[feature.what],)
    if isinstance(feature, Sawn):
        return (_SAWN[feature.what],)
    if isinstance(feature, Tails | Sockets):
        return (_COMBS[feature.what],)
    return _VERB_OF[type(feature)]
