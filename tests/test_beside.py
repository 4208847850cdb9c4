"""The second pair of hands: the same portraits as our own, and none the worse if the child comes to grief."""

from __future__ import annotations

import pytest

import planbuild.beside as beside_room
from planbuild.beside import Beside
from planbuild.derive import Portraits
from planbuild.pipeline import Clock, choose_edition, resolve_file
from planbuild.prove import prove
from planbuild.records.edition import Edition
from planbuild.records.findings import Findings
from planbuild.records.piece import Piece
from planbuild.records.solids import Solids
from planbuild.shape import shape
from planbuild.starter import starter_files

Job = tuple[Piece, Solids, Findings, Edition]


@pytest.fixture(scope="module")
def job(tmp_path_factory: pytest.TempPathFactory) -> Job:
    folder = tmp_path_factory.mktemp("table")
    for name, text in starter_files("side-table").items():
        (folder / name).write_bytes(text)
    piece = resolve_file(folder / "side-table.yaml", Clock())
    solids = shape(piece)
    return piece, solids, prove(piece, solids), choose_edition(piece)


@pytest.fixture(scope="module")
def drawn_beside(job: Job) -> Portraits:
    piece, solids, findings, edition = job
    with Beside() as beside:
        beside.begin(piece, edition)
        return beside.portraits(piece, solids, findings, edition)


def spoiled(monkeypatch: pytest.MonkeyPatch, code: str) -> None:
    """Children that run this code instead of ours."""
    start = beside_room.subprocess.Popen

    def other(command: list[str], **pipes: object) -> object:
        return start([command[0], "-c", code], **pipes)  # type: ignore[call-overload]

    monkeypatch.setattr(beside_room.subprocess, "Popen", other)


@pytest.mark.parametrize("code", ["raise SystemExit(1)", "import sys; sys.stdin.buffer.read(10); raise SystemExit(2)"])
def test_a_child_that_comes_to_grief_changes_nothing(
    job: Job, drawn_beside: Portraits, monkeypatch: pytest.MonkeyPatch, code: str
) -> None:
    spoiled(monkeypatch, code)
    piece, solids, findings, edition = job
    with Beside() as beside:
        beside.begin(piece, edition)
        assert beside.portraits(piece, solids, findings, edition) == drawn_beside


def test_one_core_draws_alone(job: Job, drawn_beside: Portraits, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(beside_room.os, "cpu_count", lambda: 1)
    monkeypatch.setattr(beside_room.subprocess, "Popen", _forbidden)
    piece, solids, findings, edition = job
    with Beside() as beside:
        beside.begin(piece, edition)
        assert beside.portraits(piece, solids, findings, edition) == drawn_beside


def test_a_design_that_is_refused_leaves_no_child() -> None:
    with pytest.raises(ValueError, match="refused"), Beside() as beside:
        child = beside._child
        raise ValueError("refused")
    assert child is None or child.poll() is not None


def _forbidden(*command: object, **pipes: object) -> None:
    pytest.fail("a child was started")
