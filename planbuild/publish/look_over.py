"""A stranger's theme looked over before any slow work: tokens, templates and addresses, all faults at once.

Nothing of the theme is run, but even reading can be made to take for ever (a hundred thousand open brackets), so
that is done in a bounded child.  Run as a module by `bounded`, this file is that child.
"""

from __future__ import annotations

import json
from collections.abc import Collection, Iterator, Mapping
from pathlib import Path
from typing import Any

from planbuild.core.diagnostics import Diagnostic, Refused, Span
from planbuild.core.render import as_data
from planbuild.publish.asked import outside_style, outside_template
from planbuild.publish.bounded import Child, Limit, OutOfBounds, TimeUp, clocked, serve
from planbuild.publish.theme_files import STYLE, TOKENS, Files

LIMIT = Limit(seconds=15, megabytes=512)
"""The built-in theme would need 0.3 s and 60 MB."""
_FILE_SECONDS = 2.0
"""Of computing, for one file."""


def look_over(own: Files, base: Files, known: Collection[str]) -> tuple[Diagnostic, ...]:
    """All that is wrong with a theme's own files; `base` is the theme under it, `known` are the names of all templates.

    Reports `theme-tokens`, `theme-template`, `theme-bounds`, `theme-outside`.
    """
    job = {"folder": str(own.folder), "texts": dict(own.texts), "base": tokens_of(base), "known": sorted(known)}
    try:
        told = json.loads(Child("planbuild.publish.look_over", LIMIT).answer(job))
    except OutOfBounds as stopped:
        return (Diagnostic("theme-bounds", f"The theme cannot be read: {stopped.reason}.", span=Span(str(own.folder), 1, 1)),)
    return tuple(_diagnostic(each) for each in told)


def tokens_of(*files: Files) -> tuple[tuple[str, str], ...]:
    """Path and text of each theme's tokens, where it has some."""
    return tuple((each.path(TOKENS), each.texts[TOKENS]) for each in files if TOKENS in each.texts)


def _diagnostic(data: Mapping[str, Any]) -> Diagnostic:
    span = Span(**data["span"]) if data["span"] else None
    return Diagnostic(data["code"], data["message"], span=span, expected=data["expected"], hints=tuple(data["hints"]))


# ---------------------------------------------------------------- in the child


def _looked_over(job: Mapping[str, Any]) -> bytes:
    own, found = Files(Path(job["folder"]), job["texts"]), []
    for name in sorted(own.texts):
        try:
            with clocked(_FILE_SECONDS):
                found += list(_faults(own, name, job))
        except TimeUp:
            found.append(Diagnostic("theme-bounds", "This file takes too long to read.", span=Span(own.path(name), 1, 1)))
            break
    return json.dumps([as_data(each) for each in dict.fromkeys(found)]).encode()


def _faults(own: Files, name: str, job: Mapping[str, Any]) -> Iterator[Diagnostic]:
    path, text = own.path(name), own.texts[name]
    if name == TOKENS:
        yield from _token_faults(((str(file), str(content)) for file, content in job["base"]), (path, text))
    elif name == STYLE:
        yield from outside_style(path, text)
    else:
        from planbuild.publish.template_check import template_faults

        yield from template_faults(path, text, job["known"])
        yield from outside_template(path, text)


def _token_faults(base: Iterator[tuple[str, str]], own: tuple[str, str]) -> tuple[Diagnostic, ...]:
    from planbuild.publish.tokens import read_tokens

    try:
        read_tokens((*base, own))
    except Refused as refused:
        return refused.diagnostics
    return ()


if __name__ == "__main__":
    serve(_looked_over)
