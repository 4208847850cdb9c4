"""What `shape:` says, as features: tapers, chamfers, arches, curves, bevels, rabbets, grooves, holes.

A shape that starts outside its part, or leaves nothing of it, is refused here: no solid has to be cut to see it.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from fractions import Fraction
from typing import Any

from planbuild.core.geometry import Axis, Face
from planbuild.records.design import Said
from planbuild.records.features import Bevel, Chamfer, Curve, Edge, Feature, RoundOver, Taper
from planbuild.records.shaped import Moulding
from planbuild.records.shapes_said import (
    ArchSaid,
    BeadSaid,
    BevelSaid,
    BowSaid,
    ChamferSaid,
    ClipSaid,
    CoveSaid,
    CurveSaid,
    CutOutSaid,
    DishSaid,
    EndCutSaid,
    GrooveSaid,
    HoleSaid,
    NotchSaid,
    OutlineSaid,
    RabbetSaid,
    RaisedSaid,
    RoundOverSaid,
    RoundSaid,
    ShapeSaid,
    TaperSaid,
    TurnedSaid,
)
from planbuild.resolve.arcs import arch, bow
from planbuild.resolve.blank import Blank, said_of
from planbuild.resolve.bored import holes
from planbuild.resolve.channels import groove, rabbets
from planbuild.resolve.edges import chosen_edges
from planbuild.resolve.end_cuts import end_cut
from planbuild.resolve.notches import notches
from planbuild.resolve.rounds import dish, raised, turned
from planbuild.resolve.sawn import clips, cut_out, outline, rounds
from planbuild.resolve.sayings import tried


def features(shapes: tuple[ShapeSaid, ...], blank: Blank) -> tuple[Feature, ...]:
    """The features in order of work, without those that are faulty (reported)."""
    found = (tried(_KINDS[type(said)], said, blank) for said in shapes)
    return tuple(feature for made in found if made is not None for feature in (made if isinstance(made, tuple) else (made,)))


# ---------------------------------------------------------------- tapers


def _taper(said: TaperSaid, blank: Blank) -> Taper:
    faces = tuple(face for word in said.faces for face in _tapered(word, blank))
    end = _taper_end(said, blank)
    start = blank.place(said.start, blank.grain) if said.start else blank.at(end.opposite)
    if start == blank.at(end):
        message = f'The taper starts at the {end.value} of "{blank.id}", where it should end.'
        raise blank.sayings.refuse("shape-outside", said.start or said.leaving, message)
    axes = sorted({face.axis for face in faces}, key=lambda axis: axis.value)
    left = min(blank.size(axis) for axis in axes)
    leaving = blank.sayings.size(said.leaving, "What the taper leaves")
    if leaving >= left:
        message = f'The taper leaves {blank.figure(leaving)} of "{blank.id}", which has only {blank.figure(left)} there.'
        raise blank.sayings.refuse("shape-eats", said.leaving, message, f"less than {blank.figure(left)}")
    blank.leaving.update({(end, axis): leaving for axis in axes})
    id = blank.unique("taper", *(word.text for word in said.faces))
    return Taper(id, **said_of(said), faces=faces, end=end, start=float(start), leaving=tuple((a, float(leaving)) for a in axes))


def _tapered(word: Said, blank: Blank) -> tuple[Face, ...]:
    """The faces that a word names; `inside` and `outside` look along the floor, across the grain."""
    if word.text not in ("inside", "outside"):
        return (blank.across(word),)
    level = [axis for axis in (Axis.LEFT_RIGHT, Axis.FRONT_BACK) if axis is not blank.grain]
    inside = [face for axis in level if (face := blank.toward_middle(axis)) is not None]
    if not inside:
        message = f'"{blank.id}" stands in the middle: no face of it looks {word.text}.'
        raise blank.sayings.refuse("shape-face", word, message, hints=("Name the faces.",))
    return tuple(inside) if word.text == "inside" else tuple(face.opposite for face in inside)


def _taper_end(said: TaperSaid, blank: Blank) -> Face:
    if said.to:
        return blank.end(said.to)
    if blank.grain is Axis.BOTTOM_TOP:
        return Face.BOTTOM
    message = f'To which end of "{blank.id}" does the taper run?'
    hint = f"Add `to: {blank.grain.low.value}` or `to: {blank.grain.high.value}`."
    raise blank.sayings.refuse("shape-taper-end", said.leaving, message, hints=(hint,))


# ---------------------------------------------------------------- edges


def _chamfer(said: ChamferSaid, blank: Blank) -> Chamfer:
    edges, size, reach = _edge_work(said, said.size, blank, "A chamfer")
    id, group = _edge_names("chamfer", said.edges, blank)
    return Chamfer(id, **said_of(said), edges=edges, size=size, reach=reach, group=group)


def _round_over(said: RoundOverSaid, blank: Blank) -> RoundOver:
    edges, radius, reach = _edge_work(said, said.radius, blank, "A round-over")
    id, group = _edge_names("round_over", said.edges, blank)
    return RoundOver(id, **said_of(said), edges=edges, radius=radius, reach=reach, group=group)


def _cove(said: CoveSaid, blank: Blank) -> Moulding:
    edges, radius, reach = _edge_work(said, said.radius, blank, "A cove")
    id, group = _edge_names("cove", said.edges, blank)
    return Moulding(id, **said_of(said), edges=edges, form="cove", size=radius, reach=reach, group=group)


QUIRK = Fraction(1, 4)
"""Of the width of a bead: as narrow as a scratched channel can well be (common practice)."""


def _bead(said: BeadSaid, blank: Blank) -> Moulding:
    edges, size, reach = _edge_work(said, said.size, blank, "A bead")
    quirk = blank.sayings.size(said.quirk, "A quirk") if said.quirk else blank.sayings.size(said.size, "A bead") * QUIRK
    id, group = _edge_names("bead", said.edges, blank)
    named = tuple(_as_said(edge, said.edges, blank) for edge in edges)
    return Moulding(id, **said_of(said), edges=named, form="bead", size=size, quirk=float(quirk), reach=reach, group=group)


def _as_said(edge: Edge, saids: tuple[Said, ...], blank: Blank) -> Edge:
    """The face that is named first is the one on which a bead lies; in a group of edges, the face side."""
    for word in saids:
        if word.text == f"{edge[1].value} {edge[0].value}":
            return edge[1], edge[0]
        if word.text == f"{edge[0].value} {edge[1].value}":
            return edge
    return (edge[1], edge[0]) if edge[1] is blank.lie.face else edge


def _edge_names(kind: str, saids: tuple[Said, ...], blank: Blank) -> tuple[str, str]:
    """The id of what is cut along edges, and the words that chose them."""
    words = [said.text for said in saids]
    return blank.unique(kind, *words), ", ".join(words)


def _edge_work(
    said: ChamferSaid | RoundOverSaid | BeadSaid | CoveSaid, size_said: Said, blank: Blank, what: str
) -> tuple[tuple[Edge, ...], float, tuple[float, float] | None]:
    """Edges, size and reach (None for the whole edge) of what is cut along edges."""
    edges = chosen_edges(said.edges, blank.grain, blank.sayings)
    size = blank.sayings.size(size_said, what)
    stopped = said.start is not None or said.to is not None
    if stopped and any(blank.grain in (edge[0].axis, edge[1].axis) for edge in edges):
        at = said.start or said.to or size_said
        raise blank.sayings.refuse("shape-stopped", at, "Only edges along the grain can be stopped.", "edges such as `long`")
    reach = blank.stretch(said.start, said.to)
    for edge in edges:
        _take(edge, size, reach, size_said, blank, what)
    return edges, float(size), (float(reach[0]), float(reach[1])) if stopped else None


def _take(edge: Edge, size: Fraction, reach: tuple[Fraction, Fraction], said: Said, blank: Blank, what: str) -> None:
    """Takes wood from an edge.  Reports `shape-edge-twice`, `shape-eats`."""
    taken = blank.cuts.setdefault(frozenset(edge), [])
    if any(low < reach[1] and reach[0] < high for _, (low, high) in taken):
        message = f'The edge {edge[0].value} {edge[1].value} of "{blank.id}" is already cut.'
        raise blank.sayings.refuse("shape-edge-twice", said, message)
    taken.append((size, reach))
    for face, other in (edge, (edge[1], edge[0])):
        across = [*taken, *blank.cuts.get(frozenset((face, other.opposite)), [])]
        opposite = max((s for s, _ in across[len(taken) :]), default=Fraction(0))
        limit = _room(face, other.axis, blank)
        if size + opposite >= limit:
            message = f'{what} of {blank.figure(size)} leaves nothing of the {face.value} of "{blank.id}".'
            raise blank.sayings.refuse("shape-eats", said, message, f"less wood taken than its {blank.figure(limit)}")


def _room(face: Face, axis: Axis, blank: Blank) -> Fraction:
    """How wide a face is along an axis where a taper left it narrowest."""
    left = [size for (end, tapered), size in blank.leaving.items() if tapered is axis and face is not end.opposite]
    return min([blank.size(axis), *left])


# ---------------------------------------------------------------- sawn faces


def _curve(said: CurveSaid, blank: Blank) -> Curve:
    face = blank.across(said.edge)
    points = tuple(_point(pair, face, blank) for pair in said.through)
    if len(points) < 3:
        message = "A curve goes through three points or more."
        raise blank.sayings.refuse("shape-curve", said.edge, message, hints=("For two points use a taper.",))
    for (before, _), (after, _), pair in zip(points, points[1:], said.through[1:], strict=False):
        if after <= before:
            raise blank.sayings.refuse("shape-curve", pair[0], "The points of a curve go on from the low end.", "a longer way")
    return Curve(blank.unique("curve", face.value), **said_of(said), face=face, points=points)


def _point(pair: tuple[Said, Said], face: Face, blank: Blank) -> tuple[float, float]:
    along, depth = (blank.sayings.length(each) for each in pair)
    if not 0 <= along <= blank.size(blank.grain):
        message = f'`{pair[0].text}` lies outside "{blank.id}", which is {blank.figure(blank.size(blank.grain))} long.'
        raise blank.sayings.refuse("shape-outside", pair[0], message)
    if not 0 <= depth < blank.size(face.axis):
        message = f'`{pair[1].text}` in from the {face.value} leaves nothing of "{blank.id}".'
        raise blank.sayings.refuse("shape-eats", pair[1], message, f"0 to {blank.figure(blank.size(face.axis))}")
    return float(along), float(depth)


def _bevel(said: BevelSaid, blank: Blank) -> Bevel:
    named = [each for each in (said.edge, said.end) if each]
    if len(named) != 1:
        raise blank.sayings.refuse("shape-bevel", said.angle, "A bevel is cut on one face.", "either `edge` or `end`")
    face = blank.across(named[0]) if said.edge else blank.end(named[0])
    keeps = blank.sayings.face(said.toward)
    if keeps.axis is face.axis:
        message = f'The {keeps.value} of "{blank.id}" does not meet its {face.value}.'
        raise blank.sayings.refuse("shape-face", said.toward, message)
    angle = blank.sayings.degrees(said.angle)
    if not 0 < angle < 90:
        message = f"`{said.angle.text}` is no bevel."
        raise blank.sayings.refuse("shape-bevel", said.angle, message, "an angle above 0 and below 90 deg")
    if math.tan(math.radians(angle)) * float(blank.size(keeps.axis)) >= float(blank.size(face.axis)):
        message = f'A bevel of {said.angle.text} runs through the whole of "{blank.id}".'
        raise blank.sayings.refuse("shape-eats", said.angle, message, "a smaller angle")
    return Bevel(blank.unique("bevel", face.value), **said_of(said), face=face, keeps=keeps, angle=angle)


_KINDS: dict[type[ShapeSaid], Callable[[Any, Blank], Feature | tuple[Feature, ...]]] = {
    TaperSaid: _taper,
    ChamferSaid: _chamfer,
    RoundOverSaid: _round_over,
    ArchSaid: arch,
    CurveSaid: _curve,
    BevelSaid: _bevel,
    RabbetSaid: rabbets,
    GrooveSaid: groove,
    HoleSaid: holes,
    NotchSaid: notches,
    CutOutSaid: cut_out,
    OutlineSaid: outline,
    ClipSaid: clips,
    RoundSaid: rounds,
    BeadSaid: _bead,
    CoveSaid: _cove,
    RaisedSaid: raised,
    TurnedSaid: turned,
    DishSaid: dish,
    BowSaid: bow,
    EndCutSaid: end_cut,
}
