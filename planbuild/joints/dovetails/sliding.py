"""Sliding dovetail: the end of a part is one long tail across its width and slides into a housing of its mate."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import ClassVar

from planbuild.core.geometry import TINY, Face, Span1
from planbuild.core.units import slope_text
from planbuild.joints.base import Family, Joined, Site
from planbuild.joints.commons import Commons, commons
from planbuild.joints.dovetails.single import Single, contacts_of, features_of
from planbuild.joints.dovetails.sizes import slope_of, slope_rule
from planbuild.joints.faults import refuse
from planbuild.joints.proportions import length_rule, rule, share_rule, stepped_share, used
from planbuild.joints.sides import Side, ends, find_sides, growth
from planbuild.joints.stopped import across, corner_of, stopped_at, stops_of
from planbuild.records.design import JointSaid, Said
from planbuild.records.features import Feature
from planbuild.records.piece import Joint
from planbuild.records.tails import Comb, Slim


class SlidingDovetailSaid(JointSaid):
    """`neck` is the thickness of the tail at its shoulder, where it is widest; `taper` by how much it narrows toward the end
    that goes in first, or `yes`; `stopped` as in a dado."""

    part: tuple[Said, ...]
    into: Said | None = None
    depth: Said | None = None
    slope: Said | None = None
    neck: Said | None = None
    stopped: Mapping[str, Said] | Said | None = None
    taper: Said | None = None


class SlidingDovetail:
    """The kind: a bracket under its shelf, a divider that holds its case together."""

    name = "sliding dovetail"
    family = Family.ENTERING
    said: ClassVar[type[JointSaid]] = SlidingDovetailSaid

    def join(self, id: str, said: SlidingDovetailSaid, site: Site) -> Joined | None:
        """Reports `joint-dado-depth`, `joint-dado-stop`, `joint-dovetail-slope`, `joint-dovetail-neck`,
        `joint-dovetail-way`, `joint-dovetail-edge`, `joint-dovetail-taper`, and what `find_sides` and `settled` report."""
        common = commons(said, self.name, glued=True, site=site)
        sides = find_sides(said.part, said.into, ends, site)
        found = [_single(each, said, site) for each in sides or ()]
        if common is None or not found or any(each is None for each in found):
            return None
        sound = [each for each in found if each]
        features = _features(id, sound, said, site)
        grows = growth((each.side, each.comb.depth) for each in sound)
        return Joined(_told(id, said, common, sound, site), features, grows=grows)


# ---------------------------------------------------------------- sizes


def _single(side: Side, said: SlidingDovetailSaid, site: Site) -> Single | None:
    depth, slope = _depth(side, said, site), slope_of(said.slope, side.board, site)
    stops = stops_of(said.stopped, side, site)
    if depth is None or slope is None or stops is None:
        return None
    tail, opening = _tail(side, depth * slope, said, site), _opening(side, stops, site)
    if tail is None or opening is None or not _has_wood_beside(side, tail, site):
        return None
    comb = Comb(stopped_at(side.strip(depth), stops), side.face, side.board.face.axis, (tail,), slope)
    narrows = _narrows(comb, said, site)
    if narrows is None:
        return None
    return Single(side, replace(comb, slim=Slim(opening, side.board.face.opposite, narrows) if narrows else None), opening)


def _depth(side: Side, said: SlidingDovetailSaid, site: Site) -> float | None:
    thick = side.depth
    if said.depth is None:
        return stepped_share("sliding_depth", thick, site.ruler)
    depth, deepest = site.words.length(said.depth), share_rule("sliding_deepest", site.ruler) * thick
    if depth is not None and depth > deepest + TINY:
        figure = site.ruler.plain
        message = f'A housing {figure(depth)} deep is more than half of "{side.mate.id}", which is {figure(thick)} thick.'
        source = rule("sliding_deepest", site.ruler).source
        refuse(site, "joint-dado-depth", said.depth.span, message, f"at most {figure(deepest)}", source=source)
        return None
    return depth


def _tail(side: Side, lean: float, said: SlidingDovetailSaid, site: Site) -> Span1 | None:
    """Where the tail lies in the thickness, at its tip: in the middle."""
    whole = side.board.body.along(side.board.face.axis)
    neck = site.words.length(said.neck) if said.neck else stepped_share("sliding_neck", whole.size, site.ruler)
    if neck is None:
        return None
    tip = neck + 2 * lean
    if tip > whole.size - TINY:
        figure = site.ruler.plain
        message = f'A neck of {figure(neck)} gives a tail of {figure(tip)}; "{side.board.id}" is {figure(whole.size)} thick.'
        hint = "Take a thinner neck, less depth, or a flatter slope."
        span = (said.neck or said.kind).span
        refuse(site, "joint-dovetail-neck", span, message, f"a neck below {figure(whole.size - 2 * lean)}", hint)
        return None
    return Span1(whole.middle - tip / 2, whole.middle + tip / 2)


def _opening(side: Side, stops: Mapping[Face, float], site: Site) -> Face | None:
    """The edge at which the tail slides in: the far one from where it is seen, if both are open."""
    axis, body = across(side), side.board.body
    seen = [side.seen(copy) for copy in range(len(side.homes))]
    within = all(abs(each.along(axis).meet(body.along(axis)).size - body.size(axis)) < TINY for each in seen)
    order = (axis.low, axis.high) if axis.high is Face.TOP else (axis.high, axis.low)
    for face in order:
        if within and face not in stops and all(abs(each.at(face) - body.at(face)) < TINY for each in seen):
            return face
    name, mate = side.board.id, side.mate.id
    message = f'"{name}" cannot be slid into "{mate}": its housing is open at neither end.'
    flush = f"`{axis.high.value}: {mate}.{axis.high.value}`"
    hint = f"Let one edge lie flush with that of the mate, as in {flush}, and do not stop it there."
    refuse(site, "joint-dovetail-way", side.span, message, "a housing that runs out at an edge of its mate", hint)
    return None


def _narrows(comb: Comb, said: SlidingDovetailSaid, site: Site) -> float | None:
    """By how much the tail narrows over its length; 0 if it does not.  None after reporting `joint-dovetail-taper`."""
    if said.taper is None or said.taper.text == "no":
        return 0.0
    by = length_rule("sliding_taper", site.ruler) if said.taper.text == "yes" else site.words.length(said.taper)
    neck, long = comb.neck(comb.tails[0]).size, comb.block.size(comb.run)
    steep, thin = share_rule("sliding_steepest_taper", site.ruler) * long, share_rule("sliding_slimmest", site.ruler) * neck
    if by is None or by < min(steep, thin) + TINY:
        return by
    figure, name = site.ruler.plain, "sliding_steepest_taper" if steep < thin else "sliding_slimmest"
    broken = rule(name, site.ruler)
    message = f"A tail {figure(long)} long with a neck of {figure(neck)} cannot narrow by {figure(by)}: {broken.reason}."
    refuse(site, "joint-dovetail-taper", said.taper.span, message, f"at most {figure(min(steep, thin))}", source=broken.source)
    return None


def _has_wood_beside(side: Side, tail: Span1, site: Site) -> bool:
    """The housing must not break out at an end of the mate."""
    least, axis = length_rule("dovetail_thinnest_pin", site.ruler), side.board.face.axis
    mates = [side.seen(copy).along(axis) for copy in range(len(side.homes))]
    left = min(min(tail.low - mate.low, mate.high - tail.high) for mate in mates)
    if left < least - TINY:
        figure = site.ruler.plain
        message = f'{side.spoken} leaves {figure(max(left, 0.0))} of "{side.mate.id}" beside its tail.'
        hint = "Move it away from the end of its mate."
        refuse(site, "joint-dovetail-edge", side.span, message, f"{figure(least)} or more", hint)
        return False
    return True


# ---------------------------------------------------------------- both sides


def _features(id: str, found: Sequence[Single], said: SlidingDovetailSaid, site: Site) -> dict[str, tuple[Feature, ...]]:
    why = said.why.text if said.why else ""
    features = features_of(id, found, "housing", why, site)
    for each in found:
        part, whole = each.side.board.id, each.side.strip(each.comb.depth)
        stops = stops_of(said.stopped, each.side, site) or {}
        corners = tuple(corner_of(id, each.side, whole, face, stop, why) for face, stop in stops.items())
        features[part] = (*features[part], *corners)
    return features


def _told(id: str, said: SlidingDovetailSaid, common: Commons, found: Sequence[Single], site: Site) -> Joint:
    comb = found[0].comb
    (tail,) = comb.tails
    return Joint(
        id=id,
        kind=SlidingDovetail.name,
        name=common.name,
        origin=said.origin,
        contacts=contacts_of(found, common.glue),
        glue=common.glue,
        fit=common.fit,
        numbers=(
            ("housing depth", round(comb.depth, 6)),
            ("slope", slope_text(comb.slope)),
            ("neck", round(comb.neck(tail).size, 6)),
            ("tail at the tip", round(tail.size, 6)),
            *((("narrows by", round(comb.slim.by, 6)),) if comb.slim else ()),
        ),
        operations=("trench", "tail"),
        tools=("marking knife", "dovetail cutter", "straightedge"),
        defaults=_lines(said, found[0], site),
        note=common.note,
        why=common.why,
    )


def _lines(said: SlidingDovetailSaid, first: Single, site: Site) -> tuple[str, ...]:
    depth = () if said.depth else (used("Depth of the housing", "sliding_depth", site.ruler),)
    slope = () if said.slope else (used("Slope of the tail", slope_rule(first.side.board), site.ruler),)
    neck = () if said.neck else (used("Neck of the tail", "sliding_neck", site.ruler),)
    usual = said.taper is not None and said.taper.text == "yes"
    taper = (used("Taper of the tail", "sliding_taper", site.ruler),) if usual else ()
    return (*depth, *slope, *neck, *taper)
