"""What the proofs found: diagnostics for people, evidence for the stages after them."""

from __future__ import annotations

from dataclasses import dataclass

from planbuild.core.diagnostics import Diagnostic, Severity
from planbuild.records.freedom import Freedom


@dataclass(frozen=True)
class Proof:
    """One claim that was checked: what, how many times, and the worst case met, as one printable line."""

    claim: str
    checked: int
    worst: str


@dataclass(frozen=True)
class Likeness:
    """Which copies of a part are alike: indices `as_drawn` and `mirrored` (not to be had by turning)."""

    part: str
    as_drawn: tuple[int, ...]
    mirrored: tuple[int, ...]


@dataclass(frozen=True)
class Findings:
    diagnostics: tuple[Diagnostic, ...]
    proofs: tuple[Proof, ...]
    likeness: tuple[Likeness, ...] = ()
    """One entry a part, in the order of the parts."""
    freedom: Freedom | None = None
    """Which copies are in each other's way; None where no solids were looked at."""

    @property
    def stops(self) -> bool:
        return any(d.severity is Severity.ERROR for d in self.diagnostics)

    def alike(self, part: str) -> Likeness:
        return next(each for each in self.likeness if each.part == part)

    def plus(self, other: Findings) -> Findings:
        return Findings(
            self.diagnostics + other.diagnostics,
            self.proofs + other.proofs,
            self.likeness + other.likeness,
            self.freedom or other.freedom,
        )
