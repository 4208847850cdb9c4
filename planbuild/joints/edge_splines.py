"""Splines in a glued edge joint: strips in grooves along both edges, that keep the faces of the boards in one plane."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from planbuild.core.diagnostics import Span
from planbuild.core.geometry import TINY, Axis, Box, Face, Span1
from planbuild.joints.base import Joined, Site
from planbuild.joints.commons import free_id
from planbuild.joints.copies import Struck, carried, settled
from planbuild.joints.faults import refuse
from planbuild.joints.proportions import length_rule, rule, share_rule, stepped_share, used
from planbuild.records.design import Model, Said
from planbuild.records.features import Groove, Mate
from planbuild.records.piece import Contact, Copy, Joint, Part, Stock


class EdgeSplinesSaid(Model):
    """Strips of `stock`, `thickness` thick, that stand `depth` in either edge."""

    thickness: Said | None = None
    depth: Said | None = None
    stock: Said | None = None


@dataclass(frozen=True)
class _Seam:
    """One seam with its spline, as it stands; `way` is that of the first board onto the second, `deep` how far the spline
    stands in either."""

    contact: Contact
    way: Face
    run: Axis
    across: Span1
    deep: float
    room: float

    @property
    def thick(self) -> Axis:
        return next(axis for axis in Axis if axis not in (self.way.axis, self.run))

    def block(self, low: float, high: float) -> Box:
        """From `low` behind the seam to `high` beyond it, along the way."""
        seam, ends = self.contact.shoulder, self.contact.shoulder.at(self.way)
        span = Span1(*sorted((ends - self.way.sign * low, ends + self.way.sign * high)))
        return seam.with_span(self.way.axis, span).with_span(self.thick, self.across)

    @property
    def spline(self) -> Box:
        return self.block(self.deep, self.deep)

    @property
    def cheek(self) -> float:
        """One broad side of the spline in one board, mm2."""
        return self.deep * self.contact.shoulder.size(self.run)


def splined(id: str, plain: Joint, said: EdgeSplinesSaid | Said, site: Site) -> Joined | None:
    """A glued edge joint with its splines; None after reporting `joint-tongue-thick`, `joint-tongue-long` or
    `joint-wedges-differ`."""
    own = EdgeSplinesSaid(origin=plain.origin, thickness=said) if isinstance(said, Said) else said
    stock = site.words.stock(own.stock) if own.stock else site.boards[plain.contacts[0].a[0]].stock
    span = said.span if isinstance(said, Said) else said.origin
    seams = [_seam(each, own, span, site) for each in plain.contacts]
    found = [each for each in seams if each]
    if stock is None or len(found) < len(seams) or not _alike(found, span, site):
        return None
    spline = free_id("spline", id, site)
    features = settled(id, list(_struck(id, found, spline, span, site)), site)
    return Joined(_told(plain, own, found, spline, site), features, makes=(_part(spline, id, found, stock, site),))


def _seam(contact: Contact, own: EdgeSplinesSaid, span: Span, site: Site) -> _Seam | None:
    way = next(face for face in Face if face.normal == contact.insert)
    run = _grain(contact, site)
    thick = next(axis for axis in Axis if axis not in (way.axis, run))
    whole = contact.shoulder.along(thick)
    size = site.words.length(own.thickness) if own.thickness else stepped_share("tongue_thickness", whole.size, site.ruler)
    deep = site.words.length(own.depth) if own.depth else length_rule("edge_spline_depth", site.ruler)
    if size is None or deep is None or not _sound(contact, way, whole.size, size, deep, own, span, site):
        return None
    across = Span1(whole.middle - size / 2, whole.middle + size / 2)
    return _Seam(contact, way, run, across, deep, length_rule("tongue_room", site.ruler))


def _grain(contact: Contact, site: Site) -> Axis:
    part, copy = contact.a
    return site.boards[part].copies[copy].motion.axis(site.boards[part].grain)


def _sound(
    contact: Contact, way: Face, whole: float, size: float, deep: float, own: EdgeSplinesSaid, span: Span, site: Site
) -> bool:
    figure, most = site.ruler.plain, whole * share_rule("tongue_thickest", site.ruler)
    if size > most + TINY:
        message = f"A spline {figure(size)} thick leaves thin lips: the boards meet over {figure(whole)}."
        at, source = (own.thickness.span if own.thickness else span), rule("tongue_thickest", site.ruler).source
        refuse(site, "joint-tongue-thick", at, message, f"at most {figure(most)}", source=source)
        return False
    narrow = min(site.boards[part].standing(copy).size(way.axis) for part, copy in (contact.a, contact.b))
    if deep > narrow / 3 + TINY:
        message = f"A spline {figure(deep)} deep takes too much of a board {figure(narrow)} wide."
        refuse(site, "joint-tongue-long", own.depth.span if own.depth else span, message, f"at most {figure(narrow / 3)}")
        return False
    return True


def _alike(seams: Sequence[_Seam], span: Span, site: Site) -> bool:
    sizes = {tuple(round(each.spline.size(axis), 3) for axis in (each.run, each.thick, each.way.axis)) for each in seams}
    if len(sizes) > 1:
        message, hint = "The seams of this joint want splines of different sizes.", "Write two joints."
        refuse(site, "joint-wedges-differ", span, message, "one size of spline in a joint", hint)
    return len(sizes) == 1


# ---------------------------------------------------------------- both grooves, and the strip


def _struck(joint: str, seams: Sequence[_Seam], spline: str, span: Span, site: Site) -> Iterator[Struck]:
    for number, each in enumerate(seams):
        one, other, far = each.contact.a, each.contact.b, each.deep + each.room
        for key, mate, face, void in (
            (one, other, each.way, each.block(far, 0.0)),
            (other, one, each.way.opposite, each.block(0.0, far)),
        ):
            board, copy = site.boards[key[0]], key[1]
            cut = Groove("", span, joint, "", face, void.meet(board.standing(copy)), Mate(spline))
            words = (mate[0], site.boards[mate[0]].copies[mate[1]].hand, face.value)
            yield Struck(board, copy, cut, words, (spline, number), span)


def _part(id: str, joint: str, seams: Sequence[_Seam], stock: Stock, site: Site) -> Part:
    first = seams[0]
    turned = [(each.spline, (each.way, each.thick.high)) for each in seams]
    motions = [carried(turned[0][0], turned[0][1], box, faces) for box, faces in turned]
    return Part(
        id=id,
        mark="",
        name="spline",
        origin=site.boards[first.contact.a[0]].origin,
        stock=stock.id,
        grain=first.run,
        face=first.thick.high,
        edge=first.way.axis.high,
        body=first.spline,
        features=(),
        copies=tuple(Copy(str(number), motion) for number, motion in enumerate(motions, start=1)),
        rough_length=site.practice.rough_length,
        rough_width=site.practice.rough_width,
        made_by=joint,
        why="its grain runs with that of the boards, so that it moves as they do",
    )


def _contacts(plain: Joint, seams: Sequence[_Seam], spline: str) -> Iterator[Contact]:
    """The edges hold beside the grooves, the spline with its broad sides in both."""
    for each in seams:
        lost = each.across.size * each.contact.shoulder.size(each.run)
        yield replace(each.contact, glue_area=max(0.0, each.contact.glue_area - lost))
    for number, each in enumerate(seams):
        for key, toward, half in (
            (each.contact.b, each.way, each.block(0.0, each.deep)),
            (each.contact.a, each.way.opposite, each.block(each.deep, 0.0)),
        ):
            yield Contact((spline, number), key, toward.normal, half, 0.0, 2 * each.cheek if plain.glue else 0.0)


def _told(plain: Joint, own: EdgeSplinesSaid, seams: Sequence[_Seam], spline: str, site: Site) -> Joint:
    first = seams[0]
    lines = (
        ("Thickness of the spline", "tongue_thickness", own.thickness),
        ("Depth of the spline in either board", "edge_spline_depth", own.depth),
        ("Room beside the spline, at the bottom of both grooves", "tongue_room", None),
    )
    return replace(
        plain,
        contacts=tuple(_contacts(plain, seams, spline)),
        numbers=(
            ("spline thickness", round(first.across.size, 6)),
            ("spline width", round(2 * first.deep, 6)),
            ("groove depth", round(first.deep + first.room, 6)),
        ),
        operations=("groove", "strip"),
        tools=(*plain.tools, "marking gauge", "plough plane"),
        makes=(spline,),
        defaults=tuple(used(what, name, site.ruler) for what, name, given in lines if given is None),
    )
