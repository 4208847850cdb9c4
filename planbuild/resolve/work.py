"""What the designer says of the work: subassemblies, steps, loads, glue, climate."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import replace

from planbuild.core.diagnostics import Diagnostic, Related, Severity
from planbuild.core.geometry import Axis
from planbuild.core.moisture import settled_moisture
from planbuild.core.spelling import did_you_mean
from planbuild.core.tables import row
from planbuild.joints.base import Board, Words
from planbuild.records.design import (
    AddedStepsSaid,
    AirSaid,
    AssemblySaid,
    ClimateSaid,
    Design,
    GlueSaid,
    LoadSaid,
    MatchingSaid,
    OwnStepSaid,
    PlacedCautionSaid,
    Said,
    StepSaid,
    StepTextsSaid,
)
from planbuild.records.openings import Block
from planbuild.records.photos import photo_of
from planbuild.records.piece import Assembly, Glue, Load, Matching, StepWish
from planbuild.records.said import SIGNALS, CautionSaid
from planbuild.records.spaces import SpaceSaid
from planbuild.resolve.amounts import MINUTES, MM, NEWTONS, PER_CENT, amount, amount_said
from planbuild.resolve.boards import printed_name
from planbuild.resolve.copies import LOW_HIGH
from planbuild.resolve.sayings import Sayings, tried
from planbuild.resolve.scopes import full, holder, in_every_size, within

Key = tuple[str, int]
"""One standing copy: part and index."""


# ---------------------------------------------------------------- subassemblies


def assemblies(
    said: Mapping[str, AssemblySaid], blocks: Sequence[Block], boards: Mapping[str, Board], words: Words, sayings: Sayings
) -> tuple[Assembly, ...]:
    """The subassemblies, each with its mirrored groups; one may hold others.  Reports `assembly-mirror`, `assembly-shared`."""
    found: list[Assembly] = []
    copies = {each.id: len(each.motions) for each in blocks}
    for id, each in said.items():
        groups = tried(_groups, each, found, boards, words, sayings)
        groups = _by_block(groups, holder(id), copies, boards) if groups and holder(id) else groups
        if groups is None:
            continue
        _check_shared(groups, each, found, sayings)
        name = printed_name(id, each.name)
        found.append(Assembly(id, name, each.origin, groups, photo_of(each.photo, f"the {name}")))
    return tuple(found)


def _groups(
    said: AssemblySaid, found: Sequence[Assembly], boards: Mapping[str, Board], words: Words, sayings: Sayings
) -> tuple[tuple[Key, ...], ...]:
    first = tuple(dict.fromkeys(key for part in said.parts for key in _members(part, found, words)))
    groups = [first]
    for word in said.mirror:
        axis = sayings.axis(word)
        groups += [tuple(_mirrored(key, axis, boards, word, sayings) for key in group) for group in list(groups)]
    return tuple(groups)


def _by_block(
    groups: tuple[tuple[Key, ...], ...], block: str, copies: Mapping[str, int], boards: Mapping[str, Board]
) -> tuple[tuple[Key, ...], ...]:
    """A subassembly of a block is there once in each copy of the block."""
    count = copies.get(block, 1)
    found = [tuple(key for key in group if _stands_in(key, count, boards) == copy) for group in groups for copy in range(count)]
    return tuple(group for group in found if group)


def _stands_in(key: Key, count: int, boards: Mapping[str, Board]) -> int:
    """Which copy of its block a copy stands in: all of one block follow each other."""
    return key[1] * count // len(boards[key[0]].copies)


def block_assemblies(blocks: Sequence[Block], boards: Mapping[str, Board], named: Sequence[Assembly]) -> tuple[Assembly, ...]:
    """Each block is a subassembly of its own, unless its parts are named in one, or it is built into what is around it."""
    taken = {part for each in named for group in each.groups for part, _ in group}
    copies = {each.id: len(each.motions) for each in blocks}
    found = []
    for block in blocks:
        trapped = block.moves is not None and block.moves.trapped
        parts = [part for part in block.parts if part in boards]  # without those at fault, which are told
        if holder(block.id) or trapped or len(parts) < 2 or taken & set(parts):
            continue
        whole = tuple((part, copy) for part in parts for copy in range(len(boards[part].copies)))
        groups = _by_block((whole,), block.id, copies, boards)
        found.append(Assembly(block.id, block.name, block.origin, groups, of_block=True))
    return tuple(found)


def _members(said: Said, found: Sequence[Assembly], words: Words) -> tuple[Key, ...]:
    """Copies of a part or a block, or all that an earlier subassembly and its mirror images hold."""
    inner = next((each for each in found if each.id == full(said.scope, said.text)), None)
    return tuple(key for group in inner.groups for key in group) if inner else _keys(said, words)


def _keys(said: Said, words: Words) -> tuple[Key, ...]:
    return tuple((each.board.id, copy) for each in words.parts(said) or () for copy in each.copies)


def _mirrored(key: Key, axis: Axis, boards: Mapping[str, Board], said: Said, sayings: Sayings) -> Key:
    """The copy that stands as this one's mirror image."""
    board, copies = boards[key[0]], boards[key[0]].copies
    low, high = LOW_HIGH[axis]
    swap = {low: high, high: low}
    wanted = " ".join(swap.get(word, word) for word in copies[key[1]].hand.split())
    for index, copy in enumerate(copies):
        if index != key[1] and copy.hand == wanted:
            return key[0], index
    message = f'"{board.id}" has no {low} and {high} copy, so it has no place in the mirrored subassembly.'
    raise sayings.refuse("assembly-mirror", said, message, hints=("Leave it out: it joins the two.",))


