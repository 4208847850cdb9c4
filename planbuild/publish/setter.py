"""The child process that fills a theme's templates: plain data in, one HTML text out, no reach to anything else.

Run as a module by `bounded`; nothing of the plan is imported, the data come as JSON.
"""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from types import TracebackType
from typing import Any

from jinja2 import FunctionLoader, StrictUndefined, TemplateSyntaxError
from jinja2.sandbox import ImmutableSandboxedEnvironment
from markupsafe import Markup

from planbuild.publish.bounded import serve

LARGEST_HTML = 4_000_000
"""Characters; a plan of thirty pages needs about 200,000."""


class _Sandbox(ImmutableSandboxedEnvironment):
    """No unsafe attributes, nothing can be changed, and a field of the data is found before a method of the same name."""

    def getattr(self, obj: Any, attribute: str) -> Any:
        return obj[attribute] if isinstance(obj, dict) and attribute in obj else super().getattr(obj, attribute)


def fill(job: Mapping[str, Any]) -> bytes:
    """The filled root template as JSON: `html`, or `fault` with `template`, `line` and `message`."""
    templates = job["templates"]
    loader = FunctionLoader(lambda name: (templates[name], name, None) if name in templates else None)
    sandbox = _Sandbox(loader=loader, undefined=StrictUndefined, autoescape=True, trim_blocks=True, lstrip_blocks=True)
    try:
        return json.dumps({"html": _joined(sandbox, job)}).encode()
    except MemoryError:
        raise
    except Exception as fault:  # whatever a template provokes is a fault of that template
        return json.dumps({"fault": _told(fault, job["templates"])}).encode()


def _joined(sandbox: _Sandbox, job: Mapping[str, Any]) -> str:
    pieces, size = [], 0
    for piece in sandbox.get_template(job["root"]).generate(_safe(job["data"])):
        size += len(piece)
        if size > LARGEST_HTML:
            raise OverflowError(f"the templates write more than {LARGEST_HTML:,} characters")
        pieces.append(piece)
    return "".join(pieces)


def _safe(data: Any) -> Any:
    """The data with every `{"html": ...}` as text that needs no escaping."""
    if isinstance(data, dict):
        return Markup(data["html"]) if data.keys() == {"html"} else {key: _safe(value) for key, value in data.items()}
    return [_safe(each) for each in data] if isinstance(data, list) else data


def _told(fault: Exception, templates: Mapping[str, str]) -> dict[str, object]:
    """Which template and line: from a syntax error itself, else from the deepest frame that is a template."""
    if isinstance(fault, TemplateSyntaxError):
        return {"template": fault.name or "", "line": fault.lineno, "message": fault.message or ""}
    frames = [(trace.tb_frame.f_code.co_filename, trace.tb_lineno) for trace in _traces(fault)]
    template, line = next((frame for frame in reversed(frames) if frame[0] in templates), ("", 0))
    return {"template": template, "line": line, "message": str(fault) or type(fault).__name__}


def _traces(fault: Exception) -> Iterator[TracebackType]:
    trace = fault.__traceback__
    while trace is not None:
        yield trace
        trace = trace.tb_next


if __name__ == "__main__":
    serve(fill)
