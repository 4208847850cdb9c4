"""Keyed through tenons (tusk tenons): the mortise for the key in the tenon, and the key as a part.

Along the tenon from its shoulder, `depth` being the thickness of the mate: the key's mortise begins a little inside the
mate's far face and ends in a wall that slopes with the key.  The key lies flat against the mate's far face and fills the
rest of the mortise; driven farther in it can only draw the shoulder tighter, for nothing stops it on the inner side.

The key goes in through the thickness of the tenon, from the top if that lies upright.
"""

from __future__ import annotations

from dataclasses import dataclass

from planbuild.core.geometry import TINY, Axis, Box, Face, Span1
from planbuild.joints.base import Site
from planbuild.joints.copies import carried
from planbuild.joints.faults import refuse, warn
from planbuild.joints.mortise_and_tenon.fields import TuskSaid
from planbuild.joints.mortise_and_tenon.sizes import Sizes, key_opening
from planbuild.joints.proportions import length_rule, rule, share_rule, used
from planbuild.records.features import Taper
from planbuild.records.piece import Contact, Copy, Part, Stock
from planbuild.records.tenon_work import Keyway


@dataclass(frozen=True)
class Keyed:
    """A tenon with the mortise for its key; `key` is the key's body on the drawn copy, `thin` its width at the tip."""

    sizes: Sizes
    keyway: Keyway
    stock: Stock
    key: Box
    thin: float
    defaults: tuple[str, ...]


@dataclass(frozen=True)
class _Slot:
    """The key of one standing tenon: `box` around it, `tip` its thin end, `out` the face that slopes."""

    box: Box
    tip: Face
    out: Face
    tenon: tuple[str, int]
    mate: tuple[str, int]


def keyed(sizes: Sizes, said: TuskSaid, key: str, site: Site) -> Keyed | None:
    """The mortise and the key of one tenon; None after reporting."""
    stock = site.words.stock(said.wedge)
    slope = site.words.slope(said.slope) if said.slope else share_rule("key_slope", site.ruler)
    opening = key_opening(said, sizes.thickness, site)
    wanted = site.words.length(said.length) if said.length else share_rule("key_length", site.ruler) * sizes.thickness
    width = site.words.length(said.thickness) if said.thickness else (stock.thickness if stock else None)
    if stock is None or slope is None or opening is None or wanted is None or width is None:
        return None
    inside = length_rule("key_inside", site.ruler)
    along = sizes.section.along(sizes.wide)
    keyway = Keyway(
        _driven_from(sizes), sizes.wide, along.middle, width, sizes.end.depth - inside, opening, slope, key
    )
    head = (wanted - sizes.thickness) / 2
    thin = opening - inside - slope * (sizes.thickness + head)
    if not _sound(sizes, keyway, said, head, thin, site):
        return None
    return Keyed(sizes, keyway, stock, _key(sizes, keyway, head, opening - inside + slope * head), thin, _lines(said, site))


def _driven_from(sizes: Sizes) -> Face:
    """From above, or from the face side: where a hammer comes to."""
    board = sizes.end.board
    return board.face if sizes.thick is board.face.axis and sizes.thick is not Axis.BOTTOM_TOP else sizes.thick.high


def _key(sizes: Sizes, keyway: Keyway, head: float, broad: float) -> Box:
    """The box around the key: as broad as at its head, and as much longer than the tenon is thick at either end."""
    end, block = sizes.end.face, sizes.block
    inner = block.at(end.opposite) + end.sign * sizes.end.depth
    along = sorted((inner, inner + end.sign * broad))
    through = block.along(sizes.thick)
    spans = {end.axis: Span1(along[0], along[1]), sizes.wide: keyway.walls}
    return Box.of({**spans, sizes.thick: Span1(through.low - head, through.high + head)})


def _sound(sizes: Sizes, keyway: Keyway, said: TuskSaid, head: float, thin: float, site: Site) -> bool:
    """Reports `joint-key` for a key that cannot be, `joint-proportion` (warning) for wood that will break."""
    figure, beyond = site.ruler.plain, sizes.length - keyway.start - keyway.length
    if beyond <= TINY or head <= TINY or thin <= TINY:
        message, expected = _no_key(sizes, keyway, beyond, head, site)
        refuse(site, "joint-key", said.origin, message, expected, "Let the tenon stand farther proud, or say another key.")
        return False
    least, most = share_rule("key_beyond_least", site.ruler) * keyway.length, share_rule("key_widest", site.ruler) * sizes.width
    if beyond < least - TINY:
        message = f"{figure(beyond)} of wood stands beyond the key, whose mortise is {figure(keyway.length)} long."
        source = rule("key_beyond_least", site.ruler).source
        warn(site, "joint-proportion", said.origin, message, f"at least {figure(least)}", "It shears off when driven.", source)
    if keyway.width > most + TINY:
        message = f"A key {figure(keyway.width)} thick takes more than half of a tenon {figure(sizes.width)} wide."
        warn(site, "joint-proportion", said.origin, message, f"at most {figure(most)}", "", rule("key_widest", site.ruler).source)
    return True


