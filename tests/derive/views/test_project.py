"""Projection against direct computation with numpy, and against rays cast through triangles."""

from __future__ import annotations

import itertools
import math

import cadquery as cq
import numpy as np
import pytest
import shapely
from OCP.BRep import BRep_Builder
from OCP.TopAbs import TopAbs_Orientation

from planbuild.core.geometry import Face
from planbuild.derive.views import project
from planbuild.derive.views.check import middle, suspects
from planbuild.derive.views.faces import CHORD, Facet, facets
from planbuild.derive.views.view import STRAIGHT, Body, Camera, LineKind, View, pictorial

CAMERAS = [pictorial(turn, tilt) for turn, tilt in ((-35, 25), (20, 60), (130, -15), (-75, 8))]


def block(*spans: float) -> cq.Shape:
    x0, x1, y0, y1, z0, z1 = spans
    return cq.Workplane().box(x1 - x0, y1 - y0, z1 - z0, centered=False).translate((x0, y0, z0)).val()


def body(name: str, shape: cq.Shape, copy: int = 0) -> Body:
    return Body((name, copy), shape)


def kinds(view: View, kind: LineKind) -> list[list[tuple[float, float]]]:
    return [sorted((round(u, 3), round(v, 3)) for u, v in line.points) for line in view.lines if line.kind is kind]


def corners(sizes: tuple[float, float, float]) -> np.ndarray:
    return np.array(list(itertools.product(*((0.0, s) for s in sizes))))


def visible_edges(sizes: tuple[float, float, float], camera: Camera) -> set[frozenset[tuple[float, float]]]:
    """Edges of a block that border at least one face turned to the viewer, computed from its corners alone."""
    points = corners(sizes)
    flat = points @ np.array([camera.right, camera.up]).T
    found = set()
    for a, b in itertools.combinations(range(8), 2):
        differs = [i for i in range(3) if points[a][i] != points[b][i]]
        if len(differs) != 1:
            continue
        outward = [np.eye(3)[i] * (1 if points[a][i] else -1) for i in range(3) if i not in differs]
        if max(n @ np.array(camera.toward) for n in outward) > 0:
            found.add(frozenset(tuple(round(float(c), 2) for c in flat[k]) for k in (a, b)))
    return found


@pytest.mark.parametrize("camera", CAMERAS)
def test_edges_of_a_block_are_those_of_a_direct_computation(camera: Camera) -> None:
    sizes = (100.0, 40.0, 25.0)
    view = project([body("block", block(0, 100, 0, 40, 0, 25))], camera)
    drawn = {frozenset((round(u, 2), round(v, 2)) for u, v in line.points) for line in view.lines}
    assert drawn == visible_edges(sizes, camera)


@pytest.mark.parametrize("camera", CAMERAS)
def test_visible_regions_of_a_convex_block_fill_its_silhouette(camera: Camera) -> None:
    view = project([body("block", block(0, 100, 0, 40, 0, 25))], camera)
    flat = corners((100, 40, 25)) @ np.array([camera.right, camera.up]).T
    shadow = shapely.MultiPoint(flat).convex_hull
    area = sum(shapely.Polygon(r.rings[0], r.rings[1:]).area for r in view.regions)
    faces = np.abs(np.array(camera.toward)) @ np.array([40 * 25, 100 * 25, 100 * 40])
    assert area == pytest.approx(shadow.area, rel=1e-5) == pytest.approx(faces, rel=1e-5)
    assert view.visible[("block", 0)].area == pytest.approx(shadow.area, rel=1e-5)


@pytest.mark.parametrize("camera", CAMERAS)
def test_silhouette_is_outline_and_the_rest_is_edge(camera: Camera) -> None:
    view = project([body("block", block(0, 100, 0, 40, 0, 25))], camera)
    flat = corners((100, 40, 25)) @ np.array([camera.right, camera.up]).T
    outline = sum(shapely.LineString(line.points).length for line in view.lines if line.kind is LineKind.OUTLINE)
    assert outline == pytest.approx(shapely.MultiPoint(flat).convex_hull.length, rel=1e-5)
    assert len(kinds(view, LineKind.EDGE)) == 3


