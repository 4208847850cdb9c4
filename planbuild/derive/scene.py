"""What a picture of a step shows, said without drawing it: the step planner writes it, the pictures draw it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from planbuild.core.geometry import Vec
from planbuild.records.piece import Part
from planbuild.records.solids import Key


@dataclass(frozen=True)
class Stage:
    """A part as a step finds it and as it leaves it: with the features cut so far, and the body of its blank."""

    before: Part
    after: Part


@dataclass(frozen=True)
class Scene:
    """`new` is tinted, `context` pale; each key of `moves` is drawn pulled back against that unit
    direction (the way it goes home) with an arrow.  `features` (part id, feature id) are what a step
    cuts: the picture is turned so that they are seen and tints their faces.  `close` is the single part `new[0]` at
    this step, drawn large instead of the assembly.  `over` draws all of it upside down, as it lies on the bench;
    `bought` is the hardware that goes on."""

    id: str
    new: tuple[Key, ...]
    context: tuple[Key, ...] = ()
    moves: Mapping[Key, Vec] = field(default_factory=dict)
    features: tuple[tuple[str, str], ...] = ()
    close: Stage | None = None
    over: bool = False
    bought: tuple[Key, ...] = ()
    seen_from: tuple[Vec, ...] = ()
    """Sides from which it must be seen."""
    out: float = 0.0
    """mm; what moves is drawn out at least so far."""
    marks: tuple[str, ...] = ()
    """Part ids to be marked; each once."""
