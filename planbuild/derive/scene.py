"""What a picture of a step shows, said without drawing it: the step planner writes it, the pictures draw it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import Enum

from planbuild.core.geometry import Vec
from planbuild.records.solids import Key


class State(Enum):
    """How far a part has come: a plain blank, with its joints cut, or wholly shaped."""

    BLANK = "blank"
    JOINED = "joined"
    SHAPED = "shaped"


@dataclass(frozen=True)
class Scene:
    """`new` is tinted, `context` pale; each key of `moves` is drawn pulled back against that unit
    direction (the way it goes home) with an arrow.  `features` (part id, feature id) are what a step
    cuts: the picture is turned so that they are seen and tints their faces.  `close` asks for the single part `new[0]`
    drawn large instead of the assembly."""

    id: str
    new: tuple[Key, ...]
    context: tuple[Key, ...] = ()
    moves: Mapping[Key, Vec] = field(default_factory=dict)
    features: tuple[tuple[str, str], ...] = ()
    state: State = State.SHAPED
    close: bool = False
    marks: tuple[str, ...] = ()
    """Part ids to be marked; each once."""
