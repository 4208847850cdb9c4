"""System libraries that come from outside pip: when one is missing, which it is and how to get it.

Apart because both the CAD kernel and the layout engine load such libraries, and a maker on a new
machine should read a sentence, not a traceback.
"""

from __future__ import annotations

import sys
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass

from planbuild.core.diagnostics import Diagnostic, Refused


@dataclass(frozen=True)
class Library:
    """What the libraries are for, and the command that installs them on each platform."""

    purpose: str
    commands: tuple[tuple[str, str], ...]


LAYOUT = Library(
    "the page layout (Pango)",
    (
        ("Debian, Ubuntu", "sudo apt install libpango-1.0-0 libpangoft2-1.0-0 libharfbuzz-subset0"),
        ("Fedora", "sudo dnf install pango harfbuzz"),
        ("macOS with Homebrew", "brew install pango"),
        ("Windows", "install MSYS2, then in its terminal: pacman -S mingw-w64-x86_64-pango"),
    ),
)

SOLIDS = Library(
    "the solids (OpenGL, which the CAD kernel loads)",
    (
        ("Debian, Ubuntu", "sudo apt install libgl1"),
        ("Fedora", "sudo dnf install mesa-libGL"),
        ("macOS", "it is part of the system; reinstall with: python -m pip install --force-reinstall cadquery"),
        ("Windows", "install the current Visual C++ runtime of the system's maker"),
    ),
)

_HERE = {"linux": ("Debian, Ubuntu", "Fedora"), "darwin": ("macOS", "macOS with Homebrew"), "win32": ("Windows",)}


@contextmanager
def loading(library: Library) -> Iterator[None]:
    """Around an import: a missing system library becomes a refusal `native-missing` that names the way out."""
    try:
        yield
    except (OSError, ImportError) as fault:
        if isinstance(fault, ModuleNotFoundError):
            raise
        raise Refused((_missing(library, str(fault)),)) from fault


def _missing(library: Library, fault: str) -> Diagnostic:
    first = fault.strip().splitlines()[0] if fault.strip() else "it could not be loaded"
    here = [line for line in library.commands if line[0] in _HERE.get(sys.platform, ())] or list(library.commands)
    return Diagnostic(
        "native-missing",
        f"A system library for {library.purpose} is missing: {first}",
        hints=tuple(f"{system}: {command}" for system, command in here),
    )
