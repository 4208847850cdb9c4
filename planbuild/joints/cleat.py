"""Cleat: two strips with bevelled edges that hook into each other, one on the piece, one on the wall.

Both are placed as they hang, the lower edge of the hung one as far below the upper edge of the other as the slope
falls: so the two blocks overlap, and the slope divides them.  Lengths in mm, angles in degrees from square.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from typing import ClassVar

from planbuild.core.geometry import TINY, Axis, Box, Face, Vec, hull
from planbuild.joints.bars import Bar, that_overlap
from planbuild.joints.base import Chosen, Family, Joined, Site
from planbuild.joints.commons import Commons, commons
from planbuild.joints.copies import Struck, settled
from planbuild.joints.faults import refuse
from planbuild.joints.proportions import share_rule, used
from planbuild.records.design import JointSaid, Said
from planbuild.records.features import Bevel
from planbuild.records.piece import Contact, Joint

STEEPEST = 60.0
FLATTEST = 30.0
"""Degrees; a flatter edge slides off, a steeper one has a tip that breaks (heuristic)."""


class CleatSaid(JointSaid):
    """`hung` is on the piece, `wall` on the wall; `angle` is that of the edges from square."""

    hung: Said
    wall: Said
    angle: Said | None = None


class Cleat:
    """The kind: a bevelled strip that hangs behind another."""

    name = "cleat"
    family = Family.SHARING
    said: ClassVar[type[JointSaid]] = CleatSaid

    def join(self, id: str, said: CleatSaid, site: Site) -> Joined | None:
        """Reports `joint-glue`, `joint-cleat-angle`, `joint-no-overlap`, `joint-cleat-lap`, `joint-cleat-upright`."""
        common = commons(said, self.name, glued=False, site=site)
        hung, wall = site.words.part(said.hung), site.words.part(said.wall)
        angle = _angle(said, site)
        if common is None or hung is None or wall is None or angle is None:
            return None
        if common.glue:
            refuse(site, "joint-glue", said.origin, "What hangs on a cleat is lifted off again.", "no glue", "Leave `glue` out.")
            return None
        pairs = that_overlap((one, other) for one in _bars(hung) for other in _bars(wall))
        if not pairs:
            message = f'"{hung.board.id}" and "{wall.board.id}" do not overlap, so neither hooks into the other.'
            hint = f"Write `top: ... above {hung.board.id}.bottom` for the strip on the wall: as much as the slope falls."
            refuse(site, "joint-no-overlap", hung.span, message, "strips placed as they hang", hint)
            return None
        sound = [_hangs(one, other, angle, site) for one, other in pairs]
        if not all(sound):
            return None
        struck = [cut for one, other in pairs for cut in _cuts(id, one, other, angle, site)]
        joint = _told(id, said, common, [_contact(one, other, site) for one, other in pairs], angle, site)
        return Joined(joint, settled(id, struck, site))


def _bars(chosen: Chosen) -> list[Bar]:
    return [Bar(chosen.board, copy, chosen.span) for copy in chosen.copies]


def _angle(said: CleatSaid, site: Site) -> float | None:
    if said.angle is None:
        return share_rule("cleat_angle", site.ruler)
    slope = site.words.slope(said.angle)
    if slope is None:
        return None
    angle = math.degrees(math.atan(slope))
    if FLATTEST - TINY <= angle <= STEEPEST + TINY:
        return angle
    message = f"A cleat of {angle:.0f} degrees does not hold, or its tip breaks."
    refuse(site, "joint-cleat-angle", said.angle.span, message, f"{FLATTEST:g} to {STEEPEST:g} deg", source="heuristic")
    return None


def _thick(bar: Bar) -> Axis:
    return bar.face_side.axis


def _hangs(hung: Bar, wall: Bar, angle: float, site: Site) -> bool:
    """Both stand on edge, one behind the other nowhere, and overlap by what the slope falls."""
    axis, figure = _thick(hung), site.ruler.plain
    if axis is Axis.BOTTOM_TOP or hung.grain is Axis.BOTTOM_TOP or axis is not _thick(wall):
        message = f'"{hung.board.id}" and "{wall.board.id}" do not both lie along the wall.'
        refuse(site, "joint-cleat-upright", hung.span, message, "strips with level grain, their faces to the wall")
        return False
    shared, falls = hung.body.meet(wall.body), hung.body.size(axis) * math.tan(math.radians(angle))
    level = abs(shared.size(axis) - hung.body.size(axis)) < TINY and abs(shared.size(axis) - wall.body.size(axis)) < TINY
    if not level:
        message = f'"{hung.board.id}" and "{wall.board.id}" are not as thick, or not in one plane.'
        refuse(site, "joint-cleat-lap", hung.span, message, "two strips of one thickness, flush with each other")
        return False
    lap = shared.size(Axis.BOTTOM_TOP)
    above = wall.body.z.low < shared.z.low - TINY and shared.z.high < hung.body.z.high - TINY
    if not above or abs(lap - falls) > TINY:
        reaches = f'"{wall.board.id}" reaches {figure(lap)} above the lower edge of "{hung.board.id}"'
        message = f"{reaches}; the slope falls {figure(falls)}."
        hint = f"Write `top: {figure(falls)} above {hung.board.id}.bottom` for it."
        refuse(site, "joint-cleat-lap", wall.span, message, f"an overlap of {figure(falls)}", hint)
        return False
    return True


def _to_wall(hung: Bar, site: Site) -> Face:
    """The side of the wall: away from the middle of the piece."""
    axis, boards = _thick(hung), site.boards.values()
    whole = hull([board.standing(copy) for board in boards for copy in range(len(board.copies))])
    return axis.high if hung.body.along(axis).middle > whole.along(axis).middle else axis.low


def _cuts(joint: str, hung: Bar, wall: Bar, angle: float, site: Site) -> Iterable[Struck]:
    """The hung strip keeps its lower edge at the wall, the other its upper edge away from it."""
    back = _to_wall(hung, site)
    for bar, other, face, keeps in ((hung, wall, Face.BOTTOM, back), (wall, hung, Face.TOP, back.opposite)):
        cut = Bevel("", bar.span, joint, "hooks into the other strip", face, keeps, angle)
        yield Struck(bar.board, bar.copy, cut, (other.board.id, other.hand), None, bar.span)


def _contact(hung: Bar, wall: Bar, site: Site) -> Contact:
    shared, back = hung.body.meet(wall.body), _to_wall(hung, site)
    outline = _slope(shared, back, hung.grain)
    return Contact(hung.key, wall.key, (0.0, 0.0, -1.0), shared, 0.0, 0.0, outline=outline)


def _slope(shared: Box, back: Face, run: Axis) -> tuple[Vec, ...]:
    """The corners of the slope: low at the wall, high away from it."""
    corners = []
    for end, face in (("low", back), ("low", back.opposite), ("high", back.opposite), ("high", back)):
        along = shared.along(run)
        places = {run: along.low if end == "low" else along.high, back.axis: shared.at(face)}
        places[Axis.BOTTOM_TOP] = shared.z.low if face is back else shared.z.high
        corners.append((places[Axis.LEFT_RIGHT], places[Axis.FRONT_BACK], places[Axis.BOTTOM_TOP]))
    return tuple(corners)


def _told(id: str, said: CleatSaid, common: Commons, contacts: list[Contact], angle: float, site: Site) -> Joint:
    falls = round(contacts[0].shoulder.size(Axis.BOTTOM_TOP), 6)
    return Joint(
        id=id,
        kind=Cleat.name,
        name=common.name,
        origin=said.origin,
        contacts=tuple(contacts),
        glue=False,
        fit=common.fit,
        numbers=(("angle of the edges", f"{angle:g}°"), ("fall of the slope", falls)),
        operations=("bevel",),
        tools=("sliding bevel", "table saw"),
        defaults=() if said.angle else (used("Angle of the edges", "cleat_angle", site.ruler),),
        note=common.note,
        why=common.why,
    )
