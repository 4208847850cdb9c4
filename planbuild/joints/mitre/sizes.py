"""How large the spline or the keys of a mitre are, and where they lie.  Units: mm."""

from __future__ import annotations

from collections.abc import Sequence

from planbuild.core.geometry import TINY, Span1
from planbuild.joints.base import Site
from planbuild.joints.commons import free_id
from planbuild.joints.corners import Corner
from planbuild.joints.faults import refuse
from planbuild.joints.mitre.cutting import halves, is_frame, length
from planbuild.joints.mitre.fields import KeysSaid, MitreSaid, SplineSaid
from planbuild.joints.mitre.slots import Filling
from planbuild.joints.proportions import length_rule, rule, share_rule, used
from planbuild.records.design import Said
from planbuild.records.piece import Stock

MOST = 24
"""Keys at one corner; more are no joint of the trade."""

THIRD = "third"

Filled = tuple[Filling, tuple[str, ...]]
"""With the defaults that were used."""


def filling_of(id: str, said: MitreSaid, found: Sequence[Corner], site: Site) -> Filled | None:
    """The splines or keys; None if there are none, or after reporting."""
    if said.spline and said.keys:
        message = "A mitre has a spline or keys; both would cross in the corner."
        refuse(site, "joint-mitre-both", said.keys.origin, message, "one of `spline` and `keys`")
        return None
    if (said.spline or said.keys) and not _alike(found, site):
        return None
    if said.keys:
        return _keys(id, said.keys, found, site)
    return _spline(id, said.spline, found, site) if said.spline else None


def _alike(found: Sequence[Corner], site: Site) -> bool:
    """One size of spline or key in a joint."""
    sizes = [(each.shared.size(each.end.axis), each.shared.size(each.far.axis), each.shared.size(each.across)) for each in found]
    if all(abs(a - b) < TINY for each in sizes for a, b in zip(each, sizes[0], strict=True)):
        return True
    message, hint = "The corners of this joint are not alike.", "Write a joint for each sort of corner."
    refuse(site, "joint-mitres-differ", found[0].one.span, message, "corners of one size and angle in a joint", hint)
    return False


def _stock(said: Said | None, found: Sequence[Corner], site: Site) -> Stock | None:
    return site.words.stock(said) if said else found[0].one.board.stock


def _length(said: Said | None, default: float, site: Site) -> float | None:
    return site.words.length(said) if said else default


# ---------------------------------------------------------------- keys


def _keys(id: str, said: KeysSaid, found: Sequence[Corner], site: Site) -> Filled | None:
    corner, frame = found[0], is_frame(found[0])
    count = site.words.count(said.count) if said.count else 1 if frame else int(share_rule("corner_keys", site.ruler))
    thickness = _length(said.thickness, length_rule("corner_key_thickness", site.ruler), site)
    usual = min(length(corner) * share_rule("corner_key_depth", site.ruler), length_rule("corner_key_deepest", site.ruler))
    depth, stock = _length(said.depth, usual, site), _stock(said.stock, found, site)
    if count is None or thickness is None or depth is None or stock is None:
        return None
    whole = corner.shared.size(corner.across)
    if not _fit_in_row(count, thickness, whole, said, site) or not _leaves_wood(depth, length(corner), said, site):
        return None
    spans = []
    for each in found:
        low, step = each.shared.along(each.across).low, whole / count
        middles = [low + (n + 0.5) * step for n in range(count)]
        spans += [(each, Span1(middle - thickness / 2, middle + thickness / 2)) for middle in middles]
    filling = Filling(free_id("corner_key", id, site), "key", stock, tuple(spans), 0.0, depth, None, thickness)
    thick = [] if said.thickness else [used("Thickness of a key", "corner_key_thickness", site.ruler)]
    lines = [*thick, *([] if said.depth else [used("Depth of the slots", "corner_key_depth", site.ruler)])]
    return filling, tuple(lines if said.count or frame else [used("Number of keys", "corner_keys", site.ruler), *lines])


def _fit_in_row(count: int, thickness: float, whole: float, said: KeysSaid, site: Site) -> bool:
    figure, least = site.ruler.plain, length_rule("corner_key_wood", site.ruler)
    if 1 <= count <= MOST and whole / count - thickness >= least - TINY:
        return True
    own = said.count or said.thickness
    span = own.span if own else said.origin
    message = f"{count} keys of {figure(thickness)} do not suit a corner that is {figure(whole)} long."
    most = min(MOST, int((whole + TINY) / (thickness + least)))
    source = rule("corner_key_wood", site.ruler).source
    refuse(site, "joint-mitre-keys", span, message, f"1 to {most} of that thickness", source=source)
    return False


