"""Whether a tenon is sound: its share of the wood, and the walls that its mortise leaves beside it."""

from __future__ import annotations

from itertools import pairwise

from planbuild.core.geometry import TINY, Box, Face
from planbuild.core.poses import standing
from planbuild.joints.base import Site
from planbuild.joints.commons import glue_word
from planbuild.joints.faults import refuse, warn
from planbuild.joints.mortise_and_tenon.askew import check_askew_walls
from planbuild.joints.mortise_and_tenon.fields import MortiseAndTenonSaid
from planbuild.joints.mortise_and_tenon.sizes import Sizes
from planbuild.joints.mortise_and_tenon.slants import is_askew
from planbuild.joints.proportions import rule, share_rule
from planbuild.joints.touching import gap, taper_at

SIDE_WALL_SHARE = 0.5
"""Wood beside a mortise may be this share of that behind it: it is not struck when the joint is driven (heuristic)."""


def check_proportions(tenons: list[Sizes], said: MortiseAndTenonSaid, site: Site) -> None:
    """Reports `joint-proportion` (warning) for tenons of one end too thin, too thick or too wide to be sound."""
    sizes = tenons[0]
    if sizes.round:
        return
    whole, together = sizes.end.board.body.size(sizes.thick), sum(each.size(sizes.thick) for each in _side_by_side(tenons))
    if together < whole - TINY:
        _check_share(sizes, together, said, site)
    widest = share_rule("tenon_widest", site.ruler) * sizes.thickness
    if sizes.width > widest + TINY:
        figure = site.ruler.plain
        message = f"Tenon {figure(sizes.width)} wide is more than six times its thickness of {figure(sizes.thickness)}."
        span = said.width.span if said.width else sizes.end.span
        hint = "Use wider shoulders, or `divided: 2`."
        warn(site, "joint-proportion", span, message, f"at most {figure(widest)}", hint, rule("tenon_widest", site.ruler).source)


def _side_by_side(tenons: list[Sizes]) -> list[Box]:
    """The outlines that stand beside each other in the thickness; of those in line in the width, the first."""
    first = tenons[0]
    return [each.section for each in tenons if each.section.along(first.wide) == first.section.along(first.wide)]


def _check_share(sizes: Sizes, together: float, said: MortiseAndTenonSaid, site: Site) -> None:
    """The share of the board's thickness.  A bare-faced tenon, or two side by side, may take more than one with a
    shoulder on either side."""
    board, figure = sizes.end.board, site.ruler.plain
    whole, beside = board.body.size(sizes.thick), [sizes.shoulder(face) for face in (sizes.thick.low, sizes.thick.high)]
    more = min(beside) < TINY or together > sizes.thickness + TINY
    least, most = rule("tenon_thinnest", site.ruler), rule("tenon_thickest_bare" if more else "tenon_thickest", site.ruler)
    share = together / whole
    if float(least.value) - 1e-6 <= share <= float(most.value) + 1e-6:
        return
    what = "Tenon" if together < sizes.thickness + TINY else "Tenons together"
    message = (
        f'{what} {figure(together)} is {share:.0%} of a {figure(whole)} "{board.id}" '
        f'(measured across the grain of "{sizes.end.mate.id}"); a quarter to {"two thirds" if more else "a half"} is sound.'
    )
    span = said.thickness.span if said.thickness else sizes.end.span
    expected = f"{figure(whole * float(least.value))} to {figure(whole * float(most.value))}"
    source = (least if share < float(least.value) else most).source
    warn(site, "joint-proportion", span, message, expected, "" if more else _chisel_hint(whole, site), source)


def check_between(tenons: list[Sizes], site: Site) -> None:
    """Reports `joint-wall` where too little wood is left between the mortises of one end."""
    wanted = site.practice.wall * SIDE_WALL_SHARE
    for one, other in pairwise(tenons):
        between = gap(one.section, other.section)
        if between < wanted - TINY:
            figure = site.ruler.plain
            message = f'The mortises for "{one.end.board.id}" leave {figure(between)} of "{one.end.mate.id}" between them.'
            hint = "Say a larger `apart`, or thinner tenons."
            refuse(site, "joint-wall", one.end.span, message, f"at least {figure(wanted)} of wood between mortises", hint)
            return


def _chisel_hint(whole: float, site: Site) -> str:
    fitting = [site.ruler.plain(width) for width in sorted(site.practice.chisels) if whole / 4 <= width <= whole / 2]
    return f"{' or '.join(fitting)} fits your chisels." if fitting else ""


def check_walls(sizes: Sizes, flare: float, site: Site) -> None:
    """Reports `joint-wall` where a mortise, with its flare, leaves too little of the mate beside it, in any copy."""
    if is_askew(sizes.end):
        check_askew_walls(sizes, site.practice.wall * SIDE_WALL_SHARE, site)
        return
    for copy in range(len(sizes.end.homes)):
        for axis, more in ((sizes.thick, 0.0), (sizes.wide, flare)):
            for face in (axis.low, axis.high):
                left = face.sign * (sizes.end.seen(copy).at(face) - sizes.section.at(face)) - more
                if left < site.practice.wall * SIDE_WALL_SHARE - TINY:
                    _thin_wall(sizes, copy, face, left, site)
                    return


def _thin_wall(sizes: Sizes, copy: int, face: Face, left: float, site: Site) -> None:
    end, wanted = sizes.end, site.practice.wall * SIDE_WALL_SHARE
    own_face = end.homes[copy].board.copies[end.homes[copy].copy].motion.inverse.face(end.board.copies[copy].motion.face(face))
    what = f"leaves {site.ruler.plain(left)} of wood" if left > TINY else "opens"
    message = f'The mortise for "{end.board.id}" {what} at the {own_face.value} of "{end.mate.id}".'
    expected = f"at least {site.ruler.plain(wanted)} of wood beside a mortise"
    refuse(site, "joint-wall", end.span, message, expected, f"Give the tenon a wider {face.value} shoulder, or move the part.")


def glue_fits(said: MortiseAndTenonSaid, glue: bool, site: Site) -> bool:
    """Reports `joint-glue` for glue in a joint that comes apart, or that must be free to move."""
    loose = said.tusk.origin if said.tusk else said.play.span if said.play else None
    if not glue or loose is None:
        return True
    what = "A keyed tenon comes apart again" if said.tusk else "A tenon with play in its mortise must be free to move"
    refuse(site, "joint-glue", glue_word(said).span if said.glue else loose, f"{what}; glue would hold it.", "`glue: no`")
    return False


def check_exit(sizes: Sizes, site: Site) -> None:
    """Reports `place-shoulder-planes` where a through tenon comes out on a taper."""
    if not sizes.through:
        return
    home, board = sizes.end.homes[0], sizes.end.board
    region = standing(sizes.void, board.pose, board.copies[0].motion)
    taper = taper_at(home, home.face.opposite, region)
    if taper is None:
        return
    message = f'The tenon of "{sizes.end.board.id}" comes out on the taper of "{sizes.end.mate.id}".'
    hint = "Taper another face, start the taper lower, or make the tenon blind."
    refuse(site, "place-shoulder-planes", sizes.end.span, message, "a square face on the far side", hint)
