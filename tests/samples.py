"""What a sample of a joint is: boards placed by a design, and what the joint between them must leave.

`SAMPLES` has one entry a form of joint, named by its kind, or by its kind and what is particular about it; the functions that
fill it are in `samples_of_frames`, `samples_of_tenons` and `samples_of_cases`.
Units: mm.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field

from hypothesis import strategies as st
from hypothesis.strategies import DrawFn, SearchStrategy

from planbuild.core.geometry import Axis, Box, Span1, Vec, hull
from planbuild.records.piece import Joint

X, Y, Z = Axis
LEFT: Vec = (-1.0, 0.0, 0.0)
RIGHT: Vec = (1.0, 0.0, 0.0)
FRONT: Vec = (0.0, -1.0, 0.0)
BACK: Vec = (0.0, 1.0, 0.0)
DOWN: Vec = (0.0, 0.0, -1.0)
UP: Vec = (0.0, 0.0, 1.0)
GRAIN = {X: "left-right", Y: "front-back", Z: "up"}
FACE = {X: "left", Y: "front", Z: "top"}
LOW = {X: "left", Y: "front", Z: "bottom"}
DEEPER = 1.5
"""A mortise or a hole is so much deeper than what stands in it (`practice: mortise_deeper`, in mm)."""


@dataclass(frozen=True)
class Lumber:
    """A board as a design places it; its thickness is that of a stock of its own."""

    id: str
    body: Box
    grain: Axis
    face: Axis

    def stock(self) -> str:
        return f"{self.id}_wood: {{species: white ash, rough: 16/4, thickness: {self.body.size(self.face):g}}}"

    def placed(self, frame: Box) -> str:
        """One line of the design; the third direction is the width."""
        (width,) = (axis for axis in Axis if axis not in (self.grain, self.face))
        lows = ", ".join(f"{LOW[axis]}: {self.body.along(axis).low - frame.along(axis).low:g}" for axis in Axis)
        sizes = f"length: {self.body.size(self.grain):g}, width: {self.body.size(width):g}"
        said = f"stock: {self.id}_wood, grain: {GRAIN[self.grain]}, face: {FACE[self.face]}, {lows}, {sizes}, glue_up: no"
        return f"{self.id}: {{{said}}}"


@dataclass(frozen=True)
class Sample:
    """Boards and the joint between the first two of them; the first moves.

    `empty` is the volume that the joint leaves open inside the bodies as placed (None: only what its features take),
    `proud` that of wood which stands out of them (None: not reckoned); either may need the joint as it was made, for a play
    that follows the wood.  Along `blocked` the first board cannot be moved by 2 mm once it is home; along any other way it can.
    """

    boards: tuple[Lumber, ...]
    said: Mapping[str, str]
    empty: float | Callable[[Joint], float] | None = 0.0
    proud: float | None = 0.0
    blocked: tuple[Vec, ...] = ()
    play: float = 0.0
    """How far it can still go on the way home."""
    stops: bool = True
    """False if it slides on through its mate."""
    beyond: str = ""
    """The part that reaches out of the frame."""
    more: str = ""
    """Further sections of the design."""
    others: Mapping[str, str] = field(default_factory=dict)
    """Further joints, by id."""

    @property
    def frame(self) -> Box:
        return hull([board.body for board in self.boards])

    @property
    def bodies(self) -> tuple[Box, ...]:
        """As they stand in the piece, whose frame begins at nothing."""
        low, spans = self.frame, []
        for board in self.boards:
            places = {axis: (board.body.along(axis), low.along(axis).low) for axis in Axis}
            spans.append({axis: Span1(span.low - start, span.high - start) for axis, (span, start) in places.items()})
        return tuple(Box.of(each) for each in spans)

    def design(self, **changes: str | None) -> str:
        """The text of the design, with fields of the joint said otherwise (None: left out)."""
        said = {key: text for key, text in {**self.said, **changes}.items() if text is not None}
        frame = self.frame
        sizes = ", ".join(f"{name}: {frame.size(axis):g}" for name, axis in (("width", X), ("depth", Y), ("height", Z)))
        sizes += f", beyond: [{self.beyond}]" if self.beyond else ""
        lines = ["format: 1", "title: Trial", "contact: trial@plans.example", "licence: free", "units: mm"]
        lines += [f"frame: {{{sizes}}}", "stock:", *(f"  {board.stock()}" for board in self.boards)]
        lines += ["parts:", *(f"  {board.placed(frame)}" for board in self.boards)]
        lines += ["joints:", *(f"  {id}: {text}" for id, text in self.others.items()), "  it:"]
        lines += [f"    {key}: {text}" for key, text in said.items()]
        return "\n".join(lines) + "\n" + self.more


Drawn = Callable[[DrawFn], Sample]
SAMPLES: dict[str, SearchStrategy[Sample]] = {}


def sample(kind: str, form: str = "") -> Callable[[Drawn], Drawn]:
    """Keeps a function that draws the sizes of a sample as that of a kind, or of one form of it."""

    def kept(drawn: Drawn) -> Drawn:
        SAMPLES[f"{kind}, {form}" if form else kind] = st.composite(drawn)()
        return drawn

    return kept


def kind_of(name: str) -> str:
    """The kind of joint that a sample is of."""
    return name.split(", ")[0]


def whole(draw: DrawFn, low: float, high: float) -> int:
    """A whole number of mm."""
    return draw(st.integers(math.ceil(low), math.floor(high)))
