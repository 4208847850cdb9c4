"""Which corner of the piece a joint is shown at: the one whose mouths face the usual camera."""

from __future__ import annotations

import math
from dataclasses import dataclass

from planbuild.core.geometry import Axis, Box, Span1, Vec, hull
from planbuild.derive.pictures.explosion import Link
from planbuild.derive.pictures.studio import USUAL, Studio
from planbuild.derive.views.view import Camera
from planbuild.records.corner_slots import CornerSlot
from planbuild.records.features import Bevel, Groove, Hole, Mortise, Rabbet, Tenon
from planbuild.records.piece import Joint, Part
from planbuild.records.pockets import Pocket
from planbuild.records.shaped import Sawn
from planbuild.records.slanted import AngledMortise, EndCut
from planbuild.records.solids import Key
from planbuild.records.tails import Sockets, Tails

_MARGIN = 0.9
"""Wood shown around a joint, as a share of the joint's own longest side."""
_LEAST = 12.0
_OPEN = 0.5
"""What a slot that looks at the viewer counts against the way in which the parts go together."""


@dataclass(frozen=True)
class Place:
    """One occurrence of a joint: the part that receives, what goes into it, and the box in which it all happens."""

    mate: Key
    links: tuple[Link, ...]
    core: Box
    open_to: tuple[Vec, ...] = ()
    """The ways in which slots and recesses of the part that receives are open at its sides."""

    @property
    def keys(self) -> tuple[Key, ...]:
        """Mate first, then what moves, each once."""
        return tuple(dict.fromkeys([self.mate, *(link.moving for link in self.links)]))

    def limit(self, share: float = _MARGIN) -> Box:
        """The core with wood around it."""
        longest = max(self.core.size(axis) for axis in Axis)
        room = max(share * longest, _LEAST)
        spans = {axis: self.core.along(axis) for axis in Axis}
        return Box.of({axis: Span1(span.low - room, span.high + room) for axis, span in spans.items()})


def place_of(studio: Studio, joint: Joint, camera: Camera = USUAL) -> Place | None:
    """The best occurrence, None for a joint that cuts nothing (parts that only touch)."""
    found = [place for place in _places(studio, joint) if place.links]
    return max(found, key=lambda place: _shows(place, camera), default=None)


def _places(studio: Studio, joint: Joint) -> list[Place]:
    """One for each copy of a receiving part, with one moving copy of each kind."""
    own = {(contact.a, contact.b) for contact in joint.contacts}
    every = [link for link in studio.links if (link.moving, link.mate) in own]
    cutting = {part.id for part in studio.piece.parts if any(f.joint == joint.id for f in part.features)}
    pocketed = {part.id for part in studio.piece.parts if _pockets(part, joint)}
    shown = [link for link in every if link.mate[0] in cutting or link.moving[0] in pocketed]
    first = {link.mate for link in shown if not studio.piece.part(link.moving[0]).made_by}
    found = []
    for mate in sorted(first):
        entering = [link for link in every if link.mate == mate and not studio.piece.part(link.moving[0]).made_by]
        chosen = _one_each(entering)
        around = {mate, *(link.moving for link in chosen)}
        made = [link for link in every if studio.piece.part(link.moving[0]).made_by and link.mate in around]
        chosen += _near(studio, chosen, made)
        core = _core(studio, joint, mate, chosen)
        if core:
            found.append(Place(mate, tuple(chosen), core, _open_to(studio.piece.part(mate[0]), joint, mate[1])))
    return found


def _open_to(part: Part, joint: Joint, copy: int) -> tuple[Vec, ...]:
    """The sides at which recesses for plates are open, and the faces in which slots for them are cut."""
    own = [feature for feature in part.features if feature.joint == joint.id]
    faces = [each.open_at for each in own if isinstance(each, Hole) and each.open_at]
    faces += [each.face for each in own if isinstance(each, Groove) and not each.mate]
    return tuple(part.way(copy, face) for face in dict.fromkeys(faces))


