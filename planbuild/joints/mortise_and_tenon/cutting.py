"""The features of a mortise and tenon on both parts, and the places where it holds."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

from planbuild.core.geometry import TINY, Face, hull
from planbuild.joints.base import Site
from planbuild.joints.copies import Struck, carried_out, settled
from planbuild.joints.mortise_and_tenon.askew import angled
from planbuild.joints.mortise_and_tenon.haunch import Haunched, haunch_mortise
from planbuild.joints.mortise_and_tenon.meeting import Made
from planbuild.joints.mortise_and_tenon.pegging import Pegged
from planbuild.joints.mortise_and_tenon.pegs import peg_bores
from planbuild.joints.mortise_and_tenon.sizes import Sizes
from planbuild.joints.mortise_and_tenon.slants import is_askew
from planbuild.joints.mortise_and_tenon.tusk import Keyed
from planbuild.joints.mortise_and_tenon.wedging import Spread
from planbuild.joints.proportions import length_rule
from planbuild.records.features import Feature, Mate, Mortise, Tenon
from planbuild.records.piece import Contact
from planbuild.records.tenon_work import PegHole


@dataclass(frozen=True)
class Cut:
    """A tenon with all that was decided of it."""

    made: Made
    spread: Spread | None
    why: str
    keyed: Keyed | None = None
    haunched: Haunched | None = None
    pegged: Pegged | None = None

    @property
    def sizes(self) -> Sizes:
        return self.made.sizes


def both_sides(joint: str, cuts: list[Cut], site: Site) -> Mapping[str, tuple[Feature, ...]]:
    """Tenons and mortises by part.  Reports `joint-copies-differ` where a part's copies come to different mortises."""
    features: dict[str, tuple[Feature, ...]] = {}
    struck: list[Struck] = []
    for tenons in by_end(cuts):
        board = tenons[0].sizes.end.board.id
        for place, cut in zip(_places(tenons), tenons, strict=True):
            features[board] = (*features.get(board, ()), _tenon(joint, cut, place, site))
            copies = range(len(cut.sizes.end.homes))
            struck += [_mortise(joint, cut, place, copy) for copy in copies]
            shallow = [haunch_mortise(joint, cut.haunched, copy) for copy in copies] if cut.haunched else []
            struck += [each for each in shallow if each]
    struck += peg_bores(joint, [cut.pegged for cut in cuts if cut.pegged])
    for part, mortises in settled(joint, struck, site).items():
        features[part] = (*features.get(part, ()), *mortises)
    return features


def by_end(cuts: list[Cut]) -> list[list[Cut]]:
    """The tenons of each end, low to high."""
    ends: dict[tuple[str, Face], list[Cut]] = {}
    for cut in cuts:
        ends.setdefault((cut.sizes.end.board.id, cut.sizes.end.face), []).append(cut)
    return list(ends.values())


def _places(tenons: list[Cut]) -> list[Face | int | None]:
    """What tells the tenons of one end from each other: nothing, the side on which each stands, or their number."""
    if len(tenons) == 1:
        return [None]
    first, last = tenons[0].sizes, tenons[-1].sizes
    axis = first.thick if first.section.along(first.thick).low < last.section.along(first.thick).low - TINY else first.wide
    return [axis.low, axis.high] if len(tenons) == 2 else list(range(1, len(tenons) + 1))


def _tenon(joint: str, cut: Cut, place: Face | int | None, site: Site) -> Tenon:
    sizes, end = cut.sizes, cut.sizes.end
    word = "" if place is None else f".{place.value if isinstance(place, Face) else place}"
    return Tenon(
        id=f"{joint}.{end.face.value}{word}",
        origin=end.span,
        joint=joint,
        why=cut.why,
        end=end.face,
        block=sizes.block,
        mate=Mate(end.mate.id, tuple(sorted({home.copy for home in end.homes}))),
        through=sizes.through,
        proud=sizes.proud,
        mitre=cut.made.mitre,
        wedging=cut.spread.wedging if cut.spread else None,
        keyway=cut.keyed.keyway if cut.keyed else None,
        haunch=cut.haunched.haunch if cut.haunched else None,
        pegs=cut.pegged.holes if cut.pegged else (),
        tip_chamfer=0.0 if sizes.round else min(length_rule("tip_chamfer", site.ruler), sizes.proud),
        round=sizes.round,
    )


def _mortise(joint: str, cut: Cut, place: Face | int | None, copy: int) -> Struck:
    """The mortise that one standing copy of a tenon needs, where it stands."""
    sizes, end = cut.sizes, cut.sizes.end
    board, home = end.board, end.homes[copy]
    motion = board.copies[copy].motion
    side = motion.face(place).value if isinstance(place, Face) else "" if place is None else str(place)
    words = (board.id, board.copies[copy].hand, motion.face(end.face).value, side)
    if is_askew(end):
        own = angled(joint, cut.why, sizes, copy)
        return Struck(home.board, home.copy, carried_out(own, home.board, home.copy), words, (board.id, copy), end.span)
    mortise = Mortise(
        id="",
        origin=end.span,
        joint=joint,
        why=cut.why,
        face=home.face,
        void=motion.box(sizes.void),
        mate=Mate(board.id, (copy,)),
        through=sizes.through,
        flare=cut.spread.wedging.flare if cut.spread else 0.0,
        flare_axis=motion.axis(sizes.wide) if cut.spread else None,
        flare_from=_standing_plane(cut.spread, copy) if cut.spread else None,
        round=sizes.round,
    )
    return Struck(home.board, home.copy, mortise, words, (board.id, copy), end.span)


def _standing_plane(spread: Spread, copy: int) -> float:
    """Where the bottoms of the kerfs lie when a copy stands."""
    end = spread.sizes.end
    motion = end.board.copies[copy].motion
    run = end.face.sign * (spread.sizes.block.at(end.face) - spread.bottom)
    face = motion.face(end.face)
    return motion.box(spread.sizes.block).at(face) - face.sign * run


def contacts(cuts: list[Cut], glue: bool) -> tuple[Contact, ...]:
    """One contact for each standing end.  The grains cross over the width of its tenons: shrinking across their
    own grain, they lie along that of their mate."""
    found = []
    for tenons in by_end(cuts):
        end, wide = tenons[0].sizes.end, tenons[0].sizes.wide
        crossed = hull([each.sizes.section for each in tenons]).size(wide)
        area = sum(map(_cheeks, tenons)) if glue else 0.0
        for copy, home in enumerate(end.homes):
            way = end.board.normal_of(end.face, copy)
            mate = (home.board.id, home.copy)
            found.append(Contact((end.board.id, copy), mate, way, home.patch, crossed, area, outline=home.outline))
    return tuple(found)


def _cheeks(cut: Cut) -> float:
    """Area of the two cheeks inside the mate, long grain on long grain, mm2; a round tenon has none that is flat."""
    if cut.sizes.round:
        return 0.0
    inside = cut.sizes.length - cut.sizes.proud
    shorter = cut.made.mitre.start if cut.made.mitre else inside
    longer = inside if cut.made.held is None else cut.made.held
    holes = sum(2 * _bored(hole) for hole in cut.pegged.holes) if cut.pegged else 0.0
    return (longer + shorter) * cut.sizes.width - holes


def _bored(hole: PegHole) -> float:
    """Area of a cheek that the holes in tenon and mate take together: two circles less what they share (plane geometry)."""
    radius, apart = hole.diameter / 2, hole.draw
    shared = 2 * radius**2 * math.acos(apart / hole.diameter) - apart / 2 * math.sqrt(hole.diameter**2 - apart**2)
    return 2 * math.pi * radius**2 - shared
