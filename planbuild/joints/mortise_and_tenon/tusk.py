"""Keyed through tenons (tusk tenons): the mortise for the key in the tenon, and the key as a part.

Along the tenon from its shoulder, `depth` being the thickness of the mate: the key's mortise begins a little inside the
mate's far face and ends in a wall that slopes with the key.  The key lies flat against the mate's far face and fills the
rest of the mortise; driven farther in it can only draw the shoulder tighter, for nothing stops it on the inner side.

The key goes in through the thickness of the board, from the top if that lies upright.  A tenon that is turned about its own
length takes its key along: key, mortise and far face of the mate are still square to it.
"""

from __future__ import annotations

from dataclasses import dataclass

from planbuild.core.geometry import TINY, Axis, Box, Face, Motion, Span1, Vec
from planbuild.core.poses import Pose, around, common, rim
from planbuild.joints.base import Board, Site
from planbuild.joints.copies import carried
from planbuild.joints.faults import refuse, warn
from planbuild.joints.mortise_and_tenon.fields import TuskSaid
from planbuild.joints.mortise_and_tenon.sizes import Sizes, key_opening
from planbuild.joints.proportions import length_rule, rule, share_rule, used
from planbuild.joints.touching import Touch
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

    @property
    def tip(self) -> Face:
        """The thin end of the key."""
        return self.keyway.face.opposite

    @property
    def out(self) -> Face:
        """The face of the key that slopes."""
        return self.sizes.end.face

    @property
    def figures(self) -> tuple[float, ...]:
        """The sizes of the key."""
        return self.thin, *(self.key.size(axis) for axis in (self.out.axis, self.tip.axis, self.keyway.across))


@dataclass(frozen=True)
class _Slot:
    """The key of one standing tenon, `stands` being the way of that copy of the tenon part."""

    keyed: Keyed
    stands: Pose
    tenon: tuple[str, int]
    home: Touch

    @property
    def way(self) -> Vec:
        """In which the key is driven."""
        x, y, z = (round(part, 12) + 0.0 for part in self.stands.direction(self.keyed.tip.normal))
        return x, y, z


def keyed(sizes: Sizes, said: TuskSaid, key: str, site: Site) -> Keyed | None:
    """The mortise and the key of one tenon; None after reporting."""
    stock = site.words.stock(said.wedge)
    slope = site.words.slope(said.slope) if said.slope else share_rule("key_slope", site.ruler)
    through = sizes.section.size(sizes.end.board.face.axis)
    opening = key_opening(said, through, site)
    wanted = site.words.length(said.length) if said.length else share_rule("tusk_length", site.ruler) * through
    width = site.words.length(said.thickness) if said.thickness else (stock.thickness if stock else None)
    if stock is None or slope is None or opening is None or wanted is None or width is None:
        return None
    inside = length_rule("key_inside", site.ruler)
    across = sizes.end.board.width_axis
    middle = sizes.section.along(across).middle
    keyway = Keyway(_driven_from(sizes.end.board), across, middle, width, sizes.end.depth - inside, opening, slope, key)
    head = (wanted - through) / 2
    thin = opening - inside - slope * (through + head)
    if not _sound(sizes, keyway, said, head, thin, site):
        return None
    return Keyed(sizes, keyway, stock, _key(sizes, keyway, head, opening - inside + slope * head), thin, _lines(said, site))


def _driven_from(board: Board) -> Face:
    """From above, or from the face side: where a hammer comes to."""
    return Face.TOP if board.face.axis is Axis.BOTTOM_TOP else board.face


def _key(sizes: Sizes, keyway: Keyway, head: float, broad: float) -> Box:
    """The box around the key: as broad as at its head, and as much longer than the tenon is thick at either end."""
    end, block = sizes.end.face, sizes.block
    inner = block.at(end.opposite) + end.sign * sizes.end.depth
    along = sorted((inner, inner + end.sign * broad))
    through = block.along(keyway.face.axis)
    spans = {end.axis: Span1(along[0], along[1]), keyway.across: keyway.walls}
    return Box.of({**spans, keyway.face.axis: Span1(through.low - head, through.high + head)})


def _sound(sizes: Sizes, keyway: Keyway, said: TuskSaid, head: float, thin: float, site: Site) -> bool:
    """Reports `joint-key` for a key that cannot be, `joint-proportion` (warning) for wood that will break."""
    figure, beyond = site.ruler.plain, sizes.length - keyway.start - keyway.length
    if beyond <= TINY or head <= TINY or thin <= TINY:
        message, expected = _no_key(sizes, keyway, beyond, head, site)
        refuse(site, "joint-key", said.origin, message, expected, "Let the tenon stand farther proud, or say another key.")
        return False
    wide = sizes.section.size(keyway.across)
    least, most = share_rule("key_beyond_least", site.ruler) * keyway.length, share_rule("key_widest", site.ruler) * wide
    if beyond < least - TINY:
        message = f"{figure(beyond)} of wood stands beyond the key, whose mortise is {figure(keyway.length)} long."
        source = rule("key_beyond_least", site.ruler).source
        warn(site, "joint-proportion", said.origin, message, f"at least {figure(least)}", "It shears off when driven.", source)
    if keyway.width > most + TINY:
        message = f"A key {figure(keyway.width)} thick takes more than half of a tenon {figure(wide)} wide."
        warn(site, "joint-proportion", said.origin, message, f"at most {figure(most)}", "", rule("key_widest", site.ruler).source)
    return True


