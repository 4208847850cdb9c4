"""Where a theme lies and the texts in it; nothing else in its folder is looked at.

A theme may come from a stranger: its name is not a path, and only small text files of its own folder are read.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, replace
from pathlib import Path

from planbuild.core.diagnostics import Diagnostic, Refused, Span
from planbuild.core.files import FileFault, folders_in, names_in, read_text
from planbuild.core.spelling import did_you_mean

BUILT_IN = "bench"
STYLE, TOKENS, TEMPLATE = "style.css", "tokens.toml", ".html.j2"
_LARGEST, _ALTOGETHER, _MOST = 200_000, 500_000, 100
"""Bytes in a file and characters and files in a theme; the built-in theme stays far below all three."""
_NAME = re.compile(r"[a-z0-9][a-z0-9_-]{0,40}")


@dataclass(frozen=True)
class Files:
    """The texts of one theme folder by file name."""

    folder: Path
    texts: Mapping[str, str]

    def path(self, name: str) -> str:
        """A file as messages name it."""
        return str(self.folder / name)

    @property
    def templates(self) -> Mapping[str, str]:
        return {name: text for name, text in self.texts.items() if name.endswith(TEMPLATE)}


def built_in_files() -> Files:
    """The theme that every other one is laid over."""
    return _read(BUILT_IN, _built_in_folder() / BUILT_IN, None)


def own_files(name: str, design_folder: Path, said: Span | None) -> Files | None:
    """What the theme of that name brings, beside the design or built in; None for the built-in one itself.

    `said` is where the design asks for it.  Reports `theme-unknown`, `theme-file`.
    """
    try:
        folder = _found(name, design_folder)
    except FileFault as fault:
        raise Refused((_file_fault(name, fault, said),)) from fault
    if folder is None:
        raise Refused((_unknown(name, design_folder, said),))
    return None if folder == _built_in_folder() / BUILT_IN else _read(name, folder, said)


def _built_in_folder() -> Path:
    """Beside the package in a repository, inside it when installed from a wheel."""
    package = Path(__file__).parents[1]
    inside = package / "themes"
    return inside if inside.is_dir() else package.parent / "themes"


def _places(design_folder: Path) -> tuple[Path, Path]:
    return design_folder / "themes", _built_in_folder()


def _found(name: str, design_folder: Path) -> Path | None:
    """A theme beside the design wins over a built-in one of the same name."""
    if not _NAME.fullmatch(name):
        return None
    return next((place / name for place in _places(design_folder) if name in folders_in(place)), None)


def _unknown(name: str, design_folder: Path, said: Span | None) -> Diagnostic:
    known = sorted({each for place in _places(design_folder) for each in folders_in(place) if _NAME.fullmatch(each)})
    own = f'A theme of your own is a folder "{design_folder / "themes"}/<name>"; its name has small letters, digits, - and _.'
    hints, expected = (*did_you_mean(name, known), own), f"one of: {', '.join(known)}"
    return Diagnostic("theme-unknown", f'There is no theme "{name}".', span=said, expected=expected, hints=hints)


def _read(name: str, folder: Path, said: Span | None) -> Files:
    """All texts of the folder, or all that is wrong with them."""
    faults: list[Diagnostic] = []
    texts: dict[str, str] = {}
    for file in _wanted(name, folder, said):
        try:
            texts[file] = read_text(folder, file, _LARGEST)
        except FileFault as fault:
            faults.append(_file_fault(name, fault, said, folder))
    if sum(map(len, texts.values())) > _ALTOGETHER:
        faults.append(_too_much(name, f"more than {_ALTOGETHER:,} characters", said))
    if faults:
        raise Refused(tuple(faults))
    return Files(folder, texts)


def _wanted(name: str, folder: Path, said: Span | None) -> list[str]:
    try:
        files = [file for file in names_in(folder) if file in (STYLE, TOKENS) or file.endswith(TEMPLATE)]
    except FileFault as fault:
        raise Refused((_file_fault(name, fault, said),)) from fault
    if len(files) > _MOST:
        raise Refused((_too_much(name, f"more than {_MOST} files", said),))
    return files


def _too_much(name: str, what: str, said: Span | None) -> Diagnostic:
    hint = f"The built-in theme has fewer than twenty small files; keep in {STYLE} and templates what differs from it."
    return Diagnostic("theme-file", f'Theme "{name}" has {what}.', span=said, hints=(hint,))


def _file_fault(name: str, fault: FileFault, said: Span | None, folder: Path | None = None) -> Diagnostic:
    """The fault of a file as one of the theme, at its own place if it has one, else where the design asks for the theme."""
    told = fault.diagnostic
    place = replace(told.span, file=str(folder / told.span.file)) if told.span and folder else said
    if told.code == "file-outside":  # its name is plain, so it is a link
        told = replace(told, expected="a file of its own", hints=("Copy the file into the theme's folder.",))
    return replace(told, code="theme-file", message=f'Theme "{name}": {told.message}', span=place)


def line_of(path: str, text: str, number: int, word: str = "") -> Span:
    """A line of a theme's file without its indent, or a word in it if it is there."""
    lines = text.split("\n")
    line = lines[number - 1] if 1 <= number <= len(lines) else ""
    if word and word in line:
        return Span(path, number, line.index(word) + 1, len(word))
    return Span(path, number, len(line) - len(line.lstrip()) + 1, max(1, len(line.strip())))
