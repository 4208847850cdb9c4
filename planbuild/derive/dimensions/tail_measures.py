"""What fixes a row of dovetails or fingers, on the board that has them and on the one that takes them."""

from __future__ import annotations

from collections.abc import Iterator

from planbuild.core.geometry import TINY, Face, Span1
from planbuild.derive.dimensions.measure import Datum, Measure, Points, linear, told
from planbuild.derive.dimensions.where import at, far_wall, near_wall, place_words
from planbuild.records.piece import Part
from planbuild.records.tails import Comb, Sockets, Tails

Found = Iterator[Measure]


def of_tails(part: Part, f: Tails, datum: Datum) -> Found:
    """Length, the room beside the first tail, and the row; all at the tips, where tails are set out."""
    yield linear(f.id, "length", f.comb.tip.axis, _reach(f.comb), f.comb.block, _seen(part, f.comb))
    yield from _row(part, f, datum, f.what.rstrip("s"))
    if f.what == "tail":
        (tail,) = f.comb.tails
        points = _points(part, f.comb)
        yield told(f.id, "neck", f.comb.neck(tail).size, f.comb.block, points, "{} wide at the shoulder", rank=1)
        yield from _narrowing(part, f, f.comb.tails[0], "tip")


def of_sockets(part: Part, f: Sockets, datum: Datum) -> Found:
    """Depth from the face that the tails' shoulders close on, and the same row."""
    surface, bottom = part.body.at(f.face), f.comb.block.at(f.comb.tip)
    yield linear(f.id, "depth", f.comb.tip.axis, (surface, bottom), f.comb.block, _seen(part, f.comb))
    if f.mouth:
        yield from _single(part, f, f.mouth, datum)
        return
    yield from _inward(part, f)
    yield from _row(part, f, datum, "socket")


def _single(part: Part, f: Sockets, mouth: Span1, datum: Datum) -> Found:
    """A housing or a socket by its mouth, as it is knifed on the face; then how it widens, and where it ends."""
    comb, face, seen = f.comb, datum[f.comb.spread], (*_seen(part, f.comb), f.face)
    near, far = (mouth.low, mouth.high) if face.sign < 0 else (mouth.high, mouth.low)
    yield linear(f.id, f"mouth {place_words(part, face)}", comb.spread, (part.body.at(face), near), comb.block, seen)
    yield linear(f.id, "mouth width", comb.spread, (near, far), comb.block, seen)
    points = _points(part, comb)
    yield told(f.id, "width at the bottom", comb.tails[0].size, comb.block, points, "{} wide at the bottom")
    yield told(f.id, "slope", comb.slope, comb.block, points, "slope {}", rank=1, unit="slope")
    yield from _narrowing(part, f, mouth, "mouth")
    for end in (comb.run.low, comb.run.high):
        if abs(comb.block.at(end) - part.body.at(end)) > TINY:
            ends = (part.body.at(end.opposite), comb.block.at(end))
            yield linear(f.id, f"ends {place_words(part, end.opposite)}", comb.run, ends, comb.block, (f.face,))


def _narrowing(part: Part, f: Tails | Sockets, wide: Span1, where: str) -> Found:
    """What is left at the narrow end, and which end and which flank that are."""
    comb, slim = f.comb, f.comb.slim
    if slim is None:
        return
    word = "wall" if isinstance(f, Sockets) else "flank"
    say = f"{where} {{}} wide at the {slim.wide.opposite.value}: the {slim.side.value} {word} slants"
    yield told(f.id, "narrow end", comb.narrow(wide).size, comb.block, _points(part, comb), say, rank=1)


def _inward(part: Part, f: Sockets) -> Found:
    """How far sockets reach in from the end at which they are open; one that is open at both ends needs no word."""
    comb, through = f.comb, abs(part.body.at(f.comb.tip) - f.comb.block.at(f.comb.tip)) < TINY
    seen = (f.face, comb.tip) if through else (f.face,)
    for face in (comb.run.low, comb.run.high):
        wall = comb.block.at(face)
        if abs(wall - part.body.at(face)) > TINY:
            opening = part.body.at(face.opposite)
            yield linear(f.id, "in from the end", comb.run, (opening, wall), comb.block, seen)