def _no_key(sizes: Sizes, keyway: Keyway, beyond: float, head: float, site: Site) -> tuple[str, str]:
    figure = site.ruler.plain
    if beyond <= TINY:
        room = f"more than {figure(keyway.start + keyway.length - sizes.end.depth)} proud"
        return f"The tenon stands {figure(sizes.proud)} proud: too little for its key.", room
    if head <= TINY:
        return "The key is no longer than the tenon is thick.", f"more than {figure(sizes.section.size(keyway.face.axis))}"
    return "The key tapers to nothing before its tip.", "a flatter slope, a shorter key or a longer mortise"


def _lines(said: TuskSaid, site: Site) -> tuple[str, ...]:
    """The rules that were used."""
    given = (
        (said.slope, "Slope of the key", "key_slope"),
        (said.opening, "The key's mortise is as long as the tenon is thick", "key_opening"),
        (said.length, "Length of the key by the thickness of the tenon", "tusk_length"),
        (None, "The key's mortise begins inside the far face of the mate", "key_inside"),
    )
    return tuple(used(what, name, site.ruler) for value, what, name in given if not value)


# ---------------------------------------------------------------- the key as a part


def _slots(keys: list[Keyed]) -> list[_Slot]:
    """The place of every key of a joint: tenon by tenon, copy by copy."""
    ends = [(each, each.sizes.end) for each in keys]
    return [
        _Slot(each, end.board.stands(copy), (end.board.id, copy), home)
        for each, end in ends
        for copy, home in enumerate(end.homes)
    ]


def key_part(id: str, joint: str, keys: list[Keyed], site: Site) -> Part | None:
    """The key, drawn in the first tenon, with a copy in each; None after reporting that they are not all alike."""
    model = keys[0]
    motions = [] if any(_differs(model, each) for each in keys) else [_carried(model, slot) for slot in _slots(keys)]
    if not motions or not all(motions):
        differ = "stand at angles that no quarter turn brings together" if motions else "want keys of different sizes"
        message, hint = f"The tenons of this joint {differ}.", "Write two joints."
        refuse(site, "joint-wedges-differ", model.sizes.end.span, message, "one size of key in a joint", hint)
        return None
    copies = [Copy(str(number), motion) for number, motion in enumerate(motions, start=1) if motion]
    return Part(
        id=id,
        mark="",
        name="key",
        origin=model.sizes.end.span,
        stock=model.stock.id,
        grain=model.tip.axis,
        face=model.keyway.across.high,
        edge=model.out,
        body=model.key,
        features=(_slope(joint, model),),
        copies=tuple(copies),
        rough_length=site.practice.rough_length,
        rough_width=site.practice.rough_width,
        made_by=joint,
        pose=model.sizes.end.board.pose,
        note="One edge is straight and lies against the mate; the other slopes like the outer wall of its mortise.",
        why="its grain runs along it, so that it does not break when it is driven",
    )


def _carried(model: Keyed, slot: _Slot) -> Motion | None:
    """From the drawn key, as it stands, to another; None if that is no quarter turn.  Halves of a key are alike, so one
    that would be of the other hand is put in over."""
    each, pose = slot.keyed, model.sizes.end.board.pose or Pose()
    own = carried(model.key, (model.tip, model.out), each.key, (each.tip, each.out))
    over = _put_over(each.key, each.keyway.across)
    found = [slot.stands.after(Pose.of(way)).after(pose.inverse).quarter_turned for way in (own, over.after(own))]
    return min((way for way in found if way), key=lambda way: way.mirrors, default=None)


def _put_over(key: Box, across: Axis) -> Motion:
    """Mirrored about the middle of its thickness."""
    sx, sy, sz = (-1 if axis is across else 1 for axis in Axis)
    x, y, z = (2 * key.along(axis).middle if axis is across else 0.0 for axis in Axis)
    return Motion((sx, sy, sz), (x, y, z))


def _slope(joint: str, model: Keyed) -> Taper:
    return Taper(
        id=f"{joint}.slope",
        origin=model.sizes.end.span,
        joint=joint,
        why="driven in, it draws the shoulder against the mate, and a tap from below frees it again",
        faces=(model.out,),
        end=model.tip,
        start=model.key.at(model.tip.opposite),
        leaving=((model.out.axis, model.thin),),
    )


def _differs(one: Keyed, other: Keyed) -> bool:
    return one.stock.id != other.stock.id or any(abs(a - b) > TINY for a, b in zip(one.figures, other.figures, strict=True))


def key_contacts(key: str, keys: list[Keyed]) -> tuple[Contact, ...]:
    """Each key lies flat against the far face of the mate, and with its slope against the wall in the tenon (there is
    no plane square to anything: the box around that wall stands for it)."""
    found = []
    for number, slot in enumerate(_slots(keys)):
        box = slot.stands.around(slot.keyed.key)
        found.append(Contact((key, number), slot.tenon, slot.way, box, 0.0, 0.0))
        found.append(_on_mate((key, number), slot))
    return tuple(found)


def _on_mate(key: tuple[str, int], slot: _Slot) -> Contact:
    """Where the straight edge of the key lies on the mate: its outline as far as it does not stand over."""
    home, flat = slot.home, slot.keyed.out.opposite
    far = home.board.copies[home.copy].motion.inverse.face(home.face.opposite)
    own = [slot.stands.point(corner) for corner in rim(slot.keyed.key, flat)]
    outline = common(own, home.board.outline(far, home.copy), slot.stands.direction(flat.normal))
    plane = around(outline or own)
    square = slot.keyed.sizes.end.board.pose is None
    return Contact(key, (home.board.id, home.copy), slot.way, plane, 0.0, 0.0, outline=() if square else tuple(outline))
