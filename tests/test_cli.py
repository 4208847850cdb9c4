"""The command line as a maker meets it: what it writes, what it says, its exit status."""

from __future__ import annotations

import json
import os
import re
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from planbuild.cli import FINDINGS, GOOD, OUR_FAULT, WRONG_USE, run
from planbuild.core.diagnostics import Refused
from planbuild.core.render import full
from planbuild.pipeline import Clock, resolve_file

BENCH_FOLDER = Path(__file__).parent.parent / "designs" / "music-room"


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A copy of the demonstration designs to spoil."""
    shutil.copytree(BENCH_FOLDER, tmp_path / "music-room")
    return tmp_path / "music-room"


def spoil(folder: Path, old: str, new: str, file: str = "listening-bench.yaml") -> Path:
    path = folder / file
    text = path.read_text("utf-8")
    assert old in text
    path.write_text(text.replace(old, new, 1), "utf-8")
    return folder / "listening-bench.yaml"


BAD = {
    "unknown key": ("    glue_up: {widest_strip: 4, rings: alternate}", "    gluup: {widest_strip: 4}", "read-unknown-key"),
    "unknown name": ("between: lower_rail", "between: lowr_rail", "ref-unknown"),
    "circle between placements": ("top: seat.bottom", "top: long_rail.top", "place-circle"),
    "circle between sizes": ("seat_depth:    {value: 15, from: 14, to: 16}", "seat_depth: 2 * seat_height\n  odd: 1", None),
    "negative size": ("    width: 3\n    mirror: front-back", "    width: -3\n    mirror: front-back", None),
    "zero size": ("    width: 2\n", "    width: 0\n", None),
    "wrong type": ("frame: {width: length, depth: seat_depth, height: seat_height}", "frame: 44", None),
}


@pytest.mark.parametrize("fault", BAD, ids=str)
def test_a_fault_is_told_with_its_place_and_nothing_is_written(
    folder: Path, fault: str, capsys: pytest.CaptureFixture[str]
) -> None:
    old, new, code = BAD[fault]
    design = spoil(folder, old, new)
    out = folder / "out"
    assert run(["build", str(design), "--out", str(out)]) == FINDINGS
    told = capsys.readouterr().err
    assert "listening-bench.yaml:" in told or "series.yaml:" in told
    assert code is None or code in told
    assert "Traceback" not in told
    assert not out.exists()


@pytest.mark.parametrize(
    "text", ["", "- a\n- b\n", "just words", "a: [1, 2", "\x00\x01\x02"], ids=["empty", "list", "words", "broken", "bytes"]
)
def test_not_a_design(tmp_path: Path, text: str, capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "a.yaml").write_text(text, "utf-8")
    assert run(["check", str(tmp_path / "a.yaml")]) in (FINDINGS, WRONG_USE)
    assert "Traceback" not in capsys.readouterr().err


def test_a_place_is_printed_as_it_is(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    # ":100:" is the name of a little picture to the library that prints.
    design = tmp_path / "a.yaml"
    design.write_text("# a line\n" * 99 + "nonsense: 1\n", "utf-8")
    assert run(["check", str(design)]) == FINDINGS
    assert f"{design}:100:1:" in capsys.readouterr().err


def test_missing_file(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["build", str(tmp_path / "no.yaml"), "--out", str(tmp_path / "out")]) in (FINDINGS, WRONG_USE)
    assert "no.yaml" in capsys.readouterr().err
    assert not (tmp_path / "out").exists()


def test_wrong_use(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["built", "x.yaml"]) == WRONG_USE
    assert run(["build"]) == WRONG_USE
    assert "Traceback" not in capsys.readouterr().err


def test_unknown_edition(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["build", str(folder / "listening-bench.yaml"), "--edition", "home_a5", "--out", str(folder / "out")]) == FINDINGS
    assert "home_a4" in capsys.readouterr().err


def test_an_earlier_plan_set_is_untouched(folder: Path) -> None:
    out = folder / "out"
    out.mkdir()
    (out / "plan.pdf").write_bytes(b"the good one")
    design = spoil(folder, "between: lower_rail", "between: lowr_rail")
    assert run(["build", str(design), "--out", str(out)]) == FINDINGS
    assert {p.name: p.read_bytes() for p in out.iterdir()} == {"plan.pdf": b"the good one"}


def test_findings_as_json(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    design = spoil(folder, "between: lower_rail", "between: lowr_rail")
    assert run(["check", str(design), "--json"]) == FINDINGS
    first = json.loads(capsys.readouterr().out)["findings"][0]
    assert first["code"] == "ref-unknown"
    assert first["span"]["line"] > 1


def test_a_fault_of_ours_is_told_as_such(
    folder: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr("planbuild.cli.check", lambda *_: 1 / 0)
    assert run(["check", str(folder / "listening-bench.yaml")]) == OUR_FAULT
    assert "report" in capsys.readouterr().err


def test_help_loads_neither_cad_kernel_nor_layout_engine() -> None:
    assert heavy_after("--help") == "[]"


def test_a_slip_is_answered_before_the_cad_kernel_loads(folder: Path) -> None:
    design = spoil(folder, "between: lower_rail", "between: lowr_rail")
    assert heavy_after("check", str(design)) == "[]"


@pytest.mark.parametrize(
    ("old", "new", "code"),
    [("  taper.leg:", "  taper.lag:", "step-unknown"), ("    after: mortise.leg", "    before: mortise.leg", "step-order")],
)
def test_a_wish_that_cannot_be_kept_is_told_before_anything_is_cut(
    folder: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], old: str, new: str, code: str
) -> None:
    monkeypatch.setattr("planbuild.shape.shape", lambda piece: pytest.fail("the solids are cut"))
    assert run(["check", str(spoil(folder, old, new))]) == FINDINGS
    assert f"error[{code}]" in capsys.readouterr().err


def heavy_after(*arguments: str) -> str:
    """The heavy libraries that a command line has loaded, as printed by a process of its own."""
    code = (
        "import sys; from planbuild.cli import run; run(sys.argv[1:]); "
        "print(sorted({'cadquery', 'OCP', 'weasyprint'} & sys.modules.keys()))"
    )
    done = subprocess.run([sys.executable, "-c", code, *arguments], capture_output=True, text=True, check=True)
    return done.stdout.strip().splitlines()[-1]


def test_new_never_overwrites(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    monkeypatch.chdir(tmp_path)
    assert run(["new", "side table"]) == GOOD
    text = (tmp_path / "side-table.yaml").read_text("utf-8")
    assert 'title: "Side table"' in text
    (tmp_path / "side-table.yaml").write_text("mine", "utf-8")
    assert run(["new", "side table"]) == FINDINGS
    assert (tmp_path / "side-table.yaml").read_text("utf-8") == "mine"


NAMES = {
    "café TV stand": ("café-tv-stand.yaml", "Café TV stand"),
    "Wohnküche_Öse": ("wohnküche-öse.yaml", "Wohnküche Öse"),
    "ßtisch": ("ßtisch.yaml", "ßtisch"),
    "e\u0301tabli": ("établi.yaml", "Établi"),
    "стол": ("стол.yaml", "Стол"),
    "table 2": ("table-2.yaml", "Table 2"),
}


@pytest.mark.parametrize("name", NAMES)
def test_new_takes_letters_that_can_be_printed(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, name: str) -> None:
    monkeypatch.chdir(tmp_path)
    file, title = NAMES[name]
    assert run(["new", name]) == GOOD
    assert f'title: "{title}"' in (tmp_path / file).read_text("utf-8")


def test_the_version(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["--version"]) == GOOD
    assert capsys.readouterr().out.startswith("planbuild 0.")


@pytest.mark.parametrize(
    "name",
    ["../up", "a/b", "a\\b", "", " ", "-x", "2 x", "x" * 61, "con", "NUL", "a.b", "a\u202eb", 'a"b', "a\nb", "é:x", "椅子"],
)
def test_new_stays_in_the_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, name: str) -> None:
    monkeypatch.chdir(tmp_path)
    assert run(["new", "--", name]) == FINDINGS
    assert not list(tmp_path.iterdir())


def test_the_starter_builds_without_findings(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(tmp_path)
    assert run(["new", "side-table"]) == GOOD
    assert run(["build", "side-table.yaml", "--out", "plans", "--json"]) == GOOD
    told = json.loads(capsys.readouterr().out.split("\n", 2)[2])
    assert [f for f in told["findings"] if f["severity"] != "note"] == []
    assert (tmp_path / "plans" / "plan.pdf").read_bytes().startswith(b"%PDF")


@pytest.mark.parametrize("arguments", [["build", "--json"], ["check", "a", "--json", "--odd"], ["check", "a", "--json"]])
def test_json_even_for_wrong_use(arguments: list[str], capsys: pytest.CaptureFixture[str]) -> None:
    assert run(arguments) == WRONG_USE
    (only,) = json.loads(capsys.readouterr().out)["findings"]
    assert only["message"]


def test_a_file_in_place_of_the_folder_is_told_before_the_work(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (folder / "out").write_text("mine")
    assert run(["build", str(folder / "listening-bench.yaml"), "--out", str(folder / "out")]) == WRONG_USE
    told = capsys.readouterr().err
    assert "file-write" in told and "read:" not in told


def test_a_starter_never_follows_a_dangling_link(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    (tmp_path / "desk.yaml").symlink_to(tmp_path / "gone")
    assert run(["new", "desk"]) == FINDINGS
    assert (tmp_path / "desk.yaml").is_symlink()


def test_a_reader_that_stops_early_is_no_fault() -> None:
    """As with `| head`: the pipe is closed before anything is written."""
    read, write = os.pipe()
    os.close(read)
    command = [sys.executable, "-m", "planbuild", "check", "nowhere.yaml", "--json"]
    ended = subprocess.run(command, stdout=write, stderr=subprocess.PIPE, text=True, check=False)
    os.close(write)
    assert (ended.returncode, ended.stderr) == (WRONG_USE, "")


def test_the_fault_in_the_readme_is_told_like_that(folder: Path, pytestconfig: pytest.Config) -> None:
    """The slip of the README made in the bench itself: the same place, words and way out."""
    blocks = re.findall(r"^```text\n(.*?)^```", (pytestconfig.rootpath / "README.md").read_text("utf-8"), re.M | re.S)
    (shown,) = (block for block in blocks if block.startswith("error["))
    with pytest.raises(Refused) as refused:
        resolve_file(spoil(folder, "between: lower_rail", "between: lowr_rail"), Clock())
    told = full(refused.value.diagnostics[0]).replace(f"{folder}/", "designs/music-room/")
    assert [line.strip() for line in told.strip().splitlines()] == [line.strip() for line in shown.strip().splitlines()]
