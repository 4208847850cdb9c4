"""The setting-out: each place and size of a design worked out when it is asked for, and each part's body from them.

In each of its three directions a part is placed by exactly two facts.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from planbuild.core.diagnostics import Collector, Diagnostic, Related
from planbuild.core.geometry import Axis, Box, Face, Span1
from planbuild.core.units import MM_PER_INCH, Unit
from planbuild.records.design import Design, PartSaid, Said, SheetSaid
from planbuild.records.piece import Copy
from planbuild.records.spaces import SpaceSaid
from planbuild.resolve.copies import Level, Spread, copies, row_direction, row_refused, selected, spread
from planbuild.resolve.expressions.faults import Poisoned
from planbuild.resolve.facts import About, BlockFacts, Fact, Facts, OpeningFacts, PartFacts
from planbuild.resolve.leaning import stance_of
from planbuild.resolve.ledger import FaceOf, FrameOf, Key, Ledger, MeasureOf, MirrorOf, Row, RowOf, SizeOf, StanceOf, StockOf
from planbuild.resolve.orientation import Clear, Lie, lies
from planbuild.resolve.places import Places
from planbuild.resolve.poses import Stance
from planbuild.resolve.references import Path, Placing
from planbuild.resolve.rows import spaced
from planbuild.resolve.sayings import figure
from planbuild.resolve.scopes import holder, levels, row_of_unequal, sizes_of
from planbuild.resolve.sheets import sheet_thickness
from planbuild.resolve.stacks import stack

Spans = dict[Axis, tuple[Fraction, Fraction]]
"""Low and high face by direction, mm, exact."""


class SettingOut:
    """Everything placed of one design.  Findings go to `report`."""

    def __init__(self, design: Design, unit: Fraction, report: Collector) -> None:
        self.design, self.unit, self.report = design, unit, report
        self.sizes = sizes_of(design)
        self.ledger = Ledger(self._work, self._circle)
        self.lies: dict[str, Lie] = {}
        """How the parts lie."""
        self.straight: dict[str, Lie | Clear] = {}
        """How everything lies that has faces: parts, openings and blocks."""
        self.spreads: dict[str, Spread] = {}
        self.placing = Placing(design, unit, self.straight, self.spreads, self.ledger)
        self.places = Places(self.placing, report)
        self.lies.update(lies(design.parts, self.places))
        self.spaces: dict[str, SpaceSaid] = {**design.openings, **{id: each.said for id, each in design.blocks.items()}}
        self.straight.update({**self.lies, **{id: Clear(said.origin) for id, said in self.spaces.items()}})
        self.facts = self._facts()
        self._spread_all()

    def _facts(self) -> dict[str, Facts]:
        parts = {id: PartFacts(id, self.design.parts[id], lie, self.places) for id, lie in self.lies.items()}
        openings = {id: OpeningFacts(id, said, Clear(said.origin), self.places) for id, said in self.design.openings.items()}
        blocks = {id: BlockFacts(id, each, Clear(each.said.origin), self.places) for id, each in self.design.blocks.items()}
        return {**parts, **openings, **blocks}

    def _spread_all(self) -> None:
        everything: dict[str, PartSaid | SpaceSaid] = {**self.design.parts, **self.spaces}
        for id, said in everything.items():
            try:
                self.spreads[id] = spread(id, said, self.places)
            except Poisoned:
                continue
            opening = self._repeated_opening(id)
            if opening and opening in self.spreads:
                self.spreads[id] = replace(self.spreads[id], row_axis=self.spreads[opening].row_axis)

    def _repeated_opening(self, id: str) -> str | None:
        """The opening that a block fills wherever it is repeated: the block then stands in each."""
        block = self.design.blocks.get(id)
        into = block.said.into if block and not block.said.repeat else None
        opening = self.design.openings.get(into.full) if into else None
        return into.full if into and opening and opening.repeat else None

    def placed(self, id: str) -> PartSaid | SpaceSaid:
        """A part, an opening or a block as it was said."""
        return self.spaces[id] if id in self.spaces else self.design.parts[id]

    # ------------------------------------------------------------ answers by key

    def _work(self, key: Key[object]) -> object:
        if isinstance(key, SizeOf):
            return self.places.value(self.sizes[key.name].value)
        if isinstance(key, FrameOf):
            return self._frame(key)
        if isinstance(key, FaceOf):
            return self._face(key)
        if isinstance(key, MeasureOf):
            return self._measure(key)
        if isinstance(key, MirrorOf):
            return self._mirror(key)
        if isinstance(key, StanceOf):
            return self._stance(key.name)
        return self._row(key.name) if isinstance(key, RowOf) else self._stock(key.name)

    def _frame(self, key: FrameOf) -> Fraction:
        frame = self.design.frame
        said = (frame.width, frame.depth, frame.height)[key.axis.value]
        return self.places.size(said, f"The {key.words.partition('.')[2]} of the frame")

    def _stock(self, name: str) -> Fraction:
        said = self.design.stock.get(name)
        if said is None:
            raise Poisoned
        if isinstance(said, SheetSaid):
            return sheet_thickness(name, said, self.places)
        return self.places.size(said.thickness, f'The thickness of "{name}"')

    def _face(self, key: FaceOf) -> Fraction:
        first, second = self._two_facts(key.name, key.face.axis)
        about = About.LOW if key.face.sign < 0 else About.HIGH
        for fact in (first, second):
            if fact.about is about:
                return fact.work()
        return _other(about, first, second)

    def _measure(self, key: MeasureOf) -> Fraction:
        facts = self._two_facts(key.name, key.axis)
        for fact in facts:
            if fact.about is About.SIZE:
                return fact.work()
        low, high = (self.ledger.ask(FaceOf(key.name, face)) for face in (key.axis.low, key.axis.high))
        return high - low

    def _mirror(self, key: MirrorOf) -> Fraction:
        about = self.spreads[key.name].abouts.get(key.axis)
        if about is None or about.text == "frame":
            return self.placing.within(about.scope if about else holder(key.name)).frame_middle(key.axis)
        return self.places.centre_line(about, key.axis)

    def _stance(self, name: str) -> Stance:
        spans = {axis: (self.ledger.ask(FaceOf(name, axis.low)), self.ledger.ask(FaceOf(name, axis.high))) for axis in Axis}
        lie = self.lies.get(name)
        if lie is None:
            raise Poisoned
        return stance_of(name, self.design.parts[name], lie.grain, box_of(spans), self.places)

    def _row(self, name: str) -> Row:
        lie, repeat = self.straight.get(name), self.placed(name).repeat
        opening = self._repeated_opening(name)
        if opening:
            return self.ledger.ask(RowOf(opening))
        if lie is None or repeat is None:
            raise Poisoned
        if repeat.rails is not None or repeat.shares:
            if name not in self.design.openings:
                told = "is no opening, so neither rails nor shares divide it"
                raise row_refused(name, repeat, told, "`count` and `between`", self.places)
            return stack(name, repeat, self.places).row
        axis = row_direction(name, repeat, self.places)
        return spaced(name, repeat, self.ledger.ask(MeasureOf(name, axis, lie.measure_of(axis))), self.places)

    def _circle(self, keys: tuple[Key[object], ...]) -> None:
        """Told at the first of the keys in the file."""
        said = min((self._said_of(key) for key in keys), key=lambda each: each.span)
        chain = f"A circle: {' > '.join(key.words for key in keys)}."
        if len(keys) == 2:
            chain = f"{keys[0].words} is worked out from itself."
        code = "size-circle" if all(isinstance(key, SizeOf) for key in keys) else "place-circle"
        hint = "Give one of them a size or a frame face." if code == "place-circle" else "Give one of them a plain length."
        self.report.add(Diagnostic(code, chain, span=said.span, hints=(hint,)))

    def _said_of(self, key: Key[object]) -> Said:
        """A value that stands for a key in a message."""
        if isinstance(key, SizeOf):
            return self.sizes[key.name].value
        if isinstance(key, FrameOf):
            return (self.design.frame.width, self.design.frame.depth, self.design.frame.height)[key.axis.value]
        if isinstance(key, StockOf):
            stock = self.design.stock[key.name]
            return (stock.thickness or stock.sold_as) if isinstance(stock, SheetSaid) else stock.thickness
        if isinstance(key, MirrorOf):
            return self.spreads[key.name].abouts.get(key.axis) or Said(key.name, self.placed(key.name).origin)
        axis = key.face.axis if isinstance(key, FaceOf) else key.axis if isinstance(key, MeasureOf) else None
        facts = self.facts[key.name].gathered(axis) if axis else ()
        facts = tuple(fact for fact in facts if f"{key.name}." in fact.words) or facts  # the one that leads back to itself
        placed = self.placed(key.name)
        return Said(key.name, facts[0].span if facts else placed.repeat.origin if placed.repeat else placed.origin)

    # ------------------------------------------------------------ copies

    def levels_of(self, id: str) -> tuple[Level, ...]:
        """How a thing is copied, with all blocks around it.  Raises Poisoned."""
        return tuple(self._level(each) for each in levels(id))

    def _level(self, id: str) -> Level:
        spread = self.places.spread_of(id)
        row = self.ledger.ask(RowOf(id)) if spread.row_axis else None
        middles = {axis: self.ledger.ask(MirrorOf(id, axis)) for axis in spread.mirrors}
        return Level(spread, row, middles, row_of_unequal(self.design, id))

    def copies_of(self, id: str) -> tuple[Copy, ...]:
        """The copies of a thing as they stand, the drawn one first.  Raises Poisoned."""
        return copies(self.levels_of(id))

    def copies_named(self, path: Path, id: str, scope: str) -> tuple[int, ...]:
        """Indices of the copies of a part that a path to it, or to a block around it, means: a hand left out means all.

        Raises HandFault, Poisoned.
        """
        each = self.levels_of(id)
        hands: list[tuple[str, ...]] = [*[()] * (len(levels(scope)) if scope else 0), *(step.hands for step in path)]
        return selected(each, hands + [()] * (len(each) - len(hands)))

    # ------------------------------------------------------------ two facts a direction

    def _two_facts(self, id: str, axis: Axis) -> tuple[Fact, Fact]:
        """The two facts.  Reports `place-too-few`, `place-too-many`; raises Poisoned."""
        if id not in self.facts or id not in self.spreads:
            raise Poisoned
        found = self.facts[id].gathered(axis)
        if len(found) == 2:
            return found[0], found[1]
        told = _too_few if len(found) < 2 else _too_many
        self.report.add(told(id, axis, found, self.straight[id]))
        raise Poisoned

    def spans(self, id: str) -> Spans | None:
        """Where the faces of a part's drawn copy lie; None after reporting every direction that fails."""
        found: Spans = {}
        for axis in Axis:
            try:
                found[axis] = self._span(id, axis)
            except Poisoned:
                continue
        return found if len(found) == 3 else None

    def _span(self, id: str, axis: Axis) -> tuple[Fraction, Fraction]:
        low, high = (self.ledger.ask(FaceOf(id, face)) for face in (axis.low, axis.high))
        if axis is Axis.BOTTOM_TOP and self._reads_as_height(id, low, high):
            self.report.add(self._height_slip(id, low, high))
            raise Poisoned
        if high <= low:
            self.report.add(self._negative(id, axis, low, high))
            raise Poisoned
        return low, high

    def _reads_as_height(self, id: str, low: Fraction, high: Fraction) -> bool:
        """True if a plain `top` turns the part inside out or puts it under the floor, but would do as a height from there."""
        floor = self.places.frame_at(Face.BOTTOM, holder(id))
        if (high > low and low >= floor) or not self.facts[id].is_plain(Face.TOP):
            return False
        height = self.places.frame_at(Face.TOP, holder(id)) - high
        return height > low - floor if high <= low else height >= high - low

    def _height_slip(self, id: str, low: Fraction, high: Fraction) -> Diagnostic:
        said = self.facts[id].said_of(Face.TOP)
        assert said is not None
        below = "under the part's bottom" if high <= low else "so that the part would reach under the floor"
        frame = figure(self.places.frame_at(Face.TOP, holder(id)), self.unit)
        message = f"`top: {said.text}` puts the top {said.text} below the frame's top ({frame}), {below}."
        hint = f"For a height from the floor write `{said.text} above bottom`."
        return Diagnostic("place-height-slip", message, span=said.span, hints=(hint,))

    def _negative(self, id: str, axis: Axis, low: Fraction, high: Fraction) -> Diagnostic:
        lie, facts = self.straight[id], self._two_facts(id, axis)
        adjective = _ADJECTIVES[lie.measure_of(axis)]
        sizes = f"{figure(low, self.unit)} and {figure(high, self.unit)} from the frame's {axis.low.value}"
        why = "meet" if high == low else "cross"
        faces = f"its {axis.low.value} and {axis.high.value} {why} ({sizes})"
        message = f'"{id}" would be {figure(high - low, self.unit)} {adjective}: {faces}.'
        plain = [face.value for face in (axis.low, axis.high) if self.facts[id].is_plain(face)]
        hints = tuple(f"A plain length for `{word}` is the inset from the frame's {word}." for word in plain)
        related = tuple(Related(fact.span, fact.words) for fact in facts)
        return Diagnostic("place-negative", message, span=facts[0].span, hints=hints, related=related)


