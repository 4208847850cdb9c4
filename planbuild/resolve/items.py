"""Things bought: their kind, the fields that the kind needs, each as a length, several lengths or a text."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from planbuild.records.design import ItemSaid, Said
from planbuild.records.hardware import Figure, Item
from planbuild.records.photos import photo_of
from planbuild.resolve.boards import printed_name
from planbuild.resolve.fittings.kinds import LENGTHS, SIZES, WANTED
from planbuild.resolve.sayings import Sayings, tried
from planbuild.resolve.scopes import holder


def items(said: Mapping[str, ItemSaid], sayings: Sayings) -> dict[str, Item]:
    """The items of the design; of what blocks describe, like things are one.  Reports `word-unknown`, `item-field`."""
    found: dict[str, Item] = {}
    for id, each in said.items():
        item = tried(item_of, id, each, sayings)
        if item is not None:
            like = (other for other in found.values() if replace(item, id=other.id, origin=other.origin) == other)
            found[id] = next(like, item) if holder(id) else item
    return found


def item_of(id: str, said: ItemSaid, sayings: Sayings, name: str = "") -> Item:
    """One item.  `name` is printed where it has none of its own.  Raises Poisoned."""
    kind = sayings.choice(said.item, WANTED, "kind of hardware")
    for field in WANTED[kind]:
        if not any(word in said.fields for word in field.split(" or ")):
            message = f'"{id}" is a {kind} without its {field}.'
            raise sayings.refuse("item-field", said.item, message, f"`{'` or `'.join(field.split(' or '))}`")
    fields = tuple((each, _field(each, value, sayings)) for each, value in said.fields.items() if each != "name")
    why, note = (each.text if each else "" for each in (said.why, said.note))
    called = printed_name(name or id, said.fields.get("name"))
    return Item(id, said.origin, kind, called, fields, why, note, photo_of(said.photo, f"the {called}"))


def _field(name: str, said: Said, sayings: Sayings) -> Figure:
    if name in SIZES:
        return _sizes(name, said, sayings)
    return float(sayings.size(said, f"The {name.replace('_', ' ')}")) if name in LENGTHS else said.text


def _sizes(name: str, said: Said, sayings: Sayings) -> tuple[float, ...]:
    """`2 x 3/4`, each as the others in the design's unit, or all in the unit that stands at the end."""
    pieces = [piece.strip() for piece in said.text.split(" x ")]
    if len(pieces) != SIZES[name] or not all(pieces):
        message = f"`{said.text}` gives {len(pieces)} of {SIZES[name]} sizes."
        raise sayings.refuse("item-field", said, message, " x ".join(("2", "3/4", "1/16")[: SIZES[name]]) + ", for example")
    unit = pieces[-1].rsplit(" ", 1)[-1]
    ending = f" {unit}" if unit.isalpha() and " " in pieces[-1] else ""
    each = [piece if piece.endswith(ending) else piece + ending for piece in pieces]
    return tuple(float(sayings.size(replace(said, text=text), f"The {name}")) for text in each)
