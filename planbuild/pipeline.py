"""The road, told once: read, resolve, shape, prove, derive, proofread, publish.

The only file that knows all stages; each takes finished records and hands a new one on.  Stages are
imported when they are reached, so that a design with a slip in it is answered before the CAD kernel loads.
"""

from __future__ import annotations

import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from enum import Enum
from pathlib import Path
from typing import TYPE_CHECKING

from planbuild.beside import Beside
from planbuild.core.diagnostics import Diagnostic, Refused
from planbuild.core.native import SOLIDS, loading
from planbuild.records.edition import Edition
from planbuild.records.facts import Facts
from planbuild.records.findings import Findings
from planbuild.records.piece import Piece
from planbuild.records.planset import PlanSet
from planbuild.records.solids import Solids

if TYPE_CHECKING:
    from planbuild.publish import Theme


class Stage(Enum):
    """A stage and what a maker is told while it runs."""

    READ = "reading the design"
    RESOLVE = "placing the parts"
    SHAPE = "cutting the solids"
    PROVE = "proving that the parts fit"
    DERIVE = "drawing and planning"
    PROOFREAD = "proofreading what will be printed"
    PUBLISH = "setting the pages"


@dataclass(frozen=True)
class Lap:
    """How long a stage took, imports included, in seconds."""

    stage: Stage
    seconds: float


Watch = Callable[[Stage], None]
"""Told when a stage begins."""


def _unwatched(stage: Stage) -> None:
    """Nobody is looking."""


class Clock:
    """Times the stages of one run and tells a watcher which one is on."""

    def __init__(self, watch: Watch = _unwatched) -> None:
        self._watch = watch
        self.laps: list[Lap] = []

    @contextmanager
    def run(self, stage: Stage) -> Iterator[None]:
        self._watch(stage)
        start = time.perf_counter()
        yield
        self.laps.append(Lap(stage, time.perf_counter() - start))


@dataclass(frozen=True)
class Checked:
    """Everything up to the printed page: what is printed, what was found on the way, and the look it will have."""

    piece: Piece
    solids: Solids
    edition: Edition
    facts: Facts
    findings: Findings
    theme: Theme


@dataclass(frozen=True)
class Built:
    """A plan set as bytes, by file name, ready to be written."""

    checked: Checked
    plan_set: PlanSet
    files: dict[str, bytes]


def resolve_file(path: Path, clock: Clock) -> Piece:
    """The design at `path` with every part placed.  Raises Refused."""
    with clock.run(Stage.READ):
        from planbuild.read import read_design

        design = read_design(path)
    with clock.run(Stage.RESOLVE):
        from planbuild.resolve import resolve

        return resolve(design)


def check(path: Path, edition_id: str = "", clock: Clock | None = None) -> Checked:
    """All that can stop a plan, without setting its pages.  Raises Refused with every error of a stage."""
    clock = clock or Clock()
    with Beside() as beside:
        piece = resolve_file(path, clock)
        edition = choose_edition(piece, edition_id)
        beside.begin(piece, edition)
        theme = theme_of(piece, path)
        with clock.run(Stage.SHAPE):
            with loading(SOLIDS):
                from planbuild.derive import order_faults
                from planbuild.shape import shape
            # Steps have names only once the order of work is planned, so `resolve` cannot tell; but no solid is needed.
            _refuse_errors((*piece.warnings, *order_faults(piece)))
            solids = shape(piece)
        with clock.run(Stage.PROVE):
            from planbuild.prove import prove

            proved = prove(piece, solids, edition.ruler)
            _refuse_errors((*piece.warnings, *proved.diagnostics))
        with clock.run(Stage.DERIVE):
            from planbuild.derive import derive

            facts, derived = derive(piece, solids, proved, edition, lambda: beside.portraits(piece, solids, proved, edition))
    with clock.run(Stage.PROOFREAD):
        from planbuild.proofread import proofread

        read_over = proofread(facts, piece, edition.ruler)
    findings = Findings(piece.warnings, ()).plus(proved).plus(derived).plus(read_over)
    _refuse_errors(findings.diagnostics)
    return Checked(piece, solids, edition, facts, findings, theme)


def build(path: Path, edition_id: str = "", clock: Clock | None = None) -> Built:
    """The whole plan set of the design at `path`.  Nothing is written.  Raises Refused."""
    clock = clock or Clock()
    checked = check(path, edition_id, clock)
    with clock.run(Stage.PUBLISH):
        from planbuild.publish import load_photos, plan_json, publish

        photos = load_photos(checked.facts, path.parent)
        plan_set = publish(checked.facts, checked.findings, checked.theme, checked.edition, photos)
        files = {"plan.pdf": plan_set.pdf, "plan.json": plan_json(checked.facts, checked.findings, plan_set)}
    return Built(checked, plan_set, files)


def choose_edition(piece: Piece, id: str = "") -> Edition:
    """The edition of that name, or the first of the design, or plain Letter (inch) or A4 (mm).  Raises Refused."""
    from planbuild.resolve.editions import edition_of

    return edition_of(piece, id)


def theme_of(piece: Piece, path: Path) -> Theme:
    """The theme that the design at `path` asks for, read and looked over before any slow work.  Raises Refused."""
    from planbuild.publish import load_theme

    return load_theme(piece.theme.name, path.parent, piece.theme.origin)


def _refuse_errors(diagnostics: tuple[Diagnostic, ...]) -> None:
    if any(d.stops for d in diagnostics):
        raise Refused(diagnostics)
