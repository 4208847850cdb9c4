"""Each kind of joint once, enlarged: its halves pulled apart the way they go together, far wood cut away."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import shapely

from planbuild.core.geometry import Axis, Box, Vec
from planbuild.derive.paint import BOLD, Frame, fills, strokes
from planbuild.derive.pictures.apart import before_moving
from planbuild.derive.pictures.compose import Written, composed
from planbuild.derive.pictures.cutting import kept_inside, sawn_ends
from planbuild.derive.pictures.explosion import standing
from planbuild.derive.pictures.guides import guide_strokes
from planbuild.derive.pictures.hatching import end_fills, end_strokes
from planbuild.derive.pictures.joint_places import Place, place_of
from planbuild.derive.pictures.marks import drawn, marked, sites
from planbuild.derive.pictures.studio import NOWHERE, OTHERS, USUAL, Studio, moved_bodies
from planbuild.derive.pictures.tones import wood_of
from planbuild.derive.text_boxes import PaperBox
from planbuild.derive.views.regions import look
from planbuild.derive.views.view import Body, Camera
from planbuild.records.drawing import Drawing
from planbuild.records.piece import Joint
from planbuild.records.solids import Key

_ENOUGH = 0.6
"""If less of a part shows from the usual place, the picture is taken from another."""
_AIR = 0.7
"""Clear distance between the halves, as a share of how deep they engage."""
_LEAST_AIR = 14.0


def joint_picture(studio: Studio, joint: Joint, width: float, height: float) -> Drawing | None:
    """The halves of a joint apart; None for a joint that cuts nothing.  Units: paper mm."""
    taken = [_taken(studio, joint, USUAL)]
    if taken[0] is None:
        return None
    if taken[0].shows < _ENOUGH:
        taken += [_taken(studio, joint, camera) for camera in OTHERS]
    best = max((each for each in taken if each), key=lambda each: each.shows)
    return _drawn(studio, joint, best, width, height)


@dataclass(frozen=True)
class _Shot:
    """A joint to be seen from somewhere; `shows` is the share seen of the part that shows least."""

    spot: Place
    bodies: tuple[Body, ...]
    moved: Mapping[Key, Vec]
    camera: Camera
    shows: float


def _taken(studio: Studio, joint: Joint, camera: Camera) -> _Shot | None:
    spot = place_of(studio.piece, joint, camera)
    if spot is None:
        return None
    boxes = standing(studio.piece)
    moved = pulled_apart(spot, boxes)
    bodies = kept_inside(before_moving(studio, spot.keys, moved), boxes, spot.limit())
    apart = moved_bodies(bodies, moved)
    seen = look(apart, camera).visible
    return _Shot(spot, tuple(bodies), moved, camera, min(_share(seen[body.key], body, camera) for body in apart))


def _share(seen: object, body: Body, camera: Camera) -> float:
    """What is seen of a body, as a share of what would be seen of it alone."""
    alone = look([body], camera).visible[body.key]
    return float(shapely.area(seen) / shapely.area(alone))


def _drawn(studio: Studio, joint: Joint, shot: _Shot, width: float, height: float) -> Drawing:
    boxes, keys = standing(studio.piece), shot.spot.keys
    view = studio.see(f"joint {joint.id}", moved_bodies(shot.bodies, shot.moved), shot.camera)
    parts = list(dict.fromkeys(key[0] for key in keys))

    def write(frame: Frame, room: PaperBox) -> Written:
        return marked(sites(studio, view, frame, parts), drawn(view, frame), room)

    made = composed(view.box, width, height, write)
    frame, ink = made.frame, made.written.ink
    at = {key: shot.moved.get(key, NOWHERE) for key in keys}
    shown = {key: boxes[key].meet(shot.spot.limit()) for key in keys}
    ends = sawn_ends(shot.bodies, boxes, shot.spot.limit(), shot.moved, view)
    return Drawing(
        f"joint.{joint.id}",
        width,
        made.tall,
        (*fills(view, frame, lambda key, normal: wood_of(studio.piece, key)), *end_fills(ends, frame)),
        (
            *guide_strokes(view, frame, shot.spot.links, shown, at),
            *strokes(view, frame, lambda key: BOLD),
            *end_strokes(ends, {key: studio.grain(key) for key in keys}, view, frame),
            *ink.strokes,
        ),
        ink.covers,
        made.written.rims,
        ink.texts,
        _alt(studio, joint, shot.spot),
    )


def pulled_apart(spot: Place, boxes: dict[Key, Box]) -> dict[Key, Vec]:
    """Each moving part drawn back out of the mate; what is driven into it later is drawn back past it."""
    moved: dict[Key, Vec] = {}
    for link in spot.links:
        engaged = max(each.engaged for each in spot.links if each.moving == link.moving)
        way = -link.sign * (engaged + max(_AIR * engaged, _LEAST_AIR))
        x, y, z = (way if axis is link.axis else 0.0 for axis in Axis)
        moved[link.moving] = (x, y, z)
    return moved


def _alt(studio: Studio, joint: Joint, spot: Place) -> str:
    first, *rest = (studio.piece.part(id) for id in dict.fromkeys(key[0] for key in spot.keys))
    names = " and ".join(f"{part.mark} {part.name}" for part in rest)
    return f"{joint.name.capitalize()}: {names} pulled out of {first.mark} {first.name}."
