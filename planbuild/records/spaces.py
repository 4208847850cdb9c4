"""Clear spaces as they are said: the frame of a piece, openings in it, and blocks that are put into them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction

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


class OrdinalRow(RepeatSaid):
    """The openings of one size in a row of unequal ones: their `places` in it, and the share of each place."""

    figures: tuple[Fraction, ...]
    places: tuple[int, ...]

    @property
    def hands(self) -> tuple[str, ...]:
        """How they are called: `first`, `3rd`, `last`."""
        return tuple(ordinal(each, len(self.figures)) for each in self.places)


def ordinal(place: int, count: int) -> str:
    """`first`, `2nd`, ..., `last`."""
    if place in (0, count - 1):
        return "last" if place else "first"
    number = place + 1
    ending = "th" if 10 < number % 100 < 20 else {1: "st", 2: "nd", 3: "rd"}.get(number % 10, "th")
    return f"{number}{ending}"


_IN_WORDS = ("first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth", "tenth", "eleventh")


def ordinal_words(place: int, count: int) -> str:
    """`first`, `second`, ..., `last`: as a name can begin."""
    return "last" if place == count - 1 else _IN_WORDS[place]


class OpeningSaid(SpaceSaid):
    """A clear space with six faces, each a place."""

    width: Said | None = None
    depth: Said | None = None
    height: Said | None = None


class TurnSaid(Model):
    """A block is turned `by` an angle about the edge that it keeps `holding`; `about` is the way that edge runs: anticlockwise
    as seen from there."""

    about: Said
    by: Said
    holding: Said


class BlockSaid(SpaceSaid):
    """A block put in place: `use` names its file, or a block written in the same file; `into` the opening it fills.

    A block that is written where it is used has its own fields beside these.
    """

    use: Said | None = None
    into: Said | None = Field(None, alias="in")
    given: Mapping[str, Said] = Field({}, alias="with")
    turn: TurnSaid | None = None


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
