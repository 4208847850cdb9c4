"""A design's theme is looked over before anything is cut, by `check` and by `build`."""

from __future__ import annotations

import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from planbuild.cli import FINDINGS, run
from planbuild.starter import starter_files

THEMES = Path(__file__).parent / "themes"


@pytest.fixture
def design(tmp_path: Path) -> Path:
    """The starter design, asking for the theme `mine` in its last line."""
    ((name, content),) = starter_files("side-table").items()
    path = tmp_path / name
    path.write_text(content.decode("utf-8").rstrip() + "\ntheme: mine\n", "utf-8")
    return path


def bring(design: Path, theme: str) -> None:
    shutil.copytree(THEMES / theme, design.parent / "themes" / "mine")


@pytest.fixture
def nothing_is_cut(monkeypatch: pytest.MonkeyPatch) -> None:
    def cut(*_: object) -> None:
        raise AssertionError("the theme is looked at too late")

    monkeypatch.setattr("planbuild.shape.shape", cut)


def last_line(design: Path) -> int:
    return len(design.read_text("utf-8").splitlines())


@pytest.mark.parametrize("command", ["check", "build"])
def test_a_theme_that_is_not_there(design: Path, command: str, nothing_is_cut: None, capsys: pytest.CaptureFixture[str]) -> None:
    out = ["--out", str(design.parent / "out")] if command == "build" else []
    assert run([command, str(design), *out]) == FINDINGS
    told = capsys.readouterr().err
    assert f"{design}:{last_line(design)}:8: error[theme-unknown]" in told and "one of: bench" in told


@pytest.mark.parametrize(("theme", "code"), [("slips", "theme-tokens"), ("outside", "theme-outside"), ("powers", "theme-bounds")])
def test_a_theme_that_is_wrong(
    design: Path, theme: str, code: str, nothing_is_cut: None, capsys: pytest.CaptureFixture[str]
) -> None:
    bring(design, theme)
    assert run(["check", str(design)]) == FINDINGS
    told = capsys.readouterr().err
    assert code in told and str(design.parent / "themes" / "mine") in told


def test_checking_a_theme_loads_no_layout_engine(design: Path) -> None:
    bring(design, "slips")
    script = (
        "import sys\nfrom planbuild.cli import run\n"
        "status = run(['check', sys.argv[1]])\n"
        "print(status, sorted({'weasyprint', 'cadquery', 'OCP', 'jinja2'} & set(sys.modules)))"
    )
    told = subprocess.run([sys.executable, "-c", script, str(design)], capture_output=True, text=True, check=True)
    assert told.stdout.strip() == f"{FINDINGS} []"


@pytest.mark.slow
def test_a_theme_refused_late_leaves_the_earlier_plan(design: Path, capsys: pytest.CaptureFixture[str]) -> None:
    bring(design, "outside-late")
    out = design.parent / "out"
    out.mkdir()
    (out / "plan.pdf").write_bytes(b"earlier")
    assert run(["build", str(design), "--out", str(out)]) == FINDINGS
    assert "theme-outside" in capsys.readouterr().err
    assert [(each.name, each.read_bytes()) for each in out.iterdir()] == [("plan.pdf", b"earlier")]
