"""The piece after `resolve`: every part in mm, its features in order of work, both ends of each joint.

All boxes and positions are those of the drawn copy of a part, in the frame of the piece (see `core.geometry`).
Units: mm, degrees.
"""

from __future__ import annotations

from dataclasses import dataclass

from planbuild.core.diagnostics import Diagnostic, Span
from planbuild.core.geometry import Axis, Box, Face, Motion, Vec, hull
from planbuild.core.poses import Pose, around, corners, standing
from planbuild.core.units import Ruler
from planbuild.records.features import Feature, Tenon
from planbuild.records.hardware import Item as Item
from planbuild.records.hardware import Placed as Placed
from planbuild.records.openings import Block, Moves, Opening
from planbuild.records.photos import Photo
from planbuild.records.slanted import EndCut, drawn_back
from planbuild.records.stock import GlueUp as GlueUp
from planbuild.records.stock import Stock as Stock
from planbuild.records.tenon_work import Bend


@dataclass(frozen=True)
class Copy:
    """One standing copy of a part: its hand as spoken (`back right`, `3rd`, "") and where it stands."""

    hand: str
    motion: Motion
    turned: Pose | None = None
    """How it is turned with the block that holds it, which is placed straight first; it comes after the motion."""

    def stands(self, pose: Pose | None) -> Pose:
        """The whole way to its place in the piece, from the own frame of a part with this pose."""
        motion = Pose.of(self.motion)
        straight = motion.after(pose) if pose else motion
        return self.turned.after(straight) if self.turned else straight

    def direction(self, way: Vec) -> Vec:
        """A direction of the drawn copy, where this one stands."""
        moved = self.motion.direction(way)
        return self.turned.direction(moved) if self.turned else moved

    def box(self, own: Box, pose: Pose | None) -> Box:
        """The box around an own block of a part with this pose, where the copy stands."""
        return self.stands(pose).around(own) if self.turned else standing(own, pose, self.motion)


@dataclass(frozen=True)
class Part:
    """A board: body shoulder to shoulder, features in order of work, and its copies (the drawn one first)."""

    id: str
    mark: str
    name: str
    origin: Span
    stock: str
    grain: Axis
    face: Face
    edge: Face
    body: Box
    features: tuple[Feature, ...]
    copies: tuple[Copy, ...]
    rough_length: float
    """Allowance added to the finished length when first cut."""
    rough_width: float
    glue_up: GlueUp | None = None
    made_by: str = ""
    """Id of the joint that calls for it (buttons, wedges); "" for a part of the design."""
    note: str = ""
    why: str = ""
    photo: Photo | None = None
    fit_to_work: bool = False
    """Cut only when the place that takes it exists, and measured from that."""
    stays_on: str = ""
    """What it stays on when the piece is lifted off (a wall), "" if it goes with it."""
    moves: Moves | None = None
    pose: Pose | None = None
    """How it stands if it is not square to the piece: the motion from its own straight frame, in which its body and
    features are measured, to the drawn copy.  The motions of the copies come after it."""
    bend: Bend | None = None
    """How it lies once it is driven home, if it does not stay straight."""

    def stands(self, copy: int) -> Pose:
        """The whole way of a copy from the part's own frame to its place in the piece."""
        return self.copies[copy].stands(self.pose)

    def is_askew(self, copy: int) -> bool:
        """True for a copy that does not stand square to the piece."""
        return self.pose is not None or self.copies[copy].turned is not None

    def way(self, copy: int, face: Face) -> Vec:
        """The way a face of the straight body looks, where a copy stands."""
        askew = self.is_askew(copy)
        return self.stands(copy).direction(face.normal) if askew else self.copies[copy].motion.face(face).normal

    def box(self, copy: int, own: Box) -> Box:
        """The box around an own block of the part, where a copy stands; what its slanted ends cut off is left out."""
        cuts = [feature for feature in self.features if isinstance(feature, EndCut)]
        if not cuts:
            return self.copies[copy].box(own, self.pose)
        return around(self.stands(copy).point(drawn_back(corner, self.body, cuts)) for corner in corners(own))

    @property
    def extent(self) -> Box:
        """Body and tenons: the box the part is cut from."""
        return hull([self.body, *(f.block for f in self.features if isinstance(f, Tenon))])

    @property
    def thickness_axis(self) -> Axis:
        return self.face.axis

    @property
    def width_axis(self) -> Axis:
        (axis,) = (a for a in Axis if a not in (self.grain, self.face.axis))
        return axis

    @property
    def finished(self) -> tuple[float, float, float]:
        """Length along the grain (tenons counted), width, thickness."""
        box = self.extent
        return box.size(self.grain), box.size(self.width_axis), box.size(self.thickness_axis)

    @property
    def ordered(self) -> tuple[float, float, float]:
        """What a bill asks for: thickness as finished, width and length with the allowance for the first cut."""
        length, width, thickness = self.finished
        return thickness, width + self.rough_width, length + self.rough_length


