"""A stranger's theme looked over before any slow work: all faults of its files at once.

Nothing of the theme is run, but even reading can be made to take for ever (a hundred thousand open brackets), so
that is done in a bounded child (`looker`).
"""

from __future__ import annotations

import json
from collections.abc import Collection, Mapping
from typing import Any

from planbuild.core.diagnostics import Diagnostic, Span
from planbuild.publish.bounded import Child, Limit, OutOfBounds
from planbuild.publish.theme_files import TOKENS, Files

LIMIT = Limit(seconds=15, megabytes=512)
"""The built-in theme would need 0.3 s and 60 MB."""


def look_over(own: Files, base: Files, known: Collection[str]) -> tuple[Diagnostic, ...]:
    """All that is wrong with a theme's own files; `base` is the theme under it, `known` are the names of all templates.

    Reports `theme-tokens`, `theme-template`, `theme-bounds`, `theme-outside`.
    """
    job = {"folder": str(own.folder), "texts": dict(own.texts), "base": tokens_of(base), "known": sorted(known)}
    try:
        told = json.loads(Child("planbuild.publish.looker", LIMIT).answer(job))
    except OutOfBounds as stopped:
        return (Diagnostic("theme-bounds", f"The theme cannot be read: {stopped.reason}.", span=Span(str(own.folder), 1, 1)),)
    return tuple(_diagnostic(each) for each in told)


def tokens_of(*files: Files) -> tuple[tuple[str, str], ...]:
    """Path and text of each theme's tokens, where it has some."""
    return tuple((each.path(TOKENS), each.texts[TOKENS]) for each in files if TOKENS in each.texts)


def _diagnostic(data: Mapping[str, Any]) -> Diagnostic:
    span = Span(**data["span"]) if data["span"] else None
    return Diagnostic(data["code"], data["message"], span=span, expected=data["expected"], hints=tuple(data["hints"]))
