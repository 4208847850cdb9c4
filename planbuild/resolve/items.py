"""Things bought, and where hardware is put."""

from __future__ import annotations

from collections.abc import Mapping

from planbuild.records.design import ItemSaid, Said
from planbuild.records.piece import Item
from planbuild.resolve.boards import printed_name
from planbuild.resolve.sayings import Sayings, tried

KINDS = (
    *("wood screw", "butt hinge", "cup hinge", "slide", "shelf pin", "turned knob", "pull", "catch", "stop"),
    *("tip restraint", "lock", "glass", "other"),
)
_LENGTHS = ("length", "thickness", "knuckle", "diameter", "hole_depth", "projection")
"""Fields that are lengths; all others are printed as they are written."""

_WANTED = {"wood screw": ("gauge", "length")}
"""Fields without which a thing cannot be bought."""


def items(said: Mapping[str, ItemSaid], sayings: Sayings) -> dict[str, Item]:
    """The items of the design.  Reports `word-unknown`, `item-field`."""
    found = {id: tried(_item, id, each, sayings) for id, each in said.items()}
    return {id: item for id, item in found.items() if item is not None}


def _item(id: str, said: ItemSaid, sayings: Sayings) -> Item:
    kind = sayings.choice(said.item, KINDS, "kind of hardware")
    for field in _WANTED.get(kind, ()):
        if field not in said.fields:
            message = f'"{id}" is a {kind} without its {field}.'
            raise sayings.refuse("item-field", said.item, message, f"`{field}`")
    fields = tuple((name, _field(name, value, sayings)) for name, value in said.fields.items() if name != "name")
    why, note = (each.text if each else "" for each in (said.why, said.note))
    return Item(id, said.origin, kind, printed_name(id, said.fields.get("name")), fields, why, note)


def _field(name: str, said: Said, sayings: Sayings) -> float | str:
    return float(sayings.size(said, f"The {name.replace('_', ' ')}")) if name in _LENGTHS else said.text


