"""Resolve: from what was written to every part in mm, with its features and both ends of each joint.

Sizes and places are worked out exactly, each when it is first asked for; the boards that they give are shaped
and joined; texts, work and finish are read off; and each range is tried at both its ends.
"""

from __future__ import annotations

from dataclasses import replace

from planbuild.core.diagnostics import Collector
from planbuild.records.design import Design
from planbuild.records.edging import edgings_of
from planbuild.records.openings import Block
from planbuild.records.piece import Assembly, Item, Part, Piece, Stock, ThemeWish
from planbuild.resolve.bill import check_bill
from planbuild.resolve.blocks import openings
from planbuild.resolve.emptiness import empty_lists
from planbuild.resolve.finish import coatings
from planbuild.resolve.imprint import edition_wishes, imprint
from planbuild.resolve.layout import LaidOut, lay_out
from planbuild.resolve.marks import marks
from planbuild.resolve.ranges import check_ranges
from planbuild.resolve.turned import stood
from planbuild.resolve.work import assemblies, block_assemblies, cautioned_steps, cautions_in_use, glue, loads, matching, steps

__all__ = ["resolve"]


def resolve(design: Design) -> Piece:
    """Every part placed, shaped and joined.  Raises Refused with all that was found."""
    report = Collector([*design.warnings, *empty_lists(design)])
    report.refuse_if_any_stops()
    laid = lay_out(design, report)
    piece = _piece(laid.setting_out.design, laid) if laid.frame else None
    report.refuse_if_any_stops()
    check_ranges(design, sum(len(board.copies) for board in laid.boards.values()), report)
    report.refuse_if_any_stops()
    assert piece is not None, "a frame that cannot be worked out is reported"
    return stood(replace(piece, warnings=tuple(report.found)), laid.turns)


def _piece(design: Design, laid: LaidOut) -> Piece:
    sayings = laid.setting_out.places
    assert laid.frame is not None
    parts = _marked(design, laid)
    standing = laid.blocks
    if len(laid.joinery.joints) == len(design.joints):  # a joint at fault leaves its parts without their tenons
        check_bill(design.bill, parts, sayings)
    return Piece(
        imprint=imprint(design, sayings),
        ruler=laid.ruler,
        frame=laid.frame,
        sizes=laid.sizes,
        stock=_used_stock(parts, laid),
        parts=parts,
        joints=laid.joinery.joints,
        items=_used_items(laid),
        hardware=laid.hardware,
        assemblies=_assemblies(design, laid, standing),
        steps=(*steps(design.steps, laid.words, sayings), *cautioned_steps(design.cautions, sayings)),
        coatings=coatings(laid.setting_out, laid.boards, laid.words),
        glue=glue(design.glue, sayings),
        loads=loads(design, laid.boards, sayings),
        moisture=laid.moisture,
        practice=laid.practice,
        editions=edition_wishes(design.editions, sayings),
        openings=openings(laid.setting_out),
        blocks=standing,
        theme=ThemeWish(design.theme.text, design.theme.span) if design.theme else ThemeWish("bench"),
        matching=matching(design.matching, laid.words, sayings),
        cautions=cautions_in_use(design, sayings),
        words=tuple((word, said.text) for word, said in design.words.items()),
        departs=tuple((name, said.text) for name, said in design.departs.items()),
    )


def _assemblies(design: Design, laid: LaidOut, standing: tuple[Block, ...]) -> tuple[Assembly, ...]:
    """Those that are named, then each block as one."""
    named = assemblies(design.assemblies, standing, laid.boards, laid.words, laid.setting_out.places)
    return (*named, *block_assemblies(standing, laid.boards, named))


def _marked(design: Design, laid: LaidOut) -> tuple[Part, ...]:
    """The design's own parts in its order, then those that joints call for."""
    parts = (*laid.parts, *laid.joinery.makes)
    pinned = {id: said.mark for id, said in design.parts.items() if said.mark}
    given = marks((part.id for part in parts), pinned, laid.setting_out.report)
    return tuple(replace(part, mark=given[part.id]) for part in parts)


def _used_stock(parts: tuple[Part, ...], laid: LaidOut) -> tuple[Stock, ...]:
    """A series describes more wood than one piece takes."""
    used = {part.stock for part in parts} | {strip.stock for part in parts for strip in edgings_of(part.features)}
    return tuple(stock for id, stock in laid.stock.items() if id in used)


def _used_items(laid: LaidOut) -> tuple[Item, ...]:
    fixed = {id for joint in laid.joinery.joints for id, _ in joint.hardware}
    used = fixed | {id for each in laid.hardware for id, _ in each.takes}
    known = {**laid.items, **{item.id: item for item in laid.joinery.buys}}
    return tuple(item for id, item in known.items() if id in used)