def test_a_board_in_front_hides_an_l_of_the_one_behind() -> None:
    near, far = body("near", block(0, 60, 0, 10, 0, 50)), body("far", block(20, 100, 30, 40, 20, 80))
    view = project([far, near], STRAIGHT[Face.FRONT])
    seen = shapely.Polygon([(20, 50), (60, 50), (60, 20), (100, 20), (100, 80), (20, 80)])
    assert view.visible[("far", 0)].symmetric_difference(seen).area < 0.01
    assert view.visible[("near", 0)].area == pytest.approx(3000)
    assert all(line.kind is LineKind.OUTLINE for line in view.lines)
    assert sum(shapely.LineString(line.points).length for line in view.lines) == pytest.approx(220 + 210)


def test_flush_parts_share_one_joint_line() -> None:
    left, right = body("left", block(0, 50, 0, 20, 0, 30)), body("right", block(50, 90, 0, 20, 0, 30))
    view = project([left, right], STRAIGHT[Face.FRONT])
    assert kinds(view, LineKind.OUTLINE).count([(50, 0), (50, 30)]) == 1
    assert sum(shapely.LineString(line.points).length for line in view.lines) == pytest.approx(2 * 90 + 3 * 30)


def test_hidden_lines_of_a_mortise() -> None:
    """A mortise cut 20 deep from the back, seen from the front: its four walls as dashed lines, once each."""
    post = block(0, 40, 0, 40, 0, 100).cut(block(10, 30, 20, 40, 30, 70))
    view = project([body("post", post)], STRAIGHT[Face.FRONT], hidden=True)
    walls = [[(10, 30), (10, 70)], [(10, 30), (30, 30)], [(10, 70), (30, 70)], [(30, 30), (30, 70)]]
    assert sorted(kinds(view, LineKind.HIDDEN)) == walls
    assert len(kinds(view, LineKind.OUTLINE)) == 4 and not kinds(view, LineKind.EDGE)


def test_hidden_lines_come_only_when_asked_for() -> None:
    post = block(0, 40, 0, 40, 0, 100).cut(block(10, 30, 20, 40, 30, 70))
    assert not kinds(project([body("post", post)], STRAIGHT[Face.FRONT]), LineKind.HIDDEN)


def test_circle_stays_within_a_fiftieth_of_a_millimetre() -> None:
    drilled = block(0, 40, 0, 40, 0, 20).cut(cq.Solid.makeCylinder(8, 20, cq.Vector(20, 20, 0)))
    view = project([body("block", drilled)], STRAIGHT[Face.TOP])
    rim = [line for line in view.lines if len(line.points) > 2]
    assert rim
    for line in rim:
        middles = (np.array(line.points)[1:] + np.array(line.points)[:-1]) / 2
        assert np.abs(np.hypot(*(middles - 20).T) - 8).max() <= 0.02
    total = sum(shapely.LineString(line.points).length for line in rim)
    assert total == pytest.approx(2 * math.pi * 8, rel=1e-3)


def proud_joint() -> list[Body]:
    """A rail whose tenon passes a post and stands proud: planes of the two cross at the mouth of the mortise."""
    post = block(0, 45, 0, 45, 0, 200).cut(block(16, 26, 0, 45, 60, 100))
    rail = block(8, 34, 45, 300, 52, 108).fuse(block(16, 26, -3, 45, 60, 100)).clean()
    slat = block(34, 200, 80, 120, 70, 90).fuse(block(25, 34, 83, 117, 76, 84)).clean()
    return [body("post", post), body("rail", rail.cut(slat)), body("slat", slat)]


def nearest(bodies: list[Body], origin: np.ndarray, way: np.ndarray) -> tuple[str, int] | None:
    """The body that a ray meets first.  Source: ray and triangle, Moeller and Trumbore 1997."""
    best: tuple[float, tuple[str, int] | None] = (math.inf, None)
    for each in bodies:
        vertices, triangles = each.shape.tessellate(0.05)
        points = np.array([v.toTuple() for v in vertices])[np.array(triangles)]
        edge1, edge2, to = points[:, 1] - points[:, 0], points[:, 2] - points[:, 0], origin - points[:, 0]
        p, q = np.cross(way, edge2), np.cross(to, edge1)
        det = (edge1 * p).sum(axis=1)
        with np.errstate(divide="ignore", invalid="ignore"):
            u, v, t = (to * p).sum(axis=1) / det, q @ way / det, (edge2 * q).sum(axis=1) / det
        hit = (np.abs(det) > 1e-9) & (u >= 0) & (v >= 0) & (u + v <= 1)
        best = min(best, (float(t[hit].min()) if hit.any() else math.inf, each.key), key=lambda found: found[0])
    return best[1] if best[0] < math.inf else None


