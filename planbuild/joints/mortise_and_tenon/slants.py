"""How the tenon of an end lies to the part that it goes into, where the two do not stand square to each other."""

from __future__ import annotations

import math

from planbuild.core.geometry import Axis, Box, Face
from planbuild.core.poses import Pose, same_way
from planbuild.joints.sides import Side


def is_askew(end: Side) -> bool:
    """True if the tenon of an end is not square to the part it goes into, in any copy."""
    return bool(end.board.pose) or end.face in end.board.end_cuts or any(home.board.pose for home in end.homes)


def is_square_in(end: Side) -> bool:
    """True if it goes in square to the face of its mate, however it is turned about its own length."""
    pose, square = end.board.pose, end.face not in end.board.end_cuts and not any(home.board.pose for home in end.homes)
    return square and (pose is None or same_way(pose.direction(end.face.normal), end.face.normal))


def entering(end: Side, copy: int) -> Pose:
    """The way from the tenon part's own frame to that of its mate, when both stand."""
    home = end.homes[copy]
    return home.board.stands(home.copy).inverse.after(end.board.stands(copy))


def own_face(end: Side, copy: int) -> Face:
    """The face of the mate that a copy enters, by the mate's own name."""
    home = end.homes[copy]
    return home.board.copies[home.copy].motion.inverse.face(home.face)


def behind(end: Side, section: Box, round: bool) -> float:
    """How far its tip, square to its length, comes out later on one side than in its middle."""
    into, normal = entering(end, 0), own_face(end, 0).axis.value
    ways = {axis: into.direction(axis.high.normal)[normal] for axis in Axis}
    across = [abs(ways[axis]) * section.size(axis) / 2 for axis in end.face.axis.others]
    return (math.hypot(*across) if round else sum(across)) / abs(ways[end.face.axis])
