"""Every drawing of a plan, each as large as its place on the page allows.  Units: paper mm."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from planbuild.derive.pictures.cover import cover
from planbuild.derive.pictures.exploded import exploded
from planbuild.derive.pictures.joint_pictures import joint_picture
from planbuild.derive.pictures.joint_sections import joint_section
from planbuild.derive.pictures.section import best_plane, section
from planbuild.derive.pictures.step_picture import step_picture
from planbuild.derive.pictures.studio import Studio
from planbuild.derive.pictures.three_views import three_views
from planbuild.derive.scene import Scene
from planbuild.records.drawing import Drawing

COVER_HEIGHT = 150.0
GLANCE_HEIGHT = 140.0
VIEWS_HEIGHT = 150.0
SECTION = (96.0, 90.0)
JOINT = (88.0, 80.0)
STEP = (88.0, 74.0)
"""Room on the page: heights across the whole text, or width and height of a column."""


def pictures(studio: Studio, scenes: Sequence[Scene]) -> Iterator[Drawing]:
    """All but the part sheets: the piece, its joints, its steps."""
    wide = studio.edition.text_width
    plane = best_plane(studio.piece)
    yield cover(studio, wide, COVER_HEIGHT)
    yield exploded(studio, wide, GLANCE_HEIGHT)
    yield three_views(studio, plane, wide, VIEWS_HEIGHT)
    if plane is not None:
        yield section(studio, plane, *SECTION)
    for joint in studio.piece.joints:
        for each in (joint_picture(studio, joint, *JOINT), joint_section(studio, joint, *JOINT)):
            if each is not None:
                yield each
    for scene in scenes:
        yield step_picture(studio, scene, *STEP)