@pytest.mark.parametrize("camera", [*CAMERAS, pictorial(-60, 15)])
def test_rays_beside_each_visible_line_meet_its_body(camera: Camera) -> None:
    bodies = proud_joint()
    view = project(bodies, camera)
    right, up, toward = (np.array(v) for v in (camera.right, camera.up, camera.toward))
    for line in view.lines:
        (u, v), ends = middle(line), np.array(line.points)
        along = (ends[-1] - ends[0]) / np.linalg.norm(ends[-1] - ends[0])
        sides = [np.array([u, v]) + side * 0.1 * np.array([-along[1], along[0]]) for side in (1, -1)]
        met = {nearest(bodies, s[0] * right + s[1] * up + 1e4 * toward, -toward) for s in sides}
        assert line.key in met or line.kind is LineKind.OUTLINE, (line, met)
        if line.kind is LineKind.OUTLINE:
            assert len(met) == 2, "an outline parts a body from its surroundings"


@pytest.mark.parametrize("camera", [*CAMERAS, pictorial(-60, 15), *STRAIGHT.values()])
def test_lines_and_regions_agree(camera: Camera) -> None:
    assert suspects(project(proud_joint(), camera), "joint") == ()


def test_moved_bodies_are_seen_where_they_stand() -> None:
    shape = block(0, 30, 0, 20, 0, 10)
    pair = [body("block", shape), body("block", shape.moved(cq.Location((50, 0, 0))), 1)]
    view = project(pair, STRAIGHT[Face.FRONT])
    assert view.box == pytest.approx((0, 0, 80, 10), abs=1e-6)
    assert view.visible[("block", 1)].bounds == pytest.approx((50, 0, 80, 10), abs=1e-3)


def test_same_bodies_give_the_same_view() -> None:
    first, second = (project(proud_joint(), CAMERAS[0]) for _ in range(2))
    assert first.lines == second.lines and first.regions == second.regions


def test_a_line_left_inside_a_face_bounds_nothing() -> None:
    """A crown touches a cut through its summit along one line, which the kernel keeps as a wire of the cut face."""
    face = cq.Face.makePlane(40, 30)
    line = cq.Wire.assembleEdges([cq.Edge.makeLine(cq.Vector(0, -10, 0), cq.Vector(0, 10, 0))])
    builder = BRep_Builder()
    marked = face.wrapped.EmptyCopied()
    builder.Add(marked, face.outerWire().wrapped)
    builder.Add(marked, line.wrapped.Oriented(TopAbs_Orientation.TopAbs_INTERNAL))
    (facet,) = facets(cq.Shape.cast(marked))
    assert [len(ring) for ring in facet.rings] == [4]


@pytest.mark.parametrize("notched", [False, True])
def test_a_fair_curve_through_a_wide_board_is_a_dozen_strips(notched: bool) -> None:
    """They cover all of the surface, face out of the wood and stray from it by no more than a chord may."""
    fair = cq.Workplane().moveTo(0, 4).spline([(10, 5), (20, 2.5)], includeCurrent=True).lineTo(20, 12).lineTo(0, 12).close()
    whole = fair.extrude(500)
    solid = (whole.cut(cq.Workplane().box(4, 20, 30).translate((10, 5, 250))) if notched else whole).val()
    (face,) = (face for face in solid.Faces() if face.geomType() == "EXTRUSION")
    strips = [each for each in facets(solid) if each.curved]
    assert len(strips) < 40
    assert sum(_area(each) for each in strips) == pytest.approx(face.Area(), rel=2e-3)
    for each in strips:
        inside = each.rings[0].mean(axis=0)
        assert cq.Vertex.makeVertex(*inside).distance(face) < 2 * CHORD or notched
        assert float(each.normal @ (0, 1, 0)) < 0, "the wood lies above the curve"


def _area(facet: Facet) -> float:
    """In its own plane, which all its corners lie in."""
    along = facet.rings[0][1] - facet.rings[0][0]
    along = along / np.linalg.norm(along)
    flat = [ring @ np.array([along, np.cross(facet.normal, along), facet.normal]).T for ring in facet.rings]
    assert np.ptp(np.concatenate(flat)[:, 2]) < 1e-6
    return float(shapely.Polygon(flat[0][:, :2], [hole[:, :2] for hole in flat[1:]]).area)
