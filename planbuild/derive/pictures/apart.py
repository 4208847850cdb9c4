"""Solids as they are before a part is driven home: a tenon that wedges will spread is still straight."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import cast

from planbuild.core.geometry import Vec
from planbuild.core.poses import Pose
from planbuild.derive.pictures.studio import NOWHERE, Studio, moved_bodies
from planbuild.derive.views.view import Body
from planbuild.records.solids import Key


def bodies_apart(studio: Studio, keys: Iterable[Key], moved: Mapping[Key, Vec]) -> list[Body]:
    """The standing copies, shifted; a part is as cut where what spreads it is missing or has not come home."""
    return moved_bodies(before_moving(studio, keys, moved), moved)


def bought_along(studio: Studio, moved: Mapping[Key, Vec]) -> list[Body]:
    """Hardware goes where the part goes that carries it, as far as that part is in the picture."""
    shifts = {key: moved[each.on[0]] for key, each in studio.bought.items() if each.on[0] in moved}
    return moved_bodies(studio.bodies(shifts), shifts)


def before_moving(studio: Studio, keys: Iterable[Key], moved: Mapping[Key, Vec]) -> list[Body]:
    """The same bodies, still where they belong."""
    present = list(keys)
    return [Body(key, _shape(studio, key, present, moved)) for key in present]


def _shape(studio: Studio, key: Key, present: list[Key], moved: Mapping[Key, Vec]) -> object:
    solid = studio.solids.of[key[0]]
    if solid.cut is solid.fitted or _spread(studio, key, present, moved):
        return studio.solids.placed[key]
    return standing_as_cut(studio, key)


def _spread(studio: Studio, key: Key, present: list[Key], moved: Mapping[Key, Vec]) -> bool:
    """True if all that a joint drives into this copy is there and has moved along with it."""
    driven = [link.moving for link in studio.links if link.mate == key and studio.part(link.moving).made_by]
    return all(each in present and moved.get(each, NOWHERE) == moved.get(key, NOWHERE) for each in driven)


def standing_as_cut(studio: Studio, key: Key) -> object:
    """A copy as it leaves the bench, where it stands."""
    return turned(studio.solids.of[key[0]].cut, studio.part(key).stands(key[1]))


def turned(shape: object, stands: Pose) -> object:
    """A `cadquery.Shape` put where a motion takes it, mirrored if the motion mirrors."""
    import cadquery as cq
    from OCP.BRepBuilderAPI import BRepBuilderAPI_Transform
    from OCP.gp import gp_Trsf

    if stands == Pose():
        return shape
    transform = gp_Trsf()
    transform.SetValues(*(number for row, far in zip(stands.rows, stands.shift, strict=True) for number in (*row, far)))
    home = cast("cq.Shape", shape)
    return cq.Shape.cast(BRepBuilderAPI_Transform(home.wrapped, transform, True).Shape())
