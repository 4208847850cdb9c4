"""Clear spaces as they are said: the frame of a piece, openings in it, and blocks that are put into them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from pydantic import Field

from planbuild.records.said import CautionSaid, Model, RepeatSaid, Said, SizeSaid


class FrameSaid(Model):
    """`beyond` names parts that may reach out of it: splayed feet."""

    width: Said
    depth: Said
    height: Said
    beyond: tuple[Said, ...] = ()


class SpaceSaid(Model):
    """A space placed like a part, by two facts a direction; its sizes are `width`, `depth` and `height`."""

    left: Said | None = None
    right: Said | None = None
    front: Said | None = None
    back: Said | None = None
    bottom: Said | None = None
    top: Said | None = None
    centred: Mapping[str, tuple[Said, ...]] = {}
    mirror: tuple[Said, ...] | Mapping[str, Said] = ()
    repeat: RepeatSaid | None = None
    when: Said | None = None
    name: Said | None = None
    note: Said | None = None
    why: Said | None = None
    photo: Said | None = None
    sources: tuple[Said, ...] = ()
    caution: CautionSaid | None = None


class OpeningSaid(SpaceSaid):
    """A clear space with six faces, each a place."""

    width: Said | None = None
    depth: Said | None = None
    height: Said | None = None


class BlockSaid(SpaceSaid):
    """A block put in place: `use` names its file, or a block written in the same file; `into` the opening it fills.

    A block that is written where it is used has its own fields beside these.
    """

    use: Said | None = None
    into: Said | None = Field(None, alias="in")
    given: Mapping[str, Said] = Field({}, alias="with")


class MovesSaid(Model):
    """How a part or a block moves in use: it goes in from a side or is built in, it opens, or it swings about an edge."""

    goes_in: Said | None = None
    opens: Said | None = None
    swings: Said | None = None
    about: Said | None = None
    by: Said | None = None


@dataclass(frozen=True)
class PlacedBlock:
    """A block that the reader has put in place.

    `kind` is what its file calls it; `frame` its own one, None if it fills an opening; `stock` is what the names of its
    stock are in the design, `sizes` are those that it takes (given or not), `choices` the word chosen for each of its
    choices, `things` whether each item that it takes is given,
    `sources` those that its text names.
    """

    said: BlockSaid
    kind: str
    frame: FrameSaid | None
    moves: MovesSaid | None = None
    stock: Mapping[str, str] = field(default_factory=dict)
    sizes: Mapping[str, SizeSaid] = field(default_factory=dict)
    choices: Mapping[str, Said] = field(default_factory=dict)
    things: Mapping[str, bool] = field(default_factory=dict)
    sources: tuple[Said, ...] = ()
