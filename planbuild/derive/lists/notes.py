"""What is said of a part beside its sizes: the designer's words and reasons."""

from __future__ import annotations

import math
from collections.abc import Iterator

from planbuild.core.geometry import Axis, Face, Vec
from planbuild.core.poses import Pose, same_way
from planbuild.derive import phrases
from planbuild.derive.lists.features import feature_facts
from planbuild.records.piece import Part, Piece


def part_notes(piece: Piece, part: Part) -> tuple[str, ...]:
    """The designer's words, and why a feature is as it is where its joint does not say the same."""
    told = {each.why for each in piece.joints}
    reasons: dict[str, str] = {}
    for feature, facts in zip(part.features, feature_facts(piece, part), strict=True):
        if feature.why and feature.why not in told:
            reasons.setdefault(feature.why, _reason(facts.words.rstrip("."), feature.why))
    said = [_stands(part), *_of_use(part), part.note, part.why, *reasons.values()]
    return tuple(dict.fromkeys(phrases.sentence(each) for each in said if each))


_SEEN = {Axis.LEFT_RIGHT: "from the right", Axis.FRONT_BACK: "from the front", Axis.BOTTOM_TOP: "from above"}


def _stands(part: Part) -> str:
    """How a part stands that is not square to the piece; its sheet shows it straight."""
    if part.pose is None or part.made_by:
        return ""
    if not same_way(part.pose.direction(part.grain.high.normal), part.grain.high.normal):
        return _leans(part, part.pose)
    across = part.grain.others
    run, side = part.pose.direction(across[0].high.normal), across[1]
    angle = math.degrees(math.atan2(run[side.value], run[across[0].value]))
    way = "anticlockwise" if angle > 0 else "clockwise"
    flips = any(copy.motion.sign[across[0].value] * copy.motion.sign[side.value] < 0 for copy in part.copies)
    seen = f"{way} seen {_SEEN[part.grain]}{', mirrored copies the other way' if flips else ''}"
    return f"it stands turned {abs(angle):.3g}° about its length, {seen}; here it is drawn straight"


def _of_use(part: Part) -> Iterator[str]:
    if part.fit_to_work:
        yield "Fit it to its place: measure from the work, not from this sheet"
    if part.stays_on:
        yield f"It stays on the {part.stays_on} when the piece is lifted off"


def _leans(part: Part, pose: Pose) -> str:
    """As it shows in two views, and the two angles by which a bore is set for it: the sightline, as seen from above, and the
    resultant, in the plane of the sightline (plane geometry)."""
    ends = [(face, pose.point(_end(part, face)), _end(part, face)) for face in (part.grain.low, part.grain.high)]
    face, there, here = max(ends, key=lambda each: math.dist(each[1], each[2]))
    way = pose.direction(face.normal)
    aside = [(axis, way[axis.value] / abs(way[part.grain.value])) for axis in part.grain.others]
    told = [
        f"{math.degrees(math.atan(abs(slope))):.3g}° to the {(axis.high if slope > 0 else axis.low).value}"
        for axis, slope in aside
        if abs(slope) > 1e-6
    ]
    resultant = math.degrees(math.acos(min(1.0, abs(way[part.grain.value]))))
    words = f"it leans: its {face.value} end goes {phrases.listed(told)}"
    if len(told) > 1:
        (first, one), (second, other) = aside
        sight = math.degrees(math.atan2(abs(other), abs(one)))
        line = f"from the {first.words} line toward the {(second.high if other > 0 else second.low).value}"
        words += f"; sightline {round(sight, 1):g}° {line}, resultant {round(resultant, 1):g}°"
    mirrored = "; mirrored copies lean mirrored" if len(part.copies) > 1 else ""
    return f"{words}{mirrored}. Here it is drawn straight"


def _end(part: Part, face: Face) -> Vec:
    x, y, z = (part.body.at(face) if axis is face.axis else part.body.along(axis).middle for axis in Axis)
    return x, y, z


def _reason(words: str, why: str) -> str:
    """`Groove in the back face: takes the tongues`; a reason with a colon of its own becomes a sentence of its own."""
    return f"{words}. {phrases.sentence(why)}" if ":" in why else f"{words}: {why}"
