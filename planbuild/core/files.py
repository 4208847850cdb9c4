"""The doorway to disk: every file that is read or written passes here, bounded and checked.

Apart so that no stage can reach outside the folder it was given, wait for a pipe, or swallow a file of
any size, and so that a failed build never spoils the last good one.
"""

from __future__ import annotations

import contextlib
import os
import secrets
import shutil
import stat
from collections.abc import Iterable, Mapping
from pathlib import Path

from planbuild.core.diagnostics import Diagnostic, Span

TEXT_LIMIT = 1_000_000
"""Bytes of a text file (design, series, theme): a hundred times the size of a long design."""

PHOTO_LIMIT = 40_000_000
"""Bytes of a photo: more than a good camera writes."""


class FileFault(Exception):
    """A file cannot be read or written; `diagnostic` tells the maker which and why."""

    def __init__(self, diagnostic: Diagnostic) -> None:
        super().__init__(diagnostic.message)
        self.diagnostic = diagnostic


def _fault(code: str, message: str, expected: str = "", hint: str = "", span: Span | None = None) -> FileFault:
    return FileFault(Diagnostic(code, message, span=span, expected=expected, hints=(hint,) if hint else ()))


# ---------------------------------------------------------------- reading


def inside(root: Path, name: str, limit: int) -> Path:
    """Where `name`, as written in a file of folder `root`, lies on disk: a plain file of at most `limit` bytes.

    Reports: `file-outside` for a path that leaves the folder, also through a link; `file-missing`,
    `file-not-plain`, `file-too-big`.  Raises FileFault.
    """
    parts = name.replace("\\", "/").split("/")
    if not name or "\0" in name or ".." in parts or Path(name).is_absolute() or ":" in parts[0]:
        raise _outside(name)
    base, path = _real(root), _real(root / name)
    if not path.is_relative_to(base):
        raise _outside(name)
    _refuse_unless_plain(path, name, limit)
    return path


def read_bytes(root: Path, name: str, limit: int) -> bytes:
    """The content of file `name` of folder `root`, at most `limit` bytes.  Raises FileFault."""
    return _content(inside(root, name, limit), name, limit)


def read_text(root: Path, name: str, limit: int = TEXT_LIMIT) -> str:
    """The text of file `name` of folder `root`, lines ended by a line feed.  Raises FileFault."""
    return _decoded(read_bytes(root, name, limit), name)


def read_chosen(path: Path, limit: int = TEXT_LIMIT) -> str:
    """The text of a file that the user named on the command line, wherever it lies.  Raises FileFault."""
    shown = str(path)
    if "\0" in shown:
        raise _fault("file-missing", "A file name cannot hold a zero character.")
    _refuse_unless_plain(path, shown, limit)
    return _decoded(_content(path, shown, limit), shown)


def names_in(folder: Path) -> tuple[str, ...]:
    """Names of all that lies in a folder, sorted; none if there is no such folder.  Raises FileFault."""
    return tuple(sorted(entry.name for entry in _entries(folder)))


def folders_in(folder: Path) -> tuple[str, ...]:
    """Names of the folders in a folder, sorted; none if there is no such folder.  Raises FileFault."""
    return tuple(sorted(entry.name for entry in _entries(folder) if _is_folder(entry)))


def _entries(folder: Path) -> list[os.DirEntry[str]]:
    try:
        with os.scandir(folder) as entries:
            return list(entries)
    except (FileNotFoundError, NotADirectoryError):
        return []
    except OSError as fault:
        raise _fault("file-unreadable", f'The folder "{folder}" cannot be read: {_reason(fault)}.') from fault


def _is_folder(entry: os.DirEntry[str]) -> bool:
    with contextlib.suppress(OSError):
        return entry.is_dir()
    return False  # a link that leads in a circle


def _real(path: Path) -> Path:
    try:
        return path.resolve()
    except (OSError, RuntimeError) as fault:
        raise _fault("file-missing", f'"{path}" leads nowhere: {_reason(fault)}.') from fault


def _outside(name: str) -> FileFault:
    return _fault(
        "file-outside",
        f"`{name}` leaves the design's folder.",
        expected="a path relative to the file that names it, without `..`",
        hint="Copy the file beside the design.",
    )


def _refuse_unless_plain(path: Path, shown: str, limit: int) -> None:
    """Looked at before it is opened: opening a device may act, opening a pipe may wait for ever."""
    try:
        found = path.stat()
    except OSError as fault:
        raise _fault("file-missing", f'There is no file "{shown}" ({_reason(fault)}).') from fault
    if not stat.S_ISREG(found.st_mode):
        what = "a folder" if stat.S_ISDIR(found.st_mode) else "not a plain file"
        raise _fault("file-not-plain", f'"{shown}" is {what}.', expected="a plain file")
    if found.st_size > limit:
        raise _too_big(shown, limit)


def _too_big(shown: str, limit: int) -> FileFault:
    return _fault("file-too-big", f'"{shown}" is too big.', expected=f"at most {limit / 1e6:g} MB")


