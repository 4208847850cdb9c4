"""What fixes a tenon: its length, its section from the gauged faces, its mitre, the kerfs for its wedges."""

from __future__ import annotations

from collections.abc import Iterator

from planbuild.core.geometry import TINY, Axis, Box, Span1
from planbuild.derive.dimensions.measure import Datum, Measure, Weight, linear, told, told_distance
from planbuild.derive.dimensions.where import at, far_wall, near_wall, place_words, third, with_plane
from planbuild.records.features import Kerf, Mitre, Tenon, Wedging
from planbuild.records.piece import Part
from planbuild.records.tenon_work import Haunch, Keyway

Found = Iterator[Measure]


def of_tenon(part: Part, f: Tenon, datum: Datum) -> Found:
    """Length, section, and what is done to the tip."""
    sides = tuple(face for axis in f.end.axis.others for face in (axis.low, axis.high))
    yield linear(f.id, "length", f.end.axis, (_shoulder(f), f.block.at(f.end)), f.block, sides)
    yield from _round(part, f, datum) if f.round else _section(part, f, datum)
    if f.mitre:
        yield from _mitre(f, f.mitre)
    if f.wedging:
        yield from _wedged(f, f.wedging)
    if f.keyway:
        yield from _keyed(f, f.keyway)
    if f.pegs:
        yield from _pegged(f)
    if f.haunch:
        yield from _haunched(f, f.haunch)
    if f.tip_chamfer:
        yield _tip(f)


def _shoulder(f: Tenon) -> float:
    return f.block.at(f.end.opposite)


def _section(part: Part, f: Tenon, datum: Datum) -> Found:
    """The cheek is gauged from the face side, the near shoulder from the face edge; the far shoulder is for checking."""
    thin = min(f.end.axis.others, key=lambda axis: round(f.block.size(axis), 6))
    for axis in sorted(f.end.axis.others, key=lambda axis: axis is not thin):
        face = datum[axis]
        near, far = near_wall(f.block, face), far_wall(f.block, face)
        start, stop = part.body.at(face), part.body.at(face.opposite)
        if abs(near - start) > TINY:
            word = f"cheek {place_words(part, face)}" if axis is thin else f"shoulder at {face.value}"
            yield linear(f.id, word, axis, (start, near), f.block, (f.end,))
        yield linear(f.id, "thickness" if axis is thin else "width", axis, (near, far), f.block, (f.end,))
        if axis is not thin and min(abs(far - stop), abs(near - start)) > TINY:
            yield linear(f.id, f"shoulder at {face.opposite.value}", axis, (stop, far), f.block, (f.end,), Weight.REFERENCE)


def _round(part: Part, f: Tenon, datum: Datum) -> Found:
    """Where its middle lies on the end, and how thick it is."""
    for axis in f.end.axis.others:
        ends = (part.body.at(datum[axis]), f.block.along(axis).middle)
        yield linear(f.id, f"middle {place_words(part, datum[axis])}", axis, ends, f.block, (f.end,))
    middle = dict(zip(Axis, f.block.centre, strict=True)) | {f.end.axis: f.block.at(f.end)}
    yield told(f.id, "diameter", f.block.size(f.end.axis.others[0]), f.block, ((f.end, at(middle)),), "⌀ {}")


def _mitre(f: Tenon, mitre: Mitre) -> Found:
    """The short side from the shoulder, and the angle."""
    view = third(f.end.axis, mitre.short.axis)
    seen = (view.high, view.low)
    turn = _shoulder(f) + f.end.sign * mitre.start
    surface = f.block.at(mitre.short)
    region = with_plane(f.block, mitre.short, surface)
    yield linear(f.id, "short side", f.end.axis, (_shoulder(f), turn), region, seen, fine=True)
    half = min(f.block.size(f.end.axis) - mitre.start, f.block.size(mitre.short.axis)) / 2
    middle = {f.end.axis: turn + f.end.sign * half, mitre.short.axis: surface - mitre.short.sign * half}
    points = tuple((face, at({**middle, view: f.block.at(face)})) for face in seen)
    yield told(f.id, "mitre", 45.0, region, points, "mitre {}", unit="deg", fine=True)


def _wedged(f: Tenon, wedging: Wedging) -> Found:
    """Each kerf from the nearer edge of the tenon, how deep, how wide."""
    view = third(f.end.axis, wedging.across)
    kerfs = sorted(wedging.kerfs, key=lambda kerf: kerf.plane)
    for number, kerf in enumerate(kerfs, start=1):
        yield from _kerf(f, kerf, f"kerf {number}" if len(kerfs) > 1 else "kerf")
    inner = f.block.at(f.end) - f.end.sign * kerfs[-1].depth * 0.4
    spot = {f.end.axis: inner, wedging.across: kerfs[-1].plane + kerfs[-1].width / 2}
    points = tuple((face, at({**spot, view: f.block.at(face)})) for face in (view.low, view.high))
    say = f"{'kerf' if len(kerfs) == 1 else 'kerfs'} {{}} wide"
    yield told(f.id, "kerf width", kerfs[-1].width, f.block, points, say, fine=True)


