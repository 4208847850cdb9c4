"""How a part stands that is not square to the piece: its section turned about its own long centre line."""

from __future__ import annotations

from planbuild.core.geometry import Axis, Box, Vec
from planbuild.core.poses import Pose
from planbuild.records.design import PartSaid, Said
from planbuild.resolve.sayings import Sayings

MOST_TURN = 45.0
"""Degrees; a part that is turned further lies with another of its faces where the first was."""

FROM = {Axis.LEFT_RIGHT: "right", Axis.FRONT_BACK: "front", Axis.BOTTOM_TOP: "above"}
"""Whence a turn is seen by the grain of the part: anticlockwise is above zero in the three usual views."""


def leans(said: PartSaid) -> bool:
    """True if the faces of a part have no single place."""
    return said.turn is not None


def pose_of(id: str, said: PartSaid, grain: Axis, body: Box, sayings: Sayings) -> Pose | None:
    """The pose of a part, None for one that is square to the piece.  Reports `place-turn`; raises Poisoned."""
    return _turned(id, said.turn, grain, body, sayings) if said.turn else None


def _turned(id: str, said: Said, grain: Axis, body: Box, sayings: Sayings) -> Pose:
    angle = sayings.degrees(said)
    if not 0 < abs(angle) <= MOST_TURN:
        message = f'"{id}" cannot be turned by {angle:g} degrees.'
        hint = "For more, say another `face` and turn it the other way." if angle else "Leave `turn` out."
        raise sayings.refuse("place-turn", said, message, f"up to {MOST_TURN:g} deg, or down to -{MOST_TURN:g} deg", (hint,))
    return Pose.turning(about(grain), angle, body.centre)


def about(grain: Axis) -> Vec:
    """The axis about which a turn is anticlockwise for one who looks from the right, the front or above."""
    x, y, z = (0.0 if axis is not grain else -1.0 if axis is Axis.FRONT_BACK else 1.0 for axis in Axis)
    return x, y, z