def _reach(comb: Comb) -> tuple[float, float]:
    return comb.block.at(comb.tip.opposite), comb.block.at(comb.tip)


def _seen(part: Part, comb: Comb) -> tuple[Face, ...]:
    """The faces on which the outline of the row is open to the viewer."""
    faces = (comb.run.low, comb.run.high)
    open_at = tuple(face for face in faces if abs(comb.block.at(face) - part.body.at(face)) < TINY)
    return open_at or faces


def _row(part: Part, f: Tails | Sockets, datum: Datum, word: str) -> Found:
    comb, face = f.comb, datum[f.comb.spread]
    yield from _block(part, f, face)
    tails = comb.tails if face.sign < 0 else comb.tails[::-1]
    yield from _first(part, f, face, tails[0])
    if comb.even:
        yield from _alike(part, f, word)
    else:
        yield from _one_by_one(part, f, face, tails, word)
    if comb.slope:
        yield told(f.id, "slope", comb.slope, comb.block, _points(part, comb), "slope {}", rank=2, unit="slope")


def _block(part: Part, f: Tails | Sockets, face: Face) -> Found:
    """Where the row begins and ends on a board that is wider than its mate."""
    box, axis, seen = f.comb.block, f.comb.spread, _seen(part, f.comb)
    near, far = near_wall(box, face), far_wall(box, face)
    begins = abs(part.body.at(face) - near) > TINY
    if begins:
        yield linear(f.id, f"begins {place_words(part, face)}", axis, (part.body.at(face), near), box, seen)
    if begins or abs(part.body.at(face.opposite) - far) > TINY:
        yield linear(f.id, "width of the row", axis, (near, far), box, seen)


def _first(part: Part, f: Tails | Sockets, face: Face, tail: Span1) -> Found:
    """The half pin at the edge that is measured from."""
    near = near_wall(f.comb.block, face)
    edge = tail.low if face.sign < 0 else tail.high
    if abs(near - edge) > TINY:
        word = {"tails": "half pin", "pins": "half pin", "tail": "shoulder at the tip"}.get(f.what, "space at the edge")
        yield linear(f.id, word, f.comb.spread, (near, edge), f.comb.block, _seen(part, f.comb))


def _alike(part: Part, f: Tails | Sockets, word: str) -> Found:
    """A row of like tails in a note: how many, how wide, how far apart."""
    comb, count = f.comb, len(f.comb.tails)
    points = _points(part, comb)
    many = f"{count} {word}s {{}} wide" if count > 1 else f"{word} {{}} wide"
    at_tip = " at the tip" if comb.slope else ""
    yield told(f.id, f"{word} width", comb.tails[0].size, comb.block, points, f"{many}{at_tip}")
    if comb.between:
        yield told(f.id, f"between {word}s", comb.between[0], comb.block, points, "{} between", rank=1)


def _one_by_one(part: Part, f: Tails | Sockets, face: Face, tails: tuple[Span1, ...], word: str) -> Found:
    """From wall to wall along the tips."""
    seen, before = _seen(part, f.comb), None
    for number, tail in enumerate(tails, start=1):
        near, far = (tail.low, tail.high) if face.sign < 0 else (tail.high, tail.low)
        if before is not None:
            yield linear(f.id, f"before {word} {number}", f.comb.spread, (before, near), f.comb.block, seen)
        yield linear(f.id, f"{word} {number} width", f.comb.spread, (near, far), f.comb.block, seen)
        before = far


def _points(part: Part, comb: Comb) -> Points:
    """The middle of the flank of a tail near the middle of the row."""
    tail = comb.tails[len(comb.tails) // 2]
    spot = {comb.spread: tail.low + comb.lean / 2, comb.tip.axis: comb.block.along(comb.tip.axis).middle}
    return tuple((face, at({**spot, comb.run: comb.block.at(face)})) for face in _seen(part, comb))
