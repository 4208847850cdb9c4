"""The doorway to disk: what it refuses to read, and that a failed write changes nothing."""

from __future__ import annotations

import os
import time
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planbuild.core import files
from planbuild.core.files import (
    TEXT_LIMIT,
    FileFault,
    check_folder,
    folders_in,
    inside,
    names_in,
    read_bytes,
    read_chosen,
    read_text,
    write_files,
)


def code_of(act, *arguments) -> str:
    with pytest.raises(FileFault) as caught:
        act(*arguments)
    return caught.value.diagnostic.code


@pytest.fixture
def root(tmp_path: Path) -> Path:
    (tmp_path / "outside.yaml").write_text("secret")
    (tmp_path / "root" / "sub").mkdir(parents=True)
    (tmp_path / "root" / "sub" / "a.yaml").write_text("a: 1\n")
    return tmp_path / "root"


# ---------------------------------------------------------------- staying inside


def test_a_file_below_the_root_is_read(root: Path) -> None:
    assert read_text(root, "sub/a.yaml") == "a: 1\n"


@pytest.mark.parametrize(
    "name",
    ["../outside.yaml", "sub/../../outside.yaml", "sub/../sub/a.yaml", "", "/etc/hosts", "..\\outside.yaml", "C:\\a", "a\0b"],
)
def test_a_path_that_leaves_the_root_is_refused(root: Path, name: str) -> None:
    assert code_of(inside, root, name, TEXT_LIMIT) == "file-outside"


def test_a_link_out_of_the_root_is_refused(root: Path) -> None:
    (root / "link.yaml").symlink_to(root.parent / "outside.yaml")
    (root / "away").symlink_to(root.parent)
    assert code_of(read_text, root, "link.yaml") == "file-outside"
    assert code_of(read_text, root, "away/outside.yaml") == "file-outside"


def test_a_link_within_the_root_is_read(root: Path) -> None:
    (root / "link.yaml").symlink_to(root / "sub" / "a.yaml")
    assert read_text(root, "link.yaml") == "a: 1\n"


def test_names_in_a_folder(root: Path) -> None:
    (root / "b.yaml").write_text("b: 1\n")
    (root / "circle").symlink_to(root / "circle")
    assert names_in(root) == ("b.yaml", "circle", "sub") and folders_in(root) == ("sub",)
    assert names_in(root / "none") == folders_in(root / "b.yaml") == ()


@pytest.mark.skipif(not hasattr(os, "geteuid") or os.geteuid() == 0, reason="everything can be read here")
def test_a_folder_that_cannot_be_read(root: Path) -> None:
    (root / "sub").chmod(0)
    assert code_of(names_in, root / "sub") == "file-unreadable"
    (root / "sub").chmod(0o700)


def test_a_root_that_is_a_link_itself_is_fine(root: Path) -> None:
    link = root.parent / "link"
    link.symlink_to(root)
    assert read_text(link, "sub/a.yaml") == "a: 1\n"


def test_links_in_a_circle(root: Path) -> None:
    (root / "one").symlink_to(root / "two")
    (root / "two").symlink_to(root / "one")
    assert code_of(read_text, root, "one") == "file-missing"


@given(st.text(max_size=30))
def test_no_name_leads_outside(name: str) -> None:
    """Whatever is written as a path, the answer lies inside the root or is a refusal."""
    root = Path(__file__).parent
    try:
        assert inside(root, name, TEXT_LIMIT).is_relative_to(root.resolve())
    except FileFault as fault:
        assert fault.diagnostic.code.startswith("file-")


# ---------------------------------------------------------------- plain, small, text


def test_missing(root: Path) -> None:
    assert code_of(read_text, root, "no.yaml") == "file-missing"
    assert code_of(read_chosen, root / "no.yaml") == "file-missing"


def test_a_folder_is_no_file(root: Path) -> None:
    assert code_of(read_text, root, "sub") == "file-not-plain"
    assert code_of(read_chosen, root) == "file-not-plain"


def test_a_pipe_is_refused_without_waiting(root: Path) -> None:
    os.mkfifo(root / "pipe")
    start = time.perf_counter()
    assert code_of(read_text, root, "pipe") == "file-not-plain"
    assert time.perf_counter() - start < 0.5


def test_a_device_is_refused() -> None:
    assert code_of(read_chosen, Path("/dev/zero")) == "file-not-plain"


def test_a_big_file_is_refused_without_being_read(root: Path) -> None:
    with (root / "big.yaml").open("wb") as file:
        file.truncate(100_000_000)
    start = time.perf_counter()
    assert code_of(read_text, root, "big.yaml") == "file-too-big"
    assert code_of(read_chosen, root / "big.yaml") == "file-too-big"
    assert time.perf_counter() - start < 0.5


def test_the_limit_itself_is_allowed(root: Path) -> None:
    (root / "full").write_bytes(b"x" * TEXT_LIMIT)
    (root / "over").write_bytes(b"x" * (TEXT_LIMIT + 1))
    assert len(read_bytes(root, "full", TEXT_LIMIT)) == TEXT_LIMIT
    assert code_of(read_bytes, root, "over", TEXT_LIMIT) == "file-too-big"


