"""Placing, shaping and joining in one go: all that a change of a size can upset."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from planbuild.core.diagnostics import Collector, Diagnostic
from planbuild.core.geometry import Axis, Box, Span1
from planbuild.core.units import Ruler
from planbuild.joints.base import Board, Site
from planbuild.records.design import Design
from planbuild.records.openings import Block
from planbuild.records.piece import Item, NamedSize, Part, Placed, Practice, Stock
from planbuild.resolve.blocks import blocks, check_given
from planbuild.resolve.boards import boards
from planbuild.resolve.edging import relaid
from planbuild.resolve.hardware import hardware
from planbuild.resolve.imprint import ruler
from planbuild.resolve.items import items
from planbuild.resolve.joining import Joinery, grown_with, join_all, without_hidden_ends
from planbuild.resolve.ledger import FrameOf
from planbuild.resolve.many import refuse_many
from planbuild.resolve.parts import part_of
from planbuild.resolve.practice import practice
from planbuild.resolve.presence import present
from planbuild.resolve.reach import check_reach
from planbuild.resolve.sayings import Sayings, figure, tried
from planbuild.resolve.setting_out import SettingOut, unit_of
from planbuild.resolve.sizes import named_sizes
from planbuild.resolve.stock import stocks
from planbuild.resolve.tapered_mates import check_shoulders
from planbuild.resolve.turned import Turns, refuse_outer_hardware, turns_of
from planbuild.resolve.words import JointWords
from planbuild.resolve.work import moisture


@dataclass(frozen=True)
class LaidOut:
    """The design in mm.  `frame` is None if it could not be worked out; a board at fault is missing."""

    setting_out: SettingOut
    ruler: Ruler
    practice: Practice
    moisture: tuple[float, float, float]
    sizes: tuple[NamedSize, ...]
    stock: Mapping[str, Stock]
    items: Mapping[str, Item]
    boards: Mapping[str, Board]
    words: JointWords
    joinery: Joinery
    hardware: tuple[Placed, ...]
    parts: tuple[Part, ...]
    """With every block straight."""
    frame: Box | None
    blocks: tuple[Block, ...]
    turns: Turns


def lay_out(design: Design, report: Collector) -> LaidOut:
    """Sizes, boards, joints and parts; every fault goes to `report`."""
    design = present(design, report)
    setting_out = SettingOut(design, unit_of(design), report)
    sayings = setting_out.places
    measure, habits, wet = ruler(design, sayings), practice(design, sayings), moisture(design.climate, sayings)
    sizes, frame = named_sizes(setting_out), _frame(setting_out)
    check_given(setting_out)
    wood, bought = stocks(setting_out), items(design.items, sayings)
    too_large = (frame is not None and not _fits_a_room(design, frame, sayings)) or refuse_many(setting_out)
    placed = {} if too_large else boards(setting_out, wood, measure)
    check_shoulders(setting_out, placed)
    words = JointWords(setting_out, placed, wood, bought)
    site = Site(placed, words, habits, measure, wet, report)
    standing = blocks(setting_out)
    turns = turns_of(design, standing, sayings)
    stood = turns.boards(placed)
    outside = replace(site, boards=stood, words=JointWords(setting_out, stood, wood, bought)) if turns.poses else site
    joinery = join_all(design, site, outside, turns)
    fitted = hardware(design.hardware, joinery.features, setting_out, site)
    cut = {id: (*joinery.features.get(id, ()), *fitted.features.get(id, ())) for id in placed}
    parts = tuple(
        part_of(
            _sawn(without_hidden_ends(board, cut[id]), joinery.bodies[id], sayings), cut[id], design.parts[id], habits, sayings
        )
        for id, board in placed.items()
    )
    refuse_outer_hardware(fitted.placed, turns, sayings)
    if frame and len(placed) == len(design.parts):
        check_reach(design.frame, frame, turns.parts(parts), sayings)
    laid = (setting_out, measure, habits, wet, sizes, wood, bought, placed, words, joinery, fitted.placed, parts, frame)
    return LaidOut(*laid, standing, turns)


def _sawn(board: Board, body: Box, sayings: Sayings) -> Board:
    """With what goes into its mates, its edging and its notches as long as they then are."""
    return replace(board, body=body, shapes=grown_with(relaid(board, body, sayings), board.body, body))


LARGEST = 10_000.0
"""mm; larger than any room takes, and small enough that rows and spacings along it come to an end (a choice of ours)."""


def _fits_a_room(design: Design, frame: Box, sayings: Sayings) -> bool:
    """False after reporting `size-large`; nothing is placed then."""
    said = {Axis.LEFT_RIGHT: design.frame.width, Axis.FRONT_BACK: design.frame.depth, Axis.BOTTOM_TOP: design.frame.height}
    large = [axis for axis in Axis if frame.along(axis).size > LARGEST]
    for axis in large:
        message = f"The frame is {figure(frame.along(axis).size, sayings.unit)} {axis.words}; no room takes such a piece."
        expected = f"at most {LARGEST / 1000:g} m"
        hint = "Look at the units: a plain length is in the design's own."
        sayings.report.add(Diagnostic("size-large", message, span=said[axis].span, expected=expected, hints=(hint,)))
    return not large


def _frame(setting_out: SettingOut) -> Box | None:
    sizes = {axis: tried(setting_out.ledger.ask, FrameOf("frame", axis)) for axis in Axis}
    spans = {axis: Span1(0.0, float(size)) for axis, size in sizes.items() if size is not None}
    return Box.of(spans) if len(spans) == 3 else None