def _no_key(sizes: Sizes, keyway: Keyway, beyond: float, head: float, site: Site) -> tuple[str, str]:
    figure = site.ruler.plain
    if beyond <= TINY:
        room = f"more than {figure(keyway.start + keyway.length - sizes.end.depth)} proud"
        return f"The tenon stands {figure(sizes.proud)} proud: too little for its key.", room
    if head <= TINY:
        return "The key is no longer than the tenon is thick.", f"more than {figure(sizes.thickness)}"
    return "The key tapers to nothing before its tip.", "a flatter slope, a shorter key or a longer mortise"


def _lines(said: TuskSaid, site: Site) -> tuple[str, ...]:
    """The rules that were used."""
    given = (
        (said.slope, "Slope of the key", "key_slope"),
        (said.opening, "The key's mortise is as long as the tenon is thick", "key_opening"),
        (said.length, "Length of the key by the thickness of the tenon", "key_length"),
        (None, "The key's mortise begins inside the far face of the mate", "key_inside"),
    )
    return tuple(used(what, name, site.ruler) for value, what, name in given if not value)


# ---------------------------------------------------------------- the key as a part


def _slots(keys: list[Keyed]) -> list[_Slot]:
    """The place of every key of a joint: tenon by tenon, copy by copy."""
    found = []
    for each in keys:
        end = each.sizes.end
        for copy, home in enumerate(end.homes):
            motion = end.board.copies[copy].motion
            box, tip = motion.box(each.key), motion.face(each.keyway.face.opposite)
            found.append(_Slot(box, tip, motion.face(end.face), (end.board.id, copy), (home.board.id, home.copy)))
    return found


def key_part(id: str, joint: str, keys: list[Keyed], site: Site) -> Part | None:
    """The key, drawn in the first tenon, with a copy in each; None after reporting that they are not all alike."""
    places, model = _slots(keys), keys[0]
    first = places[0]
    if any(_differs(model, each) for each in keys):
        message, hint = "The tenons of this joint want keys of different sizes.", "Write two joints."
        refuse(site, "joint-wedges-differ", model.sizes.end.span, message, "one size of key in a joint", hint)
        return None
    motions = [carried(first.box, (first.tip, first.out), each.box, (each.tip, each.out)) for each in places]
    across = next(axis for axis in Axis if axis not in (first.tip.axis, first.out.axis))
    return Part(
        id=id,
        mark="",
        name="key",
        origin=model.sizes.end.span,
        stock=model.stock.id,
        grain=first.tip.axis,
        face=across.high,
        edge=first.out,
        body=first.box,
        features=(_slope(joint, first, model),),
        copies=tuple(Copy(str(number), motion) for number, motion in enumerate(motions, start=1)),
        rough_length=site.practice.rough_length,
        rough_width=site.practice.rough_width,
        made_by=joint,
        note="One edge is straight and lies against the mate; the other slopes like the outer wall of its mortise.",
        why="its grain runs along it, so that it does not break when it is driven",
    )


def _slope(joint: str, first: _Slot, model: Keyed) -> Taper:
    return Taper(
        id=f"{joint}.slope",
        origin=model.sizes.end.span,
        joint=joint,
        why="driven in, it draws the shoulder against the mate, and a tap from below frees it again",
        faces=(first.out,),
        end=first.tip,
        start=first.box.at(first.tip.opposite),
        leaving=((first.out.axis, model.thin),),
    )


def _differs(one: Keyed, other: Keyed) -> bool:
    mine = (one.thin, *(one.key.size(axis) for axis in (one.sizes.end.face.axis, one.sizes.thick, one.sizes.wide)))
    its = (other.thin, *(other.key.size(axis) for axis in (other.sizes.end.face.axis, other.sizes.thick, other.sizes.wide)))
    return one.stock.id != other.stock.id or any(abs(a - b) > TINY for a, b in zip(mine, its, strict=True))


def key_contacts(key: str, keys: list[Keyed], site: Site) -> tuple[Contact, ...]:
    """Each key lies flat against the far face of the mate, and with its slope against the wall in the tenon (there is
    no plane square to anything: the box around that wall stands for it)."""
    found = []
    for number, slot in enumerate(_slots(keys)):
        way, mate = slot.tip.normal, site.boards[slot.mate[0]].standing(slot.mate[1])
        back = slot.box.at(slot.out.opposite)
        flat = slot.box.with_span(slot.out.axis, Span1(back, back))
        on_mate = flat.with_span(slot.tip.axis, flat.along(slot.tip.axis).meet(mate.along(slot.tip.axis)))
        found.append(Contact((key, number), slot.tenon, way, slot.box, 0.0, 0.0))
        found.append(Contact((key, number), slot.mate, way, on_mate, 0.0, 0.0))
    return tuple(found)