def _check_shared(groups: tuple[tuple[Key, ...], ...], said: AssemblySaid, found: Sequence[Assembly], sayings: Sayings) -> None:
    """A copy may be in two subassemblies only if one of them is joined whole into the other."""
    others = [(set(group), each.origin) for each in found for group in each.groups]
    for group in map(set, groups):
        for other, origin in others:
            shared = group & other
            if shared and not (group < other or other < group):
                message = f'A copy of "{min(shared)[0]}" is in two subassemblies.'
                hint = "Take it out of one of them, or name the whole of the one among the parts of the other."
                related = (Related(origin, "it is here too"),)
                told = Diagnostic("assembly-shared", message, span=said.origin, related=related, hints=(hint,))
                sayings.report.add(told)
                return
        others.append((group, said.origin))


# ---------------------------------------------------------------- steps


def steps(said: Mapping[str, StepSaid], words: Words, sayings: Sayings) -> tuple[StepWish, ...]:
    """What is said of steps, those added at the end.  Reports `word-unknown`, and what `Words` reports."""
    planned = [tried(_planned, id, each, sayings) for id, each in said.items() if not isinstance(each, AddedStepsSaid)]
    added = {id: own for each in said.values() if isinstance(each, AddedStepsSaid) for id, own in each.added.items()}
    found = (*planned, *(tried(_added, id, each, words, sayings) for id, each in added.items()))
    return tuple(step for step in found if step is not None)


def _planned(id: str, said: StepSaid, sayings: Sayings) -> StepWish:
    if said.split:
        sayings.choice(said.split, ("no",), "answer")
    return replace(_step(id, said, sayings), joined=said.joined.text if said.joined else "", gathers=said.split is not None)


def _added(id: str, said: OwnStepSaid, words: Words, sayings: Sayings) -> StepWish:
    """The sentences of its note are what is done."""
    parts = dict.fromkeys(key[0] for each in said.parts for key in _keys(each, words))
    actions = tuple(each for each in re.split(r"(?<=[.!?]) +", said.note.text.strip()) if each)
    return replace(_step(id, said, sayings), note="", own=actions, parts=tuple(parts))


def _step(id: str, said: StepTextsSaid, sayings: Sayings) -> StepWish:
    texts = {
        field: value.text
        for field in ("title", "note", "why", "check")
        if (value := getattr(said, field)) is not None
    }
    after, before = (tuple(each.text for each in names) for names in (said.after, said.before))
    caution = _caution(said.caution, sayings) if said.caution else None
    photo = photo_of(said.photo, "this step")
    return StepWish(id, said.origin, **texts, after=after, before=before, caution=caution, photo=photo)