# ---------------------------------------------------------------- joints, hardware, work


@dataclass(frozen=True)
class GluedPart:
    """Where a joint is glued that is not glued all along its seam: in the `middle`, or between two places from the low end."""

    axis: Axis
    start: float
    stop: float
    middle: bool = False


@dataclass(frozen=True)
class Contact:
    """One place where a joint holds: copy `a` of the entering part and copy `b` of its mate.

    `insert` is the direction in which copy `a` moves to go home; `shoulder` the plane it closes on,
    as a box without thickness (where the two bodies touch).  `cross_grain` is the width over which
    the two grains cross, 0 if they run alike.
    """

    a: tuple[str, int]
    b: tuple[str, int]
    insert: Vec
    shoulder: Box
    cross_grain: float
    glue_area: float
    face_glued: bool = False
    """True if the glue lies in the plane of the shoulder itself; else it lies beside the way in, on cheeks."""
    outline: tuple[Vec, ...] = ()
    """The corners of the shoulder, in order, where it is no rectangle square to the piece; `shoulder` is then the box around."""


@dataclass(frozen=True)
class Joint:
    """A joint of one kind wherever it occurs; `numbers` are its sizes as printed on the joints page.

    `glue` is yes, no or a part; `fit` is snug, sliding or loose; `clearance` the gap it leaves (mm).
    """

    id: str
    kind: str
    name: str
    origin: Span
    contacts: tuple[Contact, ...]
    glue: bool
    fit: str
    numbers: tuple[tuple[str, float | int | str], ...]
    operations: tuple[str, ...]
    tools: tuple[str, ...]
    makes: tuple[str, ...] = ()
    """Ids of parts it calls for."""
    hardware: tuple[tuple[str, int], ...] = ()
    """(item id, count)."""
    defaults: tuple[str, ...] = ()
    """Practice defaults that were used, one printable line each, with their reason."""
    note: str = ""
    why: str = ""
    glued_part: GluedPart | None = None
    photo: Photo | None = None
    enlarged: bool = False
    """The designer wants it drawn larger than others."""


@dataclass(frozen=True)
class Assembly:
    """A subassembly: named by the designer, or all of a block (`of_block`), which is only joined beforehand if it can be;
    `groups` has one tuple of (part, copy) for each copy of it."""

    id: str
    name: str
    origin: Span
    groups: tuple[tuple[tuple[str, int], ...], ...]
    photo: Photo | None = None
    of_block: bool = False


@dataclass(frozen=True)
class StepWish:
    """What the designer said of a step: texts to add, and where to move it (`after`, `before`)."""

    id: str
    origin: Span
    title: str = ""
    note: str = ""
    why: str = ""
    check: str = ""
    after: tuple[str, ...] = ()
    before: tuple[str, ...] = ()
    caution: tuple[str, str, str, str] | None = None
    """(signal word, hazard, harm, how to avoid it)."""
    photo: Photo | None = None
    joined: str = ""
    """The step with which it is to be one."""
    gathers: bool = False
    """All work of its kind is to be one step."""
    own: tuple[str, ...] = ()
    """What is done in a step that the designer adds, sentence by sentence; () for a planned step."""
    parts: tuple[str, ...] = ()
    """What an added step handles, by id."""


@dataclass(frozen=True)
class Matching:
    """Parts that the designer wants alike in a way that no size tells; `parts` as (part, copy), `cut` the trade's words."""

    id: str
    origin: Span
    parts: tuple[tuple[str, int], ...]
    cut: str
    why: str = ""


Surface = tuple[str, Face | None]
"""A part, or one face of it."""


@dataclass(frozen=True)
class Coating:
    """A finish: a kind of product, never a brand.  `covers` in m2 per litre, times in hours."""

    id: str
    product: str
    coats: int
    sheen: str
    dries: str
    cures: str
    covers: float | None
    everywhere: bool
    before_gluing: tuple[Surface, ...]
    """Those to be finished before the glue-up."""
    bare: tuple[Surface, ...] = ()
    on: tuple[Surface, ...] = ()
    """Parts (or faces) that get this coating instead of the one that goes everywhere."""


