"""Arcs sawn along a part: one hollowed or left standing, and a bow, which is one arc twice and may follow another part's edge."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from fractions import Fraction

from planbuild.core.diagnostics import Collector
from planbuild.core.geometry import TINY, Face
from planbuild.records.design import Said
from planbuild.records.features import Arch
from planbuild.records.shapes_said import ArchSaid, BowSaid, CurveSaid, ShapeSaid
from planbuild.resolve.blank import Blank, said_of
from planbuild.resolve.expressions.faults import Poisoned
from planbuild.resolve.neighbours import Neighbour
from planbuild.resolve.poses import is_askew
from planbuild.resolve.references import Shaping
from planbuild.resolve.sayings import Sayings

INSTEAD = "Say the `rise` instead."


def arch(said: ArchSaid, blank: Blank) -> Arch:
    face = blank.across(said.edge)
    start, stop = blank.stretch(said.start, said.to)
    rise = blank.less_than(said.rise, blank.size(face.axis), "An arch")
    if rise > (stop - start) / 2:
        message = f"An arch rising {blank.figure(rise)} over {blank.figure(stop - start)} is more than half a circle."
        raise blank.sayings.refuse("shape-eats", said.rise, message, f"at most {blank.figure((stop - start) / 2)}")
    crown = blank.sayings.yes(said.crown) if said.crown else False
    id = blank.unique("arch", face.value)
    return Arch(id, **said_of(said), face=face, rise=float(rise), start=float(start), stop=float(stop), crown=crown)


def bow(said: BowSaid, blank: Blank) -> tuple[Arch, Arch]:
    """One arc twice: full on the face it looks toward, hollow on the other, so that what is left is of one thickness."""
    if said.how:
        blank.sayings.choice(said.how, ("sawn",), "way to bow a board that is built")
    face = blank.across(said.toward)
    rise = _rise(said, face, blank)
    low, high = blank.spans[blank.grain]
    ids = blank.unique("bow", face.value), blank.unique("bow", face.opposite.value)
    full, hollow = (
        Arch(id, **said_of(said), face=side, rise=rise, start=float(low), stop=float(high), crown=side is face)
        for id, side in zip(ids, (face, face.opposite), strict=True)
    )
    return full, hollow


def _rise(said: BowSaid, face: Face, blank: Blank) -> float:
    """As said, or as the edge that is followed asks for.  Reports `shape-bow`, `shape-follows`, `shape-eats`."""
    if (said.rise is None) == (said.follows is None) or (said.inside and not said.follows):
        word = said.inside or said.follows or said.toward
        expected = "either `rise`, or `follows` and how far `inside` of that edge"
        raise blank.sayings.refuse("shape-bow", word, "How far does the bow rise?", expected)
    if said.follows:
        return _followed(said, said.follows, face, blank)
    assert said.rise
    rise, long = blank.less_than(said.rise, blank.size(face.axis), "A bow"), blank.size(blank.grain)
    if rise > long / 2:
        message = f"A bow rising {blank.figure(rise)} over {blank.figure(long)} is more than half a circle."
        raise blank.sayings.refuse("shape-eats", said.rise, message, f"at most {blank.figure(long / 2)}")
    return float(rise)


# ---------------------------------------------------------------- along the edge of another part


@dataclass(frozen=True)
class _Edge:
    """The arc that is followed, as it stands beside the drawn copy of the part that follows it."""

    part: str
    arc: Arch
    place: Fraction
    """Of the face from which it is cut."""
    middle: float


def _followed(said: BowSaid, follows: Said, face: Face, blank: Blank) -> float:
    """The rise of the arc about the same centre that begins and ends with this part.  Reports `shape-follows`, `shape-eats`."""
    edge = _edge(follows, face, blank)
    inside = (edge.place - blank.at(face)) * int(face.sign)
    if said.inside and abs(blank.sayings.allowance(said.inside) - inside) > TINY:
        message = f'"{blank.id}" stands {blank.figure(inside)} inside the {face.value} of "{edge.part}".'
        hint = f"Place its {face.value} so far inside that edge, or leave `inside` out: it is measured."
        raise blank.sayings.refuse("shape-follows", said.inside, message, f"inside: {blank.figure(inside)}", (hint,))
    low, high = blank.spans[blank.grain]
    if abs(float(low + high) / 2 - edge.middle) > TINY:
        message = f'The middle of "{blank.id}" does not stand before the middle of that arc, so no bow of one arc follows it.'
        raise blank.sayings.refuse("shape-follows", follows, message, f'a part centred on the arc of "{edge.part}"')
    radius, half = edge.arc.radius - float(inside), float(high - low) / 2
    if half * edge.arc.radius > (edge.arc.stop - edge.arc.start) / 2 * radius + TINY:
        message = f'"{blank.id}" is longer than the arc of "{edge.part}" is at that place.'
        raise blank.sayings.refuse("shape-follows", follows, message, "a part that ends within the arc")
    rise = radius - math.sqrt(radius * radius - half * half)
    if rise >= float(blank.size(face.axis)):
        message = f'To follow that edge, "{blank.id}" has to rise {blank.figure(Fraction(rise))}, which leaves nothing of it.'
        raise blank.sayings.refuse("shape-eats", follows, message, f"a part thicker than {blank.figure(Fraction(rise))}")
    return rise


def _edge(follows: Said, face: Face, blank: Blank) -> _Edge:
    """Finds the part, and the one arc on its face."""
    name, _, word = follows.text.rpartition(".")
    if word != face.value or not name:
        message = f"A bow toward the {face.value} follows the {face.value} of another part."
        raise blank.sayings.refuse("shape-follows", follows, message, f"`{name or follows.text}.{face.value}`")
    assert blank.neighbours is not None
    seen = blank.neighbours.beside(replace(follows, text=name), blank.id, blank.sayings)
    return _arc_of(_only(seen[0], follows, blank), follows, face, blank)


def _only(seen: list[Neighbour], follows: Said, blank: Blank) -> Neighbour:
    assert blank.neighbours is not None
    parts = blank.neighbours.setting_out.design.parts
    if len(seen) != 1 or seen[0].copy != 0:
        message = f'"{seen[0].part}" has copies; a bow follows the edge of a part that there is once.'
        raise blank.sayings.refuse("shape-follows", follows, message, "a single part", (INSTEAD,))
    if any(is_askew(parts[each]) for each in (seen[0].part, blank.id)):
        message = f'"{seen[0].part}" and "{blank.id}" do not both stand straight.'
        raise blank.sayings.refuse("shape-follows", follows, message, "parts without `lean` or `turn`", (INSTEAD,))
    return seen[0]


def _arc_of(other: Neighbour, follows: Said, face: Face, blank: Blank) -> _Edge:
    assert blank.neighbours is not None
    setting_out, id = blank.neighbours.setting_out, other.part
    lie, spans = setting_out.lies.get(id), setting_out.spans(id)
    if lie is None or spans is None:
        raise Poisoned
    shapes = setting_out.design.parts[id].shape
    if lie.grain is not blank.grain or any(_is_fair(each, face) for each in shapes):
        raise _no_arc(id, follows, face, blank)
    # What is wrong with that part is told where it is shaped itself.
    there = Blank(id, lie, spans, blank.middle, Sayings(Shaping(setting_out.placing, id), Collector()))
    arcs = [arc for each in shapes for arc in _arcs(each, there, follows, blank) if arc.face is face]
    if len(arcs) != 1 or not arcs[0].crown:
        raise _no_arc(id, follows, face, blank)
    shift = float(other.spans[blank.grain][0] - spans[blank.grain][0])
    place = other.spans[face.axis][face.sign > 0]
    return _Edge(id, arcs[0], place, (arcs[0].start + arcs[0].stop) / 2 + shift)


def _arcs(said: ShapeSaid, there: Blank, follows: Said, blank: Blank) -> tuple[Arch, ...]:
    if isinstance(said, BowSaid) and said.follows:
        message = f'"{there.id}" follows an edge itself.'
        raise blank.sayings.refuse("shape-follows", follows, message, f"`{said.follows.text}`, the edge that it follows")
    if isinstance(said, BowSaid):
        return bow(said, there)
    return (arch(said, there),) if isinstance(said, ArchSaid) else ()


def _is_fair(said: ShapeSaid, face: Face) -> bool:
    return isinstance(said, CurveSaid) and said.edge.text == face.value


def _no_arc(id: str, follows: Said, face: Face, blank: Blank) -> Poisoned:
    message = f'The {face.value} of "{id}" is no single rounded arc along the grain of "{blank.id}".'
    expected = f"a `bow` toward the {face.value}, or an `arch` with `crown: yes`"
    return blank.sayings.refuse("shape-follows", follows, message, expected, (INSTEAD,))
