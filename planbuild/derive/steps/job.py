"""What the writers of steps are given: the piece, its glue-ups, and how lengths are printed for this edition."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import ClassVar

from planbuild.derive import phrases
from planbuild.derive.cautions import caution
from planbuild.derive.steps.assembly import Joining
from planbuild.derive.steps.clamps import Clamps
from planbuild.derive.steps.operations import Verb
from planbuild.derive.steps.tasks import Task
from planbuild.joints.proportions import habit_length, habit_number
from planbuild.records.edition import Edition
from planbuild.records.facts import Caution
from planbuild.records.features import Feature
from planbuild.records.findings import Findings
from planbuild.records.piece import Joint, Part, Piece


@dataclass(frozen=True)
class Job:
    """One piece for one edition.  Lengths go in as mm and come out as printed."""

    piece: Piece
    findings: Findings
    edition: Edition
    joinings: tuple[Joining, ...]
    mass: float
    """Of the whole piece, kg."""
    order: tuple[Task, ...] = ()
    """All steps as they will be done; empty while they are not in order yet."""
    MOST_NAMED: ClassVar[int] = 3
    """Kinds of parts that a title names; the line below it has them all, with their marks."""

    def size(self, length: float) -> str:
        return self.edition.ruler.printed(length)

    def sizes(self, *lengths: float) -> str:
        return phrases.sizes(self.edition.ruler, *lengths)

    def with_unit(self, length: float) -> str:
        return phrases.with_unit(self.edition.ruler, length)

    def habit(self, name: str) -> str:
        return self.size(habit_length(name, self.edition.ruler))

    def parts(self, ids: Iterable[str]) -> list[Part]:
        return [self.piece.part(each) for each in ids]

    def marks(self, ids: Iterable[str]) -> str:
        """`A3, A4 and A5` as references, each once."""
        return phrases.listed(phrases.mark(each) for each in dict.fromkeys(ids))

    def joint(self, id: str) -> Joint:
        return next(each for each in self.piece.joints if each.id == id)

    def kind(self, ids: Iterable[str]) -> str:
        """`rails`, or `slats and buttons`, without marks, for titles; `parts` where they are many."""
        parts = self.parts(dict.fromkeys(ids))
        named = phrases.of_kind(self.piece, parts)
        return "parts" if len(parts) > self.MOST_NAMED and " and " in named else named


@dataclass(frozen=True)
class Use:
    """An operation whose tools a step needs (a row of `core/tables/operations.csv`), with its blanks filled."""

    operation: str
    values: tuple[tuple[str, str], ...] = ()


@dataclass(frozen=True)
class Draft:
    """What a writer says of a step; see `records.facts.WorkStep` for the fields.  `uses` and `clamps` become
    its tools, `cautions` stand before those that its tools bring."""

    title: str
    actions: tuple[str, ...]
    sizes: tuple[str, ...] = ()
    check: str = ""
    wait: str = ""
    note: str = ""
    uses: tuple[Use, ...] = ()
    clamps: tuple[Clamps, ...] = ()
    cautions: tuple[Caution, ...] = ()
    hardware: tuple[tuple[str, int], ...] = ()


def lifting(job: Job) -> tuple[Caution, ...]:
    """The message for a piece that is heavy for one person, else nothing."""
    return (caution("lifting", {"mass": f"{job.mass:.0f} kg"}),) if job.mass > habit_number("lift_kg") else ()


def features_of(task: Task, verb: Verb, part: str) -> tuple[Feature, ...]:
    """What the step cuts on a part with that kind of work."""
    return next((op.features for op in task.operations if op.verb is verb and op.part == part), ())


def said(*actions: str) -> tuple[str, ...]:
    """Those that are not empty, each as a sentence."""
    return tuple(phrases.sentence(each) for each in actions if each)


def same(texts: Sequence[tuple[str, str]]) -> tuple[tuple[tuple[str, ...], str], ...]:
    """Parts of which the same is said, gathered: ((ids, text), ...) in the order of the first."""
    gathered: dict[str, list[str]] = {}
    for id, text in texts:
        ids = gathered.setdefault(text, [])
        ids += [id] if id not in ids else []
    return tuple((tuple(ids), text) for text, ids in gathered.items())
