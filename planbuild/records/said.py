"""A value as written, the ground of every mapping of a file, a named size, a row."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from pydantic import BaseModel, ConfigDict, Field

from planbuild.core.diagnostics import Span


@dataclass(frozen=True)
class Said:
    """A value as written.  The long form `{value: ..., why: ...}` gives `why` and `help`.

    `scope` is the path of the block in which it was written, "" for the design itself: names in it are looked up there.
    """

    text: str
    span: Span
    why: str = ""
    help: str = ""
    scope: str = ""

    @property
    def full(self) -> str:
        """The text as a name in the whole design: that of a thing in the same block."""
        return f"{self.scope}.{self.text}" if self.scope else self.text


class Model(BaseModel):
    """A mapping of the file; `origin` is the place of its key."""

    model_config = ConfigDict(frozen=True, extra="forbid", arbitrary_types_allowed=True, populate_by_name=True)
    origin: Span


class SizeSaid(Model):
    value: Said
    low: Said | None = Field(None, alias="from")
    high: Said | None = Field(None, alias="to")
    step: Said | None = None
    help: Said | None = None
    why: Said | None = None


class RepeatSaid(Model):
    """Evenly spaced between two things, by one of `count`, `gap`, `most_gap`, `near_gap`; or `at` places, by face."""

    count: Said | None = None
    gap: Said | None = None
    most_gap: Said | None = None
    near_gap: Said | None = None
    along: Said | None = None
    between: tuple[Said, ...] = ()
    ends: Said | None = None
    at: Mapping[str, tuple[Said, ...]] = {}
    rails: Said | None = None
    """Of openings: the part that stands between each two of them."""
    shares: tuple[Said, ...] = ()
    """Of openings: how they divide what is left, the first one first."""


SIGNALS = ("DANGER", "WARNING", "CAUTION", "NOTICE")
"""Signal words, the gravest first (ANSI Z535.6)."""


class CautionSaid(Model):
    """A hazard, what it does, how it is avoided; the signal word as in ANSI Z535.6."""

    signal: Said
    hazard: Said
    harm: Said
    avoid: Said

    def told(self, signal: str) -> str:
        """As one paragraph, where there is no room for a box of its own."""
        return f"{signal}: {self.hazard.text} {self.harm.text} {self.avoid.text}"


def cautioned(told: CautionSaid | None, signal: str | None, note: str) -> str:
    """A note with the caution before it, whose signal word has been understood."""
    return " ".join(each for each in (told.told(signal) if told and signal else "", note) if each)