_ADJECTIVES = {"length": "long", "width": "wide", "thickness": "thick", "depth": "deep", "height": "high"}


def _other(about: About, first: Fact, second: Fact) -> Fraction:
    """A face that is not said itself, from the two facts that are."""
    by = {fact.about: fact.work for fact in (first, second)}
    if About.MIDDLE in by:
        middle = by[About.MIDDLE]()
        if About.SIZE in by:
            half = by[About.SIZE]() / 2
            return middle + (half if about is About.HIGH else -half)
        return 2 * middle - (by[About.LOW] if about is About.HIGH else by[About.HIGH])()
    size = by[About.SIZE]()
    return by[About.LOW]() + size if about is About.HIGH else by[About.HIGH]() - size


def _too_few(id: str, axis: Axis, found: tuple[Fact, ...], lie: Lie | Clear) -> Diagnostic:
    told = f"one fact of two in {axis.words} ({found[0].words})" if found else f"no fact in {axis.words}, two are wanted"
    words = {About.LOW: axis.low.value, About.HIGH: axis.high.value, About.SIZE: lie.measure_of(axis)}
    ways = ", ".join(f"`{word}`" for about, word in words.items() if about not in {fact.about for fact in found})
    return Diagnostic("place-too-few", f'"{id}" has {told}.', span=lie.origin, hints=(f"Add {ways}, or `centred`.",))


def _too_many(id: str, axis: Axis, found: tuple[Fact, ...], lie: Lie | Clear) -> Diagnostic:
    count = {3: "three", 4: "four"}.get(len(found), str(len(found)))
    message = f'"{id}" has {count} facts in {axis.words}: {", ".join(fact.words for fact in found)}.'
    related = tuple(Related(fact.span, fact.words) for fact in found)
    drop = "one" if len(found) == 3 else "all but two"
    return Diagnostic("place-too-many", message, span=lie.origin, hints=(f"Drop {drop}.",), related=related)


def box_of(spans: Spans) -> Box:
    """The body in mm as plain numbers."""
    return Box.of({axis: Span1(float(low), float(high)) for axis, (low, high) in spans.items()})


def unit_of(design: Design) -> Fraction:
    """One design unit in mm; an unknown word is reported with the ruler and read as inches."""
    return Fraction(1) if design.units.text == Unit.MM.value else MM_PER_INCH
