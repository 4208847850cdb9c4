"""Sections through joints without tenons: square to the channel, and where the two parts meet."""

from __future__ import annotations

from dataclasses import replace

import timber

from planbuild.core.diagnostics import Collector
from planbuild.core.geometry import Face, Vec
from planbuild.derive.pictures.joint_sections import joint_section
from planbuild.derive.pictures.studio import Studio
from planbuild.records.drawing import Drawing, TextRole
from planbuild.records.edition import Edition
from planbuild.records.features import Groove, Mate
from planbuild.records.piece import Contact, Part
from planbuild.shape import shape


def section(mate: Part, moving: Part, way: Vec, letter: Edition) -> Drawing:
    plane = moving.body.meet(mate.body)
    joint = replace(timber.joint("it", Contact((moving.id, 0), (mate.id, 0), way, plane, 0, 0), glue=False), kind="dado")
    whole = timber.piece(mate, moving, joints=(joint,))
    drawing = joint_section(Studio(whole, shape(whole), letter, Collector()), joint, 80, 60)
    assert drawing is not None
    return drawing


def told(drawing: Drawing) -> set[str]:
    return {text.text for text in drawing.texts if text.role is TextRole.DIMENSION}


def test_a_housing_shows_its_width_and_depth(letter: Edition) -> None:
    """The side is 400 high and 100 deep; a saw along its height would show the depth alone."""
    void = timber.box(20, 25, 0, 100, 60, 80)
    housing = Groove(**timber.said("h", "it"), face=Face.RIGHT, void=void, mate=Mate("shelf", (0,)), what="housing")
    body = timber.box(0, 25, 0, 100, 0, 400)
    side = timber.board(housing, body=body, id="side", grain=timber.BOTTOM_TOP, face=Face.LEFT, edge=Face.FRONT)
    shelf = timber.board(body=timber.box(20, 300, 0, 100, 60, 80), id="shelf")
    ruler = letter.ruler
    assert {ruler.printed(20.0), ruler.printed(5.0)} <= told(section(side, shelf, (-1.0, 0.0, 0.0), letter))


def test_the_saw_goes_where_the_parts_meet_not_through_the_middle_of_a_long_rail(letter: Edition) -> None:
    """A corner: the middle of the rail is far from the slot that it stands in."""
    void = timber.box(0, 50, 10, 20, 250, 300)
    slot = Groove(**timber.said("s", "it"), face=Face.TOP, void=void, mate=Mate("rail", (0,)), what="slot")
    body = timber.box(0, 50, 0, 30, 0, 300)
    post = timber.board(slot, body=body, id="post", grain=timber.BOTTOM_TOP, face=Face.FRONT, edge=Face.LEFT)
    post_words, ends = {"mate": Mate("post", (0,)), "what": "lap"}, ((Face.FRONT, 0, 10), (Face.BACK, 20, 30))
    cheeks = tuple(
        Groove(**timber.said(face.value, "it"), face=face, void=timber.box(0, 50, low, high, 250, 300), **post_words)
        for face, low, high in ends
    )
    rail = timber.board(*cheeks, body=timber.box(0, 500, 0, 30, 250, 300), id="rail", face=Face.FRONT, edge=Face.TOP)
    assert letter.ruler.printed(10.0) in told(section(post, rail, (0.0, 0.0, -1.0), letter))
