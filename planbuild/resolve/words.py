"""What the joints' fields say: the `Words` that `joints` asks for."""

from __future__ import annotations

import re
from collections.abc import Mapping, MutableMapping
from dataclasses import replace

from planbuild.core.geometry import Face
from planbuild.core.spelling import did_you_mean
from planbuild.joints.base import Board, Chosen
from planbuild.records.design import ItemSaid, Said
from planbuild.records.piece import Item, Stock
from planbuild.resolve.copies import HandFault
from planbuild.resolve.expressions.faults import Misread, Poisoned, Stretch
from planbuild.resolve.expressions.grammar import FACES, Reference, parse
from planbuild.resolve.items import item_of
from planbuild.resolve.references import Path
from planbuild.resolve.sayings import tried
from planbuild.resolve.scopes import full, held_in, reached_from, within
from planbuild.resolve.setting_out import SettingOut


class JointWords:
    """Each method reports a fault itself and then gives None.  Lengths in mm."""

    def __init__(
        self, setting_out: SettingOut, boards: Mapping[str, Board], stock: Mapping[str, Stock], items: MutableMapping[str, Item]
    ) -> None:
        self._setting_out, self._boards, self._stock, self._items = setting_out, boards, stock, items
        self._sayings = setting_out.places

    def length(self, said: Said) -> float | None:
        found = tried(self._sayings.size, said, "A length")
        return None if found is None else float(found)

    def count(self, said: Said) -> int | None:
        return tried(self._sayings.count, said)

    def yes(self, said: Said) -> bool | None:
        return tried(self._sayings.yes, said)

    def choice(self, said: Said, among: tuple[str, ...]) -> str | None:
        return tried(self._sayings.choice, said, among)

    def pair(self, said: Said) -> tuple[float, float] | None:
        found = tried(self._sayings.sizes, said, 2)
        return None if found is None else (float(found[0]), float(found[1]))

    def slope(self, said: Said) -> float | None:
        return tried(self._sayings.slope, said)

    def part(self, said: Said) -> Chosen | None:
        """`long_rail`, `left long_rail`, `slab.top`, `left door.panel`.  Reports `ref-unknown`, `ref-no-hand`, `ref-part`,
        `ref-absent`."""
        return tried(self._part, said)

    def parts(self, said: Said) -> tuple[Chosen, ...] | None:
        """Also all parts of a block by its name, or, inside a block, all that are `outside` of it."""
        if said.scope and said.text == "outside":
            return tuple(_whole(board, said) for id, board in self._boards.items() if not within(id, said.scope))
        found = tried(self._every, said)
        return tuple(found) if found else None

    def _every(self, said: Said) -> list[Chosen]:
        """What is meant in every size of a row of unequal openings."""
        named, places = self._setting_out.places.named(said), self._setting_out.places
        if named and places.id_of(named, said) in self._setting_out.design.blocks:
            reference = parse(said.text)
            assert isinstance(reference, Reference)
            paths = self._setting_out.placing.within(said.scope).of_sizes(reference.steps)
            return [each for path in paths for each in self._held(path, places.id_of(path, said), said)]
        return self._parts_of(said)

    def _held(self, path: Path, block: str, said: Said) -> tuple[Chosen, ...]:
        """The parts of a block; one of them that is at fault is left out."""
        boards = [board for id, board in self._boards.items() if within(id, block)]
        return tuple(Chosen(each, self._copies(path, each.id, said), None, said.span, said.text) for each in boards)

    def _part(self, said: Said) -> Chosen:
        first, *others = self._parts_of(said)
        if others:
            message = f'"{said.text}" stands in openings of unequal size, so there is one part of that name for each size.'
            hint = f"Say which, such as `first {said.text}` or `last {said.text}`, or join it inside the block."
            raise self._sayings.refuse("ref-part", said, message, hints=(hint,))
        return first

    def _parts_of(self, said: Said) -> list[Chosen]:
        """One part, or one for each size that it has.  Raises Poisoned."""
        several = [each for each in re.split(r",| and ", said.text) if each.strip()]
        if len(several) > 1:
            hint = f"Several parts are a list: `[{', '.join(each.strip() for each in several)}]`."
            raise self._sayings.refuse("ref-part", said, f"`{said.text}` does not name one part.", hints=(hint,))
        try:
            reference = parse(said.text)
            if not isinstance(reference, Reference) or not reference.steps:
                raise _no_part(said)
            paths = self._setting_out.placing.within(said.scope).of_sizes(reference.steps)
            return [self._chosen(replace(reference, steps=path), said) for path in paths]
        except Misread as misread:
            self._sayings.report.add(misread.told(said))
            raise Poisoned from None

    def _chosen(self, reference: Reference, said: Said) -> Chosen:
        path, last, placing = reference.steps, reference.last, self._setting_out.placing.within(said.scope)
        id = placing.id_of(path)
        if id not in self._setting_out.design.parts:
            placing.refuse_absent(path, reference.at)
            raise self._unknown(path, said, reference)
        if reference.level is not None or (last and last not in FACES):
            raise _no_part(said)
        board = self._boards.get(id)
        if board is None:
            raise Poisoned
        return Chosen(board, self._copies(path, id, said), Face(last) if last else None, said.span)

    def _copies(self, path: Path, id: str, said: Said) -> tuple[int, ...]:
        try:
            return self._setting_out.copies_named(path, id, said.scope)
        except HandFault as fault:
            misread = Misread("ref-no-hand", str(fault), Stretch(0, len(said.text)), hints=(f"Use {fault.hint}.",))
            self._sayings.report.add(misread.told(said))
            raise Poisoned from None

    def _unknown(self, path: Path, said: Said, reference: Reference) -> Misread:
        name, design = ".".join(step.name for step in path), self._setting_out.design
        if full(said.scope, name) in design.blocks:
            held = ", ".join(f"`{name}.{each}`" for each in held_in(full(said.scope, name), design.parts))
            return Misread("ref-part", f'"{name}" is a block; one of its parts is wanted.', reference.at, held)
        known = tuple(reached_from(said.scope, design.parts))
        return Misread("ref-unknown", f'No part "{name}".', reference.at, hints=did_you_mean(name, known))

    def stock(self, said: Said) -> Stock | None:
        """Reports `stock-missing`."""
        known = self._setting_out.design.stock
        if said.text not in known:
            expected = f"in this design or its series: {', '.join(known)}"
            self._sayings.refuse("stock-missing", said, f'No stock "{said.text}".', expected, did_you_mean(said.text, known))
        return self._stock.get(said.text)

    def item(self, said: Said | ItemSaid, own: str = "") -> Item | None:
        """A thing of the section `items`, or one written where it is used by the thing called `own`.

        Reports `item-missing`, and of what is written in place `word-unknown`, `item-field`.
        """
        if isinstance(said, ItemSaid):
            return self._written_here(said, own)
        known = self._setting_out.design.items
        if said.text not in known:
            expected = f"in this design or its series: {', '.join(known) or 'none'}"
            self._sayings.refuse("item-missing", said, f'No item "{said.text}".', expected, did_you_mean(said.text, known))
        return self._items.get(said.text)

    def _written_here(self, said: ItemSaid, own: str) -> Item | None:
        """It joins the items under an id that no name of the design can have."""
        id = f"{own} item"
        made = tried(item_of, id, said, self._sayings, said.item.text)
        if made:
            self._items[id] = made
        return made


def _whole(board: Board, said: Said) -> Chosen:
    return Chosen(board, tuple(range(len(board.copies))), None, said.span)


def _no_part(said: Said) -> Misread:
    message = f"`{said.text}` does not name a part, or a face of one."
    return Misread("ref-part", message, Stretch(0, len(said.text)), "a name such as `leg`, `left leg` or `leg.top`")
