"""What is said of a part that does not stand square: the angle of its turn or its lean, or the place where it lands."""

from __future__ import annotations

import math
from collections.abc import Callable
from fractions import Fraction
from functools import partial

from planbuild.core.diagnostics import Span
from planbuild.core.geometry import TINY, Axis, Box, Face, Span1
from planbuild.core.poses import Pose, cross, dot, placed_at
from planbuild.records.design import LeanSaid, PartSaid, Said
from planbuild.records.slanted import drawn_back
from planbuild.resolve.expressions.faults import Poisoned
from planbuild.resolve.expressions.values import Place
from planbuild.resolve.places import Places
from planbuild.resolve.poses import Stance, about, direction, leans_across, level_ends

MOST_TURN = 45.0
"""Degrees; a part that is turned further lies with another of its faces where the first was."""

MOST_LEAN = 30.0
"""Degrees to one side; a leg that leans more is a brace (a choice of ours)."""

WAYS = {"left": Face.LEFT, "right": Face.RIGHT, "front": Face.FRONT, "back": Face.BACK, "up": Face.TOP, "down": Face.BOTTOM}
"""Where an end can go."""

MOST_TRIES = 60
"""Rounds of the search for angles whose ends land where they are wanted; each halves what is missing, or better."""


def stance_of(id: str, said: PartSaid, grain: Axis, body: Box, places: Places) -> Stance:
    """How a part stands.  Reports `place-turn`, `place-lean`; raises Poisoned."""
    if said.lean and said.turn:
        message = f'"{id}" is turned and leans; one of the two is built so far.'
        raise places.refuse("place-lean", said.turn, message, "`turn` or `lean`")
    if said.lean:
        leaning = _across if leans_across(said, grain) else _leaning
        return leaning(id, said.lean, grain, body, places)
    if said.turn is None:
        raise Poisoned
    return Stance(body, _turned(id, said.turn, grain, body, places))


def _turned(id: str, said: Said, grain: Axis, body: Box, places: Places) -> Pose:
    angle = places.degrees(said)
    if not 0 < abs(angle) <= MOST_TURN:
        message = f'"{id}" cannot be turned by {angle:g} degrees.'
        hint = "For more, say another `face` and turn it the other way." if angle else "Leave `turn` out."
        raise places.refuse("place-turn", said, message, f"up to {MOST_TURN:g} deg, or down to -{MOST_TURN:g} deg", (hint,))
    return Pose.turning(about(grain), angle, body.centre)


# ---------------------------------------------------------------- an end that goes aside


def _leaning(id: str, said: LeanSaid, grain: Axis, body: Box, places: Places) -> Stance:
    """Turned about the middle of the end that stays, in the one plane that holds both the straight and the leaning
    centre line: so no face is twisted.  With level ends it is as much longer as it leans."""
    end = _end(id, said, grain, places)
    level = said.ends is None or places.choice(said.ends, ("level", "square"), "way to cut the ends") == "level"
    stand = partial(_aside, end=end, body=body, level=level, origin=said.origin)
    return stand(_ways(id, said, end, body, stand, places))


def _aside(ways: dict[Face, float], end: Face, body: Box, level: bool, origin: Span) -> Stance:
    """The part with its end gone aside by an angle each way."""
    way, grain = direction(end, ways), end.axis
    cos = dot(way, end.normal)
    stays = placed_at(body.centre, grain, body.at(end.opposite))
    turned = cross(end.normal, way)
    pose = Pose.turning(turned, math.degrees(math.acos(min(1.0, cos))), stays) if any(turned) else Pose()
    if not level:
        return Stance(body, pose)
    far = body.at(end.opposite) + end.sign * body.size(grain) / cos
    long = body.with_span(grain, Span1(*sorted((body.at(end.opposite), far))))
    return Stance(long, pose, level_ends(long, grain, pose, origin))


def _end(id: str, said: LeanSaid, grain: Axis, places: Places) -> Face:
    end = places.face(said.end)
    if end.axis is not grain:
        message = f'The {end.value} is no end of "{id}", whose grain runs {grain.words}.'
        raise places.refuse("place-lean", said.end, message, f"{grain.low.value} or {grain.high.value}")
    return end


def _ways(
    id: str, said: LeanSaid, end: Face, body: Box, stand: Callable[[dict[Face, float]], Stance], places: Places
) -> dict[Face, float]:
    """The angle by direction, degrees; that of a face that is to land at a place follows."""
    told = _told(said)
    if not told or any(face.axis is end.axis for face in told) or len({face.axis for face in told}) < len(told):
        raise _unclear(id, said.end, end.axis, places)
    found = {face: _angle_or_place(each, face, places) for face, each in told.items()}
    angles = {face: each for face, each in found.items() if isinstance(each, float)}
    for face, angle in angles.items():
        if not 0 < angle <= MOST_LEAN:
            raise _unclear(id, told[face], end.axis, places)
    landings = {face: float(each) for face, each in found.items() if not isinstance(each, float)}
    return angles | _followed(id, {face: told[face] for face in landings}, landings, angles, end, stand, places)


