"""Screws between parts that other joints have closed already: they are driven while the clamps are still on."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from planbuild.derive.steps.assembly import Joining, is_assembled
from planbuild.records.piece import Joint, Piece


def driven_in(piece: Piece, joinings: Sequence[Joining]) -> Mapping[str, Joining]:
    """By the id of the joint, the first glue-up that holds both sides of everything it fixes: a back that stands in its
    grooves is screwed to the shelf then, and not fitted later."""
    loose = [each for each in piece.joints if each.hardware and each.contacts and not is_assembled(piece, each)]
    found = {each.id: next((one for one in joinings if _holds(one, each)), None) for each in loose}
    return {id: joining for id, joining in found.items() if joining is not None}


def _holds(joining: Joining, joint: Joint) -> bool:
    return all(any({contact.a, contact.b} <= set(group) for group in joining.groups) for contact in joint.contacts)
