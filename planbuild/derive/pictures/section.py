"""One section through the joinery: the upright plane that splits the most tenons, cut wood drawn by its grain."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import shapely
from shapely import Geometry

from planbuild.core.geometry import Axis, Face, Vec
from planbuild.derive.paint import LIGHT, PALE, Frame, ViewBox, centred, fills, path_of, strokes
from planbuild.derive.pictures.cutting import half, kept_inside, sawn_faces
from planbuild.derive.pictures.hatching import end_grain, long_grain, plies, ply_way
from planbuild.derive.pictures.ink_boxes import ink_box
from planbuild.derive.pictures.label_search import place
from planbuild.derive.pictures.labels import RADIUS, Site
from planbuild.derive.pictures.marks import drawn, mark_ink
from planbuild.derive.pictures.piece_scales import largest_scale
from planbuild.derive.pictures.studio import Studio, keys_of
from planbuild.derive.sheets.scales import scale_text
from planbuild.derive.views.view import STRAIGHT
from planbuild.records.drawing import Drawing, Fill, Pen, Stroke, Tint
from planbuild.records.drawing import line as open_path
from planbuild.records.features import Tenon
from planbuild.records.piece import Piece
from planbuild.records.solids import Key

_RIM, _FOOT = 2 * RADIUS + 5.0, 1.0
"""Around the view, for the marks; and below what is lowest, so that the caption stands close."""


@dataclass(frozen=True)
class Plane:
    """Where the saw goes: square to `axis` at `at`, looked at from `face` (the half towards the viewer is taken away)."""

    axis: Axis
    at: float
    face: Face

    @property
    def point(self) -> Vec:
        x, y, z = (self.at if axis is self.axis else 0.0 for axis in Axis)
        return x, y, z


def best_plane(piece: Piece) -> Plane | None:
    """The upright plane through the middle of the most tenons, through ones counted double; None without tenons."""
    score: dict[tuple[Axis, float], int] = defaultdict(int)
    for part in piece.parts:
        for tenon in (f for f in part.features if isinstance(f, Tenon)):
            for copy in part.copies:
                block, along = copy.motion.box(tenon.block), copy.motion.axis(tenon.end.axis)
                thin = min((a for a in Axis if a is not along), key=block.size)
                if thin is not Axis.BOTTOM_TOP:
                    score[thin, round(block.along(thin).middle, 1)] += 2 if tenon.through else 1
    if not score:
        return None
    axis, at = max(score, key=lambda plane: (score[plane], -plane[0].value, -plane[1]))
    return Plane(axis, at, axis.low if at < piece.frame.along(axis).middle else axis.high)


def section(studio: Studio, plane: Plane, width: float, height: float) -> Drawing:
    """The section through the whole piece at the largest standard scale.  Units: paper mm."""
    boxes = studio.boxes
    kept = half(plane.axis, plane.at, -plane.face.sign)
    bodies = kept_inside(studio.bodies(keys_of(studio.piece)), boxes, kept)
    camera = STRAIGHT[plane.face]
    view = studio.see("section", bodies, camera)
    scale = largest_scale(view.box, width - 2 * _RIM, height - 2 * _RIM, studio.edition.ruler.unit)
    frame, tall = _frame(view.box, width, float(scale))
    cut = {key: frame.shape(area) for key, area in sawn_faces(bodies, camera, plane.point).items()}
    ink, rims = mark_ink(place(cut_sites(studio.piece, cut), drawn(view, frame), (0.0, 0.0, width, tall)))
    tall = ink_box(ink, [drawn(view, frame).bounds])[3] + _FOOT
    return Drawing(
        "section",
        width,
        tall,
        (*fills(view, frame, lambda key, normal: PALE), *cut_fills(cut)),
        (*strokes(view, frame, lambda key: LIGHT), *cut_strokes(studio.piece, cut, plane), *ink.strokes),
        ink.covers,
        rims,
        ink.texts,
        _alt(studio.piece, cut, plane),
        scale_text(scale),
    )


def _frame(box: ViewBox, width: float, scale: float) -> tuple[Frame, float]:
    tall = scale * (box[3] - box[1]) + 2 * _RIM
    return centred(box, (0.0, 0.0, width, tall), scale), tall


def cut_fills(cut: Mapping[Key, Geometry]) -> tuple[Fill, ...]:
    """The tint of all cut wood."""
    return (Fill(Tint.CUT, path_of(shapely.union_all(list(cut.values())))),) if cut else ()


def cut_strokes(piece: Piece, cut: Mapping[Key, Geometry], plane: Plane, whole: bool = True) -> tuple[Stroke, ...]:
    """Grain and heavy outlines of cut wood, a line that two parts share once; strips of panels if they are there as a `whole`."""
    camera = STRAIGHT[plane.face]
    found: list[Stroke] = []
    for turn, (key, area) in enumerate(cut.items()):
        part = piece.part(key[0])
        motion = part.copies[key[1]].motion
        grain, sheet = motion.axis(part.grain), piece.stock_of(part).sheet
        way = ply_way(motion.axis(part.thickness_axis), camera) if sheet else None
        if way:
            found += plies(area, way)
        elif grain is plane.axis:
            strips = part.glue_up.strips if part.glue_up and whole else 1
            found += end_grain(area, turn, strips)
        else:
            found += long_grain(area, (camera.right[grain.value], -camera.up[grain.value]), turn)
    outlines = shapely.line_merge(shapely.union_all([shapely.boundary(area) for area in cut.values()], grid_size=1e-3))
    found += [Stroke(Pen.SECTION, open_path(*line.coords)) for line in shapely.get_parts(outlines)]
    return tuple(found)


def cut_sites(piece: Piece, cut: Mapping[Key, Geometry]) -> list[Site]:
    """Each kind of part that was cut, marked once."""
    found: dict[str, list[tuple[Geometry, ...]]] = {}
    for (part, _), area in cut.items():
        found.setdefault(part, []).append(tuple(p for p in shapely.get_parts(area) if p.area > 0.3))
    return [Site(piece.part(id).mark, id, tuple(copy for copy in copies if copy)) for id, copies in found.items()]


def _alt(piece: Piece, cut: Mapping[Key, Geometry], plane: Plane) -> str:
    names: Sequence[str] = list(dict.fromkeys(f"{piece.part(id).mark} {piece.part(id).name}" for id, _ in cut))
    return f"Section through the joinery, seen from the {plane.face.value}: cut are {', '.join(names)}."
