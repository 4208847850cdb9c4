"""What was worked out so far, and what has to be worked out first.

Everything is asked for only when needed.  Work that needs something still unknown is put aside until
that is known, so no chain of names is too long for it, and every circle is seen and told once.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from typing import Generic, TypeVar, cast

from planbuild.core.geometry import Axis, Face
from planbuild.resolve.expressions.faults import Poisoned
from planbuild.resolve.expressions.values import Value
from planbuild.resolve.poses import Stance

Answer = TypeVar("Answer")


@dataclass(frozen=True)
class Key(Generic[Answer]):
    """Something that can be asked for; `words` is what it is called in a message."""

    name: str

    @property
    def words(self) -> str:
        return self.name


@dataclass(frozen=True)
class SizeOf(Key[Value]):
    """A named size."""


@dataclass(frozen=True)
class FrameOf(Key[Fraction]):
    """The frame's size along an axis, mm; `name` is `frame`."""

    axis: Axis

    @property
    def words(self) -> str:
        return f"frame.{('width', 'depth', 'height')[self.axis.value]}"


@dataclass(frozen=True)
class StockOf(Key[Fraction]):
    """The finished thickness of a stock, mm."""

    @property
    def words(self) -> str:
        return f"{self.name}.thickness"


@dataclass(frozen=True)
class FaceOf(Key[Fraction]):
    """Where a face of a part's drawn copy lies, mm."""

    face: Face

    @property
    def words(self) -> str:
        return f"{self.name}.{self.face.value}"


@dataclass(frozen=True)
class MeasureOf(Key[Fraction]):
    """The size of a part along an axis, mm."""

    axis: Axis
    measure: str

    @property
    def words(self) -> str:
        return f"{self.name}.{self.measure}"


@dataclass(frozen=True)
class MirrorOf(Key[Fraction]):
    """Where the middle lies about which a part is mirrored, mm."""

    axis: Axis

    @property
    def words(self) -> str:
        return f"the mirror of {self.name}"


@dataclass(frozen=True)
class Row:
    """Copies in a row, mm: the low face of the first at `start`, each `shifts` from there; `gap` if it is one and the same."""

    start: Fraction
    shifts: tuple[Fraction, ...]
    gap: Fraction | None = None
    hands: tuple[str, ...] = ()
    """How each is called, where it is not by its place among these."""

    @property
    def count(self) -> int:
        return len(self.shifts)


@dataclass(frozen=True)
class RowOf(Key[Row]):
    """How a repeated part is spaced."""

    @property
    def words(self) -> str:
        return f"the spacing of {self.name}"


@dataclass(frozen=True)
class StanceOf(Key[Stance]):
    """How a part stands that is turned or leans."""

    @property
    def words(self) -> str:
        return f"how {self.name} stands"


class _Needed(Exception):
    """Work must wait for another key."""

    def __init__(self, key: Key[object]) -> None:
        self.key = key


_POISON = object()


class Ledger:
    """Answers by key.  `work` works one out (asking for others), `circle` is told of keys that need each other."""

    def __init__(self, work: Callable[[Key[object]], object], circle: Callable[[tuple[Key[object], ...]], None]) -> None:
        self._work, self._circle = work, circle
        self._known: dict[Key[object], object] = {}
        self._open: dict[Key[object], None] = {}
        """What is being worked out, each key waiting for the one after it."""

    def ask(self, key: Key[Answer]) -> Answer:
        """The answer.  Raises Poisoned if it rests on a fault that is already reported."""
        asked = cast("Key[object]", key)
        if asked not in self._known:
            if self._open:
                raise _Needed(asked)
            self._work_out(asked)
        answer = self._known[asked]
        if answer is _POISON:
            raise Poisoned
        return cast(Answer, answer)

    def _work_out(self, key: Key[object]) -> None:
        self._open = {key: None}
        try:
            while self._open:
                self._one_step(next(reversed(self._open)))
        finally:
            self._open = {}

    def _one_step(self, key: Key[object]) -> None:
        try:
            self._known[key] = self._work(key)
        except Poisoned:
            self._known[key] = _POISON
        except _Needed as needed:
            if needed.key in self._open:
                self._close_circle(needed.key)
            else:
                self._open[needed.key] = None
            return
        del self._open[key]

    def _close_circle(self, first: Key[object]) -> None:
        waiting = list(self._open)
        circle = waiting[waiting.index(first) :]
        self._circle((*circle, first))
        for key in circle:
            self._known[key] = _POISON
            del self._open[key]
