"""The rules of the trade as data: which kind of work comes before which, within what scope, and why."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from planbuild.derive.steps.operations import Phase, Verb


class Scope(Enum):
    """Between which two steps a rule holds."""

    PART = "both work on the same part"
    MATE = "the second cuts the other half of what the first cuts"
    MARKED = "the second cuts the other half, which its joint wants later"
    JOINT = "both serve the same joint"
    MADE = "the second is cut for what the first makes"
    INSIDE = "the second joins what the first has joined"
    UNDER = "the second lies on what the first fits"
    CLOSED_IN = "the second closes over the glue-up to which the first fixes something"
    INTO_CASE = "the first is screwed on from inside a case, the second puts in a door or a shelf"
    HUNG = "the first hangs the piece on the wall, the second puts in a door or a shelf"
    WALL = "the second fixes the piece to the wall"
    ALL = "always"


@dataclass(frozen=True)
class Rule:
    """Each verb of `before` comes before each verb of `after` within `scope`."""

    before: frozenset[Verb]
    after: frozenset[Verb]
    scope: Scope
    reason: str


def _verbs(*verbs: Verb) -> frozenset[Verb]:
    return frozenset(verbs)


def _phase(*phases: Phase) -> frozenset[Verb]:
    return frozenset(verb for verb in Verb if verb.phase in phases)


_FOR_HARDWARE = (Verb.BORE, Verb.ROWS, Verb.LET_IN)
_CHANNELS = (Verb.HOUSE, Verb.LAP, Verb.GROOVE)
_TENONS = (Verb.TRIM, Verb.SLOT, Verb.LAY_OUT, Verb.MORTISE, Verb.TENON, Verb.MITRE, Verb.KERF, Verb.KEY, Verb.PEG)
_DOVETAILS = (Verb.TRENCH, Verb.TAIL, Verb.SOCKET, Verb.TAILS, Verb.PINS, Verb.FINGERS)
_JOINTS = _verbs(*_TENONS, *_CHANNELS, *_DOVETAILS, Verb.RABBET, Verb.POCKET, *_FOR_HARDWARE)
_SAWN = (Verb.OUTLINE, Verb.CUT_OUT, Verb.NOTCH, Verb.CORNER)
_SHAPES = _verbs(Verb.TAPER, Verb.ARCH, Verb.CURVE, Verb.BEVEL, *_SAWN, Verb.TURN, Verb.LEVEL, Verb.ROUND_TENON, Verb.DISH)
_EDGES = _verbs(Verb.CHAMFER, Verb.ROUND, Verb.MOULD)
_MAKING = _JOINTS | _SHAPES | _EDGES | _verbs(Verb.MAKE, Verb.SIZE)

RULES: tuple[Rule, ...] = (
    Rule(
        _verbs(Verb.ROUGH),
        _verbs(Verb.MILL),
        Scope.PART,
        "Sawn wood moves; a blank that has rested is milled straight once and stays straight.",
    ),
    Rule(
        _verbs(Verb.MILL, Verb.BREAK_DOWN),
        _verbs(Verb.PANEL),
        Scope.PART,
        "Glued up early, a panel settles while the joints are cut.",
    ),
    Rule(
        _verbs(Verb.MILL, Verb.BREAK_DOWN),
        _MAKING,
        Scope.PART,
        "All marks are made from a true face and a true edge.",
    ),
    Rule(
        _verbs(Verb.PANEL),
        _verbs(Verb.SIZE),
        Scope.PART,
        "The panel rests after gluing, so that its joint lines do not sink after planing.",
    ),
    Rule(
        _verbs(Verb.SIZE),
        _JOINTS | _SHAPES,
        Scope.PART,
        "The panel is measured from finished edges.",
    ),
    Rule(
        _verbs(Verb.BREAK_DOWN, Verb.SIZE),
        _verbs(Verb.EDGE),
        Scope.PART,
        "A strip is glued to an edge that is sawn true and stays.",
    ),
    Rule(
        _verbs(Verb.EDGE),
        _JOINTS | _SHAPES | _EDGES,
        Scope.PART,
        "Sheet and edging are one board when the joints are cut, so that both are cut alike.",
    ),
    Rule(
        _verbs(Verb.LAY_OUT),
        _verbs(Verb.MORTISE),
        Scope.PART,
        "Like parts are marked together, before any is cut, so that they agree with each other.",
    ),
    Rule(
        _verbs(Verb.MORTISE, Verb.BORE),
        _verbs(Verb.TENON, Verb.ROUND_TENON),
        Scope.MATE,
        "A tenon can be pared to fit its mortise; a mortise cannot be pared to fit its tenon.",
    ),
    Rule(
        _verbs(Verb.TAILS),
        _verbs(Verb.PINS),
        Scope.MARKED,
        "The pins are marked from the finished tails, so that each fits its own.",
    ),
    Rule(
        _verbs(Verb.PINS),
        _verbs(Verb.TAILS),
        Scope.MARKED,
        "The tails are marked from the finished pins, so that each fits its own.",
    ),
    Rule(
        _verbs(Verb.TRENCH),
        _verbs(Verb.TAIL),
        Scope.MATE,
        "A long tail can be planed to fit its housing; the housing cannot be made narrower.",
    ),
    Rule(
        _verbs(Verb.TAIL),
        _verbs(Verb.SOCKET),
        Scope.MATE,
        "The socket is marked from the finished tail.",
    ),
    Rule(
        _verbs(Verb.TENON),
        _verbs(Verb.MITRE, Verb.KERF, Verb.KEY, Verb.PEG),
        Scope.PART,
        "The tips are cut when the tenons fit.",
    ),
    Rule(
        _verbs(Verb.BORE),
        _verbs(Verb.PEG),
        Scope.MATE,
        "The holes in the tenons are marked through those in the cheeks of their mortises.",
    ),
    Rule(
        _verbs(Verb.TENON),
        _verbs(Verb.GROOVE),
        Scope.PART,
        "The shoulders show where the groove ends.",
    ),
    Rule(
        _verbs(Verb.MORTISE, Verb.TENON, Verb.ROUND_TENON, Verb.KERF, Verb.KEY, Verb.PEG, Verb.GROOVE),
        _verbs(Verb.MAKE),
        Scope.JOINT,
        "Small parts are made to fit the joint that they serve.",
    ),
    Rule(
        _verbs(Verb.MAKE),
        _verbs(Verb.CUT_OUT),
        Scope.MADE,
        "The recess is knifed round the key that it takes.",
    ),
    Rule(
        _verbs(Verb.SLOT),
        _verbs(Verb.MAKE),
        Scope.JOINT,
        "Small parts are made to fit the joint that they serve.",
    ),
    Rule(
        _verbs(Verb.TRIM),
        _verbs(Verb.SLOT),
        Scope.PART,
        "A slot is cut square to the finished mitre.",
    ),
    Rule(
        _verbs(Verb.JOIN, Verb.MAKE),
        _verbs(Verb.CORNERS),
        Scope.PART,
        "The slots are sawn across the glued corner, so that both halves line up.",
    ),
    Rule(
        _verbs(Verb.CORNERS),
        _verbs(Verb.FINISH, Verb.FIT, Verb.TRY),
        Scope.ALL,
        "The keys are trimmed flush before the finish goes on.",
    ),
    Rule(
        _JOINTS,
        _SHAPES | _EDGES,
        Scope.PART,
        "Joints are marked and cut while all faces are square; a shaped part has none to measure from.",
    ),
    Rule(
        _verbs(Verb.TURN),
        _verbs(Verb.ROUND_TENON),
        Scope.PART,
        "A round tenon is cut about the middle of the round part, to fit its hole.",
    ),
    Rule(
        _verbs(Verb.TURN),
        _verbs(Verb.LEVEL),
        Scope.PART,
        "Between centres a part wants square ends; it is sawn on the slant when it is round.",
    ),
    Rule(
        _SHAPES | _verbs(Verb.SIZE),
        _EDGES,
        Scope.PART,
        "Edges are eased along the outline that stays.",
    ),
    Rule(
        _MAKING,
        _verbs(Verb.DRY_FIT),
        Scope.PART,
        "A dry fit tells the truth when every part is as it will be glued.",
    ),
    Rule(
        _verbs(Verb.DRY_FIT),
        _verbs(Verb.PREPARE, Verb.JOIN),
        Scope.ALL,
        "What does not fit is found while there is no glue on it.",
    ),
    Rule(
        _verbs(Verb.PREPARE),
        _verbs(Verb.JOIN),
        Scope.ALL,
        "Faces between other parts cannot be reached once the joints are closed.",
    ),
    Rule(
        _verbs(Verb.MAKE),
        _verbs(Verb.JOIN, Verb.FIT),
        Scope.PART,
        "All that the joint takes lies ready when the glue is spread.",
    ),
    Rule(
        _verbs(Verb.JOIN),
        _verbs(Verb.JOIN),
        Scope.INSIDE,
        "Small glue-ups first: each closes in one direction, within the open time of the glue.",
    ),
    Rule(
        _MAKING | _verbs(Verb.JOIN),
        _verbs(Verb.FINISH),
        Scope.PART,
        "The finish goes on when no tool, clamp or glue can mark it any more.",
    ),
    Rule(
        _verbs(Verb.JOIN),
        _verbs(Verb.FINISH),
        Scope.ALL,
        "The finish goes on when no tool, clamp or glue can mark it any more.",
    ),
    Rule(
        _MAKING | _verbs(Verb.JOIN),
        _verbs(Verb.TRY),
        Scope.ALL,
        "A drawer or a door is fitted to its opening as it stands.",
    ),
    Rule(
        _verbs(Verb.TRY),
        _verbs(Verb.HINGE),
        Scope.PART,
        "A door is planed to its opening first; the recess is then as deep as its leaf.",
    ),
    Rule(
        _verbs(Verb.HINGE),
        _verbs(Verb.FINISH, Verb.FIT),
        Scope.ALL,
        "All cutting is done before the finish goes on.",
    ),
    Rule(
        _verbs(Verb.TRY),
        _verbs(Verb.FINISH, Verb.FIT),
        Scope.ALL,
        "What was planed to fit is finished afterwards.",
    ),
    Rule(
        _verbs(Verb.FINISH),
        _verbs(Verb.FIT),
        Scope.ALL,
        "Faces that will lie on each other get their finish while they are apart.",
    ),
    Rule(
        _MAKING | _verbs(Verb.JOIN),
        _verbs(Verb.FIT),
        Scope.ALL,
        "What comes last is fitted to the piece as it stands.",
    ),
    Rule(
        _verbs(Verb.FIT),
        _verbs(Verb.FIT),
        Scope.UNDER,
        "What carries something is fixed before what lies on it.",
    ),
    Rule(
        _verbs(Verb.FIT),
        _verbs(Verb.FIT),
        Scope.CLOSED_IN,
        "What the top closes in is within reach until then.",
    ),
    Rule(
        _verbs(Verb.FIT),
        _verbs(Verb.FIT),
        Scope.INTO_CASE,
        "A top is screwed on from inside while no door or shelf is in the way.",
    ),
    Rule(
        _verbs(Verb.FIT),
        _verbs(Verb.FIT),
        Scope.HUNG,
        "The piece is lighter to lift without what opens or lies loose in it.",
    ),
    Rule(
        _verbs(Verb.FIT),
        _verbs(Verb.FIT),
        Scope.WALL,
        "The piece is tied to the wall where it will stand, when all else is done.",
    ),
)
