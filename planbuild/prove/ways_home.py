"""Every joint goes together the way it says: what it joins comes apart again along that way, on the solids.

Each copy is looked at as it leaves the bench (kerfs straight), through lines of sight (`together.columns`): what is round or
slanted and narrower than their distance may be missed, and the printed line says the distance.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

import numpy as np

from planbuild.core.diagnostics import Diagnostic
from planbuild.core.geometry import Axis, Vec
from planbuild.core.poses import Pose
from planbuild.prove.measuring import mesh_around
from planbuild.prove.standing import Standing
from planbuild.prove.telling import told
from planbuild.records.findings import Findings, Proof
from planbuild.records.freedom import Freedom
from planbuild.records.piece import Contact, Joint
from planbuild.together import Mesh, blocking, opposite

MOST_WAYS = 16
"""Directions that are looked along; a piece with more slanted joints than that proves the rest by its other checks."""


def joints_go_home(standing: Standing) -> Findings:
    """Reports `joint-way`; gives the `freedom` that the order of work is planned with."""
    freedom = _freedom(standing)
    contacts = [(joint, each) for joint in standing.piece.joints for each in joint.contacts if _can_tell(joint, each, freedom)]
    stuck = [(joint, each) for joint, each in contacts if freedom.in_the_way([each.a], [each.b], opposite(_rounded(each.insert)))]
    saying = f"each drawn out along its way, through lines of sight at most {told(standing.ruler, freedom.held.spacing)} apart"
    proof = Proof("Every joint goes together the way it says", len(contacts), saying)
    return Findings(tuple(_told(standing, stuck)), (proof,), freedom=freedom)


def _freedom(standing: Standing) -> Freedom:
    keys = tuple(standing.solids.keys())
    drawn = {part.id: mesh_around(standing.solids.of[part.id].cut) for part in standing.piece.parts}
    bodies = [_stood(drawn[part], standing.part((part, copy)).stands(copy)) for part, copy in keys]
    return Freedom(keys, blocking(bodies, _ways(standing.piece.joints)), tuple(bodies))


def _ways(joints: Iterable[Joint]) -> list[Vec]:
    """The ways of all joints, one of each two that are opposite, the square ones first."""
    square: list[Vec] = [axis.high.normal for axis in Axis]
    found = dict.fromkeys(square)
    for way in (_rounded(contact.insert) for joint in joints for contact in joint.contacts):
        if way not in found and opposite(way) not in found and len(found) < MOST_WAYS:
            found[way] = None
    return list(found)


def _rounded(way: Vec) -> Vec:
    """Without the noise of turned parts, so that like ways are one."""
    x, y, z = (round(each, 6) + 0.0 for each in way)
    return (x, y, z)


def _stood(mesh: Mesh, pose: Pose) -> Mesh:
    """A mesh of the drawn part where one of its copies stands; a mirror image turned right side out again."""
    moved: Mesh = mesh @ np.asarray(pose.rows).T + np.asarray(pose.shift)
    return moved[:, ::-1] if pose.mirrors else moved


def _can_tell(joint: Joint, contact: Contact, freedom: Freedom) -> bool:
    """Not of wedges and the like, that are made for the joint, nor along a way that is not looked along."""
    return contact.a[0] not in joint.makes and freedom.knows(opposite(_rounded(contact.insert)))


def _told(standing: Standing, stuck: Iterable[tuple[Joint, Contact]]) -> Iterator[Diagnostic]:
    """One finding for each joint, with its first place."""
    seen: set[str] = set()
    for joint, contact in stuck:
        if joint.id in seen:
            continue
        seen.add(joint.id)
        one, other = standing.name(contact.a), standing.name(contact.b)
        yield Diagnostic(
            "joint-way",
            f'"{one}" does not come out of "{other}" along the way in which "{joint.id}" goes together: they hook.',
            span=joint.origin,
            expected="a joint whose two parts can be drawn apart as they are put together",
            hints=("Look at what else is cut into the two there: a shape may undercut the joint.",),
        )