def test_what_is_not_text_is_told_with_its_place(root: Path) -> None:
    (root / "latin.yaml").write_bytes(b"format: 1\ntitle: caf\xe9\n")
    with pytest.raises(FileFault) as caught:
        read_chosen(root / "latin.yaml")
    span = caught.value.diagnostic.span
    assert caught.value.diagnostic.code == "file-not-text"
    assert span is not None and (span.line, span.column) == (2, 11)


def test_line_ends_and_byte_order_mark_of_other_systems(root: Path) -> None:
    (root / "windows.yaml").write_bytes(b"\xef\xbb\xbfa: 1\r\nb: 2\rc: 3\n")
    assert read_text(root, "windows.yaml") == "a: 1\nb: 2\nc: 3\n"


# ---------------------------------------------------------------- writing


def content(folder: Path) -> dict[str, bytes]:
    return {path.name: path.read_bytes() for path in folder.iterdir()}


def test_files_are_written_and_nothing_else_is_left(tmp_path: Path) -> None:
    out = tmp_path / "deep" / "out"
    write_files(out, {"plan.pdf": b"one", "plan.json": b"two"})
    write_files(out, {"plan.pdf": b"three"})
    assert content(out) == {"plan.pdf": b"three", "plan.json": b"two"}


@pytest.fixture
def good(tmp_path: Path) -> Path:
    write_files(tmp_path / "out", {"plan.pdf": b"good", "plan.json": b"good too"})
    return tmp_path / "out"


GOOD = {"plan.pdf": b"good", "plan.json": b"good too"}
NEW = {"plan.pdf": b"new", "plan.json": b"new too", "notes.txt": b"new as well"}


@pytest.mark.parametrize("failing", [1, 2, 3])
def test_a_failed_rename_puts_the_old_files_back(good: Path, monkeypatch: pytest.MonkeyPatch, failing: int) -> None:
    calls = []
    rename = os.replace

    def break_once(old, new) -> None:
        calls.append(new)
        if len(calls) == failing:
            raise PermissionError(13, "Permission denied")
        rename(old, new)

    monkeypatch.setattr(files.os, "replace", break_once)
    assert code_of(write_files, good, NEW) == "file-write"
    assert content(good) == GOOD


@pytest.mark.parametrize("failing", [1, 2, 3])
def test_a_full_disk_leaves_the_old_files(good: Path, monkeypatch: pytest.MonkeyPatch, failing: int) -> None:
    calls = []

    def break_once(handle: int) -> None:
        calls.append(handle)
        if len(calls) == failing:
            raise OSError(28, "No space left on device")

    monkeypatch.setattr(files.os, "fsync", break_once)
    assert code_of(write_files, good, NEW) == "file-write"
    assert content(good) == GOOD


def test_an_interruption_leaves_the_old_files(good: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def interrupted(old, new) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(files.os, "replace", interrupted)
    with pytest.raises(KeyboardInterrupt):
        write_files(good, NEW)
    assert content(good) == GOOD


def test_a_failure_removes_the_folders_it_made(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(files.os, "fsync", lambda handle: (_ for _ in ()).throw(OSError(28, "No space left on device")))
    assert code_of(write_files, tmp_path / "a" / "b", NEW) == "file-write"
    assert list(tmp_path.iterdir()) == []


def test_a_folder_in_the_way(good: Path) -> None:
    (good / "notes.txt").mkdir()
    assert code_of(write_files, good, NEW) == "file-write"
    assert (good / "plan.pdf").read_bytes() == b"good"


def test_a_file_where_the_folder_should_be(tmp_path: Path) -> None:
    (tmp_path / "out").write_text("mine")
    assert code_of(write_files, tmp_path / "out", NEW) == "file-write"
    assert code_of(write_files, tmp_path / "out" / "deeper", NEW) == "file-write"
    assert (tmp_path / "out").read_text() == "mine"


@pytest.mark.parametrize("name", ["../up.txt", "a/b", "", ".", ".."])
def test_only_plain_names_are_written(tmp_path: Path, name: str) -> None:
    with pytest.raises(ValueError, match="not a plain file name"):
        write_files(tmp_path, {name: b""})
    assert list(tmp_path.iterdir()) == []


def test_a_folder_is_looked_at_before_the_work(tmp_path: Path) -> None:
    (tmp_path / "a file").write_text("mine")
    (tmp_path / "nowhere").symlink_to(tmp_path / "gone")
    for bad in ("a file", "a file/deeper", "nowhere"):
        assert code_of(check_folder, tmp_path / bad) == "file-write"
    check_folder(tmp_path)
    check_folder(tmp_path / "new" / "deeper")
    assert sorted(each.name for each in tmp_path.iterdir()) == ["a file", "nowhere"]


def test_a_folder_that_may_not_be_written_to(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(files.os, "access", lambda path, mode: False)  # the superuser may write anywhere
    assert code_of(check_folder, tmp_path / "out") == "file-write"