def _kerf(f: Tenon, kerf: Kerf, word: str) -> Found:
    view = third(f.end.axis, kerf.across)
    tip, wide = f.block.at(f.end), f.block.along(kerf.across)
    edge = min((wide.low, wide.high), key=lambda edge: abs(edge - kerf.plane))
    bottom = tip - f.end.sign * kerf.depth
    region = _slot(f, kerf, tip, bottom)
    seen = (view.low, view.high)
    yield linear(f.id, f"{word} from edge", kerf.across, (edge, kerf.plane), region, seen, fine=True)
    yield linear(f.id, f"{word} depth", f.end.axis, (tip, bottom), region, seen, fine=True)


def _slot(f: Tenon, kerf: Kerf, tip: float, bottom: float) -> Box:
    sawn = f.block.with_span(kerf.across, Span1(kerf.plane - kerf.width / 2, kerf.plane + kerf.width / 2))
    return sawn.with_span(f.end.axis, Span1(min(tip, bottom), max(tip, bottom)))


def _keyed(f: Tenon, way: Keyway) -> Found:
    """The mortise for the key: from the shoulder, its length at either face, its width and place across."""
    near, far = way.mouth(f.block, f.end, way.face), way.mouth(f.block, f.end, way.face.opposite)
    inner, across = near.at(f.end.opposite), way.walls
    edge = min(f.block.along(way.across).low, f.block.along(way.across).high, key=lambda each: abs(each - across.middle))
    wall = min((across.low, across.high), key=lambda each: abs(each - edge))
    yield linear(f.id, "key mortise from shoulder", f.end.axis, (_shoulder(f), inner), near, (way.face,), fine=True)
    yield linear(f.id, "key mortise length", f.end.axis, (inner, near.at(f.end)), near, (way.face,), fine=True)
    yield linear(f.id, "key mortise from edge", way.across, (edge, wall), near, (way.face,), fine=True)
    yield linear(f.id, "key mortise width", way.across, (across.low, across.high), near, (way.face,), fine=True)
    spot = {f.end.axis: far.at(f.end), way.across: across.middle, way.face.axis: f.block.at(way.face.opposite)}
    words = f"key mortise {{}} long at {way.face.opposite.value}"
    ends, points = (inner, far.at(f.end)), ((way.face.opposite, at(spot)), (way.face, at(spot)))
    yield told_distance(f.id, "key mortise length, far face", f.end.axis, ends, far, points, words)


def _pegged(f: Tenon) -> Found:
    """The holes for the pegs: how far from the shoulder, how far from an edge of the tenon, how thick."""
    for number, hole in enumerate(f.pegs, start=1):
        word = f"peg hole {number}" if len(f.pegs) > 1 else "peg hole"
        seen, region = (hole.face, hole.face.opposite), hole.mouth(f.block, f.end, hole.face)
        edge = min(f.block.along(hole.across).low, f.block.along(hole.across).high, key=lambda each: abs(each - hole.plane))
        yield linear(f.id, f"{word} from edge", hole.across, (edge, hole.plane), region, seen, fine=True)
        if number == 1:
            inner = hole.middle(f.block, f.end)
            yield linear(f.id, "peg holes from shoulder", f.end.axis, (_shoulder(f), inner), region, seen, fine=True)
            spot = {f.end.axis: inner, hole.across: hole.plane}
            points = tuple((face, at({**spot, face.axis: f.block.at(face)})) for face in seen)
            yield told(f.id, "diameter of the peg holes", hole.diameter, region, points, "⌀ {} for a peg", fine=True)


def _haunched(f: Tenon, haunch: Haunch) -> Found:
    """Its length; its thickness and where it lies only if it is not as thick as the tenon."""
    view = third(f.end.axis, haunch.face.axis)
    along = (_shoulder(f), haunch.box.at(f.end))
    yield linear(f.id, "haunch length", f.end.axis, along, haunch.box, (view.low, view.high))
    span, whole = haunch.box.along(view), f.block.along(view)
    if span.size < whole.size - TINY:
        yield linear(f.id, "haunch thickness", view, (span.low, span.high), haunch.box, (f.end,))
        if span.low - whole.low > TINY:
            yield linear(f.id, "haunch from cheek", view, (whole.low, span.low), haunch.box, (f.end,))


def _tip(f: Tenon) -> Measure:
    """Pointed at where the chamfer shows: at a corner of the tip, from each of the four sides."""
    points = []
    for view, across in (f.end.axis.others, f.end.axis.others[::-1]):
        for face in (view.low, view.high):
            points.append((face, at({f.end.axis: f.block.at(f.end), across: f.block.along(across).low, view: f.block.at(face)})))
    return told(f.id, "tip chamfer", f.tip_chamfer, f.block, tuple(points), "{} × 45° around tip", fine=True)
