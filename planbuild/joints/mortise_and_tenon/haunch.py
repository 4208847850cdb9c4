"""Haunches: the short step left standing beside a tenon where its shoulder is wide.

It keeps a rail from twisting at the end of a post, and fills the groove of a panel where that runs out.  In a groove it
is as thick as the groove is wide and as long as it is deep; elsewhere a shallow mortise of its own is cut for it, open
at the end of the post, or sloped to nothing there so that it is not seen.
"""

from __future__ import annotations

from dataclasses import dataclass

from planbuild.core.geometry import TINY, Box, Face, Span1
from planbuild.joints.base import Site
from planbuild.joints.copies import Struck
from planbuild.joints.faults import refuse
from planbuild.joints.mortise_and_tenon.fields import HaunchSaid
from planbuild.joints.mortise_and_tenon.section import face_beside
from planbuild.joints.mortise_and_tenon.sizes import Sizes, reaching
from planbuild.joints.proportions import share_rule, used
from planbuild.records.features import Groove, Mate, Mortise
from planbuild.records.tenon_work import Haunch


@dataclass(frozen=True)
class Haunched:
    """The haunch of one tenon; `depth` is that of its mortise, 0 if it stands in a groove that is there already."""

    sizes: Sizes
    haunch: Haunch
    depth: float
    defaults: tuple[str, ...]


def haunches(sizes: list[Sizes], said: HaunchSaid, site: Site) -> list[Haunched | None] | None:
    """For each tenon its haunch, if it has one; None after reporting."""
    ends: dict[tuple[str, Face], list[Sizes]] = {}
    for each in sizes:
        ends.setdefault((each.end.board.id, each.end.face), []).append(each)
    found: list[Haunched | None] = []
    for tenons in ends.values():
        made = _of_end(tenons, said, site)
        if made is None:
            return None
        found += made
    return found


def _of_end(tenons: list[Sizes], said: HaunchSaid, site: Site) -> list[Haunched | None] | None:
    """The haunch of one end, beside the tenon that stands nearest; None after reporting."""
    first = tenons[0]
    face = face_beside(first.end.board, said.at.text, said.at.span, (first.wide,), site)
    slope = site.words.yes(said.slope) if said.slope else False
    if face is None or slope is None:
        return None
    nearest = min(tenons, key=lambda each: each.shoulder(face))
    made = _haunch(nearest, face, said, slope, site)
    return [made if each is nearest else None for each in tenons] if made else None


def _haunch(sizes: Sizes, face: Face, said: HaunchSaid, slope: bool, site: Site) -> Haunched | None:
    if sizes.shoulder(face) <= TINY:
        message = f'The tenon of "{sizes.end.board.id}" has no shoulder at the {face.value}, so no haunch stands beside it.'
        refuse(site, "joint-haunch", said.at.span, message, f"a shoulder at the {face.value}", "Say `shoulders` or another side.")
        return None
    if said.length and said.length.text == "groove":
        return _in_groove(sizes, face, said, slope, site)
    length = site.words.length(said.length) if said.length else share_rule("haunch_length", site.ruler) * sizes.thickness
    if length is None:
        return None
    deeper = site.practice.mortise_deeper
    if length + deeper > sizes.depth - TINY or sizes.through and length > sizes.end.depth / 2 + TINY:
        message = f"A haunch {site.ruler.plain(length)} long is no shorter than the tenon that it stands beside."
        most = site.ruler.plain(min(sizes.depth - deeper, sizes.end.depth / 2 if sizes.through else sizes.depth))
        refuse(site, "joint-haunch", said.length.span if said.length else said.origin, message, f"less than {most}")
        return None
    box = reaching(_beside(sizes, face), sizes.end.face, length)
    rule = "A haunch is as long as its tenon is thick"
    lines = () if said.length else (used(rule, "haunch_length", site.ruler),)
    return Haunched(sizes, Haunch(face, box, slope), length + deeper, lines)


def _beside(sizes: Sizes, face: Face) -> Box:
    """On the shoulder, from the tenon to the edge of the board."""
    edges = sorted((sizes.section.at(face), sizes.end.board.body.at(face)))
    return sizes.section.with_span(face.axis, Span1(edges[0], edges[1]))


def _in_groove(sizes: Sizes, face: Face, said: HaunchSaid, slope: bool, site: Site) -> Haunched | None:
    """As thick as the groove and as deep, in every copy."""
    assert said.length is not None
    boxes = [_filling(sizes, face, copy, site) for copy in range(len(sizes.end.homes))]
    box = boxes[0]
    if box is None or slope or any(each != box for each in boxes):
        message = f'No groove of "{sizes.end.mate.id}" runs out past the tenon of "{sizes.end.board.id}" at the {face.value}.'
        if slope:
            message = "A haunch that fills a groove is square."
        expected = "a groove cut by another joint, that takes the haunch within the thickness of the tenon"
        refuse(site, "joint-haunch", said.length.span, message, expected, "Give `length` a size for a mortise of its own.")
        return None
    return Haunched(sizes, Haunch(face, box, False), 0.0, ())


def _filling(sizes: Sizes, face: Face, copy: int, site: Site) -> Box | None:
    """The space of a groove in the mate that lies beside the tenon, on the drawn copy; None if there is none."""
    end = sizes.end
    home, back = end.homes[copy], end.board.copies[copy].motion.inverse
    beside = reaching(_beside(sizes, face), end.face, sizes.depth)
    for joined in site.joined.values():
        for groove in joined.features.get(home.board.id, ()) if joined else ():
            if not isinstance(groove, Groove):
                continue
            standing = home.board.copies[home.copy].motion
            void = back.box(standing.box(groove.void))
            common = void.meet(beside)
            opens = standing.face(groove.face) is home.face and common.size(face.axis) > beside.size(face.axis) - TINY
            if opens and common.is_solid and common.size(sizes.thick) > void.size(sizes.thick) - TINY:
                return _exact(common)
    return None


def _exact(box: Box) -> Box:
    """Free of the noise of motions, so that copies can be compared."""
    return Box(*(Span1(round(span.low, 6), round(span.high, 6)) for span in (box.x, box.y, box.z)))


def haunch_mortise(joint: str, made: Haunched, copy: int) -> Struck | None:
    """The shallow mortise that one standing copy needs; None in a groove."""
    if not made.depth:
        return None
    sizes, end, haunch = made.sizes, made.sizes.end, made.haunch
    board, home = end.board, end.homes[copy]
    motion = board.copies[copy].motion
    mortise = Mortise(
        id="",
        origin=end.span,
        joint=joint,
        why="",
        face=home.face,
        void=motion.box(reaching(_beside(sizes, haunch.face), end.face, made.depth)),
        mate=Mate(board.id, (copy,)),
        rises=motion.face(haunch.face) if haunch.sloped else None,
        haunch=True,
    )
    words = (f"{board.id}.haunch", board.copies[copy].hand, motion.face(end.face).value)
    return Struck(home.board, home.copy, mortise, words, (board.id, copy), end.span)
