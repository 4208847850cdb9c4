"""What every joint kind is given and what it gives back.

A kind is a module with one object that satisfies `JointKind`.  It sees boards and numbers only:
never YAML, never solids.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from enum import Enum
from functools import cached_property
from typing import Any, Protocol

from planbuild.core.diagnostics import Collector, Span
from planbuild.core.geometry import Axis, Box, Face, Vec, remainder
from planbuild.core.poses import Pose, rim
from planbuild.core.units import Ruler
from planbuild.records.design import ItemSaid, JointSaid, Said
from planbuild.records.features import Feature, Groove, Rabbet
from planbuild.records.photos import photo_of
from planbuild.records.piece import Copy, Item, Joint, Part, Practice, Stock
from planbuild.records.shaped import Sawn
from planbuild.records.slanted import EndCut, drawn_back


class Family(Enum):
    """How the two bodies are placed before the joint is cut."""

    ENTERING = "the bodies touch; the joint adds wood to the entering part"
    SHARING = "the bodies overlap; the joint divides the shared wood"
    MEETING = "the bodies touch; nothing is added"


@dataclass(frozen=True)
class Board:
    """A placed part before joining.  `shapes` are its features so far, in order of work."""

    id: str
    name: str
    origin: Span
    stock: Stock
    grain: Axis
    face: Face
    edge: Face
    body: Box
    copies: tuple[Copy, ...]
    shapes: tuple[Feature, ...] = ()
    pose: Pose | None = None
    """How it stands if it is not square to the piece (see `records.piece.Part`)."""

    @property
    def width_axis(self) -> Axis:
        (axis,) = (a for a in Axis if a not in (self.grain, self.face.axis))
        return axis

    @property
    def end_cuts(self) -> dict[Face, EndCut]:
        """The ends that are not square to the grain."""
        return {shape.end: shape for shape in self.shapes if isinstance(shape, EndCut)}

    @property
    def is_square(self) -> bool:
        """True if every face of the body, where it stands, is square to the piece."""
        return self.pose is None and not self.end_cuts and not self.is_turned

    @property
    def is_turned(self) -> bool:
        """True if it is turned with the block that holds it."""
        return any(copy.turned for copy in self.copies)

    def stands(self, copy: int) -> Pose:
        """The whole way of a copy from the board's own frame to its place in the piece."""
        return self.copies[copy].stands(self.pose)

    def outline(self, face: Face, copy: int) -> list[Vec]:
        """The corners of a face (by its own name) of a standing copy, in order round it."""
        cuts = self.end_cuts.values()
        return [self.stands(copy).point(drawn_back(corner, self.body, cuts)) for corner in rim(self.body, face)]

    def normal(self, face: Face, copy: int) -> Vec:
        """The way a face (by its own name) of a standing copy looks."""
        cut = self.end_cuts.get(face)
        return self.stands(copy).direction(cut.normal if cut else face.normal)

    def normal_of(self, face: Face, copy: int) -> Vec:
        """The way along which a face looks that is square to the board's own frame, whatever its end is cut to."""
        way = self.copies[copy].motion.face(face).normal
        return self.stands(copy).direction(face.normal) if self.pose or self.is_turned else way

    def standing(self, copy: int) -> Box:
        """The body of one copy where it stands in the piece; of one that is not square to it, the box around the body."""
        return self._standing[copy]

    @cached_property
    def _standing(self) -> tuple[Box, ...]:
        """Worked out once: each joint asks every copy of every board whether it lies there."""
        return tuple(copy.box(self.body, self.pose) for copy in self.copies)


    @cached_property
    def blocks(self) -> tuple[Box, ...]:
        """The body in boxes, without the steps, grooves and square notches that its own shapes take; one box if there
        are none."""
        voids = [shape.void for shape in self.shapes if isinstance(shape, Rabbet | Groove)]
        voids += [shape.region(self.body) for shape in self.shapes if isinstance(shape, Sawn) and shape.is_square]
        found: tuple[Box, ...] = (self.body,)
        for void in voids:
            found = tuple(left for block in found for left in remainder(block, void))
        return found

    def standing_blocks(self, copy: int) -> tuple[Box, ...]:
        """The same where a copy stands that is square to the piece."""
        return tuple(self.copies[copy].motion.box(block) for block in self.blocks)


