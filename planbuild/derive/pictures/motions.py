"""How far each part of a step is drawn back from its place, against the way it goes home."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from planbuild.core.geometry import Axis, Vec
from planbuild.derive.pictures.explosion import Link
from planbuild.derive.pictures.studio import NOWHERE, Studio
from planbuild.derive.scene import Scene
from planbuild.records.solids import Key

_CLEAR = 0.07
"""Air between what comes together, as a share of the longest side of all that is shown."""


def shown_links(studio: Studio, scene: Scene) -> list[Link]:
    """The links between parts of the scene."""
    shown = {*scene.new, *scene.context}
    return [link for link in studio.links if link.moving in shown and link.mate in shown]


def drawn_back(studio: Studio, scene: Scene) -> dict[Key, Vec]:
    """The shift of every key that moves: clear of what it enters; what is driven in afterwards stands further out."""
    boxes, found = studio.boxes, shown_links(studio, scene)
    longest = max(boxes[key].size(axis) for key in (*scene.new, *scene.context) for axis in Axis)
    clear = _CLEAR * longest
    made = {key for key in scene.moves if studio.part(key).made_by}
    back = {way: max(_depth(found, scene.moves, made, way) + clear, scene.out) for way in sorted(set(scene.moves.values()))}
    shifts = {key: _shift(way, back[way]) for key, way in scene.moves.items()}
    for key in sorted(made):
        shifts[key] = _driven([link for link in found if link.moving == key], scene.moves, back, key, clear)
    return shifts


def _depth(found: Sequence[Link], moves: Mapping[Key, Vec], made: set[Key], way: Vec) -> float:
    """How deep what moves that way engages with what does not."""
    parted = [
        link.engaged
        for link in found
        if link.moving not in made and _along(link, way) and (moves.get(link.moving) == way) is not (moves.get(link.mate) == way)
    ]
    return max(parted, default=0.0)


def rides(found: Sequence[Link], moves: Mapping[Key, Vec], key: Key) -> bool:
    """Whether a made part is at home already in what it moves along with, and does not go in along that way itself."""
    own = [link for link in found if link.moving == key]
    stays = any(moves.get(link.mate) == moves[key] and not _along(link, moves[key]) for link in own)
    return stays and not any(_along(link, moves[key]) and moves.get(link.mate) == moves[key] for link in own)


def _driven(own: Sequence[Link], moves: Mapping[Key, Vec], back: Mapping[Vec, float], key: Key, clear: float) -> Vec:
    """A wedge stands beyond the post it is driven into; one that has come home rides along; a button leaves its groove first."""
    way = moves[key]
    along = [link for link in own if _along(link, way)]
    riding = any(moves.get(link.mate) == way for link in own)
    if along:
        return _shift(way, max(link.engaged + (back[way] if moves.get(link.mate) == way else 0.0) for link in along) + clear / 3)
    if riding or not own:
        return _shift(way, back[way])
    x, y, z = _shift(way, clear)
    out = _shift(_home(own[0]), own[0].engaged + clear / 6)
    return x + out[0], y + out[1], z + out[2]


def _along(link: Link, way: Vec) -> bool:
    return abs(way[link.axis.value]) > 0.7


def _home(link: Link) -> Vec:
    return (link.axis.high if link.sign > 0 else link.axis.low).normal


def _shift(way: Vec, by: float) -> Vec:
    return -way[0] * by, -way[1] * by, -way[2] * by


def at_rest(keys: Sequence[Key], shifts: Mapping[Key, Vec]) -> dict[Key, Vec]:
    """The shift of every key, none for those that stay."""
    return {key: shifts.get(key, NOWHERE) for key in keys}
