"""What a design says of turned blocks, as far as places need it: which faces still have one place, seen from outside."""

from __future__ import annotations

from collections.abc import Mapping

from planbuild.core.geometry import Axis, Face
from planbuild.records.design import Design
from planbuild.resolve.scopes import within

WAYS: Mapping[str, Face] = {
    "up": Face.TOP,
    "down": Face.BOTTOM,
    **{face.value: face for face in Face if face.axis is not Axis.BOTTOM_TOP},
}
"""The side to which an edge runs, by the word for its way."""


def turned_block(design: Design, id: str, scope: str) -> tuple[str, Axis | None] | None:
    """The turned block that holds a thing, or that it is, seen from a scope outside of it; and the axis about which it is
    turned, along which its faces keep their places."""
    for path, block in design.blocks.items():
        turn = block.said.turn
        if turn and (id == path or within(id, path)) and not (scope == path or within(scope, path)):
            about = WAYS.get(turn.about.text)
            return path, about.axis if about else None
    return None
