"""What a theme asks for by address: found in its texts before any slow work, and told whenever it is refused.

A theme is text.  The only pictures on its pages are the plan's own drawings and photos, so every other address is refused, in
a style sheet and in a template; addresses that a template puts together are found by the layout engine (`press`).
The search in templates goes by their text and is a heuristic; the layout engine misses nothing.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from planbuild.core.diagnostics import Diagnostic, Span
from planbuild.publish.theme_files import STYLE, line_of

_PLAN = ("plan:", "#")
_TOLD = 100
"""Characters of an address that are shown."""
_LOGIC = re.compile(r"\{#.*?#\}|\{\{.*?\}\}|\{%.*?%\}", re.S)
_HOLE = "\0"
_IN_HTML = re.compile(
    r"""\b(?:src|srcset|data|poster|xlink:href)\s*=\s*["']?([^"'\s>]+)"""
    r"""|<(?:link|image|use)\b[^<>]{0,400}?\bhref\s*=\s*["']?([^"'\s>]+)"""
    r"""|\burl\(\s*["']?([^"')]+)"""
    r"""|@import\s+["']?([^"'\s;]+)""",
    re.I,
)


def outside_style(path: str, text: str) -> Iterator[Diagnostic]:
    """Every address in a style sheet that leads out of the plan.  Reports `theme-outside`."""
    for line, address in _in_style(text):
        yield outside(address, line_of(path, text, line, address))


def outside_template(path: str, text: str) -> Iterator[Diagnostic]:
    """Every address written out in a template that leads out of the plan.  Reports `theme-outside`."""
    for at, address in _in_template(text):
        yield outside(address, place_in(path, text, at, len(address)))


def outside(address: str, place: Span | None) -> Diagnostic:
    """The refusal of one address."""
    shown = address if len(address) <= _TOLD else f"{address[:_TOLD]} …"
    sheet = address.lower().endswith(".css")
    hint = f"Write the rules of that style sheet into {STYLE}." if sheet else "Take it out of the theme."
    return Diagnostic(
        "theme-outside",
        f'The theme asks for "{shown}", which is not part of the plan.',
        span=place,
        expected="only drawings and photos of the plan, by the address that templates are given (`plan:figure/...`): "
        "a theme brings no pictures, fonts or attachments",
        hints=(hint,),
    )


def place_in(file: str, text: str, at: int, length: int) -> Span:
    """The place of a stretch of a text, its line and column counted from 1."""
    return Span(file, text.count("\n", 0, at) + 1, at - text.rfind("\n", 0, at), length)


def _in_template(text: str) -> Iterator[tuple[int, str]]:
    """Offset and address; what the template works out is left to the layout engine."""
    bare = _LOGIC.sub(lambda found: re.sub(r"[^\n]", _HOLE, found.group()), text)
    for found in _IN_HTML.finditer(bare):
        address = found.group(found.lastindex or 0)
        if _HOLE not in address and not address.startswith(_PLAN):
            yield found.start(found.lastindex or 0), address


def _in_style(text: str) -> Iterator[tuple[int, str]]:
    """Line and address of each `url(...)` and `@import`, also where they are written with escapes."""
    import tinycss2

    todo, importing = list(reversed(tinycss2.parse_component_value_list(text))), False
    while todo:
        token = todo.pop()
        address = _address(token, importing)
        if address and not address.startswith(_PLAN):
            yield token.source_line, address
        if token.type not in ("whitespace", "comment"):
            importing = token.type == "at-keyword" and token.lower_value == "import"
        todo += reversed(getattr(token, "content", None) or getattr(token, "arguments", None) or ())


def _address(token: object, importing: bool) -> str:
    kind = getattr(token, "type", "")
    if kind == "url" or (kind == "string" and importing):
        return str(getattr(token, "value", ""))
    if kind == "function" and getattr(token, "lower_name", "") in ("url", "src"):
        return next((str(each.value) for each in getattr(token, "arguments", ()) if each.type == "string"), "")
    return ""
