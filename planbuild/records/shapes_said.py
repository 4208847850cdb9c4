"""What the author wrote of the shapes of parts; each value still text with its place."""

from __future__ import annotations

from collections.abc import Mapping

from pydantic import Field

from planbuild.records.said import Model, Said


class ShapeSaid(Model):
    """One item of `shape:`; the classes below are the kinds."""

    why: Said | None = None
    note: Said | None = None


class TaperSaid(ShapeSaid):
    faces: tuple[Said, ...]
    start: Said | None = Field(None, alias="from")
    to: Said | None = None
    leaving: Said


class ChamferSaid(ShapeSaid):
    edges: tuple[Said, ...]
    size: Said
    start: Said | None = Field(None, alias="from")
    to: Said | None = None


class RoundOverSaid(ShapeSaid):
    edges: tuple[Said, ...]
    radius: Said
    start: Said | None = Field(None, alias="from")
    to: Said | None = None


class ArchSaid(ShapeSaid):
    edge: Said
    rise: Said
    start: Said | None = Field(None, alias="from")
    to: Said | None = None
    crown: Said | None = None


class CurveSaid(ShapeSaid):
    edge: Said
    through: tuple[tuple[Said, Said], ...]


class BevelSaid(ShapeSaid):
    """`edge` or `end` names the face that is bevelled, `toward` the face that keeps its size."""

    edge: Said | None = None
    end: Said | None = None
    angle: Said
    toward: Said


class CounterboreSaid(Model):
    diameter: Said
    depth: Said


class HoleRowSaid(Model):
    """More holes like the first, each `apart` from the one before it, toward the right, the back or the top."""

    count: Said
    along: Said
    apart: Said


class HoleSaid(ShapeSaid):
    """`at` gives a place per direction; a direction not said is the middle of the part."""

    face: Said
    at: Mapping[str, Said] = {}
    diameter: Said
    depth: Said | None = None
    through: Said | None = None
    counterbore: CounterboreSaid | None = None
    repeat: HoleRowSaid | None = None


class RabbetSaid(ShapeSaid):
    """`width` is in from the first face of the edge, `depth` in from the second."""

    edge: tuple[Said, ...]
    width: Said
    depth: Said
    start: Said | None = Field(None, alias="from")
    to: Said | None = None


class GrooveSaid(ShapeSaid):
    """`at` is the place of the wall that is nearer to the face it is counted from, `centred` the way across the groove."""

    face: Said
    at: Said | None = None
    centred: Said | None = None
    width: Said
    depth: Said
    start: Said | None = Field(None, alias="from")
    to: Said | None = None


# ---------------------------------------------------------------- parts, joints, work


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
