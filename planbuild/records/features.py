"""What is cut into a part or left standing on it: the halves of joints, and shapes, in the trade's terms.

Features are the truth from which solids are cut, dimensions drawn and steps worded.  All boxes and
positions are those of the drawn copy of a part, in the frame of the piece (see `core.geometry`).
Units: mm, degrees.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import ClassVar

from planbuild.core.diagnostics import Span
from planbuild.core.geometry import TINY, Axis, Box, Face, Span1, Vec
from planbuild.records.tenon_work import Haunch, Keyway, PegHole

Edge = tuple[Face, Face]
"""An edge of a body: the two faces that meet there."""


@dataclass(frozen=True)
class Mate:
    """The part that a feature is made for: `part` is its id, `copies` the indices of its copies."""

    part: str
    copies: tuple[int, ...] = ()


@dataclass(frozen=True)
class Feature:
    """Anything cut into or left standing on a part.

    `id` is unique in the part and made of names, never counted blindly (`rails.long_rail.right`);
    `joint` is the id of the joint it belongs to, "" for a shape.
    """

    kind: ClassVar[str] = "feature"
    id: str
    origin: Span
    joint: str
    why: str


@dataclass(frozen=True)
class Kerf:
    """A saw cut that takes a wedge: the slot of `width` from the tenon's tip inward, for `depth`.

    `plane` is where its middle lies along `across` (the direction the wedge spreads).
    """

    across: Axis
    plane: float
    width: float
    depth: float


@dataclass(frozen=True)
class Wedging:
    """How a through tenon is spread: kerfs, and the flare that each end of the mortise gets.

    `flare` is how much the mortise opens at each of its two ends at the far face, along `across`.  Each outer
    strip of the tenon moves outward with it: by 0 at the bottom of the kerfs, by `flare` at the far face, and on
    at that slope to the proud tip; strips between two kerfs stay straight.  So a wedge is as thick as its kerf
    is wide, plus that shift, at every plane (plus twice that shift if it is the only one).
    """

    kerfs: tuple[Kerf, ...]
    across: Axis
    flare: float
    wedge: str
    """Id of the part that is the wedge."""


@dataclass(frozen=True)
class Mitre:
    """The end of a tenon cut back at 45 degrees where two tenons meet inside a post.

    `short` is the face of the tenon on the side where it is shorter; on that face the cut starts
    `start` from the shoulder.
    """

    short: Face
    start: float


@dataclass(frozen=True)
class Tenon(Feature):
    """Wood left standing beyond the shoulder at `end`; `block` reaches from shoulder to tip."""

    kind: ClassVar[str] = "tenon"
    end: Face
    block: Box
    mate: Mate
    through: bool = False
    proud: float = 0.0
    mitre: Mitre | None = None
    wedging: Wedging | None = None
    keyway: Keyway | None = None
    haunch: Haunch | None = None
    pegs: tuple[PegHole, ...] = ()
    tip_chamfer: float = 0.0
    """Small chamfer round the tip of a proud tenon; 0 for none."""
    round: bool = False
    """True for one that is a cylinder within its block."""


@dataclass(frozen=True)
class Mortise(Feature):
    """A square-cornered hole from `face` inward; `void` is what is cut away, up to the nominal face.

    A through mortise reaches the opposite face, where it opens by `flare` at each end along
    `flare_axis` (for wedges), measured at that face; the opening is untouched at `face`.  It opens
    in a straight slope from the plane `flare_from` (the bottom of the tenon's kerfs), None: from `face`.
    """

    kind: ClassVar[str] = "mortise"
    face: Face
    void: Box
    mate: Mate
    through: bool = False
    flare: float = 0.0
    flare_axis: Axis | None = None
    flare_from: float | None = None
    haunch: bool = False
    """True for the shallow one beside another, that takes a haunch."""
    rises: Face | None = None
    """The side toward which its floor slopes up to the surface; None: flat."""
    round: bool = False
    """True for one that is bored: a cylinder within its void."""

    @property
    def hole(self) -> Hole:
        """A round one as the hole that is bored."""
        middle = dict(zip(Axis, self.void.centre, strict=True)) | {self.face.axis: self.void.at(self.face)}
        centre = (middle[Axis.LEFT_RIGHT], middle[Axis.FRONT_BACK], middle[Axis.BOTTOM_TOP])
        diameter, depth = self.void.size(self.face.axis.others[0]), self.void.size(self.face.axis)
        deep = None if self.through else depth
        return Hole(self.id, self.origin, self.joint, self.why, self.face, centre, diameter, deep, "tenon")


@dataclass(frozen=True)
class Groove(Feature):
    """A channel in `face`; `void` is what is cut away.

    `what` is the trade's word for it: one that takes another part whole is a housing, half of a crossing a lap,
    one open at an end a slot.
    """

    kind: ClassVar[str] = "groove"
    face: Face
    void: Box
    mate: Mate | None = None
    what: str = "groove"

    def run(self, body: Box, grain: Axis) -> Axis:
        """The way it runs on a board: from side to side if it reaches both, else the longer way, in doubt along the grain."""
        whole = [axis for axis in self.face.axis.others if self.void.size(axis) > body.size(axis) - TINY]
        if len(whole) == 1:
            return whole[0]
        return max(self.face.axis.others, key=lambda axis: (round(self.void.size(axis), 3), axis is grain))


@dataclass(frozen=True)
class Rabbet(Feature):
    """A step cut from an edge; `void` is what is cut away, reaching both faces of the edge."""

    kind: ClassVar[str] = "rabbet"
    edge: Edge
    void: Box
    mate: Mate | None = None
    """The part that stands in it, None for a shape and for what shapes the part itself."""

    def run(self, body: Box, grain: Axis) -> Axis:
        """The way it runs: along its edge."""
        (axis,) = (each for each in Axis if each not in (self.edge[0].axis, self.edge[1].axis))
        return axis


@dataclass(frozen=True)
class Slot:
    """How a hole is drawn out to a slot with round ends: `length` over all, its middle where the hole's would be."""

    along: Axis
    length: float


@dataclass(frozen=True)
class Hole(Feature):
    """A round hole square to `face`, its centre line through `centre` (a point on the face, or on the floor of a rabbet
    that is cut in it: from there its depth counts).

    `depth` is None when through.  `purpose` is `pilot`, `clearance` or `plain`, or says
    for what hardware it is (`pin`, `cup`, `plate`, `spigot`); `counterbore` is
    (diameter, depth) or None; `gauge` names the screw it serves, "" if none.  With a `slot` the hole and its
    counterbore are drawn out alike, so that a screw can travel.  `countersink` is (diameter at the face,
    angle of the whole cone) or None.  Where the counterbore runs out at a side of the part, `open_at` is that side.
    """

    kind: ClassVar[str] = "hole"
    face: Face
    centre: Vec
    diameter: float
    depth: float | None
    purpose: str = "plain"
    counterbore: tuple[float, float] | None = None
    gauge: str = ""
    slot: Slot | None = None
    countersink: tuple[float, float] | None = None
    open_at: Face | None = None

    @property
    def travel(self) -> float:
        """How far a screw of its own diameter can go from end to end, mm; 0 in a round hole."""
        return self.slot.length - self.diameter if self.slot else 0.0

    @property
    def countersink_depth(self) -> float:
        """How deep the cone goes before it is as narrow as the hole, mm (plane geometry)."""
        if self.countersink is None:
            return 0.0
        wide, angle = self.countersink
        return (wide - self.diameter) / 2 / math.tan(math.radians(angle) / 2)

    def reach(self, diameter: float) -> Box:
        """The flat block on `face` that a bore of that diameter takes in, with its slot."""
        spans = {}
        for axis in Axis:
            half = 0.0 if axis is self.face.axis else diameter / 2
            half += self.travel / 2 if self.slot and self.slot.along is axis else 0.0
            spans[axis] = Span1(self.centre[axis.value] - half, self.centre[axis.value] + half)
        return Box.of(spans)

    def bore(self, body: Box) -> Box:
        """The block that it takes in of a board, as deep as it goes."""
        thick = body.size(self.face.axis)
        deep, surface = thick if self.depth is None else min(self.depth, thick), body.at(self.face)
        return self.reach(self.diameter).with_span(self.face.axis, Span1(*sorted((surface, surface - self.face.sign * deep))))


@dataclass(frozen=True)
class Taper(Feature):
    """`faces` slope inward from plane `start` to the end face `end`.

    `start` is a position along the grain; `leaving` gives the size left at the end, one entry for
    each axis that is tapered (two opposite faces share their axis and slope alike).
    """

    kind: ClassVar[str] = "taper"
    faces: tuple[Face, ...]
    end: Face
    start: float
    leaving: tuple[tuple[Axis, float], ...]


@dataclass(frozen=True)
class Chamfer(Feature):
    """Edges cut off at 45 degrees, `size` along both faces; `reach` limits it (stopped), None = whole edge."""

    kind: ClassVar[str] = "chamfer"
    edges: tuple[Edge, ...]
    size: float
    reach: tuple[float, float] | None = None
    group: str = ""
    """The words that chose the edges (`long`, `around bottom`), for sheets and steps."""


@dataclass(frozen=True)
class RoundOver(Feature):
    """Edges rounded to `radius`; `reach` and `group` as for a chamfer."""

    kind: ClassVar[str] = "round over"
    edges: tuple[Edge, ...]
    radius: float
    reach: tuple[float, float] | None = None
    group: str = ""


@dataclass(frozen=True)
class Arch(Feature):
    """One circular arc hollowed into `face` (an edge face of a board), through the thickness.

    It starts and ends on the face at `start` and `stop` (positions along the grain) and is `rise`
    deep in the middle.  With `crown` it is a rounded rise instead: the ends drop by `rise`.
    """

    kind: ClassVar[str] = "arch"
    face: Face
    rise: float
    start: float
    stop: float
    crown: bool = False

    @property
    def radius(self) -> float:
        """Radius of the arc from chord and rise: r = (c^2/4 + h^2) / (2 h) (plane geometry)."""
        half = (self.stop - self.start) / 2
        return (half * half + self.rise * self.rise) / (2 * self.rise)


@dataclass(frozen=True)
class Curve(Feature):
    """A fair curve cut from `face` through `points`: (distance from the low end, depth from the face)."""

    kind: ClassVar[str] = "curve"
    face: Face
    points: tuple[tuple[float, float], ...]


@dataclass(frozen=True)
class Bevel(Feature):
    """A face or end planed to `angle` degrees from square; the edge with `keeps` stays where it is."""

    kind: ClassVar[str] = "bevel"
    face: Face
    keeps: Face
    angle: float

    def room(self, body: Box) -> Box:
        """The block of a body in which it takes its wood."""
        falls, surface = body.size(self.keeps.axis) * math.tan(math.radians(self.angle)), body.at(self.face)
        return body.with_span(self.face.axis, Span1(*sorted((surface, surface - self.face.sign * falls))))


@dataclass(frozen=True)
class EdgeBevel(Feature):
    """A whole edge sloped off: `depth` in from the second face at the edge, to `step` at `margin` in from the first.

    The step, if there is one, is a square wall round the field that stays standing.
    """

    kind: ClassVar[str] = "edge bevel"
    edge: Edge
    margin: float
    depth: float
    step: float = 0.0

    @property
    def angle(self) -> float:
        """Degrees from the second face (plane geometry)."""
        return math.degrees(math.atan2(self.depth - self.step, self.margin))
