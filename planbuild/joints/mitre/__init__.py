"""Mitre: two parts cut on the slant where they share a corner, so that neither shows its end; the glue lies in the slant.

The cut runs from the outer corner to the inner one, so parts of unlike width meet at unlike angles.  Bare it is end
grain on end grain; a spline or keys give it long grain.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import combinations, product
from typing import ClassVar

from planbuild.core.geometry import TINY
from planbuild.joints.bars import Bar, that_overlap
from planbuild.joints.base import Chosen, Family, Joined, Site
from planbuild.joints.commons import Commons, commons
from planbuild.joints.copies import settled
from planbuild.joints.corners import Corner, corners, say_no_corner
from planbuild.joints.faults import refuse, warn
from planbuild.joints.mitre.cutting import cuts, halves, length, outline
from planbuild.joints.mitre.fields import MitreSaid
from planbuild.joints.mitre.sizes import filling_of
from planbuild.joints.mitre.slots import Filling, contacts, part_of
from planbuild.records.design import JointSaid
from planbuild.records.piece import Contact, Joint

ANGLE = 0.05
"""Degrees; angles nearer than this are the same on a saw."""


class Mitre:
    """The kind: every corner at which two of the named parts share wood."""

    name = "mitre"
    family = Family.SHARING
    said: ClassVar[type[JointSaid]] = MitreSaid

    def join(self, id: str, said: MitreSaid, site: Site) -> Joined | None:
        """Reports `joint-wrong-family`, `joint-corner`, `joint-mitre-flush`, `joint-mitre-angle`, `joint-mitre-both`,
        `joint-mitres-differ`, `joint-mitre-bare` (warning), and what `filling_of` and `settled` report."""
        common = commons(said, self.name, glued=True, site=site)
        found = _corners(said, site)
        if common is None or not found or not _sound(found, said, site):
            return None
        filled = filling_of(id, said, found, site)
        if (said.spline or said.keys) and filled is None:
            return None
        filling, defaults = filled or (None, ())
        why = said.why.text if said.why else ""
        struck = [cut for corner in found for cut in cuts(id, corner, why)]
        struck += filling.struck(id) if filling else ()
        _tell_bare(said, common, filling, site)
        makes = (part_of(filling, id, site),) if filling else ()
        return Joined(_told(id, said, common, found, filling, defaults), settled(id, struck, site), makes)


# ---------------------------------------------------------------- where they meet


def _corners(said: MitreSaid, site: Site) -> list[Corner] | None:
    chosen = [site.words.part(each) for each in said.parts]
    if any(each is None for each in chosen):
        return None
    named: Sequence[Chosen] = [each for each in chosen if each]
    if len(named) < 2:
        refuse(site, "joint-corner", said.parts[0].span, "A mitre has two parts.", "two or more parts")
        return None
    bars = [[Bar(each.board, copy, each.span) for copy in each.copies] for each in named]
    pairs = that_overlap(pair for some, others in combinations(bars, 2) for pair in product(some, others))
    if not pairs:
        say_no_corner(named[0], named[1], Mitre.name, site)
        return None
    return corners(pairs, Mitre.name, site)


def _sound(found: Sequence[Corner], said: MitreSaid, site: Site) -> bool:
    return all(_flush(each, site) and _cut_once(each, site) and _as_asked(each, said, site) for each in found)


def _flush(corner: Corner, site: Site) -> bool:
    """Both as wide, or as thick, along the edge of the corner: else one would be cut where nothing meets it."""
    one, other, across = corner.one, corner.other, corner.across
    if all(abs(one.body.at(side) - other.body.at(side)) < TINY for side in (across.low, across.high)):
        return True
    message = f'"{one.board.id}" and "{other.board.id}" do not lie flush with each other {across.words}.'
    hint = "Give both the same size there, and the same faces."
    refuse(site, "joint-mitre-flush", one.span, message, "two parts that lie flush on both sides of the corner", hint)
    return False


def _cut_once(corner: Corner, site: Site) -> bool:
    """An end that is cut on the slant by its own word is not mitred."""
    for half in halves(corner):
        own = half.bar.board.copies[half.bar.copy].motion.inverse.face(half.end)
        if own in half.bar.board.end_cuts:
            message = f'The {own.value} end of "{half.bar.board.id}" is already cut on the slant.'
            refuse(site, "joint-mitre-flush", half.bar.span, message, "a square end, which the mitre cuts")
            return False
    return True


def _as_asked(corner: Corner, said: MitreSaid, site: Site) -> bool:
    """An angle that is said is what the corner gives; another would leave one of them a blunt end."""
    if said.angle is None:
        return True
    slope = site.words.slope(said.angle)
    if slope is None:
        return False
    comes, asked = abs(halves(corner)[0].slope), math.degrees(math.atan(slope))
    if abs(comes - asked) < ANGLE:
        return True
    message = f'The corner of "{corner.one.board.id}" and "{corner.other.board.id}" gives {comes:.1f} degrees, not {asked:.1f}.'
    hint = "Leave `angle` out, or change the widths of the parts."
    refuse(site, "joint-mitre-angle", said.angle.span, message, f"{comes:.1f} deg, from the outer to the inner corner", hint)
    return False


def _tell_bare(said: MitreSaid, common: Commons, filling: Filling | None, site: Site) -> None:
    if common.glue and filling is None:
        message = "A bare mitre is glued end grain to end grain, which holds little."
        hint = "Add `keys: {count: 3}` or `spline: {width: 1/8}`."
        warn(site, "joint-mitre-bare", said.kind.span, message, "a spline or keys across it", hint, source="common practice")


# ---------------------------------------------------------------- what is told


def _contact(corner: Corner, filling: Filling | None, glue: bool) -> Contact:
    """The first goes home along the other: so a side that closes a case moves onto both its corners at once."""
    rim = outline(corner)
    area = length(corner) * corner.shared.size(corner.across) - (filling.area(corner) if filling else 0.0)
    insert = corner.far.opposite.normal
    key = corner.one.key, corner.other.key
    return Contact(*key, insert, corner.shared, 0.0, area if glue else 0.0, face_glued=True, outline=rim)


def _told(
    id: str, said: MitreSaid, common: Commons, found: Sequence[Corner], filling: Filling | None, defaults: tuple[str, ...]
) -> Joint:
    first, second = halves(found[0])
    angles = dict.fromkeys((f"{abs(first.slope):.4g}°", f"{abs(second.slope):.4g}°"))
    numbers: list[tuple[str, float | int | str]] = [("angle of the cut, from square", " and ".join(angles))]
    numbers.append(("length of the mitre", round(length(found[0]), 6)))
    numbers += _numbers(filling, found[0]) if filling else []
    between = [_contact(each, filling, common.glue) for each in found]
    return Joint(
        id=id,
        kind=Mitre.name,
        name=common.name,
        origin=said.origin,
        contacts=(*between, *(contacts(filling, common.glue) if filling else ())),
        glue=common.glue,
        fit=common.fit,
        numbers=tuple(numbers),
        operations=("mitre",),
        tools=("mitre saw", "shooting board", "mitre square"),
        makes=(filling.part,) if filling else (),
        defaults=defaults,
        note=common.note,
        why=common.why,
    )


def _numbers(filling: Filling, corner: Corner) -> list[tuple[str, float | int | str]]:
    word = "spline" if filling.deep is not None else "key"
    each = sum(other is corner for other, _ in filling.spans)
    found: list[tuple[str, float | int | str]] = [("keys at each corner", each)] if filling.deep is None else []
    deep = round(filling.stop if filling.deep is None else filling.deep, 6)
    return [*found, (f"{word} thickness", round(filling.thickness, 6)), (f"depth of the {word} slot", deep)]
