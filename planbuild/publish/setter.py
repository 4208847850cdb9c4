"""The child process that fills a theme's templates: plain data in, one HTML text out, no reach to anything else.

Run as a module by `bounded`; the data come as JSON.  It watches its own clock, so that a loop without end is
told with its line; what does not listen to the clock is stopped from outside.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import asdict, replace
from typing import Any

from markupsafe import Markup

from planbuild.publish.bounded import clocked, serve
from planbuild.publish.sandbox import Sandbox, TooMuch
from planbuild.publish.template_faults import place_of, words_for

LARGEST_HTML = 2_000_000
"""Characters; a plan of thirty pages needs about 200,000."""


def fill(job: Mapping[str, Any]) -> bytes:
    """The filled root template as JSON: `html`, or `fault` (see `template_faults.Fault`)."""
    templates = job["templates"]
    sandbox = Sandbox(lambda name: (templates[name], name, None) if name in templates else None)
    try:
        with clocked(job["seconds"]):
            return json.dumps({"html": _joined(sandbox, job)}).encode()
    except Exception as fault:  # whatever a template provokes is a fault of that template
        template, line = place_of(fault, templates, job["own"])
        return json.dumps({"fault": asdict(replace(words_for(fault, templates), template=template, line=line))}).encode()


def _joined(sandbox: Sandbox, job: Mapping[str, Any]) -> str:
    pieces, size = [], 0
    for piece in sandbox.get_template(job["root"]).generate(_safe(job["data"])):
        size += len(piece)
        if size > LARGEST_HTML:
            raise TooMuch(f"The templates write more than {LARGEST_HTML:,} characters.")
        pieces.append(piece)
    return "".join(pieces)


def _safe(data: Any) -> Any:
    """The data with every `{"html": ...}` as text that needs no escaping."""
    if isinstance(data, dict):
        return Markup(data["html"]) if data.keys() == {"html"} else {key: _safe(value) for key, value in data.items()}
    return [_safe(each) for each in data] if isinstance(data, list) else data


if __name__ == "__main__":
    serve(fill)
