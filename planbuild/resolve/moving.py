"""How a block or a part moves in use: from what side it goes in, how far it opens, about which edge it swings."""

from __future__ import annotations

from planbuild.core.geometry import Face
from planbuild.records.design import Said
from planbuild.records.openings import Moves
from planbuild.records.spaces import MovesSaid
from planbuild.resolve.sayings import Sayings

_FROM, _TO = (tuple(f"{word} {face.value}" for face in Face) for word in ("from", "to"))


def moves_of(id: str, said: MovesSaid, sayings: Sayings) -> Moves:
    """Reports `block-moves`, `word-unknown`; raises Poisoned."""
    way_in = sayings.choice(said.goes_in, (*_FROM, "trapped"), "way in") if said.goes_in else ""
    opens, swings = (_toward(each, sayings) for each in (said.opens, said.swings))
    about = sayings.face(said.about) if said.about else None
    if opens and swings:
        message = f'"{id}" opens and swings; it does one.'
        raise sayings.refuse("block-moves", Said(id, said.origin), message, "`opens` or `swings`")
    if (opens or swings) and said.by is None:
        raise sayings.refuse("block-moves", Said(id, said.origin), f'"{id}" moves: how far?', "`by` a length, or an angle")
    if swings and (about is None or about.axis is swings.axis):
        at = said.about or Said(id, said.origin)
        raise sayings.refuse("block-moves", at, f'"{id}" swings: about which edge?', "`about: left`, the side of its hinges")
    by = 0.0
    if said.by:
        by = sayings.degrees(said.by) if swings else float(sayings.size(said.by, "The way it opens"))
    goes_in = None if way_in in ("", "trapped") else Face(way_in.partition(" ")[2])
    return Moves(goes_in, way_in == "trapped", opens, swings, about, by)


def _toward(said: Said | None, sayings: Sayings) -> Face | None:
    return Face(sayings.choice(said, _TO, "way to move").partition(" ")[2]) if said else None
