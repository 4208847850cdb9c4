"""Mortises for tenons that come in at an angle: of a part that is turned or leans, or into one that does."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import permutations

from planbuild.core.geometry import TINY, Axis, Box, Face, Span1, Vec
from planbuild.core.poses import Pose, along, corners, dot
from planbuild.joints.base import Site
from planbuild.joints.faults import refuse
from planbuild.joints.mortise_and_tenon.fields import MortiseAndTenonSaid
from planbuild.joints.mortise_and_tenon.sizes import Sizes
from planbuild.joints.mortise_and_tenon.slants import entering, is_askew, is_square_in, own_face
from planbuild.joints.sides import Side
from planbuild.records.features import Mate
from planbuild.records.slanted import AngledMortise


def refuse_more(ends: list[Side], said: MortiseAndTenonSaid, site: Site) -> bool:
    """True after reporting `not-built-yet`: what is cut beside or through a plain tenon is reckoned square to its mate.  A
    key needs no more than a tenon that comes out square to the far face."""
    end = next((end for end in ends if is_askew(end)), None)
    tusk = None if all(is_square_in(each) for each in ends) else said.tusk
    more = {"wedges": said.wedges, "tusk": tusk, "haunch": said.haunch, "peg": said.peg, "play": said.play}
    word = next((word for word, value in more.items() if value is not None), None)
    if word is None or end is None:
        return False
    message = f'`{word}` of a tenon of "{end.board.id}" that comes in askew is not built yet.'
    refuse(site, "not-built-yet", end.span, message, "parts that stand square to each other", f"Leave `{word}` out.")
    return True


def angled(joint: str, why: str, sizes: Sizes, copy: int) -> AngledMortise:
    """The mortise that a standing copy of a tenon needs, in the mate's own frame."""
    end, into, face = sizes.end, entering(sizes.end, copy), own_face(sizes.end, copy)
    body = end.homes[copy].board.body
    way = into.direction(end.face.normal)
    shoulder = into.point(sizes.section.centre)
    mouth = _on_face(shoulder, way, body, face)
    lead = dot(way, (shoulder[0] - mouth[0], shoulder[1] - mouth[1], shoulder[2] - mouth[2]))
    void, pose = _void(sizes, into, face, mouth, sizes.depth if sizes.through else sizes.depth + lead)
    return AngledMortise("", end.span, joint, why, face, void, pose, Mate(end.board.id, (copy,)), sizes.through, sizes.round)


def _on_face(point: Vec, way: Vec, body: Box, face: Face) -> Vec:
    """Where the middle of a tenon comes through a face."""
    at = face.axis.value
    return along(point, way, (body.at(face) - point[at]) / way[at])


def _void(sizes: Sizes, into: Pose, face: Face, mouth: Vec, depth: float) -> tuple[Box, Pose]:
    """The mortise as if square to its face, each side of the tenon along the axis nearest to it, and how it is turned."""
    first, second = face.axis.others
    sides = [(axis, into.direction(axis.high.normal)) for axis in (sizes.thick, sizes.wide)]
    (one, along_one), (two, along_two) = max(
        permutations(sides), key=lambda each: round(abs(each[0][1][first.value]) + abs(each[1][1][second.value]), 6)
    )
    spans = {axis: _about(mouth[axis.value], sizes.section.size(own)) for axis, own in ((first, one), (second, two))}
    spans[face.axis] = Span1(*sorted((mouth[face.axis.value], mouth[face.axis.value] - face.sign * depth)))
    way = into.direction(sizes.end.face.normal)
    columns = {first: _upward(along_one, first), second: _upward(along_two, second), face.axis: _upward(way, face.axis)}
    x, y, z = zip(*(columns[axis] for axis in Axis), strict=True)
    still = Pose((x, y, z)).point(mouth)
    return Box.of(spans), Pose((x, y, z), (mouth[0] - still[0], mouth[1] - still[1], mouth[2] - still[2]))


def _about(middle: float, size: float) -> Span1:
    return Span1(middle - size / 2, middle + size / 2)


def _upward(way: Vec, axis: Axis) -> Vec:
    """A direction or its opposite: that which looks to the high side of an axis."""
    sign = 1.0 if way[axis.value] > 0 else -1.0
    return sign * way[0], sign * way[1], sign * way[2]


# ---------------------------------------------------------------- walls


def check_askew_walls(sizes: Sizes, least: float, site: Site) -> None:
    """Reports `joint-wall` where such a mortise leaves less than `least` beside it, in any copy, and `joint-tenon-short`
    where less than that of the tenon would stand beyond a slanted shoulder."""
    if _shortest(sizes) < least - TINY:
        _short(sizes, least, site)
        return
    for copy, home in enumerate(sizes.end.homes):
        mortise = angled("", "", sizes, copy)
        for face, left in _walls(mortise, home.board.body):
            if left < least - TINY:
                _thin(sizes, face, home.board.id, left, least, site)
                return


def _shortest(sizes: Sizes) -> float:
    """How far the tenon stands beyond its shoulder where a slanted one reaches farthest."""
    end, cut = sizes.end, sizes.end.board.end_cuts.get(sizes.end.face)
    if cut is None:
        return sizes.length
    return sizes.length - max(end.face.sign * (cut.place(end.board.body, spot) - cut.at) for spot in corners(sizes.section))


def _short(sizes: Sizes, least: float, site: Site) -> None:
    figure, missing = site.ruler.plain, least - _shortest(sizes)
    message = f'{sizes.end.spoken} is so slanted that its tenon, {figure(sizes.length)} long, hardly comes through on one side.'
    expected = f"at least {figure(sizes.length + missing)} long"
    refuse(site, "joint-tenon-short", sizes.end.span, message, expected, "Make it longer or narrower, or lean the part less.")


def _walls(mortise: AngledMortise, body: Box) -> Iterator[tuple[Face, float]]:
    """What is left of the body at each face that the mortise does not enter or leave by."""
    reach = mortise.reach
    for axis in mortise.face.axis.others:
        for face in (axis.low, axis.high):
            yield face, face.sign * (body.at(face) - reach.at(face))
    if not mortise.through:
        far = mortise.face.opposite
        yield far, far.sign * (body.at(far) - reach.at(far))


def _thin(sizes: Sizes, face: Face, mate: str, left: float, least: float, site: Site) -> None:
    what = f"leaves {site.ruler.plain(left)} of wood" if left > TINY else "opens"
    message = f'The mortise for "{sizes.end.board.id}" {what} at the {face.value} of "{mate}".'
    expected = f"at least {site.ruler.plain(least)} of wood beside a mortise"
    refuse(site, "joint-wall", sizes.end.span, message, expected, "Make the tenon smaller, or move the part.")

