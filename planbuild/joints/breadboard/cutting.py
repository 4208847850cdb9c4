"""The features of a breadboard end on panel and end, and the places where it holds."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from planbuild.core.geometry import Axis, Box, Face, Span1, Vec
from planbuild.core.outlines import Corner
from planbuild.joints.base import Site
from planbuild.joints.breadboard.sizes import Sizes
from planbuild.joints.copies import Struck, settled
from planbuild.joints.touching import plane_of
from planbuild.records.features import Feature, Groove, Hole, Mate, Mortise, Rabbet, Slot
from planbuild.records.piece import Contact
from planbuild.records.shaped import Sawn

PEG = "peg"
"""The purpose of its holes."""


def both_sides(joint: str, made: Sequence[Sizes], why: str, site: Site) -> dict[str, tuple[Feature, ...]]:
    """Groove, mortises and peg holes in the ends; on the panel what is left of its own end."""
    struck = [cut for sizes in made for copy in range(len(sizes.side.homes)) for cut in _in_end(joint, sizes, copy, why)]
    features = dict(settled(joint, struck, site))
    for sizes in made:
        panel = sizes.side.board.id
        features[panel] = (*features.get(panel, ()), *_on_panel(joint, sizes, why))
    return features


# ---------------------------------------------------------------- the panel


def _on_panel(joint: str, sizes: Sizes, why: str) -> Iterator[Feature]:
    """A long tongue, sawn away between the tenons, and the holes for the pegs in these."""
    side, board = sizes.side, sizes.side.board
    name = f"{joint}.{side.face.value}"
    for face in (board.face, board.face.opposite):
        yield Rabbet(f"{name}.{face.value}", side.span, joint, why, (side.face, face), _beside(sizes, face))
    for number, gap in enumerate(sizes.gaps(), start=1):
        yield Sawn(f"{name}.gap.{number}", side.span, joint, why, board.face, _corners(sizes, gap), "notch")
    for number in range(len(sizes.tenons)) if sizes.peg else ():
        yield _peg_in_tenon(f"{name}.peg.{number + 1}", joint, sizes, number)


def _beside(sizes: Sizes, face: Face) -> Box:
    """What is cut away between the tongue and a face of the panel."""
    thick = sizes.tongue.thick
    ends = (sizes.side.board.body.at(face), thick.low if face.sign < 0 else thick.high)
    return sizes.side.strip(sizes.length).with_span(face.axis, Span1(*sorted(ends)))


def _corners(sizes: Sizes, gap: Span1) -> tuple[Corner, ...]:
    """A notch from the tip of the tongue down to where it goes in all along."""
    side, strip = sizes.side, sizes.side.strip(sizes.length)
    shoulder = side.board.body.at(side.face) + side.face.sign * sizes.tongue.depth
    along = Span1(*sorted((shoulder, strip.at(side.face))))
    spans = {side.face.axis: along, sizes.tongue.across: gap}
    first, second = (spans[axis] for axis in side.board.face.axis.others)
    rim = ((first.low, second.low), (first.high, second.low), (first.high, second.high), (first.low, second.high))
    return tuple(Corner(point) for point in rim)


def _peg_place(sizes: Sizes, number: int) -> Vec:
    """The middle of a peg on the face side of the panel."""
    board, face = sizes.side.board, sizes.side.face
    places = {
        face.axis: board.body.at(face) + face.sign * sizes.peg_from_shoulder,
        sizes.tongue.across: sizes.tenons[number].middle,
        board.face.axis: board.body.at(board.face),
    }
    x, y, z = (places[axis] for axis in Axis)
    return x, y, z


def _peg_in_tenon(id: str, joint: str, sizes: Sizes, number: int) -> Hole:
    play = sizes.play_of(number)
    return Hole(
        id=id,
        origin=sizes.side.span,
        joint=joint,
        why="the panel moves past its peg" if play else "its peg holds the panel here",
        face=sizes.side.board.face,
        centre=_peg_place(sizes, number),
        diameter=sizes.peg,
        depth=None,
        purpose=PEG,
        slot=Slot(sizes.tongue.across, sizes.peg + 2 * play) if play else None,
    )


# ---------------------------------------------------------------- the end


def _in_end(joint: str, sizes: Sizes, copy: int, why: str) -> Iterator[Struck]:
    """What one standing end of the panel wants in the board that it enters."""
    side, home = sizes.side, sizes.side.homes[copy]
    board, motion = side.board, side.board.copies[copy].motion
    mate, own = (board.id, copy), Mate(board.id, (copy,))
    words = (board.id, board.copies[copy].hand, motion.face(side.face).value)
    channel = _whole_length(motion.box(sizes.tongue.reach(sizes.tongue.depth + sizes.tongue.room)), home.body, home.grain)
    groove = Groove("", side.span, joint, why, home.face, channel, own)
    yield Struck(home.board, home.copy, groove, (*words, "groove"), mate, side.span)
    for number in range(len(sizes.tenons)):
        named = (*words, str(number + 1))
        mortise = Mortise("", side.span, joint, _why(sizes, number), home.face, motion.box(_void(sizes, number)), own)
        yield Struck(home.board, home.copy, mortise, named, mate, side.span)
        if sizes.peg:
            yield Struck(home.board, home.copy, _peg_in_end(joint, sizes, copy, number), (*named, PEG), None, side.span)


def _whole_length(void: Box, body: Box, grain: Axis) -> Box:
    """The groove is ploughed from end to end."""
    return void.with_span(grain, body.along(grain))


def _void(sizes: Sizes, number: int) -> Box:
    """A mortise, wider than its tenon by the play on both sides."""
    span, play = sizes.tenons[number], sizes.play_of(number)
    wide = Span1(span.low - play, span.high + play)
    return sizes.tongue.reach(sizes.length + sizes.deeper).with_span(sizes.tongue.across, wide)


def _why(sizes: Sizes, number: int) -> str:
    return "wider than its tenon, so that the panel can move" if sizes.play_of(number) else "as wide as the tenon that holds"


def _peg_in_end(joint: str, sizes: Sizes, copy: int, number: int) -> Hole:
    """Through the end, from the side that the face side of the panel looks to."""
    side, home = sizes.side, sizes.side.homes[copy]
    motion = side.board.copies[copy].motion
    face = motion.face(side.board.face)
    x, y, z = motion.point(_peg_place(sizes, number))
    places = {axis: home.body.at(face) if axis is face.axis else at for axis, at in zip(Axis, (x, y, z), strict=True)}
    x, y, z = (places[axis] for axis in Axis)
    return Hole("", side.span, joint, "", face, (x, y, z), sizes.peg, None, PEG)


# ---------------------------------------------------------------- where it holds


def contacts(made: Sequence[Sizes], glue: bool) -> tuple[Contact, ...]:
    """It closes shoulder on edge; only the two cheeks of the fixed tenon are glued, and only over its width do grains cross."""
    found = []
    for sizes in made:
        side, fixed = sizes.side, sizes.tenons[sizes.fixed]
        for copy, home in enumerate(side.homes):
            motion = side.board.copies[copy].motion
            face = motion.face(side.face)
            plane = plane_of(motion.box(side.board.body), face).meet(home.patch)
            area = 2 * fixed.size * sizes.length if glue else 0.0
            keys = (side.board.id, copy), (home.board.id, home.copy)
            found.append(Contact(*keys, face.normal, plane, fixed.size, area))
    return tuple(found)
