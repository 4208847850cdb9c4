"""The child process that reads a stranger's theme: its texts in, its faults out; nothing of it is run.

Run as a module by `bounded`.
"""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from dataclasses import replace
from pathlib import Path
from typing import Any

from planbuild.core.diagnostics import Diagnostic, Refused, Span
from planbuild.core.render import as_data
from planbuild.publish.asked import outside_style, outside_template
from planbuild.publish.bounded import TimeUp, clocked, serve
from planbuild.publish.template_check import template_faults
from planbuild.publish.theme_files import STYLE, TOKENS, Files
from planbuild.publish.tokens import read_tokens

_FILE_SECONDS = 2.0
"""Of computing, for one file."""
_MOST = 50
"""Faults that are told; a theme that is not meant to work has any number."""


def _looked_over(job: Mapping[str, Any]) -> bytes:
    own, found = Files(Path(job["folder"]), job["texts"]), []
    for name in sorted(own.texts):
        try:
            with clocked(_FILE_SECONDS):
                found += list(_faults(own, name, job))
        except TimeUp:
            found.append(Diagnostic("theme-bounds", "This file takes too long to read.", span=Span(own.path(name), 1, 1)))
            break
    return json.dumps([as_data(each) for each in _told(list(dict.fromkeys(found)))]).encode()


def _told(found: list[Diagnostic]) -> list[Diagnostic]:
    """The first of them, and how many are left out."""
    if len(found) <= _MOST:
        return found
    last, more = found[_MOST - 1], len(found) - _MOST
    return [*found[: _MOST - 1], replace(last, hints=(*last.hints, f"{more:,} further faults of the theme are not listed."))]


def _faults(own: Files, name: str, job: Mapping[str, Any]) -> Iterator[Diagnostic]:
    path, text = own.path(name), own.texts[name]
    if name == TOKENS:
        yield from _token_faults(((str(file), str(content)) for file, content in job["base"]), (path, text))
    elif name == STYLE:
        yield from outside_style(path, text)
    else:
        yield from template_faults(path, text, job["known"])
        yield from outside_template(path, text)


def _token_faults(base: Iterator[tuple[str, str]], own: tuple[str, str]) -> tuple[Diagnostic, ...]:
    try:
        read_tokens((*base, own))
    except Refused as refused:
        return refused.diagnostics
    return ()


if __name__ == "__main__":
    serve(_looked_over)
