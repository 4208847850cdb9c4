"""The setting-out: each place and size of a design worked out when it is asked for, and each part's body from them.

In each of its three directions a part is placed by exactly two facts.
"""

from __future__ import annotations

from fractions import Fraction

from planbuild.core.diagnostics import Collector, Diagnostic, Related
from planbuild.core.geometry import Axis, Box, Face, Span1
from planbuild.core.units import MM_PER_INCH, Unit
from planbuild.records.design import Design, Said
from planbuild.resolve.copies import Spread, row_direction, spread
from planbuild.resolve.expressions.faults import Poisoned
from planbuild.resolve.facts import About, Fact, Facts
from planbuild.resolve.ledger import FaceOf, FrameOf, Key, Ledger, MeasureOf, MirrorOf, Row, RowOf, SizeOf, StockOf
from planbuild.resolve.orientation import Lie, lies
from planbuild.resolve.places import Places
from planbuild.resolve.references import Placing
from planbuild.resolve.rows import spaced
from planbuild.resolve.sayings import figure

Spans = dict[Axis, tuple[Fraction, Fraction]]
"""Low and high face by direction, mm, exact."""


class SettingOut:
    """Everything placed of one design.  Findings go to `report`."""

    def __init__(self, design: Design, unit: Fraction, report: Collector) -> None:
        self.design, self.unit, self.report = design, unit, report
        self.ledger = Ledger(self._work, self._circle)
        self.lies: dict[str, Lie] = {}
        self.spreads: dict[str, Spread] = {}
        self.placing = Placing(design, unit, self.lies, self.spreads, self.ledger)
        self.places = Places(self.placing, report)
        self.lies.update(lies(design.parts, self.places))
        self.facts = {id: Facts(id, design.parts[id], lie, self.places) for id, lie in self.lies.items()}
        self._spread_parts()

    def _spread_parts(self) -> None:
        for id, said in self.design.parts.items():
            try:
                self.spreads[id] = spread(id, said, self.places)
            except Poisoned:
                continue

    # ------------------------------------------------------------ answers by key

    def _work(self, key: Key[object]) -> object:
        if isinstance(key, SizeOf):
            return self.places.value(self.design.sizes[key.name].value)
        if isinstance(key, FrameOf):
            return self._frame(key)
        if isinstance(key, FaceOf):
            return self._face(key)
        if isinstance(key, MeasureOf):
            return self._measure(key)
        if isinstance(key, MirrorOf):
            return self._mirror(key)
        return self._row(key.name) if isinstance(key, RowOf) else self._stock(key.name)

    def _frame(self, key: FrameOf) -> Fraction:
        frame = self.design.frame
        said = (frame.width, frame.depth, frame.height)[key.axis.value]
        return self.places.size(said, f"The {key.words.partition('.')[2]} of the frame")

    def _stock(self, name: str) -> Fraction:
        if name not in self.design.stock:
            raise Poisoned
        return self.places.size(self.design.stock[name].thickness, f'The thickness of "{name}"')

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
            return self.ledger.ask(FrameOf("frame", key.axis)) / 2
        return self.places.centre_line(about, key.axis)

    def _row(self, name: str) -> Row:
        lie, repeat = self.lies.get(name), self.design.parts[name].repeat
        if lie is None or repeat is None:
            raise Poisoned
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
            return self.design.sizes[key.name].value
        if isinstance(key, FrameOf):
            return (self.design.frame.width, self.design.frame.depth, self.design.frame.height)[key.axis.value]
        if isinstance(key, StockOf):
            return self.design.stock[key.name].thickness
        if isinstance(key, MirrorOf):
            return self.spreads[key.name].abouts[key.axis]
        axis = key.face.axis if isinstance(key, FaceOf) else key.axis if isinstance(key, MeasureOf) else None
        facts = self.facts[key.name].gathered(axis) if axis else ()
        part = self.design.parts[key.name]
        facts = tuple(fact for fact in facts if f"{key.name}." in fact.words) or facts  # the one that leads back to itself
        return Said(key.name, facts[0].span if facts else part.repeat.origin if part.repeat else part.stock.span)

    # ------------------------------------------------------------ two facts a direction

    def _two_facts(self, id: str, axis: Axis) -> tuple[Fact, Fact]:
        """The two facts.  Reports `place-too-few`, `place-too-many`; raises Poisoned."""
        if id not in self.facts or id not in self.spreads:
            raise Poisoned
        found = self.facts[id].gathered(axis)
        if len(found) == 2:
            return found[0], found[1]
        self.report.add(_too_few(id, axis, found, self.lies[id]) if len(found) < 2 else _too_many(id, axis, found, self.lies[id]))
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
        if (high > low and low >= 0) or not self.facts[id].is_plain(Face.TOP):
            return False
        height = self.placing.frame_at(Face.TOP) - high
        return height > low if high <= low else height >= high - low

    def _height_slip(self, id: str, low: Fraction, high: Fraction) -> Diagnostic:
        said = self.facts[id].said_of(Face.TOP)
        assert said is not None
        below = "under the part's bottom" if high <= low else "so that the part would reach under the floor"
        frame = figure(self.placing.frame_at(Face.TOP), self.unit)
        message = f"`top: {said.text}` puts the top {said.text} below the frame's top ({frame}), {below}."
        hint = f"For a height from the floor write `{said.text} above bottom`."
        return Diagnostic("place-height-slip", message, span=said.span, hints=(hint,))

    def _negative(self, id: str, axis: Axis, low: Fraction, high: Fraction) -> Diagnostic:
        lie, facts = self.lies[id], self._two_facts(id, axis)
        adjective = {"length": "long", "width": "wide", "thickness": "thick"}[lie.measure_of(axis)]
        sizes = f"{figure(low, self.unit)} and {figure(high, self.unit)} from the frame's {axis.low.value}"
        why = "meet" if high == low else "cross"
        faces = f"its {axis.low.value} and {axis.high.value} {why} ({sizes})"
        message = f'"{id}" would be {figure(high - low, self.unit)} {adjective}: {faces}.'
        plain = [face.value for face in (axis.low, axis.high) if self.facts[id].is_plain(face)]
        hints = tuple(f"A plain length for `{word}` is the inset from the frame's {word}." for word in plain)
        related = tuple(Related(fact.span, fact.words) for fact in facts)
        return Diagnostic("place-negative", message, span=facts[0].span, hints=hints, related=related)


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


def _too_few(id: str, axis: Axis, found: tuple[Fact, ...], lie: Lie) -> Diagnostic:
    told = f"one fact of two in {axis.words} ({found[0].words})" if found else f"no fact in {axis.words}, two are wanted"
    words = {About.LOW: axis.low.value, About.HIGH: axis.high.value, About.SIZE: lie.measure_of(axis)}
    ways = ", ".join(f"`{word}`" for about, word in words.items() if about not in {fact.about for fact in found})
    return Diagnostic("place-too-few", f'"{id}" has {told}.', span=lie.origin, hints=(f"Add {ways}, or `centred`.",))


def _too_many(id: str, axis: Axis, found: tuple[Fact, ...], lie: Lie) -> Diagnostic:
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