def _one_each(entering: list[Link]) -> list[Link]:
    """One link for each kind of part: of several alike the middle one, clear of the ends of the mate."""
    kinds: dict[str, list[Link]] = {}
    for link in entering:
        kinds.setdefault(link.moving[0], []).append(link)
    return [group[len(group) // 2] for group in kinds.values()]


def _near(studio: Studio, chosen: list[Link], made: list[Link]) -> list[Link]:
    """Made parts that belong here: all that lie in the mate (wedges), else the first one (buttons along a rail)."""
    boxes = studio.boxes
    inside = [link for link in made if any(boxes[link.moving].meet(boxes[each.mate]).is_solid for each in chosen)]
    within = [link for link in inside if link.mate != chosen[0].mate] if chosen else []
    return within or made[:1]


def _core(studio: Studio, joint: Joint, mate: Key, chosen: list[Link]) -> Box | None:
    """The box around where the cuts of these partners meet, and around the parts that the joint makes."""
    boxes = studio.boxes
    moving = [link.moving for link in chosen]
    found = [boxes[key] for key in moving if studio.piece.part(key[0]).made_by]
    for key in (mate, *moving):
        part = studio.piece.part(key[0])
        cuts = [part.box(key[1], box) for box in cut_boxes(part, joint)]
        partners = [boxes[other] for other in (moving if key == mate else [mate])]
        found += [common for cut in cuts for other in partners if (common := cut.meet(other)).is_solid]
    screwed = [screw_at(studio, joint, mate, key) for key in moving] if not found else []
    found += [box for each in screwed if each for box in (each[1],)]
    found = found or [box for key in moving for box in _plate_at(studio, joint, mate, key)]
    return hull(found) if found else None


def _plate_at(studio: Studio, joint: Joint, mate: Key, moving: Key) -> list[Box]:
    """Where a plate holds: the hole for its screw in one part, and the recess or the stretch of slot beside it in the other."""
    screws = _standing(studio, moving, [each.bore(body) for each, body in _holes(studio, joint, moving, "pilot")])
    rooms = _standing(studio, mate, [_wide(each, body) for each, body in _holes(studio, joint, mate, "plate")])
    slots = [each.void for each in studio.part(mate).features if isinstance(each, Groove) and each.joint == joint.id]
    near = [(screw, room) for screw in screws for room in rooms]
    near += [(screw, _beside(slot, screw)) for screw in screws for slot in _standing(studio, mate, slots)]
    return list(min(near, key=lambda pair: math.dist(pair[0].centre, pair[1].centre), default=()))


def _holes(studio: Studio, joint: Joint, key: Key, purpose: str) -> list[tuple[Hole, Box]]:
    """The holes of a joint for that purpose, with the body they are bored into."""
    part = studio.part(key)
    return [(f, part.body) for f in part.features if isinstance(f, Hole) and f.joint == joint.id and f.purpose == purpose]


def _wide(hole: Hole, body: Box) -> Box:
    """What a hole takes in with its recess."""
    return hole.bore(body).join(hole.reach(hole.counterbore[0])) if hole.counterbore else hole.bore(body)


def _standing(studio: Studio, key: Key, own: list[Box]) -> list[Box]:
    return [studio.part(key).box(key[1], each) for each in own]


def _beside(room: Box, screw: Box) -> Box:
    """Of a long slot the stretch that is as long as the hole is wide."""
    run = max(Axis, key=room.size)
    stretch = room.along(run).meet(screw.along(run))
    return room.with_span(run, stretch) if stretch.size > 0 else room


def cut_boxes(part: Part, joint: Joint) -> list[Box]:
    """What the joint cuts away or leaves standing on a part, as boxes of its drawn copy."""
    found = []
    for feature in part.features:
        if feature.joint != joint.id:
            continue
        if isinstance(feature, Tenon):
            found.append(feature.block)
        elif isinstance(feature, (Tails, Sockets)):
            found.append(feature.comb.block)
        elif isinstance(feature, AngledMortise):
            found.append(feature.pose.around(feature.void))
        elif isinstance(feature, (Mortise, Groove, Rabbet)):
            found.append(feature.void)
        elif isinstance(feature, (CornerSlot, Sawn)):
            found.append(feature.region(part.body))
        elif isinstance(feature, (Bevel, EndCut)):
            found.append(feature.room(part.body))
    return found


def _deepest(part: Part, joint: Joint) -> float:
    """How deep the screws of a joint stand in a part; a little, if it has no pilot holes, to see whether they reach it."""
    holes = [f for f in part.features if isinstance(f, Hole) and f.joint == joint.id and f.purpose == "pilot"]
    return max((each.depth for each in holes if each.depth), default=1.0)


def _pockets(part: Part, joint: Joint) -> list[Pocket]:
    return [each for each in part.features if isinstance(each, Pocket) and each.joint == joint.id]


def screw_at(studio: Studio, joint: Joint, one: Key, other: Key) -> tuple[Hole | Pocket, Box] | None:
    """The first hole for a screw through one of two parts into the other, and the wood it stands in, as both stand."""
    boxes = studio.boxes
    for key, mate in ((one, other), (other, one)):
        part = studio.piece.part(key[0])
        motion = part.copies[key[1]].motion
        for pocket in _pockets(part, joint):
            stands = motion.box(pocket.room).grown(motion.face(pocket.end), pocket.shoulder)
            if stands.meet(boxes[mate]).is_solid:
                return pocket, stands
        for feature in part.features:
            if isinstance(feature, Hole) and feature.joint == joint.id and feature.purpose == "clearance":
                axis = feature.face.axis
                through = feature.reach(feature.diameter).with_span(axis, part.body.along(axis))
                deep = _deepest(studio.piece.part(mate[0]), joint)
                stands = motion.box(through).grown(motion.face(feature.face.opposite), deep)
                if stands.meet(boxes[mate]).is_solid:
                    return feature, stands
    return None


def _shows(place: Place, camera: Camera) -> tuple[float, Key]:
    """How squarely the mouths face the viewer: a part that goes home away from the viewer leaves its mouth in sight."""
    toward = camera.toward
    score = sum(-link.sign * toward[link.axis.value] for link in place.links)
    score += _OPEN * sum(a * b for way in place.open_to for a, b in zip(way, toward, strict=True))
    return round(score, 6), (place.mate[0], -place.mate[1])
