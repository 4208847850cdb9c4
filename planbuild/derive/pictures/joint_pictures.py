"""Each kind of joint once, enlarged: its halves pulled apart the way they go together, far wood cut away."""

from __future__ import annotations

from collections.abc import Mapping

from planbuild.core.geometry import TINY, Axis, Box, Vec
from planbuild.derive.paint import BOLD, Frame, fills, strokes
from planbuild.derive.pictures.apart import before_moving
from planbuild.derive.pictures.compose import Written, composed
from planbuild.derive.pictures.cutting import kept_inside, sawn_ends
from planbuild.derive.pictures.guides import guide_strokes
from planbuild.derive.pictures.hatching import end_fills, end_strokes
from planbuild.derive.pictures.joint_places import Place, place_of
from planbuild.derive.pictures.marks import drawn, marked, sites
from planbuild.derive.pictures.shares import box_shares
from planbuild.derive.pictures.studio import NOWHERE, OTHERS, USUAL, Studio, moved_bodies
from planbuild.derive.pictures.tones import woods
from planbuild.derive.views.view import Camera
from planbuild.records.drawing import Drawing
from planbuild.records.legibility import PaperBox
from planbuild.records.piece import Joint
from planbuild.records.solids import Key

_ENOUGH = 0.6
"""If less of a part shows from the usual place, the picture is taken from another."""
_AIR = 0.7
"""Clear distance between the halves, as a share of how deep they engage."""
_LEAST_AIR = 14.0
_LAID_ON = 0.9
"""The same for a part that only lies on its mate, as a share of the longest side of what the joint takes in."""


def joint_picture(studio: Studio, joint: Joint, width: float, height: float) -> Drawing | None:
    """The halves of a joint apart; None for a joint that cuts nothing.  Units: paper mm."""
    best = _best_place(studio, joint)
    return _drawn(studio, joint, *best, width, height) if best else None


def _best_place(studio: Studio, joint: Joint) -> tuple[Place, Camera] | None:
    """The usual camera if every part shows enough there, else the one from which the most shows of what shows least."""
    shown: list[tuple[float, Place, Camera]] = []
    for camera in (USUAL, *OTHERS):
        spot = place_of(studio, joint, camera)
        if spot is None:
            return None
        shown.append((_least_share(studio, spot, camera), spot, camera))
        if shown[0][0] >= _ENOUGH:
            break
    _, spot, camera = max(shown, key=lambda each: round(each[0], 6))
    return spot, camera


def _least_share(studio: Studio, spot: Place, camera: Camera) -> float:
    boxes = studio.boxes
    kept = {key: boxes[key].meet(spot.limit()) for key in spot.keys}
    return min(box_shares(kept, pulled_apart(spot, boxes), camera)[1].values())


def _drawn(studio: Studio, joint: Joint, spot: Place, camera: Camera, width: float, height: float) -> Drawing:
    boxes, keys = studio.boxes, spot.keys
    moved = pulled_apart(spot, boxes)
    bodies = kept_inside(before_moving(studio, keys, moved), boxes, spot.limit())
    view = studio.see(f"joint {joint.id}", moved_bodies(bodies, moved), camera)
    parts = list(dict.fromkeys(key[0] for key in keys))

    def write(frame: Frame, room: PaperBox) -> Written:
        return marked(sites(studio, view, frame, parts), drawn(view, frame), room)

    made = composed(view.box, width, height, write)
    frame, ink = made.frame, made.written.ink
    at = {key: moved.get(key, NOWHERE) for key in keys}
    shown = {key: boxes[key].meet(spot.limit()) for key in keys}
    ends = sawn_ends(bodies, boxes, spot.limit(), moved, view)
    return Drawing(
        f"joint.{joint.id}",
        width,
        made.tall,
        (*fills(view, frame, woods(studio.piece)), *end_fills(ends, frame)),
        (
            *guide_strokes(view, frame, spot.links, shown, at),
            *strokes(view, frame, lambda key: BOLD),
            *end_strokes(ends, {key: studio.grain(key) for key in keys}, view, frame),
            *ink.strokes,
        ),
        ink.covers,
        made.written.rims,
        ink.texts,
        _alt(studio, joint, spot),
    )


def pulled_apart(spot: Place, boxes: Mapping[Key, Box]) -> dict[Key, Vec]:
    """Each moving part drawn back out of the mate; what is driven into it later is drawn back past it."""
    moved: dict[Key, Vec] = {}
    for link in spot.links:
        engaged = max(each.engaged for each in spot.links if each.moving == link.moving)
        laid_on = _LAID_ON * max(spot.core.size(axis) for axis in Axis) if engaged < TINY else 0.0
        way = -link.sign * (engaged + max(_AIR * engaged, _LEAST_AIR, laid_on))
        x, y, z = (way if axis is link.axis else 0.0 for axis in Axis)
        moved[link.moving] = (x, y, z)
    return moved


def _alt(studio: Studio, joint: Joint, spot: Place) -> str:
    first, *rest = (studio.piece.part(id) for id in dict.fromkeys(key[0] for key in spot.keys))
    names = " and ".join(f"{part.mark} {part.name}" for part in rest)
    return f"{joint.name.capitalize()}: {names} pulled out of {first.mark} {first.name}."
