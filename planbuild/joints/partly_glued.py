"""Joints that are glued only over a part of their seam, so that wide wood can move beside the glue."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from planbuild.core.geometry import TINY, Axis, Box
from planbuild.joints.base import Joined, Site
from planbuild.joints.commons import glued_part
from planbuild.joints.faults import refuse
from planbuild.joints.proportions import share_rule, used
from planbuild.records.design import GluedPartSaid, JointSaid, Said
from planbuild.records.piece import Contact, GluedPart


def partly_glued(cut: Joined, said: JointSaid, site: Site) -> Joined | None:
    """The joint with glue only where the design wants it; None after reporting `joint-glue-part`.

    Only what is glued counts: the area that holds, and the width over which the grains are held crosswise.  The contacts
    of wedges, keys and pegs are glued as they are.
    """
    wanted = glued_part(said)
    if wanted is None or not cut.joint.glue:
        return cut
    made = {part.id for part in cut.makes}
    seams = [each for each in cut.joint.contacts if each.a[0] not in made]
    parts = [_part(each, wanted, site) for each in seams]
    if not all(parts):
        return None
    by_seam = {id(seam): part for seam, part in zip(seams, parts, strict=True) if part}
    contacts = tuple(_glued(each, by_seam[id(each)]) if id(each) in by_seam else each for each in cut.joint.contacts)
    whole = by_seam[id(seams[0])]
    lines = (used("Share of the seam that is glued", "glued_middle", site.ruler),) if whole.middle else ()
    joint = replace(cut.joint, contacts=contacts, glued_part=whole, defaults=(*cut.joint.defaults, *lines))
    return replace(cut, joint=replace(joint, numbers=(*joint.numbers, *_numbers([each for each in parts if each]))))


def _long(shoulder: Box) -> Axis:
    """The direction in which the seam runs."""
    return max(Axis, key=lambda axis: round(shoulder.size(axis), 6))


def _part(contact: Contact, wanted: GluedPartSaid | Said, site: Site) -> GluedPart | None:
    axis = _long(contact.shoulder)
    long = contact.shoulder.size(axis)
    if isinstance(wanted, Said):
        glued = long * share_rule("glued_middle", site.ruler)
        return GluedPart(axis, (long - glued) / 2, (long + glued) / 2, middle=True)
    zero = wanted.start.text == "0"
    start, stop = 0.0 if zero else site.words.length(wanted.start), site.words.length(wanted.stop)
    if start is None or stop is None:
        return None
    if not start < stop <= long + TINY:
        figure = site.ruler.plain
        message = f"Glue from {figure(start)} to {figure(stop)} does not lie on a seam {figure(long)} long."
        refuse(site, "joint-glue-part", wanted.stop.span, message, f"more than {figure(start)}, at most {figure(long)}")
        return None
    return GluedPart(axis, start, stop)


def _glued(contact: Contact, part: GluedPart) -> Contact:
    """The crossing is counted along the seam if it is wider than the seam is across."""
    size = part.stop - part.start
    long, across = contact.shoulder.size(part.axis), sorted(contact.shoulder.size(axis) for axis in Axis)[1]
    crossed = min(contact.cross_grain, size) if contact.cross_grain > across + TINY else contact.cross_grain
    return replace(contact, glue_area=contact.glue_area * size / long, cross_grain=crossed)


def _numbers(parts: Sequence[GluedPart]) -> tuple[tuple[str, float], ...]:
    """From where to where along the seam; of seams that are not alike only what is said alike."""
    spans = {(round(each.start, 6), round(each.stop, 6)) for each in parts}
    if len(spans) > 1:
        return ()
    ((start, stop),) = spans
    low = parts[0].axis.low.value
    begins = ((f"glue begins, from the {low} end", start),) if start else ()
    return (*begins, (f"glue ends, from the {low} end", stop))
