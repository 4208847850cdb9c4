"""Pocket screws: a part drawn to its mate by screws that stand in slanted pockets, bored with a stepped bit.

The screws come out in the middle of the thickness; the mate is not drilled, since such screws cut their own thread.
Lengths in mm.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import ClassVar

from planbuild.core.diagnostics import Span
from planbuild.core.geometry import TINY, Axis, Box, Face, Vec
from planbuild.core.poses import along
from planbuild.joints.base import Board, Chosen, Family, Joined, Site
from planbuild.joints.commons import Commons, commons
from planbuild.joints.copies import Struck, settled
from planbuild.joints.faults import apart, refuse
from planbuild.joints.fixing import Number, screw_spacing
from planbuild.joints.lying import MOVE, lying_on_all
from planbuild.joints.proportions import length_rule, rule, share_rule, used
from planbuild.joints.screw_checks import MOST, refuse_fast, warn_of_few
from planbuild.joints.screw_fields import span_of_item
from planbuild.joints.screw_rows import Place, Seam, seam_of
from planbuild.joints.screws import Screw, depth_of, drill_words, screw_into, screw_words
from planbuild.joints.spacing import Spacing, find_spacing
from planbuild.records.design import ItemSaid, JointSaid, Said
from planbuild.records.features import Mate
from planbuild.records.piece import Contact, Joint
from planbuild.records.pockets import Pocket


class PocketScrewsSaid(JointSaid):
    """`part` is drawn to every one of `to`; its pockets are in `face` (its own word), else in the one behind its face side."""

    part: Said
    to: tuple[Said, ...]
    item: Said | ItemSaid
    count: Said | None = None
    spacing: Said | None = None
    edge: Said | None = None
    face: Said | None = None


@dataclass(frozen=True)
class _Bit:
    """The stepped bit and how it is set: angle to the face in degrees, both diameters, and the wood left under the head."""

    angle: float
    width: float
    tip: float
    shoulder: float

    @property
    def sin(self) -> float:
        return math.sin(math.radians(self.angle))

    @property
    def cos(self) -> float:
        return math.cos(math.radians(self.angle))


@dataclass(frozen=True)
class _Set:
    """One screw in its place, its pocket, and how deep it stands in the mate along its own way."""

    place: Place
    pocket: Pocket
    depth: float


class PocketScrews:
    """The kind."""

    name = "pocket screws"
    family = Family.MEETING
    said: ClassVar[type[JointSaid]] = PocketScrewsSaid

    def join(self, id: str, said: PocketScrewsSaid, site: Site) -> Joined | None:
        """Reports `joint-no-mate`, `joint-pocket-face`, `joint-pocket-screw`, `joint-pocket-thin`, `joint-screw`,
        `joint-screw-gauge`, `joint-spacing`, `hardware-screw-long`, `joint-screw-edge`, `joint-cross-grain`."""
        common = commons(said, self.name, glued=False, site=site)
        part = site.words.part(said.part)
        contacts = lying_on_all(part, said.to, site, MOVE) if part else None
        face = _face(part, said, site) if part else None
        if common is None or part is None or not contacts or face is None:
            return None
        span = span_of_item(said.item).span
        seams = [seam_of(each, True, span, site.boards) for each in contacts]
        item, row = site.words.item(said.item, id), _row(said, site)
        screw = screw_into(item, part.board.stock, span, site) if item else None
        bit = _bit(part.board, screw, span, site) if screw and _suits(screw, span, site) else None
        if screw is None or bit is None or row is None or not _lie_so(seams, part, site):
            return None
        sets = _all_sets(id, seams, face, row, screw, bit, site)
        if not sets or refuse_fast([each.place for each in sets], span, site):
            return None
        warn_of_few(seams, [each.place for each in sets], common.glue, site)
        return _joined(id, said, common, contacts, screw, bit, row, sets, site)


# ---------------------------------------------------------------- deciding


def _row(said: PocketScrewsSaid, site: Site) -> Spacing | None:
    plain, default = screw_spacing(site)
    edge = site.words.length(said.edge) if said.edge else plain.corner
    if edge is None:
        return None
    plain = replace(plain, corner=edge, from_ends=said.edge is not None)
    return find_spacing(said.spacing, said.count, plain, default, "screws", site)


def _face(part: Chosen, said: PocketScrewsSaid, site: Site) -> Face | None:
    """The own face in which the pockets are; None after reporting `joint-pocket-face`."""
    hidden = part.board.face.opposite
    if said.face is None:
        return hidden
    pair = (hidden.axis.low, hidden.axis.high)
    found = next((each for each in pair if each.value == said.face.text), None)
    if found is None:
        expected = f"{pair[0].value} or {pair[1].value}"
        message = f'Pockets are bored into a broad face of "{part.board.id}", and `{said.face.text}` is none.'
        refuse(site, "joint-pocket-face", said.face.span, message, expected)
    return found


def _lie_so(seams: Sequence[Seam], part: Chosen, site: Site) -> bool:
    """False after reporting `joint-pocket-face` for a part that lies on its mate with its broad face."""
    for seam in seams:
        if seam.outer.board.copies[seam.outer.copy].motion.axis(part.board.face.axis) is seam.way.axis:
            message = f'"{part.board.id}" lies on "{seam.inner.board.id}" with its broad face: no pocket comes out there.'
            expected = "a part whose end or edge meets the other part"
            refuse(site, "joint-pocket-face", part.span, message, expected, "Use `kind: screws`.")
            return False
    return True


def _suits(screw: Screw, span: Span, site: Site) -> bool:
    """False after reporting `joint-pocket-screw`: the head must rest on the step, the shank go through the narrow hole."""
    wide, tip, figure = length_rule("pocket_width", site.ruler), length_rule("pocket_tip", site.ruler), screw_words(screw.gauge)
    wrong = ""
    if screw.flat:
        wrong = "A flat head wedges the step of its pocket apart."
    elif screw.head > wide + TINY:
        wrong = f"The head of a {figure} screw is wider than a pocket of {site.ruler.plain(wide)}."
    elif screw.head < tip + 2 * length_rule("pocket_ledge", site.ruler) - TINY:
        wrong = f"The head of a {figure} screw is so small that it is drawn into its hole."
    if wrong:
        expected = "a screw with a pan or washer head, No. 6 to No. 10 (3.5 to 4.5 mm)"
        refuse(site, "joint-pocket-screw", span, wrong, expected, "Say `head: pan`.", "common practice")
    return not wrong


def _bit(board: Board, screw: Screw, span: Span, site: Site) -> _Bit | None:
    """How the bit is set for a part: half of the screw stays in it, less in a thin one, whose step must still be in the
    wood.  None after reporting `joint-pocket-thin`."""
    ruler, thick = site.ruler, board.body.size(board.face.axis)
    least = length_rule("pocket_web", ruler)
    bit = _Bit(share_rule("pocket_angle", ruler), length_rule("pocket_width", ruler), length_rule("pocket_tip", ruler), least)
    most = (thick / 2 - bit.width / 2 * bit.cos) / bit.sin
    if most < least - TINY:
        thinnest = ruler.plain(2 * (least * bit.sin + bit.width / 2 * bit.cos))
        message = f'"{board.id}" is {ruler.plain(thick)} thick: a pocket leaves too little wood under the head.'
        refuse(site, "joint-pocket-thin", span, message, f"{thinnest} or more", "Use a thicker part, or another joint.")
        return None
    step = float(ruler.step * ruler.unit.mm)
    wanted = min(most, screw.length * share_rule("pocket_share", ruler))
    return replace(bit, shoulder=max(least, step * math.floor(wanted / step + 1e-9)))


def _all_sets(
    id: str, seams: Sequence[Seam], face: Face, row: Spacing, screw: Screw, bit: _Bit, site: Site
) -> list[_Set] | None:
    """Every screw with its pocket; None after reporting, for each two parts once, what is wrong with them."""
    found: list[_Set] = []
    told: set[tuple[str, str]] = set()
    for seam in seams:
        pair = seam.outer.board.id, seam.inner.board.id
        sets = None if pair in told else _sets_on(id, seam, face, row, screw, bit, site)
        found += sets or []
        told |= set() if sets else {pair}
    return None if told else found


def _sets_on(id: str, seam: Seam, face: Face, row: Spacing, screw: Screw, bit: _Bit, site: Site) -> list[_Set] | None:
    looks = seam.outer.board.copies[seam.outer.copy].motion.face(face)
    (side,) = (axis for axis in Axis if axis not in (looks.axis, seam.way.axis))
    depth = depth_of(screw, bit.shoulder, seam.deep / bit.cos, seam.inner.board.id, seam.span, site)
    lines = row.within(seam.patch.along(side)).places(seam.patch.along(side))
    if depth is None or _crowded(lines, bit, seam, site):
        return None
    sets = [_set(id, seam, looks, side, line, number, depth, screw, bit) for number, line in enumerate(lines, start=1)]
    return None if any(_runs_out(each, screw, site) for each in sets) else sets


def _set(
    id: str, seam: Seam, looks: Face, side: Axis, line: float, number: int, depth: float, screw: Screw, bit: _Bit
) -> _Set:
    thick = seam.outer.body.along(looks.axis)
    spots = {side: line, looks.axis: thick.middle, seam.way.axis: seam.patch.along(seam.way.axis).low}
    x, y, z = (spots[axis] for axis in Axis)
    pocket = Pocket(
        id="",
        origin=seam.span,
        joint=id,
        why="the head rests on the step and draws the parts together",
        face=looks,
        end=seam.way,
        exit=(x, y, z),
        deep=thick.size / 2,
        angle=bit.angle,
        width=bit.width,
        shoulder=bit.shoulder,
        diameter=bit.tip,
        mate=Mate(seam.inner.board.id, (seam.inner.copy,)),
        gauge=screw.gauge,
    )
    return _Set(Place(seam, number, (x, y, z), depth), pocket, depth)


def _crowded(lines: Sequence[float], bit: _Bit, seam: Seam, site: Site) -> bool:
    """True after reporting `joint-spacing`: too many, or no wood between two pockets."""
    least = bit.width + length_rule("screw_wood", site.ruler)
    step = min((b - a for a, b in zip(lines, lines[1:], strict=False)), default=least)
    if len(lines) > MOST:
        refuse(site, "joint-spacing", seam.span, f"That makes {len(lines)} screws.", f"at most {MOST}", "Use fewer.")
    elif step < least - TINY:
        message = f'Pockets in "{seam.outer.board.id}" would be {apart(step, site)} apart, and break into each other.'
        refuse(site, "joint-spacing", seam.span, message, f"{site.ruler.plain(least)} or more", "Use fewer: `count: 1`.")
    return len(lines) > MOST or step < least - TINY


def _runs_out(each: _Set, screw: Screw, site: Site) -> bool:
    """True after reporting `joint-screw-edge`: a pocket at the side of its part, or a screw at that of its mate."""
    pocket, seam = each.pocket, each.place.seam
    least, own, mate = length_rule("screw_wood", site.ruler), seam.outer.body, seam.inner.body
    room = own.along(pocket.side)
    beside = min(pocket.exit[pocket.side.value] - room.low, room.high - pocket.exit[pocket.side.value]) - pocket.width / 2
    long = own.size(pocket.end.axis) - pocket.from_end - pocket.length / 2
    point = along(pocket.exit, pocket.way, each.depth)
    thread = min(
        min(_inside(mate, pocket.exit, axis) - screw.shank / 2, _inside(mate, point, axis)) for axis in seam.way.axis.others
    )
    source, turned = rule("screw_wood", site.ruler).source, "Use a shorter screw, or bore the pockets into the other `face`."
    expected = f"{site.ruler.plain(least)} of wood or more"
    for left, what, hint in (
        (beside, f'A pocket in "{seam.outer.board.id}"', "Use fewer screws, or give a larger `edge`."),
        (long, f'A pocket in "{seam.outer.board.id}"', "The part is too short for it."),
        (thread, f'A screw in "{seam.inner.board.id}"', turned),
    ):
        if left < least - TINY:
            says = "runs out at the side" if left <= TINY else f"leaves {apart(left, site)} of wood beside it"
            refuse(site, "joint-screw-edge", seam.span, f"{what} {says}.", expected, hint, source)
            return True
    return False


def _inside(body: Box, point: Vec, axis: Axis) -> float:
    """How much wood lies beside a point, on the side where there is less."""
    return min(point[axis.value] - body.along(axis).low, body.along(axis).high - point[axis.value])


# ---------------------------------------------------------------- telling


def _joined(
    id: str, said: PocketScrewsSaid, common: Commons, contacts: Sequence[Contact], screw: Screw, bit: _Bit, row: Spacing,
    sets: Sequence[_Set], site: Site,
) -> Joined:  # fmt: skip
    joint = Joint(
        id=id,
        kind=PocketScrews.name,
        name=common.name,
        origin=said.origin,
        contacts=tuple(contacts),
        glue=common.glue,
        fit="snug",
        numbers=_numbers(screw, bit, sets),
        operations=("pocket", "screw"),
        tools=("pocket jig", f"stepped bit {drill_words(bit.width, site).removeprefix('drill ')}", "long driver"),
        hardware=((screw.item.id, len(sets)),),
        defaults=(
            used("Angle of the pockets", "pocket_angle", site.ruler),
            used("Wood under the heads", "pocket_share", site.ruler),
            *row.defaults,
        ),
        note=common.note,
        why=common.why,
    )
    return Joined(joint, settled(id, [_struck(each) for each in sets], site))


def _struck(each: _Set) -> Struck:
    seam = each.place.seam
    words = (seam.inner.board.id, each.pocket.end.value, seam.inner.hand, seam.outer.hand, str(each.place.number))
    return Struck(seam.outer.board, seam.outer.copy, each.pocket, words, seam.inner.key, seam.span)


def _numbers(screw: Screw, bit: _Bit, sets: Sequence[_Set]) -> tuple[Number, ...]:
    one = sets[0].pocket
    named: list[Number] = [("screws", len(sets)), ("screw", screw_words(screw.gauge)), ("screw length", screw.length)]
    named += [("angle of the pocket", f"{bit.angle:g}°"), ("pocket width", bit.width), ("narrow hole", bit.tip)]
    named.append(("wood under the head, along the screw", bit.shoulder))
    named.append(("middle of the pocket, on the face, from the joint", one.from_end))
    named.append(("screw in its mate", sets[0].depth))
    return tuple((name, round(value, 6) if isinstance(value, float) else value) for name, value in named)
