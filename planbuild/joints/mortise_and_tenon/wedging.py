"""Wedges that spread a through tenon: kerfs, the flare of the mortise, and the wedge itself as a part.

The geometry, along the tenon from its shoulder to its tip.  Each kerf ends `wedge_stop` before the shoulder
plane, at its *bottom*.  From there the strip between a kerf and the edge of the tenon moves outward in a
straight slope, by nothing at the bottom and by `flare` at the far face of the post, and on at that slope to the
proud tip; strips between two kerfs stay straight.  The mortise opens by the same slope from the same plane.
What a kerf has opened to is the wedge, at every plane:

    wedge = kerf width + shift of the strips that bound it        (one strip; both if there is one kerf only)

so its thin end, at the bottom, is the kerf's width.  Driven home its thick end is flush with the tip.
The kerfs lie across the grain of the mortised part: the wedges press on its end grain and cannot split it.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from planbuild.core.geometry import TINY, Axis, Box, Face, Span1
from planbuild.joints.base import Site
from planbuild.joints.copies import carried
from planbuild.joints.faults import refuse
from planbuild.joints.mortise_and_tenon.fields import WedgesSaid
from planbuild.joints.mortise_and_tenon.sizes import Sizes, reaching
from planbuild.joints.proportions import length_rule, share_rule, used
from planbuild.joints.touching import plane_of
from planbuild.records.features import Kerf, Taper, Wedging
from planbuild.records.piece import Contact, Copy, Part, Stock


@dataclass(frozen=True)
class Spread:
    """How the tenon of one end is spread.  `bottom` is the plane of the kerf bottoms on the drawn copy."""

    sizes: Sizes
    wedging: Wedging
    stock: Stock
    bottom: float
    defaults: tuple[str, ...]

    @property
    def at_tip(self) -> float:
        """How far an outer strip has moved outward at the tip, mm."""
        face = self.sizes.end.face
        run = face.sign * (self.sizes.block.at(face) - self.bottom)
        return self.wedging.flare * run / (run - self.sizes.proud)


@dataclass(frozen=True)
class Slot:
    """The space of one wedge in the finished piece: `box` around it, `tip` the face of its thick end, `out` the face
    that slopes, or one of two.  As it stands."""

    box: Box
    tip: Face
    out: Face
    tenon: tuple[str, int]
    insert: Face


def spread(sizes: Sizes, said: WedgesSaid, wedge: str, site: Site) -> Spread | None:
    """Kerfs and flare for one tenon; None after reporting."""
    stock = site.words.stock(said.stock)
    usual = 1 if sizes.round else round(share_rule("wedge_count", site.ruler))
    count = site.words.count(said.count) if said.count else usual
    stop, width = length_rule("wedge_stop", site.ruler), length_rule("wedge_kerf", site.ruler)
    slope = site.words.slope(said.slope) if said.slope else None
    if stock is None or count is None or (said.slope and slope is None) or not _fits(sizes, said, count, width, stop, site):
        return None
    flare = length_rule("wedge_flare", site.ruler) if slope is None else slope * (sizes.end.depth - stop)
    depth = sizes.end.depth - stop + sizes.proud
    kerfs = tuple(Kerf(sizes.wide, plane, width, depth) for plane in _planes(sizes.section.along(sizes.wide), count))
    bottom = sizes.block.at(sizes.end.face) - sizes.end.face.sign * depth
    lines = [
        used("Kerfs stop before the shoulder", "wedge_stop", site.ruler),
        used("Width of the kerfs", "wedge_kerf", site.ruler),
    ]
    lines += [used("Flare of the mortise", "wedge_flare", site.ruler)] if slope is None else []
    lines += [] if said.count or sizes.round else [used("Two wedges for each tenon", "wedge_count", site.ruler)]
    return Spread(sizes, Wedging(kerfs, sizes.wide, flare, wedge), stock, bottom, tuple(lines))


def _planes(width: Span1, count: int) -> tuple[float, ...]:
    """Middle lines of the kerfs: in the middle, or a quarter of the tenon's width from each edge."""
    return (width.middle,) if count == 1 else (width.low + width.size / 4, width.high - width.size / 4)


def _fits(sizes: Sizes, said: WedgesSaid, count: int, kerf: float, stop: float, site: Site) -> bool:
    figure, span = site.ruler.plain, said.count.span if said.count else said.origin
    if count not in (1, 2) or (sizes.round and count == 2):
        what = "round tenon" if sizes.round else "tenon"
        refuse(site, "joint-wedge-count", span, f"{count} wedges for one {what}.", "1" if sizes.round else "1 or 2")
        return False
    strip, least = sizes.width / (2 * count) - kerf / 2, length_rule("wedge_strip", site.ruler)
    if strip < least - TINY:
        message = f"Kerfs leave strips of {figure(strip)} at the edges of a tenon {figure(sizes.width)} wide."
        refuse(site, "joint-wedge-strip", span, message, f"at least {figure(least)}", "Use one wedge, or a wider tenon.")
        return False
    if sizes.end.depth < 2 * stop - TINY:
        message = f'"{sizes.end.mate.id}" is {figure(sizes.end.depth)} thick: too thin to spread a tenon in.'
        refuse(site, "joint-wedge-thin", said.origin, message, f"at least {figure(2 * stop)}", "Leave the wedges out.")
        return False
    return True


# ---------------------------------------------------------------- the wedge as a part


