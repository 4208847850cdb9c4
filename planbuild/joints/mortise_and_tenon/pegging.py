"""Pegs through mate and tenon, driven in line or drawn (draw-bored), and the peg itself as a part.

The hole in the tenon lies nearer to the shoulder than those in the cheeks of the mate, by the draw, so a peg that is driven
through all three draws the shoulder tight.  The peg goes in square to the cheeks of the tenon and through the whole mate.

As made it is a straight rod; as fitted, its length within the tenon lies aside by the draw (`Bend`): so it fills every hole
as it was bored, and neither the sheets nor the proof that nothing overlaps has to pretend.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from planbuild.core.geometry import TINY, Axis, Box, Face, Span1
from planbuild.joints.base import Site
from planbuild.joints.faults import refuse, warn
from planbuild.joints.mortise_and_tenon.fields import MortiseAndTenonSaid, PegSaid
from planbuild.joints.mortise_and_tenon.meeting import Made
from planbuild.joints.mortise_and_tenon.sizes import Sizes
from planbuild.joints.proportions import length_rule, nearest_chisel, rule, share_rule, used
from planbuild.records.piece import Stock
from planbuild.records.tenon_work import PegHole

MOST = 4
"""More pegs in one tenon are no joint of the trade."""


@dataclass(frozen=True)
class Pegged:
    """A tenon with the holes for its pegs; `from_shoulder` is where the middles of those in the mate lie."""

    sizes: Sizes
    holes: tuple[PegHole, ...]
    from_shoulder: float
    stock: Stock
    defaults: tuple[str, ...]

    def peg(self, hole: PegHole) -> Box:
        """The box around a peg before it bends, on the drawn copy: as long as the mate is thick."""
        end = self.sizes.end
        middle = self.sizes.section.at(end.face) + end.face.sign * self.from_shoulder
        spans = {axis: Span1(at - hole.diameter / 2, at + hole.diameter / 2) for axis, at in _across(hole, end.face, middle)}
        return Box.of({**spans, hole.face.axis: end.seen(0).along(hole.face.axis)})


@dataclass(frozen=True)
class _Numbers:
    """What was said of pegs, understood; None where a rule decides."""

    stock: Stock
    diameter: float | None
    count: int | None
    draw: float | None
    from_shoulder: float | None


def _across(hole: PegHole, end: Face, middle: float) -> Iterator[tuple[Axis, float]]:
    yield end.axis, middle
    yield hole.across, hole.plane


def pegged(made: list[Made], said: MortiseAndTenonSaid, peg: str, site: Site) -> list[Pegged] | None:
    """The pegs of all tenons; None after reporting."""
    if said.peg is None or _otherwise_held(said, said.peg, site):
        return None
    words = [_numbers(said.peg, each.sizes, site) for each in made]
    shifts = _shifts([each.sizes for each in made])
    rows = zip(made, words, shifts, strict=True)
    found = [_bored(each, numbers, peg, by, said.peg, site) for each, numbers, by in rows if numbers]
    whole = [each for each in found if each]
    return whole if len(whole) == len(made) else None


def _otherwise_held(said: MortiseAndTenonSaid, peg: PegSaid, site: Site) -> bool:
    """True after reporting a tenon that is held by other means, or must be free."""
    others = (("wedges", said.wedges), ("tusk", said.tusk), ("play", said.play), ("twin", said.twin))
    word = next((word for word, value in others if value is not None), "")
    if word == "twin" or word == "wedges":
        message = f"Pegs through {'two tenons side by side' if word == 'twin' else 'wedged tenons'} are not built yet."
        refuse(site, "not-built-yet", peg.origin, message, "pegs through one plain tenon", f"Leave `peg` or `{word}` out.")
    elif word:
        what = "A key draws the shoulder tight" if word == "tusk" else "A tenon with `play` must be free to move"
        refuse(site, "joint-peg", peg.origin, f"{what}; pegs would hold it.", "one of the two", f"Leave `peg` or `{word}` out.")
    return bool(word)


def _numbers(said: PegSaid, sizes: Sizes, site: Site) -> _Numbers | None:
    stock = site.words.stock(said.stock) if said.stock else sizes.end.board.stock
    count = site.words.count(said.count) if said.count else None
    in_line = said.draw is not None and said.draw.text.strip() == "0"
    asked = (said.diameter, None if in_line else said.draw, said.from_shoulder)
    lengths = [site.words.length(each) if each else None for each in asked]
    unheard = any(each and length is None for each, length in zip(asked, lengths, strict=True))
    if stock is None or unheard or (said.count and count is None):
        return None
    if count is not None and said.count and not 1 <= count <= MOST:
        refuse(site, "joint-peg", said.count.span, f"{count} pegs through one tenon.", f"1 to {MOST}")
        return None
    return _Numbers(stock, lengths[0], count, 0.0 if in_line else lengths[1], lengths[2])


# ---------------------------------------------------------------- where they go


def _bored(made: Made, numbers: _Numbers, peg: str, shift: int, said: PegSaid, site: Site) -> Pegged | None:
    """None after reporting."""
    sizes, room = made.sizes, made.mitre.start if made.mitre else made.sizes.length - made.sizes.proud
    diameter, draw, count, where, lines = _decided(sizes, room, numbers, site)
    planes = [plane + shift * diameter for plane in _planes(sizes.section.along(sizes.wide), count)]
    face = sizes.end.board.face if sizes.thick is sizes.end.board.face.axis else sizes.end.board.edge
    holes = tuple(PegHole(face, sizes.wide, plane, where - draw, diameter, draw, peg) for plane in planes)
    found = Pegged(sizes, holes, where, numbers.stock, lines)
    return found if _sound(found, room, said, site) else None


def _decided(
    sizes: Sizes, room: float, numbers: _Numbers, site: Site
) -> tuple[float, float, int, float, tuple[str, ...]]:
    """Diameter, draw, count, and how far from the shoulder, as said or by the rules of the trade; the lines of the latter."""
    lines: list[str] = []
    diameter, draw, count, where = numbers.diameter, numbers.draw, numbers.count, numbers.from_shoulder
    if diameter is None:
        diameter = nearest_chisel(share_rule("peg_share", site.ruler) * sizes.thickness, site.practice)
        lines.append(used("Diameter of the pegs by the thickness of the tenon, nearest bit", "peg_share", site.ruler))
    if draw is None:
        draw = min(length_rule("peg_draw", site.ruler), share_rule("peg_draw_share", site.ruler) * diameter)
        lines.append(used("Draw of the pegs", "peg_draw", site.ruler))
    if count is None:
        count = 2 if sizes.width > length_rule("peg_second", site.ruler) - TINY else 1
        lines.append(used("One peg in a narrow tenon, two in a wide one", "peg_second", site.ruler))
    if where is None:
        where = _inward(diameter, room, site)
        lines.append(used("Pegs from the shoulder by their diameter, nearer in a short tenon", "peg_from_shoulder", site.ruler))
    return diameter, draw, count, where, tuple(lines)


def _inward(diameter: float, room: float, site: Site) -> float:
    """Two diameters; half-way along a short tenon, to the printed step, but never so near that the mate splits out."""
    step = float(site.ruler.step * site.ruler.unit.mm)
    half = round(room / 2 / step) * step
    least = (share_rule("peg_edge", site.ruler) + 0.5) * diameter
    return max(least, min(share_rule("peg_from_shoulder", site.ruler) * diameter, half))


def _planes(width: Span1, count: int) -> list[float]:
    """In the middle; two of them a quarter of the width from either edge; more likewise."""
    return [width.low + width.size * (2 * number + 1) / (2 * count) for number in range(count)]


def _shifts(sizes: list[Sizes]) -> list[int]:
    """Pegs of tenons that meet in a post at a right angle would meet too: those of the first go up by a diameter, those of
    the other down.  In diameters."""
    found = [0] * len(sizes)
    for number, one in enumerate(sizes):
        for other_number, other in enumerate(sizes[:number]):
            if _meet(one, other):
                found[other_number], found[number] = 1, -1
    return found


def _meet(one: Sizes, other: Sizes) -> bool:
    """True if two tenons stand in one post at a right angle, at the same height."""
    for copy, home in enumerate(one.end.homes):
        for other_copy, other_home in enumerate(other.end.homes):
            if (home.board.id, home.copy) == (other_home.board.id, other_home.copy):
                boxes = [each.end.board.copies[at].motion.box(each.section) for each, at in ((one, copy), (other, other_copy))]
                ways = {e.end.board.copies[at].motion.axis(e.end.face.axis) for e, at in ((one, copy), (other, other_copy))}
                if len(ways) == 2 and boxes[0].along(home.grain).meet(boxes[1].along(home.grain)).size > TINY:
                    return True
    return False


def _sound(found: Pegged, room: float, said: PegSaid, site: Site) -> bool:
    """Reports `joint-peg` for holes that no peg goes through or that break out, `joint-proportion` (warning) for wood that
    may split."""
    hole, figure, left = found.holes[0], site.ruler.plain, _left(found, room)
    least = min(left, key=lambda each: left[each])
    if hole.draw > hole.diameter / 2 + TINY:
        message = f"A peg {figure(hole.diameter)} thick cannot find its way through holes {figure(hole.draw)} out of line."
        most = figure(share_rule("peg_draw_share", site.ruler) * hole.diameter)
        refuse(site, "joint-peg", said.draw.span if said.draw else said.origin, message, f"at most {most}")
        return False
    if left[least] <= TINY or hole.start - hole.diameter / 2 <= TINY:
        place = least if left[least] <= TINY else "at the shoulder"
        message = f'The hole for a peg {figure(hole.diameter)} thick breaks out {place} of "{found.sizes.end.board.id}".'
        hint = "Say thinner or fewer pegs, or another `from_shoulder`."
        refuse(site, "joint-peg", said.origin, message, "wood all round it", hint)
        return False
    _warn(found, least, left[least], said, site)
    return True


def _left(found: Pegged, room: float) -> dict[str, float]:
    """Wood beside the holes that can split out, by where it lies."""
    hole, width = found.holes[0], found.sizes.section.along(found.sizes.wide)
    half, planes = hole.diameter / 2, [each.plane for each in found.holes]
    between = {"between the pegs": planes[1] - planes[0] - hole.diameter} if len(planes) > 1 else {}
    return {
        "at the face of the mate": found.from_shoulder - half,
        "at the tip": room - hole.start - half,
        "at the edge of the tenon": min(planes[0] - width.low, width.high - planes[-1]) - half,
        **between,
    }


def _warn(found: Pegged, where: str, left: float, said: PegSaid, site: Site) -> None:
    hole, figure = found.holes[0], site.ruler.plain
    peg = f"a peg {figure(hole.diameter)} thick"
    if left < share_rule("peg_edge", site.ruler) * hole.diameter - TINY:
        least = f"at least {figure(share_rule('peg_edge', site.ruler) * hole.diameter)}"
        _proportion("peg_edge", f"{figure(left)} of wood is left {where} beside {peg}.", least, said, site)
    if hole.draw > share_rule("peg_draw_share", site.ruler) * hole.diameter + TINY:
        most = f"at most {figure(share_rule('peg_draw_share', site.ruler) * hole.diameter)}"
        _proportion("peg_draw_share", f"{figure(hole.draw)} is much to draw {peg}.", most, said, site)
    if hole.diameter > share_rule("peg_widest", site.ruler) * found.sizes.width + TINY:
        most = f"at most {figure(share_rule('peg_widest', site.ruler) * found.sizes.width)}"
        message = f"{peg[0].upper()}{peg[1:]} is much for a tenon {figure(found.sizes.width)} wide."
        _proportion("peg_widest", message, most, said, site)


def _proportion(name: str, message: str, expected: str, said: PegSaid, site: Site) -> None:
    found = rule(name, site.ruler)
    hint = f"{found.reason[0].upper()}{found.reason[1:]}."
    warn(site, "joint-proportion", said.origin, message, expected, hint, found.source)
