"""Every drawing of a plan, each as large as its room on the page (`records.rooms`) allows."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from planbuild.derive.pictures.cover import cover
from planbuild.derive.pictures.exploded import moved_apart
from planbuild.derive.pictures.joint_pictures import joint_picture
from planbuild.derive.pictures.joint_sections import joint_section
from planbuild.derive.pictures.section import best_plane, section
from planbuild.derive.pictures.step_picture import step_picture
from planbuild.derive.pictures.studio import Studio
from planbuild.derive.pictures.three_views import three_views
from planbuild.derive.scene import Scene
from planbuild.records import rooms
from planbuild.records.drawing import Drawing


def of_the_piece(studio: Studio) -> Iterator[Drawing]:
    """The finished piece, the piece in views, moved apart and cut through, and each joint: those in a turned block as they are
    cut, straight."""
    piece, edition = studio.piece, studio.edition
    plane = best_plane(piece)
    yield from moved_apart(studio)
    yield cover(studio, *rooms.cover(edition))
    yield three_views(studio, plane, *rooms.three_views(edition))
    if plane is not None:
        yield section(studio, plane, *rooms.SECTION)
    straight = replace(studio, piece=piece.as_cut, solids=studio.solids.as_cut)
    for joint in piece.as_cut.joints:
        large = joint.enlarged
        picture = joint_picture(straight, joint, *rooms.joint(edition, large))
        for each in (picture, joint_section(straight, joint, *rooms.joint_section(edition, large))):
            if each is not None:
                yield each


def of_the_steps(studio: Studio, scenes: Sequence[Scene]) -> Iterator[Drawing]:
    """A picture of each scene."""
    for scene in scenes:
        yield step_picture(studio, scene, *rooms.STEP)