def _caution(caution: CautionSaid, sayings: Sayings) -> tuple[str, str, str, str]:
    signal = sayings.choice(caution.signal, SIGNALS, "signal word")
    return signal, caution.hazard.text, caution.harm.text, caution.avoid.text


def cautioned_steps(said: Sequence[PlacedCautionSaid], sayings: Sayings) -> tuple[StepWish, ...]:
    """Cautions said of the whole piece that belong to a step, as a wish for it.  Reports `word-unknown`."""
    told = ((each, tried(_caution, each, sayings)) for each in said if each.at.text != IN_USE)
    return tuple(StepWish(each.at.text, each.origin, caution=caution) for each, caution in told if caution)


def cautions_in_use(design: Design, sayings: Sayings) -> tuple[tuple[str, str, str, str], ...]:
    """Those for the owner of the piece, then what is said of hardware, openings and blocks: they stand at the front."""
    said: list[CautionSaid] = [each for each in design.cautions if each.at.text == IN_USE]
    spaces: list[SpaceSaid] = [*design.openings.values(), *(block.said for block in design.blocks.values())]
    said += [each.caution for each in design.hardware.values() if each.caution]
    said += [each.caution for each in spaces if each.caution]
    told = (tried(_caution, each, sayings) for each in said)
    return tuple(caution for caution in told if caution)


IN_USE = "use"
"""Where a caution belongs that is not for the maker but for the owner."""


# ---------------------------------------------------------------- matching

CUTS = ("one board in sequence", "one stop", "bookmatched pair", "same board")
"""Ways in which parts are matched, in the trade's words."""


def matching(said: Mapping[str, MatchingSaid], words: Words, sayings: Sayings) -> tuple[Matching, ...]:
    """Parts matched by the designer's wish.  Reports `word-unknown`, `matching-alone`."""
    found = (tried(_matching, id, each, words, sayings) for id, each in said.items())
    return tuple(each for each in found if each)


def _matching(id: str, said: MatchingSaid, words: Words, sayings: Sayings) -> Matching:
    cut, keys = sayings.choice(said.cut, CUTS, "way to match"), tuple(key for part in said.parts for key in _keys(part, words))
    pair = cut == "bookmatched pair"
    if keys and (len(keys) < 2 or (pair and len(keys) != 2)):
        message = f"{len(keys)} {'board' if len(keys) == 1 else 'boards'} to be matched."
        raise sayings.refuse("matching-alone", said.cut, message, "two" if pair else "two or more")
    return Matching(id, said.origin, keys, cut, said.why.text if said.why else "")


# ---------------------------------------------------------------- loads

CARRIERS = {"seat", "shelf", "shelves"}
"""Words in a part's printed name by which it is known to carry something."""


def loads(design: Design, boards: Mapping[str, Board], sayings: Sayings) -> tuple[Load, ...]:
    """The loads.  Reports `load-part`, `amount-unit`, `load-missing` (warning)."""
    _ask_for_loads(design, boards, sayings)
    every = {each: said for id, said in design.loads.items() for each in in_every_size(design, id)}
    carriers = {id: _carrier(id, design, boards) for id in every}
    for id, said in every.items():
        if carriers[id] is None and id not in design.parts:
            message = f'No part "{id}" to carry a load.'
            sayings.refuse("load-part", Said(id, said.origin), message, hints=did_you_mean(id, (*design.parts, *design.blocks)))
    found = (tried(_load, said, board, sayings) for id, said in every.items() if (board := carriers[id]))
    return tuple(load for load in found if load is not None)


def _carrier(id: str, design: Design, boards: Mapping[str, Board]) -> Board | None:
    """The board that carries a load: of a block the largest that lies flat, as the bottom of a drawer (a heuristic)."""
    if id not in design.blocks:
        return boards.get(id)
    flat = [board for part, board in boards.items() if within(part, id) and board.face.axis is Axis.BOTTOM_TOP]
    return max(flat, key=lambda board: board.body.size(Axis.LEFT_RIGHT) * board.body.size(Axis.FRONT_BACK), default=None)


