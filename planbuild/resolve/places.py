"""What a field says where things are placed: sayings that also know the things and where their copies stand."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from fractions import Fraction
from functools import partial

from planbuild.core.diagnostics import Collector
from planbuild.core.geometry import Axis, Face
from planbuild.records.design import Said
from planbuild.resolve.copies import Spread
from planbuild.resolve.expressions.faults import Misread, Poisoned, Stretch
from planbuild.resolve.expressions.grammar import Reference, parse
from planbuild.resolve.expressions.values import Place
from planbuild.resolve.poses import Over
from planbuild.resolve.references import Path, Placing
from planbuild.resolve.sayings import Sayings


class Places(Sayings):
    def __init__(self, placing: Placing, report: Collector) -> None:
        super().__init__(placing, report)
        self.placing = placing

    def named(self, said: Said) -> Path | None:
        """The part, opening or block that a text names, face or measure left out; None if it is anything else."""
        try:
            node = parse(said.text)
        except Misread:
            return None
        if not isinstance(node, Reference) or not node.steps or node.last or node.level is not None:
            return None
        placing = self.placing.within(said.scope)
        return placing.of_size(node.steps) if placing.is_thing(node.steps) else None

    def id_of(self, path: Path, said: Said) -> str:
        return self.placing.within(said.scope).id_of(path)

    def is_opening(self, path: Path, said: Said) -> bool:
        return self.placing.within(said.scope).is_opening(path)

    def openings(self, scope: str) -> tuple[str, ...]:
        """Names of the openings that are seen in a block, or in the design itself."""
        return self.placing.within(scope).openings()

    def frame_at(self, face: Face, scope: str) -> Fraction:
        """A face of the frame of the piece, or of a block's own, mm."""
        return self.placing.within(scope).frame_at(face)

    def spread_of(self, id: str) -> Spread:
        """How a thing is copied.  Raises Poisoned."""
        found = self.placing.spreads.get(id)
        if found is None:
            raise Poisoned
        return found

    def face_of(self, path: Path, face: Face, said: Said, over: Over | None = None) -> Fraction:
        """Where a face of the copy that `said` names stands, mm; a slanted one where what asks has its middle."""
        placing = self.placing.within(said.scope)
        if over is None or not placing.is_slanted(path, face):
            return self._asked(placing.face, path, face, said)
        spot = {axis: over(axis) for axis in face.axis.others}
        return self._asked(partial(_slanted, placing, spot), path, face, said)

    def standing(self, path: Path, face: Face, said: Said) -> Fraction:
        """Where a face of the straight body of the copy that `said` names stands, mm."""
        return self._asked(self.placing.within(said.scope).standing, path, face, said)

    def extent(self, path: Path, axis: Axis, said: Said) -> Fraction:
        """How far the straight body of a thing reaches along a direction, mm; asked without its place."""
        return self.placing.within(said.scope).extent(path, axis)

    def _leaning_line(self, path: Path, axis: Axis, said: Said, over: Over) -> Fraction:
        """Halfway between the two faces at the level at which they are met, each taken on its own middle."""
        placing = self.placing.within(said.scope)
        grain = placing.grain_of(path)
        if grain is None:
            raise Poisoned
        sides = (axis.low, axis.high)
        if grain is axis:
            return sum((self.standing(path, face, said) for face in sides), Fraction(0)) / 2
        spot = {grain: over(grain)}
        return sum((self._asked(partial(_slanted, placing, spot), path, face, said) for face in sides), Fraction(0)) / 2

    def _asked(self, where: Callable[[Path, Face, Stretch], Fraction], path: Path, face: Face, said: Said) -> Fraction:
        try:
            return where(path, face, self.at(said, said.text.strip()))
        except Misread as misread:
            self.report.add(misread.told(said))
            raise Poisoned from None

    def centre_line(self, said: Said, axis: Axis, over: Over | None = None) -> Fraction:
        """A thing named alone stands for its own middle, a place for itself, mm; the centre line of one that leans is
        met where the middle of what asks is.  Reports `place-centred`."""
        path = self.named(said)
        if path is not None and over and self.placing.within(said.scope).leans(path):
            return self._leaning_line(path, axis, said, over)
        if path is not None:
            return (self.standing(path, axis.low, said) + self.standing(path, axis.high, said)) / 2
        found = self.place(said, axis)
        if isinstance(found, Place):
            return found.mm
        message = f"`{said.text}` is a length; a middle lies at a place."
        raise self.refuse("place-centred", said, message, hints=(f"Write `{said.text} inside {axis.low.value}`.",))


def _slanted(placing: Placing, spot: Mapping[Axis, Fraction], path: Path, face: Face, at: Stretch) -> Fraction:
    return placing.slanted(path, face, at, spot)
