"""The nearest known name to a misspelt one, for the way out of an error."""

from __future__ import annotations

from collections.abc import Iterable
from difflib import get_close_matches


def nearest(word: str, known: Iterable[str]) -> str | None:
    """The known name most like `word`, or None if none is near.  The same word always gets the same answer."""
    names = sorted(set(known))
    lower = {name.lower(): name for name in reversed(names)}
    found = get_close_matches(word.lower(), sorted(lower), n=1, cutoff=0.6)
    return lower[found[0]] if found else None


def did_you_mean(word: str, known: Iterable[str]) -> tuple[str, ...]:
    """A hint with the nearest known name, or no hint."""
    near = nearest(word, known)
    return (f'Did you mean "{near}"?',) if near else ()