def _ask_for_loads(design: Design, boards: Mapping[str, Board], sayings: Sayings) -> None:
    """A heuristic: what lies flat and is called a seat or a shelf will be loaded (the rail of a seat stands on edge), and
    only its designer knows how much."""
    for id, board in boards.items():
        lies_flat = board.face.axis is Axis.BOTTOM_TOP
        if id not in design.loads and lies_flat and CARRIERS & set(board.name.lower().split()):
            message = f'"{id}" carries something by its name, but no load is said for it.'
            hint = f"Add `loads: {{{id}: {{load: 300 lb, where: middle}}}}` with what it has to carry."
            sayings.report.add(Diagnostic("load-missing", message, Severity.WARNING, board.origin, hints=(hint,)))


def _load(said: LoadSaid, board: Board, sayings: Sayings) -> Load:
    newtons, spread = _newtons(said.load, board, sayings)
    shared = sayings.yes(said.shared) if said.shared else False
    where = said.where.text if said.where else ""
    words = [said.load.text, f"in the {where}" if where == "middle" else where, "over all copies" if shared else ""]
    return Load(board.id, newtons, ", ".join(word for word in words if word), spread=spread, shared=shared, where=where)


def _newtons(said: Said, board: Board, sayings: Sayings) -> tuple[float, bool]:
    """A load in N; True if it is spread along the part, whose length then counts."""
    lengths = {f"{force}/{per}": newtons / MM[per] for force, newtons in NEWTONS.items() for per in MM}
    figure, unit = amount_said(said, (*NEWTONS, *lengths), "load", sayings)
    if unit in lengths:
        return figure * lengths[unit] * board.body.size(board.grain), True
    return figure * NEWTONS[unit], False


# ---------------------------------------------------------------- glue and climate


def usual(name: str) -> str:
    """A default of the workshop, from the table."""
    found = row("workshop", "name", name)
    assert found is not None, name
    return found["value"]


def glue(said: GlueSaid | None, sayings: Sayings) -> Glue:
    """Kind, open time and time in clamps (minutes), the usual ones where nothing is said.  Reports `amount-unit`."""
    times = []
    for name, default in (("open_time", "glue_open_minutes"), ("clamp_time", "glue_clamp_minutes")):
        time: Said | None = getattr(said, name) if said else None
        found = tried(amount, time, MINUTES, "time", sayings) if time else None
        times.append(found if found is not None else float(usual(default)))
    return Glue(said.kind.text if said else usual("glue_kind"), *times)


DAMPEST_AIR = 95.0
"""%, relative: beyond that the published formula no longer holds well, and no room is so."""


def _wetness(said: Said | AirSaid, sayings: Sayings) -> float:
    """Moisture of the wood, %, as said or as it settles in the air.  Reports `amount-unit`, `climate-air`."""
    if isinstance(said, Said):
        return amount(said, PER_CENT, "moisture content", sayings)
    air = amount(said.air, PER_CENT, "dampness of the air", sayings)
    warmth, unit = amount_said(said.at, ("C", "F"), "warmth", sayings)
    celsius = (warmth - 32) / 1.8 if unit == "F" else warmth
    if air > DAMPEST_AIR or not 0 <= celsius <= 60:
        message = f"Air of {air:g} % at {warmth:g} {unit} is that of no room."
        raise sayings.refuse("climate-air", said.air, message, f"at most {DAMPEST_AIR:g} %, from 0 to 60 C (32 to 140 F)")
    return round(settled_moisture(air, celsius), 1)


def moisture(said: ClimateSaid | None, sayings: Sayings) -> tuple[float, float, float]:
    """Driest, dampest and workshop moisture content, %.  Reports `amount-unit`, `climate-order`."""
    values = []
    for name in ("driest", "dampest", "workshop"):
        wood: Said | AirSaid | None = getattr(said, name) if said else None
        found = tried(_wetness, wood, sayings) if wood else None
        values.append(found if found is not None else float(usual(f"{name}_pct")))
    driest, dampest, workshop = values
    if said and not 0 < driest <= workshop <= dampest <= 30:
        at = next((each for each in (said.driest, said.dampest, said.workshop) if isinstance(each, Said)), Said("", said.origin))
        figures = f"{driest:g} % (driest), {workshop:g} % (workshop) and {dampest:g} % (dampest)"
        message = f"Wood at {figures} is no climate of a house."
        sayings.refuse("climate-order", at, message, "0 % < driest <= workshop <= dampest <= 30 %")
    return driest, dampest, workshop
