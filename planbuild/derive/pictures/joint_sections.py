"""A section through an assembled joint with its sizes: how long, how thick, how deep, how far in from the face."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

import shapely

from planbuild.core.geometry import TINY, Axis, Box, Face, Span1
from planbuild.core.poses import same_way
from planbuild.derive.dimension_lines import Ink
from planbuild.derive.dimensions.layout import Side, Wanted, arrange
from planbuild.derive.dimensions.paper import Paper
from planbuild.derive.paint import LIGHT, PALE, Frame, fills, strokes
from planbuild.derive.pictures.cutting import half, kept_inside, sawn_faces
from planbuild.derive.pictures.explosion import Link
from planbuild.derive.pictures.ink_boxes import ink_box, moved_ink
from planbuild.derive.pictures.joint_places import Place, cut_boxes, place_of, screw_at
from planbuild.derive.pictures.label_search import place
from planbuild.derive.pictures.marks import drawn, mark_ink
from planbuild.derive.pictures.screws_in_section import Screw, screw_in
from planbuild.derive.pictures.section import Plane, cut_fills, cut_sites, cut_strokes
from planbuild.derive.pictures.studio import Studio
from planbuild.derive.sheets.scales import scale_text, series
from planbuild.derive.views.view import STRAIGHT, View
from planbuild.records.drawing import Drawing, Point
from planbuild.records.features import Feature, Groove, Hole, Mortise, Rabbet, Tenon
from planbuild.records.legibility import PaperBox, segments, text_box
from planbuild.records.piece import Joint, Part
from planbuild.records.pockets import Pocket
from planbuild.records.solids import Key
from planbuild.records.tails import Comb, Sockets, Tails

_RIM = 1.0
_CLEAR = 0.4
"""Marks keep this far from dimension lines."""
_AROUND = 0.6


@dataclass(frozen=True)
class _Size:
    """A size of the joint: from `low` to `high` along an axis, of a feature that takes up `box`; `word` says which."""

    id: str
    word: str
    axis: Axis
    low: float
    high: float
    box: Box


def joint_section(studio: Studio, joint: Joint, width: float, height: float) -> Drawing | None:
    """The section at the largest standard scale; None for a joint that cuts nothing.  Units: paper mm."""
    spot = place_of(studio, joint)
    if spot is None:
        return None
    plane = _plane(studio, joint, spot)
    limit, boxes = spot.limit(_AROUND), studio.boxes
    kept = limit.meet(half(plane.axis, plane.at, -plane.face.sign))
    bodies = kept_inside(studio.bodies(spot.keys), boxes, kept)
    view = studio.see(f"section of joint {joint.id}", bodies, STRAIGHT[plane.face])
    sizes = _sizes(studio, joint, spot, plane)
    screw = _driven(studio, joint, spot, plane, view)
    scale, frame, ink, tall = _largest(studio, view, sizes, screw, width, height)
    cut = {key: frame.shape(area) for key, area in sawn_faces(bodies, view.camera, plane.point).items()}
    lines = shapely.union_all([shapely.LineString(line) for stroke in ink.strokes for line in segments(stroke.path)])
    taken = shapely.union_all([lines.buffer(_CLEAR), *(shapely.box(*text_box(text)) for text in ink.texts)])
    free = {key: area.difference(taken) for key, area in cut.items()}
    bolts = (screw.fill(frame),) if screw else ()
    every = shapely.union_all([drawn(view, frame), taken])
    marks, rims = mark_ink(place(cut_sites(studio.piece, free), every, (0.0, 0.0, width, tall)))
    grain = cut_strokes(studio.piece, cut, plane, whole=False)
    return Drawing(
        f"joint.{joint.id}.section",
        width,
        tall,
        (*fills(view, frame, lambda key, normal: PALE), *cut_fills(cut)),
        (*strokes(view, frame, lambda key: LIGHT), *grain, *ink.strokes, *marks.strokes),
        (*bolts, *ink.covers, *marks.covers),
        (*(screw.strokes(frame) if screw else ()), *rims),
        (*ink.texts, *marks.texts),
        f"Section through the assembled joint, {joint.name}, with its sizes.",
        scale_text(scale),
    )


# ---------------------------------------------------------------- where the saw goes


def _plane(studio: Studio, joint: Joint, spot: Place) -> Plane:
    """Through the middle of the first tenon, along its thickness (or the spread of its wedges); of a tongue across its groove."""
    for link in spot.links:
        tenon = _tenon(studio, joint, link)
        if tenon:
            feature, block, across = tenon
            rest = [axis for axis in Axis if axis is not link.axis]
            square = max(rest, key=block.size)
            if feature.wedging and across:
                square = next(axis for axis in rest if axis is not across)
            return _looking(square, block.along(square).middle)
    link = spot.links[-1]
    screw = _screw(studio, joint, spot)
    if screw and isinstance(screw[0], Pocket):
        return _looking(_side_of(studio, spot, screw[0]), screw[1].along(_side_of(studio, spot, screw[0])).middle)
    if screw:
        _, stands = screw
        slotted = max((axis for axis in Axis if axis is not link.axis), key=stands.size)
        square = next(axis for axis in Axis if axis not in (link.axis, slotted))
        return _looking(square, stands.along(square).middle)
    boxes = studio.boxes
    rest = [axis for axis in Axis if axis is not link.axis]
    square = _run(studio, joint, link) or max(rest, key=lambda axis: boxes[link.mate].size(axis))
    middle, core = boxes[link.moving].along(square).middle, spot.core.along(square)
    return _looking(square, middle if core.low < middle < core.high else core.middle)


def _screw(studio: Studio, joint: Joint, spot: Place) -> tuple[Hole | Pocket, Box] | None:
    """The hole through which the saw goes, of a joint that has nothing but screws; a slot is shown in its length."""
    if any(cut_boxes(studio.part(key), joint) for key in spot.keys) or studio.part(spot.links[-1].moving).made_by:
        return None
    return screw_at(studio, joint, spot.mate, spot.links[-1].moving)


def _driven(studio: Studio, joint: Joint, spot: Place, plane: Plane, view: View) -> Screw | None:
    """The screw of a joint that has nothing else to show."""
    found = _screw(studio, joint, spot)
    if found is None or not isinstance(found[0], Hole):
        return None
    return screw_in(studio, joint, spot, plane, found[0], found[1], view.camera)


def _side_of(studio: Studio, spot: Place, pocket: Pocket) -> Axis:
    """The direction in which a pocket shows its slope, where its part stands."""
    key = next(key for key in spot.keys if pocket in studio.part(key).features)
    return studio.part(key).copies[key[1]].motion.axis(pocket.side)


def _run(studio: Studio, joint: Joint, link: Link) -> Axis | None:
    """The way in which the channel or the tails run that take the moving part, where it stands; None if nothing runs."""
    part = studio.part(link.mate)
    for feature in part.features:
        if feature.joint == joint.id and isinstance(feature, Tails | Sockets) and feature.mate.part == link.moving[0]:
            return _run_of_comb(studio, joint, link) or part.copies[link.mate[1]].motion.axis(feature.comb.run)
        if feature.joint == joint.id and isinstance(feature, Groove | Rabbet) and feature.mate:
            motion = part.copies[link.mate[1]].motion
            if (link.moving[0] == feature.mate.part) and motion.axis(feature.run(part.body, part.grain)) is not link.axis:
                return motion.axis(feature.run(part.body, part.grain))
    return None


def _run_of_comb(studio: Studio, joint: Joint, link: Link) -> Axis | None:
    """The way the tails or fingers of the moving part run."""
    part = studio.part(link.moving)
    for feature in part.features:
        if feature.joint == joint.id and isinstance(feature, Tails) and feature.mate.part == link.mate[0]:
            return part.copies[link.moving[1]].motion.axis(feature.comb.run)
    return None


def _looking(axis: Axis, at: float) -> Plane:
    return Plane(axis, at, Face.TOP if axis is Axis.BOTTOM_TOP else axis.low)


def _tenon(studio: Studio, joint: Joint, link: Link) -> tuple[Tenon, Box, Axis | None] | None:
    """The tenon of a link with its block where it stands and the axis along which wedges spread it."""
    part = studio.part(link.moving)
    motion = part.copies[link.moving[1]].motion
    mate = studio.boxes[link.mate]
    for feature in part.features:
        block = part.box(link.moving[1], feature.block) if isinstance(feature, Tenon) else None
        if isinstance(feature, Tenon) and block and feature.joint == joint.id and block.meet(mate).is_solid:
            return feature, block, motion.axis(feature.wedging.across) if feature.wedging else None
    return None


# ---------------------------------------------------------------- sizes


def _sizes(studio: Studio, joint: Joint, spot: Place, plane: Plane) -> list[_Size]:
    """All sizes that show in the plane of the section; what two tenons have in common is said once."""
    found: list[_Size] = []
    for link in spot.links:
        tenon = _tenon(studio, joint, link)
        if tenon:
            found += _tenon_sizes(studio, link, *tenon[:2])
    found += [size for key in spot.keys for size in _cut_sizes(studio, joint, spot, key)]
    found += [size for key in spot.keys for size in _hole_sizes(studio, joint, spot, plane, key)]
    askew = any(studio.part(key).pose for key in spot.keys)
    way = {link.axis for link in spot.links if not _slants(studio, link.axis, spot.keys)}
    # Across the way in, what stands askew is not cut in its true size.
    shown = [
        size
        for size in found
        if size.axis is not plane.axis and size.high - size.low > TINY and (not askew or size.axis in way)
    ]
    places = {(size.axis, round(size.low, 2), round(size.high, 2)): size for size in reversed(shown)}
    return list({(size.word, round(size.high - size.low, 2)): size for size in places.values()}.values())[::-1]


def _slants(studio: Studio, axis: Axis, keys: Sequence[Key]) -> bool:
    """True if a part leans, so that nothing of it runs along the axis any more."""
    poses = [pose for key in keys if (pose := studio.part(key).pose)]
    return any(not same_way(pose.direction(axis.high.normal), axis.high.normal) for pose in poses)


def _tenon_sizes(studio: Studio, link: Link, tenon: Tenon, block: Box) -> list[_Size]:
    """Length from the shoulder, both thicknesses, how far in from the nearer face of the body; how far it stands proud."""
    part, name = studio.part(link.moving), f"{tenon.id}"
    body = part.box(link.moving[1], part.body)
    post = _body(studio, link.mate).along(link.axis)
    found = [_size(name, "length" if axis is link.axis else "section", axis, block.along(axis), block) for axis in Axis]
    for axis in Axis:
        if axis is not link.axis:
            found.append(_size(name, "shoulder", axis, _inset(body.along(axis), block.along(axis)), block))
    tip = block.along(link.axis)
    if tenon.through and tenon.proud > TINY:
        beyond = Span1(post.high, tip.high) if link.sign > 0 else Span1(tip.low, post.low)
        found.append(_size(name, "proud", link.axis, beyond, block))
    return found


def _size(feature: str, word: str, axis: Axis, span: Span1, box: Box) -> _Size:
    return _Size(f"{feature} {word} {axis.words}", word, axis, span.low, span.high, box)


def _inset(body: Span1, cut: Span1) -> Span1:
    """From the nearer face of the body to the cut."""
    below, above = Span1(body.low, cut.low), Span1(cut.high, body.high)
    return below if below.size <= above.size else above


def _body(studio: Studio, key: Key) -> Box:
    part = studio.part(key)
    return part.box(key[1], part.body)


def _cut_sizes(studio: Studio, joint: Joint, spot: Place, key: Key) -> list[_Size]:
    """Depth of a blind mortise; width, depth and place of a groove; length of a tongue."""
    part, body, found = studio.part(key), _body(studio, key), []
    motion = part.copies[key[1]].motion
    for feature in part.features:
        if feature.joint == joint.id and (isinstance(feature, Sockets) or _is_fingered(feature)):
            assert isinstance(feature, Tails | Sockets)
            comb = feature.comb.moved(motion)
            found += _comb_sizes(feature.id, comb) if comb.block.meet(spot.core).is_solid else []
        if feature.joint != joint.id or not isinstance(feature, (Mortise, Groove, Rabbet)):
            continue
        void = motion.box(feature.void)
        common = void.meet(spot.limit(_AROUND))
        if not common.is_solid:
            continue
        if isinstance(feature, Mortise) and not (feature.through or feature.haunch) and void.meet(spot.core).is_solid:
            axis = motion.axis(feature.face.axis)
            found.append(_size(feature.id, "depth", axis, void.along(axis), common))
        elif isinstance(feature, (Groove, Rabbet)):
            for axis in Axis:
                if void.size(axis) < body.size(axis) - TINY:
                    found.append(_size(feature.id, feature.kind, axis, void.along(axis), common))
                    if isinstance(feature, Groove):
                        found.append(_size(feature.id, "from edge", axis, _inset(body.along(axis), void.along(axis)), common))
    return found


def _is_fingered(feature: Feature) -> bool:
    return isinstance(feature, Tails) and feature.what == "fingers"


def _comb_sizes(feature: str, comb: Comb) -> list[_Size]:
    """Length of the tails; half pin, first tail and the room to the next, at the tips.  One that narrows has no one width."""
    low, first = comb.block.along(comb.spread).low, comb.tails[0]
    spans = [("half pin", Span1(low, first.low)), ("tail", first)] if comb.slim is None else []
    spans += [("pin", Span1(first.high, each.low)) for each in comb.tails[1:2]]
    found = [_size(feature, word, comb.spread, span, comb.block) for word, span in spans]
    return [_size(feature, "length", comb.tip.axis, comb.block.along(comb.tip.axis), comb.block), *found]


def _hole_sizes(studio: Studio, joint: Joint, spot: Place, plane: Plane, key: Key) -> list[_Size]:
    """Of a screw that the saw meets: how deep its head is let in, the length of its slot, the depth of its pilot hole."""
    part, found = studio.part(key), []
    motion = part.copies[key[1]].motion
    for hole in part.features:
        if hole.joint == joint.id and isinstance(hole, Pocket):
            found += _pocket_sizes(hole.moved(motion), spot, plane)
        if hole.joint != joint.id or not isinstance(hole, Hole) or not spot.core.meet(motion.box(_bored(hole, part))).is_solid:
            continue
        room = motion.box(_bored(hole, part))
        axis = motion.axis(hole.face.axis)
        if not room.along(plane.axis).low < plane.at < room.along(plane.axis).high:
            continue
        if hole.depth is not None:
            found.append(_size(hole.id, "depth", axis, room.along(axis), room))
        if hole.counterbore:
            let_in = motion.box(_bored(hole, part, hole.counterbore[1]))
            found.append(_size(hole.id, "let in", axis, let_in.along(axis), let_in))
        if hole.slot:
            found.append(_size(hole.id, "slot", motion.axis(hole.slot.along), room.along(motion.axis(hole.slot.along)), room))
    return found


def _pocket_sizes(pocket: Pocket, spot: Place, plane: Plane) -> list[_Size]:
    """Of a pocket that the saw meets: where its middle is on the face, and how deep its screw comes out."""
    met = pocket.room.along(plane.axis).low < plane.at < pocket.room.along(plane.axis).high
    if not met or not pocket.room.meet(spot.core).is_solid:
        return []
    room, middle = pocket.room, pocket.mouth
    along = Span1(*sorted((middle[pocket.end.axis.value], pocket.exit[pocket.end.axis.value])))
    deep = Span1(*sorted((middle[pocket.face.axis.value], pocket.exit[pocket.face.axis.value])))
    sizes = [("middle", pocket.end.axis, along), ("exit", pocket.face.axis, deep)]
    return [_size(pocket.id, word, axis, span, room) for word, axis, span in sizes]


def _bored(hole: Hole, part: Part, depth: float | None = None) -> Box:
    """The block that a hole takes, as deep as it is or to a depth."""
    axis, surface = hole.face.axis, part.body.at(hole.face)
    deep = depth or hole.depth or part.body.size(axis)
    return hole.reach(hole.diameter).with_span(axis, Span1(*sorted((surface, surface - hole.face.sign * deep))))


# ---------------------------------------------------------------- on paper


def _largest(
    studio: Studio, view: View, sizes: list[_Size], screw: Screw | None, width: float, height: float
) -> tuple[Fraction, Frame, Ink, float]:
    """The scale, the frame, the dimensions, and the height it all takes."""
    scales = series(studio.edition.ruler.unit)
    for scale in scales:
        frame = Frame(float(scale), 0.0, 0.0)
        ink = _dimensions(studio, view, frame, sizes)
        left, top, right, bottom = ink_box(ink, [_box(view, frame), *([screw.box(frame)] if screw else [])])
        wide, tall = right - left + 2 * _RIM, bottom - top + 2 * _RIM
        if (wide <= width and tall <= height) or scale == scales[-1]:
            break
    # Laid out once and moved: laid out again elsewhere, what was a tie may fall the other way.
    by = ((width - wide) / 2 + _RIM - left, _RIM - top)
    return scale, Frame(float(scale), *by), moved_ink(ink, by), tall


def _box(view: View, frame: Frame) -> PaperBox:
    low_u, low_v, high_u, high_v = view.box
    (left, bottom), (right, top) = frame.point((low_u, low_v)), frame.point((high_u, high_v))
    return left, top, right, bottom


def _dimensions(studio: Studio, view: View, frame: Frame, sizes: list[_Size]) -> Ink:
    box = _box(view, frame)
    return arrange([_wanted(studio, view, frame, box, size) for size in sizes], box, Paper())


def _wanted(studio: Studio, view: View, frame: Frame, box: PaperBox, size: _Size) -> Wanted:
    """The size with the stretch of paper that its feature takes up, to be drawn on the nearer side."""
    corners = [_on_paper(view, frame, size, low) for low in (True, False)]
    along = 0 if abs(view.camera.right[size.axis.value]) > 0.5 else 1
    ends, reach = (sorted(corner[i] for corner in corners) for i in (along, 1 - along))
    middle = (box[1 - along] + box[3 - along]) / 2
    sides = (Side.ABOVE, Side.BELOW) if along == 0 else (Side.LEFT, Side.RIGHT)
    nearer = sides if sum(reach) / 2 < middle else sides[::-1]
    text = studio.edition.ruler.printed(size.high - size.low)
    stretch = (reach[0], reach[1])
    return Wanted(size.id, text, (ends[0], ends[1]), (stretch, stretch), nearer)


def _on_paper(view: View, frame: Frame, size: _Size, low: bool) -> Point:
    """A corner of the feature's box with the exact ends along the size's own axis."""
    spans = size.box.with_span(size.axis, Span1(size.low, size.high))
    x, y, z = (spans.along(axis).low if low else spans.along(axis).high for axis in Axis)
    return frame.point(view.camera.flat((x, y, z)))