def _angle_or_place(said: Said, face: Face, places: Places) -> float | Fraction:
    """Degrees, or where it is to land, mm."""
    found = places.value(said, face.axis)
    if not isinstance(found, Place):
        return places.degrees(said)
    place = places.place(said, face.axis)
    return place.mm if isinstance(place, Place) else place


def _told(said: LeanSaid) -> dict[Face, Said]:
    told: dict[Face, Said | None] = {face: getattr(said, word) for word, face in WAYS.items()}
    return {face: each for face, each in told.items() if each}


def _unclear(id: str, at: Said, along: Axis, places: Places) -> Poisoned:
    words = ", ".join(word for word, face in WAYS.items() if face.axis is not along)
    expected = f"one or two of {words}, one a direction, each above 0 and up to {MOST_LEAN:g} deg, or a place"
    return places.refuse("place-lean", at, f'It is not clear how "{id}" leans.', expected)


def _followed(
    id: str,
    said: dict[Face, Said],
    landings: dict[Face, float],
    angles: dict[Face, float],
    end: Face,
    stand: Callable[[dict[Face, float]], Stance],
    places: Places,
) -> dict[Face, float]:
    """Angles at which each face lands, on the middle of the end, where it is wanted: searched for, since a part that
    leans shows a wider end, which again changes where its faces lie."""
    straight = stand(dict.fromkeys(landings, 0.0))
    length = straight.body.size(end.axis)
    tangents = dict.fromkeys(landings, 0.0)
    for _ in range(MOST_TRIES):
        found = {face: math.degrees(math.atan(tangent)) for face, tangent in tangents.items()}
        stance = stand(angles | found)
        missing = {face: face.sign * (place - _landing(stance, end, face)) for face, place in landings.items()}
        if all(abs(each) < TINY / 100 for each in missing.values()):
            break
        tangents = {face: max(-9.0, min(9.0, tangents[face] + each / length)) for face, each in missing.items()}
    for face, angle in found.items():
        if not TINY < angle <= MOST_LEAN:
            raise _lands_nowhere(id, said[face], face, angle, places)
    return found


def _landing(stance: Stance, end: Face, face: Face) -> float:
    """Where a face meets the end that went aside, halfway along the edge between them."""
    level = stance.body.at(end)
    flat = placed_at(placed_at(stance.body.centre, end.axis, level), face.axis, stance.body.at(face))
    return stance.pose.point(drawn_back(flat, stance.body, stance.ends))[face.axis.value]


def _lands_nowhere(id: str, said: Said, face: Face, angle: float, places: Places) -> Poisoned:
    word = next(word for word, each in WAYS.items() if each is face)
    other = next(word for word, each in WAYS.items() if each is face.opposite)
    if angle > TINY:
        message = f'To land at `{said.text}`, "{id}" would lean by {angle:.1f} degrees; at most {MOST_LEAN:g} are built.'
        return places.refuse("place-lean", said, message, "a nearer place")
    message = f'`{said.text}` does not lie {word} of where "{id}" stands straight, so it would not lean that way.'
    return places.refuse(
        "place-lean", said, message, hints=(f"Write `{other}` with the place of its {other} side, or no `lean`.",)
    )


# ---------------------------------------------------------------- a shelf


def _across(id: str, said: LeanSaid, grain: Axis, body: Box, places: Places) -> Stance:
    """A shelf: turned about its long side that stays, halfway through its thickness there; its sizes stay as they are."""
    end, told = places.face(said.end), _told(said)
    if len(told) != 1 or next(iter(told)).axis in (grain, end.axis):
        words = " or ".join(word for word, face in WAYS.items() if face.axis not in (grain, end.axis))
        message = f'It is not clear how "{id}" leans: its {end.value} goes {words}.'
        raise places.refuse("place-lean", said.end, message, f"{words}, one of the two, with an angle")
    if said.ends:
        message = f'"{id}" leans across its grain: its ends are square as they are.'
        raise places.refuse("place-lean", said.ends, message, hints=("Leave `ends` out.",))
    ((face, each),) = told.items()
    angle = _angle_or_place(each, face, places)
    if not isinstance(angle, float):
        raise places.refuse("place-lean", each, f'A place says where an end lands; "{id}" leans across its grain.', "an angle")
    if not 0 < angle <= MOST_TURN:
        raise places.refuse("place-lean", each, f'"{id}" cannot lean by {angle:g} degrees.', f"up to {MOST_TURN:g} deg")
    stays = placed_at(body.centre, end.axis, body.at(end.opposite))
    return Stance(body, Pose.turning(cross(end.normal, face.normal), angle, stays))
