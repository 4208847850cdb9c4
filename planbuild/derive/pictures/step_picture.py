"""The picture of a step: one part as it lies to be worked, or parts about to come together.

What is new is tinted, what stood there before is pale; arrows say which way things go home.
"""

from __future__ import annotations

from planbuild.core.geometry import Axis, Box, Face, Span1, Vec, hull
from planbuild.derive.dimension_lines import Ink
from planbuild.derive.paint import BOLD, LIGHT, NEW, PALE, WOOD, Frame, Tone, ViewBox, centred, fills, scale_to_fit, strokes
from planbuild.derive.pictures.cutting import kept_inside
from planbuild.derive.pictures.explosion import links, standing
from planbuild.derive.pictures.guides import guide_strokes
from planbuild.derive.pictures.labels import RADIUS, place
from planbuild.derive.pictures.marks import drawn, mark_ink, sites
from planbuild.derive.pictures.motion import REACH, around, arrows, pulled_back
from planbuild.derive.pictures.patches import NEW_KEY, best, lying, with_patches
from planbuild.derive.pictures.studio import OTHERS, USUAL, Studio
from planbuild.derive.scene import Scene, State
from planbuild.derive.views.view import Body, View
from planbuild.records.drawing import Drawing
from planbuild.records.piece import Feature, Groove, Part, Tenon
from planbuild.records.solids import Key

_RIM = 2 * RADIUS + 4.0
"""Paper kept free around a picture for marks and arrows, mm."""
_SLENDER = 7.0
"""A part longer than so many times its width is drawn only where it is worked."""


def step_picture(studio: Studio, scene: Scene, width: float, height: float) -> Drawing:
    """The picture of a scene, at most `width` x `height` paper mm."""
    return _single(studio, scene, width, height) if scene.close else _together(studio, scene, width, height)


# ---------------------------------------------------------------- one part


def _single(studio: Studio, scene: Scene, width: float, height: float) -> Drawing:
    key = scene.new[0]
    part = studio.part(key)
    features = [f for f in part.features if (part.id, f.id) in scene.features]
    stretch = _stretch(part, features)
    bodies = _worked_stretch(studio, part, stretch, scene.state)
    camera = best(lying((USUAL, *OTHERS[:3]), part.grain), _within(features, stretch), part)
    view = with_patches(studio.see(scene.id, bodies, camera), key, part, features)
    frame, tall = _frame(view.box, width, height)
    labels = place(sites(studio, view, frame, scene.marks), drawn(view, frame), (0.0, 0.0, width, tall))
    ink, rims = mark_ink(labels)
    names = ", ".join(dict.fromkeys(f.kind for f in features))
    alt = f"The {part.name} {part.mark} lying on the bench" + (f"; tinted: {names}." if names else ".")
    paint = fills(view, frame, lambda k, normal: NEW if k == NEW_KEY else WOOD)
    lines = (*strokes(view, frame, lambda k: BOLD), *ink.strokes)
    return Drawing(scene.id, width, tall, paint, lines, ink.covers, rims, ink.texts, alt)


def _within(features: list[Feature], stretch: Box | None) -> list[Feature]:
    """The features that the stretch shows."""
    return [f for f in features if stretch is None or (box := _box_of(f)) is None or box.meet(stretch).is_solid]


def _worked_stretch(studio: Studio, part: Part, stretch: Box | None, state: State) -> list[Body]:
    """The part as it is at this step, or of a slender one only the stretch that is worked."""
    solid = studio.solids.of[part.id]
    body = Body((part.id, 0), solid.joined if state is State.JOINED else solid.cut)
    return kept_inside([body], {body.key: part.extent}, stretch) if stretch else [body]


def _stretch(part: Part, features: list[Feature]) -> Box | None:
    """The box around what is worked on a slender part, of what is alike at both ends one end; None to show it whole."""
    length, width = part.finished[0], part.finished[1]
    boxes = [box for box in (_box_of(f) for f in features) if box is not None]
    if not boxes or length < _SLENDER * width:
        return None
    span = hull(boxes).along(part.grain)
    if all(isinstance(f, (Tenon, Groove)) for f in features):
        span = Span1(max(span.low, span.high - 1.2 * width), span.high)
    if span.size > 0.55 * length:
        return None
    reach = Span1(span.low - 1.6 * width, span.high + 1.6 * width)
    return part.extent.with_span(part.grain, part.extent.along(part.grain).meet(reach))


def _box_of(feature: Feature) -> Box | None:
    found = getattr(feature, "block", None) or getattr(feature, "void", None)
    return found if isinstance(found, Box) else None


# ---------------------------------------------------------------- parts that come together


def _together(studio: Studio, scene: Scene, width: float, height: float) -> Drawing:
    piece = studio.piece
    everything = standing(piece)
    boxes = {key: everything[key] for key in (*scene.context, *scene.new)}
    found = [link for link in links(piece) if link.moving in boxes and link.mate in boxes]
    moved: dict[Key, Vec] = pulled_back(piece, scene, boxes, found) if scene.moves else dict.fromkeys(boxes, (0.0, 0.0, 0.0))
    camera = USUAL
    if scene.features:
        part = piece.part(scene.features[0][0])
        camera = best([USUAL, *OTHERS], [f for f in part.features if (part.id, f.id) in scene.features], part)
    view = studio.see(scene.id, studio.bodies(boxes, moved), camera)
    frame, tall = _frame(view.box, width, height, REACH if scene.moves else _RIM)
    pointing = arrows(piece, scene, boxes, moved, camera, frame)
    taken = drawn(view, frame).union(around(pointing))
    labels = place(sites(studio, view, frame, scene.marks), taken, (0.0, 0.0, width, tall))
    marks, rims = mark_ink(labels)
    apart = [link for link in found if moved[link.moving] != moved[link.mate]]
    chains = guide_strokes(view, frame, apart, boxes, moved)
    new = set(scene.new)
    wholly_new = not scene.context and not scene.moves

    def tone(key: Key, normal: Vec) -> Tone:
        return WOOD if wholly_new else NEW if key in new else PALE

    ink = Ink().plus(pointing).plus(marks)
    lines = (*chains, *strokes(view, frame, lambda key: BOLD if key in new else LIGHT), *ink.strokes)
    return Drawing(scene.id, width, tall, fills(view, frame, tone), lines, ink.covers, rims, ink.texts, _alt(studio, scene, view))


def _alt(studio: Studio, scene: Scene, view: View) -> str:
    def names(keys: tuple[Key, ...]) -> str:
        return ", ".join(f"{p.mark} {p.name}" for p in (studio.piece.part(id) for id in dict.fromkeys(k[0] for k in keys)))

    told = f"New in this step: {names(scene.new)}."
    if scene.moves:
        ways = dict.fromkeys(_way(way) for way in scene.moves.values())
        told += f" Arrows point {' and '.join(ways)}."
    return told + (f" Already there: {names(scene.context)}." if scene.context else "")


def _way(way: Vec) -> str:
    axis = max(Axis, key=lambda each: abs(way[each.value]))
    face = axis.high if way[axis.value] > 0 else axis.low
    return {Face.BOTTOM: "down", Face.TOP: "up"}.get(face, f"to the {face.value}")


def _frame(box: ViewBox, width: float, height: float, rim: float = _RIM) -> tuple[Frame, float]:
    scale = scale_to_fit(box, width - 2 * rim, height - 2 * rim)
    tall = scale * (box[3] - box[1]) + 2 * rim
    return centred(box, (0.0, 0.0, width, tall), scale), tall
