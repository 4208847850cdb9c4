"""The features of a mortise and tenon on both parts, and the places where it holds."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from planbuild.core.geometry import Box, Face
from planbuild.joints.base import Site
from planbuild.joints.copies import Struck, settled
from planbuild.joints.mortise_and_tenon.meeting import Made
from planbuild.joints.mortise_and_tenon.sizes import Sizes
from planbuild.joints.mortise_and_tenon.wedging import Spread
from planbuild.joints.proportions import length_rule
from planbuild.records.features import Feature, Mate, Mortise, Tenon
from planbuild.records.piece import Contact


@dataclass(frozen=True)
class Cut:
    """A tenon with all that was decided of it."""

    made: Made
    spread: Spread | None
    why: str

    @property
    def sizes(self) -> Sizes:
        return self.made.sizes


def both_sides(joint: str, cuts: list[Cut], site: Site) -> Mapping[str, tuple[Feature, ...]]:
    """Tenons and mortises by part.  Reports `joint-copies-differ` where a part's copies come to different mortises."""
    features: dict[str, tuple[Feature, ...]] = {}
    for cut in cuts:
        board = cut.sizes.end.board.id
        features[board] = (*features.get(board, ()), _tenon(joint, cut, site))
    struck = [_mortise(joint, cut, copy) for cut in cuts for copy in range(len(cut.sizes.end.homes))]
    for part, mortises in settled(joint, struck, site).items():
        features[part] = (*features.get(part, ()), *mortises)
    return features


def _tenon(joint: str, cut: Cut, site: Site) -> Tenon:
    sizes, end = cut.sizes, cut.sizes.end
    return Tenon(
        id=f"{joint}.{end.face.value}",
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
        tip_chamfer=min(length_rule("tip_chamfer", site.ruler), sizes.proud),
    )


def _mortise(joint: str, cut: Cut, copy: int) -> Struck:
    """The mortise that one standing copy of a tenon needs, where it stands."""
    sizes, end = cut.sizes, cut.sizes.end
    board, home = end.board, end.homes[copy]
    motion = board.copies[copy].motion
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
    )
    words = (board.id, board.copies[copy].hand, motion.face(end.face).value)
    return Struck(home.board, home.copy, mortise, words, (board.id, copy), end.span)


def _standing_plane(spread: Spread, copy: int) -> float:
    """Where the bottoms of the kerfs lie when a copy stands."""
    end = spread.sizes.end
    motion = end.board.copies[copy].motion
    run = end.face.sign * (spread.sizes.block.at(end.face) - spread.bottom)
    face = motion.face(end.face)
    return motion.box(spread.sizes.block).at(face) - face.sign * run


def contacts(cuts: list[Cut], glue: bool) -> tuple[Contact, ...]:
    """One contact for each standing tenon.  The grains cross over the width of the tenon: shrinking across its
    own grain, it lies along that of its mate."""
    found = []
    for cut in cuts:
        sizes, end = cut.sizes, cut.sizes.end
        for copy, home in enumerate(end.homes):
            face: Face = end.board.copies[copy].motion.face(end.face)
            area = _cheeks(cut) if glue else 0.0
            shoulder: Box = home.patch
            found.append(Contact((end.board.id, copy), (home.board.id, home.copy), face.normal, shoulder, sizes.width, area))
    return tuple(found)


def _cheeks(cut: Cut) -> float:
    """Area of the two cheeks inside the mate, long grain on long grain, mm2."""
    inside = cut.sizes.length - cut.sizes.proud
    shorter = cut.made.mitre.start if cut.made.mitre else inside
    return (inside + shorter) * cut.sizes.width