def _content(path: Path, shown: str, limit: int) -> bytes:
    try:
        with path.open("rb") as file:
            data = file.read(limit + 1)
    except OSError as fault:
        raise _fault("file-unreadable", f'"{shown}" cannot be read: {_reason(fault)}.') from fault
    if len(data) > limit:
        raise _too_big(shown, limit)  # it grew, or its system does not tell sizes
    return data


def _decoded(data: bytes, shown: str) -> str:
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as fault:
        line = data.count(b"\n", 0, fault.start) + 1
        column = fault.start - data.rfind(b"\n", 0, fault.start)
        raise _fault(
            "file-not-text",
            f'"{shown}" is not a UTF-8 text: byte {data[fault.start]:#04x} in line {line}.',
            expected="a plain text file",
            hint='In your editor, choose "save with encoding UTF-8".',
            span=Span(shown, line, column),
        ) from fault
    return text.replace("\r\n", "\n").replace("\r", "\n")


def _reason(fault: BaseException) -> str:
    text = fault.strerror if isinstance(fault, OSError) and fault.strerror else str(fault)
    return text[:1].lower() + text[1:]


# ---------------------------------------------------------------- writing


def check_folder(folder: Path) -> None:
    """Looks, before any work is done, whether files could be written into `folder`; makes nothing.

    Reports `file-write`.  Raises FileFault.
    """
    try:
        there = next(each for each in (folder, *folder.absolute().parents) if os.path.lexists(each))
        if not there.is_dir():
            raise NotADirectoryError(0, f"{there} is not a folder")
        if not os.access(there, os.W_OK | os.X_OK):
            raise PermissionError(0, f"{there} cannot be written to")
    except (OSError, ValueError) as fault:
        raise _unwritten(folder, fault if isinstance(fault, OSError) else OSError(str(fault))) from fault


def write_files(folder: Path, files: Mapping[str, bytes]) -> None:
    """Writes all files into `folder`, making it if needed, or leaves everything as it was.

    Each file is written aside in the same folder and then renamed over the old one; if any step
    fails, old files are put back and our own leftovers removed.  `files`: plain name -> content.
    Reports `file-write`.  Raises FileFault.
    """
    for name in files:
        if Path(name).name != name or name in ("", ".", ".."):
            raise ValueError(f"not a plain file name: {name!r}")
    made = _make(folder)
    try:
        _refuse_folders_in_the_way(folder, files)
        _write_all(folder, files)
    except BaseException as fault:
        _remove_empty(made)
        if isinstance(fault, OSError):
            raise _unwritten(folder, fault) from fault
        raise


def _unwritten(folder: Path, fault: OSError) -> FileFault:
    message = f'Nothing was written into "{folder}": {_reason(fault)}.'
    hint = "Choose another folder with `--out`, or make room and close programs that hold the files."
    return _fault("file-write", message, hint=hint)


def _make(folder: Path) -> list[Path]:
    """The folders that had to be made, deepest first."""
    try:
        missing = [each for each in (folder, *folder.parents) if not each.exists()]
        folder.mkdir(parents=True, exist_ok=True)
    except (OSError, ValueError) as fault:
        raise _unwritten(folder, fault if isinstance(fault, OSError) else OSError(str(fault))) from fault
    return missing


def _remove_empty(folders: Iterable[Path]) -> None:
    for folder in folders:
        with contextlib.suppress(OSError):
            folder.rmdir()


def _refuse_folders_in_the_way(folder: Path, names: Iterable[str]) -> None:
    for name in names:
        if (folder / name).is_dir():
            raise IsADirectoryError(0, f"{name} is a folder there")


def _write_all(folder: Path, files: Mapping[str, bytes]) -> None:
    token = secrets.token_hex(4)
    aside = {folder / name: folder / f".{name}.{token}.new" for name in files}
    kept = {target: folder / f".{target.name}.{token}.old" for target in aside if target.exists()}
    try:
        for (_, data), new in zip(files.items(), aside.values(), strict=True):
            _write_through(new, data)
        for target, old in kept.items():
            shutil.copy2(target, old)
        _swap(aside, kept)
        _settle(folder)
    finally:
        for leftover in (*aside.values(), *kept.values()):
            leftover.unlink(missing_ok=True)


def _write_through(path: Path, data: bytes) -> None:
    """Written and flushed to the disk itself, so that a rename never brings up an empty file."""
    with path.open("xb") as file:
        file.write(data)
        file.flush()
        os.fsync(file.fileno())


def _swap(aside: Mapping[Path, Path], kept: Mapping[Path, Path]) -> None:
    done: list[Path] = []
    try:
        for target, new in aside.items():
            os.replace(new, target)
            done.append(target)
    except BaseException:
        for target in done:
            if target in kept:
                os.replace(kept[target], target)
            else:
                target.unlink(missing_ok=True)
        raise


def _settle(folder: Path) -> None:
    """Asks the system to store the renames too; not every system lets a folder be opened for that."""
    with contextlib.suppress(OSError):
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)
