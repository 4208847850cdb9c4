"""Photos of blocks, openings and hardware: in the step in which the thing is built or fixed."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from planbuild.derive.lists.joints import joint_facts
from planbuild.derive.steps.assembly import plan_joinings
from planbuild.derive.steps.order import put_in_order
from planbuild.derive.steps.photos import photos_of_things
from planbuild.derive.steps.tasks import Task, tasks
from planbuild.pipeline import Clock, choose_edition, resolve_file
from planbuild.records.photos import Photo
from planbuild.records.piece import Piece

DESIGNS = Path(__file__).parent.parent.parent / "designs"

PHOTO = Photo("one.jpg", "One")


@pytest.fixture(scope="module")
def trays() -> Piece:
    return resolve_file(DESIGNS / "two-trays.yaml", Clock())


@pytest.fixture(scope="module")
def cupboard() -> Piece:
    return resolve_file(DESIGNS / "key-cupboard.yaml", Clock())


def placed(piece: Piece) -> dict[str, tuple[Photo, ...]]:
    """By step; no step is given hardware but by what it fixes."""
    order: list[Task] = [each.task for each in put_in_order(piece, tasks(piece, plan_joinings(piece)[0])).steps]
    takes = [frozenset(each.item for each in task.placed) for task in order]
    return dict(photos_of_things(piece, order, takes))


def test_a_block_where_it_is_glued_up_and_its_opening_where_it_is_tried(trays: Piece) -> None:
    (block,) = trays.blocks
    opening = next(each for each in trays.openings if each.box == block.box)
    assert placed(replace(trays, blocks=(replace(block, photo=PHOTO),))) == {"glue.tray": (PHOTO,)}
    others = [each for each in trays.openings if each is not opening]
    assert placed(replace(trays, openings=(replace(opening, photo=PHOTO), *others))) == {"fit.tray": (PHOTO,)}


def test_an_empty_opening_stands_with_the_last_glue_up(trays: Piece) -> None:
    empty = replace(trays.openings[0], id="niche", box=trays.frame, photo=PHOTO)
    last = [each for each in put_in_order(trays, tasks(trays, plan_joinings(trays)[0])).steps if each.task.joining][-1]
    assert placed(replace(trays, openings=(empty,))) == {last.task.id: (PHOTO,)}


def test_hardware_where_it_is_fixed(cupboard: Piece) -> None:
    """Every thing that is put somewhere finds a step that puts it there, and what is bought the first that takes it."""
    for each in cupboard.hardware:
        others = tuple(replace(other, photo=PHOTO) if other is each else other for other in cupboard.hardware)
        (step,) = placed(replace(cupboard, hardware=others))
        assert step.startswith("fit."), (each.id, step)
        item = tuple(replace(other, photo=PHOTO) if other.id == each.item else other for other in cupboard.items)
        (step,) = placed(replace(cupboard, items=item))
        assert step.startswith("fit."), (each.item, step)


def test_a_joint_hands_its_photo_on(cupboard: Piece) -> None:
    first, *rest = cupboard.joints
    facts = joint_facts(replace(cupboard, joints=(replace(first, photo=PHOTO), *rest)), choose_edition(cupboard))
    assert [each.photos for each in facts if each.photos] == [(PHOTO,)]