def _leaves_wood(depth: float, mitre: float, said: KeysSaid, site: Site) -> bool:
    most = mitre - length_rule("corner_key_wood", site.ruler)
    if 0.0 < depth <= most + TINY:
        return True
    figure, span = site.ruler.plain, said.depth.span if said.depth else said.origin
    message = f"Slots {figure(depth)} deep come out inside: the mitre is {figure(mitre)} long."
    refuse(site, "joint-mitre-keys", span, message, f"at most {figure(most)}", source=rule("corner_key_wood", site.ruler).source)
    return False


# ---------------------------------------------------------------- splines


def _spline(id: str, said: SplineSaid, found: Sequence[Corner], site: Site) -> Filled | None:
    corner, mitre = found[0], length(found[0])
    width = _length(said.width, length_rule("mitre_spline", site.ruler), site)
    own = said.depth if said.depth and said.depth.text != THIRD else None
    usual = min(mitre * share_rule("mitre_spline_depth", site.ruler), length_rule("mitre_spline_deepest", site.ruler))
    depth, stock = _length(own, usual, site), _stock(said.stock, found, site)
    if width is None or depth is None or stock is None:
        return None
    sound = _flat_spline(corner, width, depth, said, site) if is_frame(corner) else _long_spline(corner, width, depth, said, site)
    if not sound:
        return None
    part, sizes = free_id("spline", id, site), (depth, width)
    if is_frame(corner):
        spans = [(each, _middle(each.shared.along(each.across), width)) for each in found]
        past = max(half.reach / half.bar.body.size(half.side.axis) for half in halves(corner)) * depth
        filling = Filling(part, "spline", stock, tuple(spans), 0.0, mitre + past, *sizes)
    else:
        spans = [(each, each.shared.along(each.across)) for each in found]
        place = mitre * share_rule("mitre_spline_place", site.ruler)
        filling = Filling(part, "spline", stock, tuple(spans), place - width / 2, place + width / 2, *sizes)
    fields = (("Thickness of the spline", "mitre_spline", said.width), ("Depth of the slots", "mitre_spline_depth", own))
    lines = [used(what, name, site.ruler) for what, name, said_own in fields if said_own is None]
    return filling, tuple(lines if is_frame(corner) else [*lines, used("Place of the spline", "mitre_spline_place", site.ruler)])


def _middle(span: Span1, width: float) -> Span1:
    return Span1(span.middle - width / 2, span.middle + width / 2)


def _flat_spline(corner: Corner, width: float, depth: float, said: SplineSaid, site: Site) -> bool:
    """In the middle of the thickness of a frame; what stays beside it is as strong as itself."""
    thick, mitre, figure = corner.shared.size(corner.across), length(corner), site.ruler.plain
    if width > thick * share_rule("tongue_thickest", site.ruler) + TINY:
        span = said.width.span if said.width else said.origin
        message = f"A spline of {figure(width)} in parts of {figure(thick)} leaves thin cheeks."
        most = figure(thick * share_rule("tongue_thickest", site.ruler))
        refuse(site, "joint-mitre-spline", span, message, f"at most {most}", source=rule("tongue_thickest", site.ruler).source)
        return False
    return _not_too_deep(depth, mitre / 2, said, site)


def _long_spline(corner: Corner, width: float, depth: float, said: SplineSaid, site: Site) -> bool:
    """Along the edge of a box, nearer the inside: there is wood between its tip and the outer faces."""
    place = length(corner) * share_rule("mitre_spline_place", site.ruler)
    least = length_rule("mitre_spline_wood", site.ruler)
    most = []
    for half in halves(corner):
        beside, long = half.bar.body.size(half.side.axis), length(corner)
        most.append(((place - width / 2) * beside - least * long) / half.reach)
    if place + width / 2 > length(corner) - least + TINY:
        figure, span = site.ruler.plain, said.width.span if said.width else said.origin
        message = f"A spline of {figure(width)} comes out inside: the mitre is {figure(length(corner))} long."
        refuse(site, "joint-mitre-spline", span, message, "a thinner spline, or thicker parts")
        return False
    return _not_too_deep(depth, min(most), said, site)


def _not_too_deep(depth: float, most: float, said: SplineSaid, site: Site) -> bool:
    if 0.0 < depth <= most + TINY:
        return True
    figure, span = site.ruler.plain, said.depth.span if said.depth else said.origin
    message = f"Slots {figure(depth)} deep in each mitre leave too little wood outside them."
    refuse(site, "joint-mitre-spline", span, message, f"at most {figure(max(most, 0.0))}", source="common practice")
    return False