def slots(spreads: list[Spread]) -> list[Slot]:
    """The space of every wedge of a joint: tenon part by part, copy by copy, end by end, the upper kerf first."""
    found = []
    for part in dict.fromkeys(each.sizes.end.board.id for each in spreads):
        ends = [each for each in spreads if each.sizes.end.board.id == part]
        for copy in range(len(ends[0].sizes.end.homes)):
            found += [slot for each in ends for slot in _of_copy(each, copy)]
    return found


def _of_copy(each: Spread, copy: int) -> list[Slot]:
    end, kerfs = each.sizes.end, each.wedging.kerfs
    motion, wide = end.board.copies[copy].motion, each.sizes.wide
    found = []
    for kerf in sorted(kerfs, key=lambda kerf: -kerf.plane):
        out = wide.high if kerf.plane >= each.sizes.section.along(wide).middle - TINY else wide.low
        box = _opened(each, kerf, out)
        insert = motion.face(end.face.opposite)
        found.append(Slot(motion.box(box), insert.opposite, motion.face(out), (end.board.id, copy), insert))
    return found


def _opened(each: Spread, kerf: Kerf, out: Face) -> Box:
    """The block around an opened kerf: it grows toward `out`, or both ways if it is the only one."""
    low = kerf.plane - kerf.width / 2 - (each.at_tip if out.sign < 0 or len(each.wedging.kerfs) == 1 else 0.0)
    high = kerf.plane + kerf.width / 2 + (each.at_tip if out.sign > 0 or len(each.wedging.kerfs) == 1 else 0.0)
    length = reaching(plane_of(each.sizes.block, each.sizes.end.face), each.sizes.end.face.opposite, kerf.depth)
    opened = length.with_span(kerf.across, Span1(low, high))
    if not each.sizes.round:
        return opened
    chord = math.sqrt(each.sizes.thickness**2 - kerf.width**2)  # as wide as the kerf is where it begins: inside the hole
    middle = opened.along(each.sizes.thick).middle
    return opened.with_span(each.sizes.thick, Span1(middle - chord / 2, middle + chord / 2))


def wedge_part(id: str, joint: str, spreads: list[Spread], site: Site) -> Part | None:
    """The wedge, drawn in the first slot, with a copy in each; None after reporting that they are not all alike."""
    places = slots(spreads)
    first, model = places[0], spreads[0]
    if any(_differs(first, each) for each in places) or any(each.stock.id != model.stock.id for each in spreads):
        span = model.sizes.end.span
        refuse(
            site,
            "joint-wedges-differ",
            span,
            "The tenons of this joint want wedges of different sizes.",
            "one size of wedge in a joint",
            "Write two joints.",
        )
        return None
    motions = [carried(first.box, (first.tip, first.out), each.box, (each.tip, each.out)) for each in places]
    (third,) = (axis for axis in Axis if axis not in (first.tip.axis, first.out.axis))
    return Part(
        id=id,
        mark="",
        name="wedge",
        origin=model.sizes.end.span,
        stock=model.stock.id,
        grain=first.tip.axis,
        face=first.out,
        edge=third.high,
        body=first.box,
        features=(_slope(joint, first, model),),
        copies=tuple(Copy(str(number), motion) for number, motion in enumerate(motions, start=1)),
        rough_length=site.practice.rough_length,
        rough_width=site.practice.rough_width,
        made_by=joint,
        note="Sizes are those of the wedge driven home; leave it longer at the thick end and saw it flush there.",
        why="its grain runs along it, so that it does not break when it is driven",
    )


def _slope(joint: str, first: Slot, model: Spread) -> Taper:
    kerf = model.wedging.kerfs[0]
    faces = (first.out,) if len(model.wedging.kerfs) > 1 else (first.out, first.out.opposite)
    return Taper(
        id=f"{joint}.slope",
        origin=model.sizes.end.span,
        joint=joint,
        why="its thin end starts in the kerf; its thick end spreads the tenon until it fills the flared mortise",
        faces=faces,
        end=first.tip.opposite,
        start=first.box.at(first.tip),
        leaving=((kerf.across, kerf.width),),
    )


def _differs(one: Slot, other: Slot) -> bool:
    third = [next(axis for axis in Axis if axis not in (slot.tip.axis, slot.out.axis)) for slot in (one, other)]
    mine = (one.box.size(one.tip.axis), one.box.size(one.out.axis), one.box.size(third[0]))
    its = (other.box.size(other.tip.axis), other.box.size(other.out.axis), other.box.size(third[1]))
    return any(abs(a - b) > TINY for a, b in zip(mine, its, strict=True))


def wedge_contacts(wedge: str, spreads: list[Spread], glue: bool) -> tuple[Contact, ...]:
    """Each wedge goes home in its kerf; its thin end closes on the bottom."""
    found = []
    for number, slot in enumerate(slots(spreads)):
        thin = spreads[0].wedging.kerfs[0].width
        bottom = plane_of(slot.box, slot.insert)
        both = len(spreads[0].wedging.kerfs) == 1
        inner, across = slot.box.at(slot.out.opposite), slot.out.axis
        middle = slot.box.along(across).middle
        low = middle - thin / 2 if both else min(inner, inner + slot.out.sign * thin)
        area = 2 * slot.box.volume / slot.box.size(across) if glue else 0.0
        contact = Contact(
            (wedge, number), slot.tenon, slot.insert.normal, bottom.with_span(across, Span1(low, low + thin)), 0.0, area
        )
        found.append(contact)
    return tuple(found)