@dataclass(frozen=True)
class Glue:
    kind: str
    open_time: float
    clamp_time: float
    """Minutes."""


@dataclass(frozen=True)
class NamedSize:
    """A size a reader may change; `low`/`high` None if it has no range.

    Lengths in mm; `kind` is `length`, `count` (a plain number) or `angle` (degrees).
    """

    id: str
    name: str
    origin: Span
    value: float
    low: float | None
    high: float | None
    help: str
    why: str
    kind: str = "length"


@dataclass(frozen=True)
class Load:
    """`newtons` on each copy of part `on`, or over all of them if `shared`; `spread` evenly along it, else at `where`."""

    on: str
    newtons: float
    text: str
    spread: bool = False
    shared: bool = False
    where: str = ""


@dataclass(frozen=True)
class Practice:
    """Trade defaults in force (see `core/tables/practice`), lengths in mm, shares as fractions."""

    rough_length: float
    rough_width: float
    mortise_deeper: float
    kerf: float
    waste_solid: float
    tenon_share: float
    shoulder: float
    wall: float
    chisels: tuple[float, ...]
    button_spacing: float
    way: str = "machine"
    waste_sheet: float = 0.12


@dataclass(frozen=True)
class Imprint:
    """Texts for cover, feet and record."""

    title: str
    series: str
    summary: str
    designer: str
    contact: str
    licence: str
    revision: str
    date: str
    revisions: tuple[tuple[str, str, str], ...]
    """(letter, date, change)."""
    built: str
    """What is printed of the prototype: `not yet built`, or `built`, with the date."""
    photo: Photo | None = None
    """Of the prototype."""
    sources: tuple[str, ...] = ()
    notes: str = ""
    """Free notes in Markdown, printed with the record."""


@dataclass(frozen=True)
class EditionWish:
    """An edition named in the files: paper, unit, projection; turned into `records.edition.Edition`."""

    id: str
    origin: Span
    paper: str
    unit: str
    projection: str
    print: str = "home"
    document: str = "plan set"
    bleed: float = 0.0
    """Margin that a print shop cuts off, mm."""


@dataclass(frozen=True)
class ThemeWish:
    """The look that the files ask for by name, and where; no place if they leave it to planbuild."""

    name: str
    origin: Span | None = None


@dataclass(frozen=True)
class Piece:
    """A whole piece of furniture, ready to be made solid."""

    imprint: Imprint
    ruler: Ruler
    frame: Box
    sizes: tuple[NamedSize, ...]
    stock: tuple[Stock, ...]
    parts: tuple[Part, ...]
    joints: tuple[Joint, ...]
    items: tuple[Item, ...]
    hardware: tuple[Placed, ...]
    assemblies: tuple[Assembly, ...]
    steps: tuple[StepWish, ...]
    coatings: tuple[Coating, ...]
    glue: Glue
    loads: tuple[Load, ...]
    moisture: tuple[float, float, float]
    """Driest, dampest and workshop moisture content of the wood, %."""
    practice: Practice
    editions: tuple[EditionWish, ...]
    theme: ThemeWish
    matching: tuple[Matching, ...] = ()
    cautions: tuple[tuple[str, str, str, str], ...] = ()
    """What its owner must know in use: (signal word, hazard, harm, how to avoid it)."""
    openings: tuple[Opening, ...] = ()
    blocks: tuple[Block, ...] = ()
    words: tuple[tuple[str, str], ...] = ()
    departs: tuple[tuple[str, str], ...] = ()
    """Names of the series that this piece says anew, each with its reason."""
    warnings: tuple[Diagnostic, ...] = ()
    """What resolve found that does not stop the build."""
    straight: Piece | None = None
    """The same piece before its turned blocks are turned, without what joins them to the rest: how they are cut, joined
    and measured.  None if no block is turned."""
    apart: tuple[str, ...] = ()
    """Of such a straight piece: the turned blocks, by path.  What is in one of them has nothing beside it but that block."""

    @property
    def as_cut(self) -> Piece:
        """The piece with every block straight."""
        return self.straight or self

    def room_of(self, id: str) -> str:
        """The block of `apart` that holds a part, "" for none."""
        return next((block for block in self.apart if id.startswith(f"{block}.")), "")

    def part(self, id: str) -> Part:
        return next(p for p in self.parts if p.id == id)

    def stock_of(self, part: Part) -> Stock:
        return next(s for s in self.stock if s.id == part.stock)
