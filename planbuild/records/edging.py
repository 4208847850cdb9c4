"""Edging: strips of solid wood on the edges of a sheet, glued on before joints are cut, so that these cut both alike.

The part is one workpiece from then on; each strip is a feature of it, with its own line in the lists.
Units: mm, in the frame of the piece, drawn copy.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import ClassVar

from planbuild.core.geometry import Axis, Box, Face, Span1
from planbuild.records.features import Feature


@dataclass(frozen=True)
class Edging(Feature):
    """One strip on the edge `edge`: `strip` is its wood in the finished part, as thick as the part.

    `wood` is what it is of (`stock` its id); `tongue` how thick and how long its tongue is, None if it is only glued;
    `mitred` the faces at which its ends are cut at 45 degrees to meet the strip there.
    """

    kind: ClassVar[str] = "edging"
    edge: Face
    strip: Box
    stock: str
    wood: str
    thickness: float
    tongue: tuple[float, float] | None = None
    mitred: tuple[Face, ...] = ()

    @property
    def seam(self) -> float:
        """Where strip and sheet meet, along the axis of the edge."""
        return self.strip.at(self.edge.opposite)

    def run(self, face: Axis) -> Axis:
        """The way it runs, along its edge; `face` is the axis of the face of the part."""
        (axis,) = (each for each in Axis if each not in (self.edge.axis, face))
        return axis


def edgings_of(features: Iterable[Feature]) -> tuple[Edging, ...]:
    """The strips of a part in the order in which they are glued on."""
    return tuple(each for each in features if isinstance(each, Edging))


def core_of(body: Box, edgings: Iterable[Edging]) -> Box:
    """The sheet within its edging."""
    for each in edgings:
        body = body.grown(each.edge, -each.thickness)
    return body


def laid_on(edgings: Iterable[Edging], body: Box, face: Axis) -> tuple[Edging, ...]:
    """The strips on a body: each from end to end of what is there when it is glued on, so that later ones cover earlier ones.

    A mitred one runs on to the outside of the strip that it meets.
    """
    order = tuple(edgings)
    grown, found = core_of(body, order), []
    for each in order:
        grown = grown.grown(each.edge, each.thickness)
        far = grown.at(each.edge)
        ends = sorted((far, far - each.edge.sign * each.thickness))
        strip = grown.with_span(each.edge.axis, Span1(*ends))
        run = each.run(face)
        for end in each.mitred:
            strip = strip.with_span(run, _reaching(strip.along(run), end, body.at(end)))
        found.append(replace(each, strip=strip))
    return tuple(found)


def _reaching(span: Span1, end: Face, at: float) -> Span1:
    return Span1(at, span.high) if end.sign < 0 else Span1(span.low, at)


def strip_volume(each: Edging) -> float:
    """The wood of a strip; a mitre takes half of the square at its end."""
    section = each.thickness * each.thickness / 2
    thick = min(each.strip.size(axis) for axis in Axis if axis is not each.edge.axis)
    return each.strip.volume - len(each.mitred) * section * thick