@dataclass(frozen=True)
class Standing:
    """One copy of a board, where and as it stands in the piece."""

    board: Board
    copy: int

    @property
    def key(self) -> tuple[str, int]:
        return self.board.id, self.copy

    @property
    def hand(self) -> str:
        return self.board.copies[self.copy].hand

    @property
    def body(self) -> Box:
        return self.board.standing(self.copy)

    @property
    def grain(self) -> Axis:
        return self.board.copies[self.copy].motion.axis(self.board.grain)

    @property
    def spoken(self) -> str:
        """`back right leg`: the copy as it is called."""
        return " ".join(word for word in (self.hand, self.board.id) if word)


@dataclass(frozen=True)
class Chosen:
    """A part as named in a joint: all its copies or some, all its ends and faces or one (own face words)."""

    board: Board
    copies: tuple[int, ...]
    face: Face | None
    span: Span
    block: str = ""
    """The block by whose name it is meant, "" if it is named itself."""


class Words(Protocol):
    """Understands what was said; each method reports a fault itself and then gives None."""

    def length(self, said: Said) -> float | None:
        """A length in mm, above zero."""

    def count(self, said: Said) -> int | None: ...

    def yes(self, said: Said) -> bool | None: ...

    def choice(self, said: Said, among: tuple[str, ...]) -> str | None: ...

    def pair(self, said: Said) -> tuple[float, float] | None:
        """Two lengths in mm, as `2 x 1`, both above zero."""

    def slope(self, said: Said) -> float | None:
        """Rise over run of `1:8` or of an angle."""

    def part(self, said: Said) -> Chosen | None:
        """`long_rail`, `left long_rail`, `slab.top`."""

    def parts(self, said: Said) -> tuple[Chosen, ...] | None:
        """A part; or all parts of a block by its name, or, inside a block, all that are `outside` of it."""

    def stock(self, said: Said) -> Stock | None: ...

    def item(self, said: Said | ItemSaid, own: str = "") -> Item | None:
        """One of the design's items, or one written in place by the thing called `own`."""


@dataclass(frozen=True)
class Site:
    """All that a joint may know of the design."""

    boards: Mapping[str, Board]
    words: Words
    practice: Practice
    ruler: Ruler
    moisture: tuple[float, float, float]
    report: Collector
    made: frozenset[str] = frozenset()
    """Ids of the parts that the joints before this one have called for."""
    joined: Mapping[str, Joined | None] = field(default_factory=dict)
    """The joints before this one, by id; None for one at fault."""


@dataclass(frozen=True)
class Joined:
    """A joint cut on both sides: the joint, the features by part (both members), the parts it calls for.

    `grows` says how much longer or wider than what is seen a part is sawn, by the face that goes into its mate (mm):
    a shelf in a housing is a plain board, only longer.  Below zero it is sawn shorter: behind the lap of a drawer front.
    """

    joint: Joint
    features: Mapping[str, tuple[Feature, ...]]
    makes: tuple[Part, ...] = ()
    buys: tuple[Item, ...] = ()
    """Items that the design does not name and the joint calls for."""
    grows: Mapping[str, Mapping[Face, float]] = field(default_factory=dict)
    gives_way: str = ""
    """The joint to whose tenons those of this one give way, so that their mortises may run into each other."""


class JointKind(Protocol):
    """`name` is the trade's word after `kind:`; `said` the model of its fields."""

    @property
    def name(self) -> str: ...

    @property
    def family(self) -> Family: ...

    @property
    def said(self) -> type[JointSaid]: ...

    def join(self, id: str, said: Any, site: Site) -> Joined | None:
        """Both sets of features, or None after reporting what is wrong.  Called through `joined_by`."""


def joined_by(kind: JointKind, id: str, said: Any, site: Site) -> Joined | None:
    """What a kind makes of a joint; None if it found a fault that stops, whatever it made in spite of that."""
    before = len(site.report.found)
    made = kind.join(id, said, site)
    enlarged = said.detail is not None and site.words.yes(said.detail) is True
    if made is None or any(each.stops for each in site.report.found[before:]):
        return None
    photo = photo_of(said.photo, "this joint")
    return replace(made, joint=replace(made.joint, photo=photo, enlarged=enlarged))
