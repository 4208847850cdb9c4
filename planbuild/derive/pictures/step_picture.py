"""The picture of a step: what is new in the accent, what stands there pale, arrows for motions, marks."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace

import shapely
from shapely import Geometry

from planbuild.core.geometry import Axis, Vec
from planbuild.core.poses import Pose
from planbuild.derive.dimension_lines import LETTERING, Ink
from planbuild.derive.paint import BOLD, BOUGHT, LIGHT, NEW, PALE, WOOD, Frame, Pens, Tone, fills, strokes
from planbuild.derive.pictures.apart import bodies_apart, bought_along, turned
from planbuild.derive.pictures.arrows import arrow, arrow_area, place_arrow, stands_free
from planbuild.derive.pictures.close_ups import close_up
from planbuild.derive.pictures.compose import Written, composed
from planbuild.derive.pictures.cutting import kept_inside, sawn_ends
from planbuild.derive.pictures.guides import guide_strokes
from planbuild.derive.pictures.hatching import end_fills, end_strokes
from planbuild.derive.pictures.lying import lie_words, lying, ways_of
from planbuild.derive.pictures.marks import drawn, marked, sites
from planbuild.derive.pictures.motions import at_rest, drawn_back, rides, shown_links
from planbuild.derive.pictures.shares import best_camera
from planbuild.derive.pictures.studio import USUAL, Studio
from planbuild.derive.pictures.tones import woods
from planbuild.derive.pictures.worked import worked_faces
from planbuild.derive.scene import Scene, Stage
from planbuild.derive.views.view import Body, View
from planbuild.records.drawing import Anchor, Drawing, Text, TextRole
from planbuild.records.hardware import key_of
from planbuild.records.legibility import PaperBox, text_box
from planbuild.records.solids import Key

_COVERED = 20.0
"""An arrow over the wood is as bad as a leader of so many mm."""
_UNDER = 1.2
"""Air around the line that says how a part lies."""
_LARGEST = 1.5
"""A small part is not drawn larger than this (paper mm a model mm)."""


def step_picture(studio: Studio, scene: Scene, width: float, height: float) -> Drawing:
    """The picture of a scene, as large as the paper allows.  Units: paper mm."""
    return _close(studio, scene, scene.close, width, height) if scene.close else _together(studio, scene, width, height)


# ---------------------------------------------------------------- one part, large


def _close(studio: Studio, scene: Scene, stage: Stage, width: float, height: float) -> Drawing:
    """The drawn copy as the step leaves it, lying along the paper, the faces that this step makes in the accent."""
    key, part = scene.new[0], stage.after
    wanted = [feature for id, feature in scene.features if id == part.id]
    lies, whole = lying(part, wanted), Body(key, studio.on_the_way(part))
    limit = close_up(part, wanted, lies) or part.extent
    pieces = kept_inside([whole], {key: part.extent}, limit)
    if not pieces:  # a shape took the wood that a close-up would show
        limit, pieces = part.extent, [whole]
    (kept,) = pieces
    laid = Body(key, turned(kept.shape, Pose.of(lies)))
    view = studio.see(scene.id, [laid], USUAL)
    caption = lie_words(part, lies)

    def write(frame: Frame, room: PaperBox) -> Written:
        wood = drawn(view, frame)
        words = _captioned(caption, view, frame, wood)
        taken = shapely.union_all([wood, *(shapely.box(*text_box(text)) for text in words.texts)])
        return marked(sites(studio, view, frame, scene.marks), taken, room, words)

    made = composed(view.box, width, height, write, _LARGEST)
    frame, ink = made.frame, made.written.ink
    ends = sawn_ends([laid], {key: lies.box(part.extent)}, lies.box(limit), {}, view)
    return Drawing(
        scene.id,
        width,
        made.tall,
        (*fills(view, frame, lambda key, normal: WOOD, {key: worked_faces(kept.shape, stage, wanted)}), *end_fills(ends, frame)),
        (*strokes(view, frame, lambda key: BOLD), *end_strokes(ends, {key: Axis.LEFT_RIGHT}, view, frame), *ink.strokes),
        ink.covers,
        made.written.rims,
        ink.texts,
        f"{part.mark} {part.name}{f', {caption}' if caption else ''}: the faces worked in this step are tinted.",
    )


def _captioned(words: str, view: View, frame: Frame, wood: Geometry) -> Ink:
    """How the part lies, in the lower right corner that most pictures leave free, else under it."""
    if not words:
        return Ink()
    right, foot = frame.point((view.box[2], view.box[1]))
    corner = Text(words, (right, foot), LETTERING, TextRole.NOTE, Anchor.END)
    under = replace(corner, at=(right, foot + LETTERING + _UNDER))
    free = wood.distance(shapely.box(*text_box(corner))) > _UNDER
    return Ink(texts=(corner if free else under,))


# ---------------------------------------------------------------- parts that come together


def _together(studio: Studio, scene: Scene, width: float, height: float) -> Drawing:
    """New parts where they come from, what stands there already pale behind them."""
    keys = [*scene.context, *scene.new]
    shifts = drawn_back(studio, scene) if scene.moves else {}
    bodies = [*bodies_apart(studio, keys, shifts), *_hardware(studio, scene, at_rest(keys, shifts))]
    worked = _worked(studio, scene)
    boxes = {key: box for key, box in studio.boxes.items() if key in keys}
    view = studio.see(scene.id, bodies, best_camera(boxes, shifts, scene.new, _ways(studio, scene), scene.over))

    def write(frame: Frame, room: PaperBox) -> Written:
        arrows, taken, flaws = _arrows(studio, scene, view, frame, room)
        return marked(sites(studio, view, frame, scene.marks, scene.new), taken, room, arrows, flaws)

    made = composed(view.box, width, height, write)
    frame, ink = made.frame, made.written.ink
    chains = guide_strokes(view, frame, shown_links(studio, scene), studio.boxes, at_rest(keys, shifts))
    return Drawing(
        scene.id,
        width,
        made.tall,
        fills(view, frame, _tones(studio, scene), worked),
        (*chains, *strokes(view, frame, _pens(scene)), *ink.strokes),
        ink.covers,
        made.written.rims,
        ink.texts,
        _alt(studio, scene),
    )


def _worked(studio: Studio, scene: Scene) -> dict[Key, frozenset[int]]:
    """The faces made by the features named, on every new copy as it stands (copies number their faces alike)."""
    found = {}
    for part in dict.fromkeys(id for id, _ in scene.features):
        wanted = [feature for id, feature in scene.features if id == part]
        whole = studio.piece.part(part)
        faces = worked_faces(studio.solids.of[part].cut, Stage(whole, whole), wanted)
        found.update({key: faces for key in scene.new if key[0] == part})
    return found


def _hardware(studio: Studio, scene: Scene, shifts: Mapping[Key, Vec]) -> list[Body]:
    """What goes on in this step, with the part that carries it."""
    return [body for body in bought_along(studio, shifts) if body.key in scene.bought]


def _ways(studio: Studio, scene: Scene) -> list[Vec]:
    """Where the worked faces of the drawn copies look, and those that hardware is fixed to."""
    features = [f for id, feature in scene.features for f in studio.piece.part(id).features if f.id == feature]
    fixed = [placed.face.normal for placed in studio.piece.hardware if key_of(placed, 0) in scene.bought]
    return [*scene.seen_from, *(way for feature in features for way in ways_of(feature)), *(fixed if not scene.new else [])]


def _tones(studio: Studio, scene: Scene) -> Callable[[Key, Vec], Tone]:
    """New parts in the accent, the rest pale; a piece that just stands there in the tones of its wood."""
    if not scene.moves and not scene.context:
        return woods(studio.piece)
    new = set(scene.new)
    return lambda key, normal: BOUGHT if key in scene.bought else NEW if key in new else PALE


def _pens(scene: Scene) -> Callable[[Key], Pens]:
    new = {*scene.new, *scene.bought}
    return lambda key: BOLD if key in new else LIGHT


def _arrows(studio: Studio, scene: Scene, view: View, frame: Frame, room: PaperBox) -> tuple[Ink, Geometry, float]:
    """One arrow for each direction in which parts move, made parts for themselves; the paper taken then; flaws."""
    taken, ink, flaws = drawn(view, frame), Ink(), 0.0
    for way, keys in _groups(studio, scene):
        moving = frame.shape(shapely.union_all([view.visible[key] for key in keys]))
        flat = view.camera.flat(way)
        spot = place_arrow(moving, (flat[0], -flat[1]), taken, room)
        if spot:
            ink = ink.plus(arrow(*spot))
            flaws += 0.0 if stands_free(*spot, taken, room) else _COVERED
            taken = shapely.union_all([taken, arrow_area(*spot)])
    return ink, taken, flaws


def _groups(studio: Studio, scene: Scene) -> list[tuple[Vec, list[Key]]]:
    """What moves alike; made parts that only ride along belong to what they ride on."""
    riding = {way for key, way in scene.moves.items() if not studio.part(key).made_by}
    found = shown_links(studio, scene)
    groups: dict[tuple[Vec, str], list[Key]] = {}
    for key, way in scene.moves.items():
        made = "" if key not in scene.new or rides(found, scene.moves, key) else studio.part(key).made_by
        if made or way in riding:
            groups.setdefault((way, made), []).append(key)
    return [(way, keys) for (way, _), keys in groups.items()]


def _alt(studio: Studio, scene: Scene) -> str:
    new = _names(studio, scene.new)
    if not scene.moves:
        return f"{new}, together." if not scene.context else f"{new}, in place on what was built before."
    over = ", all upside down" if scene.over else ""
    rest = _names(studio, [key for key in scene.context if scene.over or key not in scene.moves])
    return f"{new}, arrows show how they come together{f' with {rest}' if rest else ''}{over}."


def _names(studio: Studio, keys: Sequence[Key]) -> str:
    parts = [studio.piece.part(id) for id in dict.fromkeys(id for id, _ in keys)]
    return ", ".join(f"{part.mark} {part.name}" for part in parts)


