"""What the author wrote of shapes that are sawn to an outline; each value still text with its place."""

from __future__ import annotations

from collections.abc import Mapping

from pydantic import Field

from planbuild.records.design import Said, ShapeSaid


class NotchSaid(ShapeSaid):
    """At a `corner` (an edge, cut through) or in an `edge` `at` a place, of a `width` and `length`; or `for` a part."""

    corner: tuple[Said, ...] = ()
    edge: Said | None = None
    at: Said | None = None
    width: Said | None = None
    length: Said | None = None
    mate: Said | None = Field(None, alias="for")
    gap: Said | None = None


class CutOutSaid(ShapeSaid):
    """`size` along the face and across it, through or `depth` deep; neither: in from an edge, through the board."""

    face: Said
    at: Mapping[str, Said] | Said | None = None
    size: Said
    radius: Said | None = None
    through: Said | None = None
    depth: Said | None = None


class OutlineSaid(ShapeSaid):
    """`points` from the low ends of the face `on` which they lie, each with a radius if the corner is rounded."""

    on: Said
    points: tuple[tuple[Said, ...], ...]


class ClipSaid(ShapeSaid):
    """Corner edges cut straight off, so far `along` each of two directions."""

    corner: tuple[Said, ...]
    along: Mapping[str, Said]


class RoundSaid(ShapeSaid):
    """Corner edges sawn to an arc."""

    corner: tuple[Said, ...]
    radius: Said


class BeadSaid(ShapeSaid):
    """A half round as wide as `size` on the first face of each edge, with a `quirk` beside it."""

    edges: tuple[Said, ...]
    size: Said
    quirk: Said | None = None
    start: Said | None = Field(None, alias="from")
    to: Said | None = None


class CoveSaid(ShapeSaid):
    """A quarter round hollowed out of edges."""

    edges: tuple[Said, ...]
    radius: Said
    start: Said | None = Field(None, alias="from")
    to: Said | None = None


class RaisedSaid(ShapeSaid):
    """A field left standing on `faces`, its edges sloped off to `edge_thickness` over the `margin`, `step` below the field."""

    faces: tuple[Said, ...]
    margin: Said
    edge_thickness: Said
    step: Said | None = None


class TurnedSaid(ShapeSaid):
    """`profile`: distance from the drawn low end, or the end itself by its name (`top`), and the diameter there with the way
    it is reached (`1-3/4 cove`)."""

    profile: tuple[tuple[Said, Said], ...]


class DishSaid(ShapeSaid):
    """A round hollow in a face; a direction not said is the middle of the part."""

    face: Said
    at: Mapping[str, Said] = {}
    diameter: Said
    depth: Said


class EndCutSaid(ShapeSaid):
    """`angles` from square by direction: above zero, the cut runs toward the high end on the high side."""

    end: Said
    angles: Mapping[str, Said]


class BowSaid(ShapeSaid):
    """A board sawn to a bow out of a thicker one: its middle stands `toward` a face, by the `rise`; or as the arc of another
    part's edge which it `follows`, so far `inside` of it."""

    toward: Said
    rise: Said | None = None
    follows: Said | None = None
    inside: Said | None = None
    how: Said | None = None
