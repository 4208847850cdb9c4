"""Each kind of joint once, enlarged: its halves pulled apart the way they go together, far wood cut away."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import shapely

from planbuild.core.geometry import Axis, Box, Vec
from planbuild.derive.paint import BOLD, Frame, ViewBox, centred, fills, scale_to_fit, strokes
from planbuild.derive.pictures.cutting import kept_inside, sawn_ends
from planbuild.derive.pictures.explosion import standing
from planbuild.derive.pictures.guides import guide_strokes
from planbuild.derive.pictures.hatching import end_fills, end_strokes
from planbuild.derive.pictures.joint_places import Place, place_of
from planbuild.derive.pictures.labels import RADIUS, place
from planbuild.derive.pictures.marks import drawn, mark_ink, sites
from planbuild.derive.pictures.studio import NOWHERE, OTHERS, USUAL, Studio, moved_bodies
from planbuild.derive.pictures.tones import wood_of
from planbuild.derive.views.regions import look
from planbuild.derive.views.view import Body, Camera, View
from planbuild.records.drawing import Drawing
from planbuild.records.piece import Joint
from planbuild.records.solids import Key

_ENOUGH = 0.6
"""If less of a part shows from the usual place, the picture is taken from another."""
_AIR = 0.7
"""Clear distance between the halves, as a share of how deep they engage."""
_LEAST_AIR = 14.0
_RIM = 2 * RADIUS + 2.0


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
    """A joint as seen from somewhere; `shows` is the share seen of the part that shows least."""

    spot: Place
    bodies: tuple[Body, ...]
    moved: Mapping[Key, Vec]
    view: View
    shows: float


def _taken(studio: Studio, joint: Joint, camera: Camera) -> _Shot | None:
    spot = place_of(studio.piece, joint, camera)
    if spot is None:
        return None
    boxes = standing(studio.piece)
    moved = pulled_apart(spot, boxes)
    bodies = kept_inside(studio.bodies(spot.keys), boxes, spot.limit())
    apart = moved_bodies(bodies, moved)
    view = studio.see(f"joint {joint.id}", apart, camera)
    return _Shot(spot, tuple(bodies), moved, view, min(seen_share(body, view) for body in apart))


def seen_share(body: Body, view: View) -> float:
    """What is seen of a body, as a share of what would be seen of it alone."""
    alone = look([body], view.camera).visible[body.key].area
    return float(shapely.area(view.visible[body.key]) / alone)


def _drawn(studio: Studio, joint: Joint, shot: _Shot, width: float, height: float) -> Drawing:
    boxes, keys = standing(studio.piece), shot.spot.keys
    frame, tall = _frame(shot.view.box, width, height)
    parts = list(dict.fromkeys(key[0] for key in keys))
    ink, rims = mark_ink(place(sites(studio, shot.view, frame, parts), drawn(shot.view, frame), (0.0, 0.0, width, tall)))
    at = {key: shot.moved.get(key, NOWHERE) for key in keys}
    ends = sawn_ends(shot.bodies, boxes, shot.spot.limit(), shot.moved, shot.view)
    return Drawing(
        f"joint.{joint.id}",
        width,
        tall,
        (*fills(shot.view, frame, lambda key, normal: wood_of(studio.piece, key)), *end_fills(ends, frame)),
        (
            *guide_strokes(shot.view, frame, shot.spot.links, boxes, at),
            *strokes(shot.view, frame, lambda key: BOLD),
            *end_strokes(ends, {key: studio.grain(key) for key in keys}, shot.view, frame),
            *ink.strokes,
        ),
        ink.covers,
        rims,
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


def _frame(box: ViewBox, width: float, height: float) -> tuple[Frame, float]:
    """As large as fits, and no more paper than the picture needs with its marks around it."""
    scale = scale_to_fit(box, width - 2 * _RIM, height - 2 * _RIM)
    tall = scale * (box[3] - box[1]) + 2 * _RIM
    return centred(box, (0.0, 0.0, width, tall), scale), tall


def _alt(studio: Studio, joint: Joint, spot: Place) -> str:
    first, *rest = (studio.piece.part(id) for id in dict.fromkeys(key[0] for key in spot.keys))
    names = " and ".join(f"{part.mark} {part.name}" for part in rest)
    return f"{joint.name.capitalize()}: {names} pulled out of {first.mark} {first.name}."
