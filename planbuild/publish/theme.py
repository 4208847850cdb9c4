"""Themes: a folder of templates, one style sheet and drawing tokens, laid over the built-in `bench`.

A theme beside the design wins over a built-in one of the same name.  A theme may come from a stranger:
only small text files inside its own folder are read, and its templates are filled in a bounded sandbox.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, replace
from pathlib import Path

from planbuild.core.diagnostics import Diagnostic, Refused
from planbuild.core.files import FileFault, read_text
from planbuild.core.spelling import did_you_mean
from planbuild.publish.tokens import Tokens, read_tokens

BUILT_IN = "bench"
ROOT = "plan.html.j2"
STYLE, TOKENS, TEMPLATE = "style.css", "tokens.toml", ".html.j2"
_LARGEST, _MOST = 200_000, 100
"""Bytes in a file and files in a theme; the built-in theme stays far below both."""
_NAME = re.compile(r"[a-z0-9][a-z0-9_-]{0,40}")


@dataclass(frozen=True)
class Theme:
    """`templates` by file name, those of the built-in theme also as `bench/<name>` so that they can be
    extended; `styles` in the order of the cascade."""

    name: str
    templates: Mapping[str, str]
    styles: tuple[str, ...]
    tokens: Tokens


def load_theme(name: str, design_folder: Path) -> Theme:
    """The theme of that name, from `<design folder>/themes` or built in.

    Reports `theme-unknown`, `theme-file`, `theme-tokens`.
    """
    built_in, asked = _built_in_folder() / BUILT_IN, _found(name, design_folder)
    folders = [built_in] if asked.resolve() == built_in.resolve() else [built_in, asked]
    contents = [(folder, _contents(folder)) for folder in folders]
    base = contents[0][1]
    templates = {f"{BUILT_IN}/{file}": text for file, text in base.items() if file.endswith(TEMPLATE)}
    for _, files in contents:
        templates |= {file: text for file, text in files.items() if file.endswith(TEMPLATE)}
    styles = tuple(files[STYLE] for _, files in contents if STYLE in files)
    tokens = read_tokens(tuple((str(folder / TOKENS), files[TOKENS]) for folder, files in contents if TOKENS in files))
    return Theme(name, templates, styles, tokens)


def _built_in_folder() -> Path:
    """Beside the package in a repository, inside it when installed from a wheel."""
    package = Path(__file__).parents[1]
    inside = package / "themes"
    return inside if inside.is_dir() else package.parent / "themes"


def _found(name: str, design_folder: Path) -> Path:
    places = (design_folder / "themes", _built_in_folder())
    if _NAME.fullmatch(name):
        for folder in (place / name for place in places):
            if folder.is_dir():
                return folder
    known = sorted({each.name for place in places if place.is_dir() for each in place.iterdir() if each.is_dir()})
    hints = did_you_mean(name, known) or ("A theme is a folder: themes/<name> beside the design.",)
    raise Refused(
        (Diagnostic("theme-unknown", f'There is no theme "{name}".', expected=f"one of: {', '.join(known)}", hints=hints),)
    )


def _contents(folder: Path) -> dict[str, str]:
    """The theme's own files by name; anything else in the folder is left alone."""
    names = sorted(path.name for path in folder.iterdir() if path.name in (STYLE, TOKENS) or path.name.endswith(TEMPLATE))
    if len(names) > _MOST:
        raise Refused((Diagnostic("theme-file", f"Theme {folder} has more than {_MOST} files."),))
    return {name: _text(folder, name) for name in names}


def _text(folder: Path, name: str) -> str:
    try:
        return read_text(folder, name, _LARGEST)
    except FileFault as fault:
        told = fault.diagnostic
        raise Refused((replace(told, code="theme-file", message=f"Theme {folder}: {told.message}"),)) from fault
