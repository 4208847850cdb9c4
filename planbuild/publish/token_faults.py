"""What is wrong with a `tokens.toml`, in words for whoever wrote it, with the place of each fault."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Collection
from typing import Any

from planbuild.core.diagnostics import Diagnostic, Span
from planbuild.core.spelling import did_you_mean
from planbuild.publish.token_places import TokenPlaces

_AT = re.compile(r" \(at (?:line (\d+), column (\d+)|end of document)\)$")
_COLOUR = '# and six hexadecimal digits in quotes, as "#9c4318"'
_WANTED = {
    "string_type": "a text in quotes",
    "dict_type": "a table of names and values",
    "model_type": 'a line: { width = 0.25, colour = "ink" }',
    "tuple_type": "a list of lengths, as [3.0, 0.9]",
    "too_long": "at most eight lengths",
}
_KINDS = {"pens": "pen", "tints": "tint", "lettering": "role of lettering"}
_LENGTHS = ("greater_than", "less_than_equal", "float_type", "float_parsing", "finite_number")


def not_toml(file: str, text: str, fault: Exception) -> Diagnostic:
    """The text cannot be read at all: where reading stopped."""
    if isinstance(fault, RecursionError):
        return Diagnostic("theme-tokens", "The tokens are nested too deeply.", span=Span(file, 1, 1))
    if not isinstance(fault, tomllib.TOMLDecodeError):
        return Diagnostic("theme-tokens", "A number is too long to be read.", span=Span(file, 1, 1))
    said = str(fault)
    at = _AT.search(said)
    last = text.rstrip("\n").split("\n")
    line, column = (int(at.group(1)), int(at.group(2))) if at and at.group(1) else (len(last), len(last[-1]) + 1)
    reason = said[: at.start()] if at else said
    hint = 'A line is `name = value`, a heading is `[name]`, a colour or name stands in quotes: "ink".'
    message = f"This is not TOML: {reason[:1].lower()}{reason[1:]}."
    return Diagnostic("theme-tokens", message, span=Span(file, line, column), hints=(hint,))


def wrong(places: TokenPlaces, error: Any, fields: Collection[str]) -> Diagnostic:
    """One complaint of the schema; `fields` are the names that may stand at the top."""
    keys = tuple(str(step) for step in error["loc"] if step != "[key]" and not isinstance(step, int))
    name, kind = keys[-1] if keys else "", error["type"]
    if kind == "extra_forbidden":
        return unknown(places.name(keys), "table" if len(keys) == 1 else "field", name, fields if len(keys) == 1 else LINE_FIELDS)
    if kind == "enum":
        return unknown(places.name(keys), _KINDS.get(keys[0], "name"), name, re.findall(r"'([^']*)'", error["ctx"]["expected"]))
    if kind == "missing":
        return Diagnostic("theme-tokens", f"`{name}` is missing in `{'.'.join(keys[:-1])}`.", span=places.name(keys[:-1]))
    return _wrong_value(places, keys, error)


LINE_FIELDS = ("width", "colour", "dash")


def _wrong_value(places: TokenPlaces, keys: tuple[str, ...], error: Any) -> Diagnostic:
    kind, wanted = error["type"], _WANTED.get(error["type"], "")
    if kind == "string_pattern_mismatch":
        as_key = error["loc"][-1] == "[key]" or "#" not in error["ctx"]["pattern"]
        wanted = "a name of small letters, digits and _" if as_key else _COLOUR
    if kind in _LENGTHS:
        wanted = "a length in mm, more than 0 and at most 20"
    span = places.name(keys) if error["loc"][-1] == "[key]" else places.value(keys)
    return Diagnostic("theme-tokens", f"`{'.'.join(keys)}` cannot be {_shown(error['input'])}.", span=span, expected=wanted)


def unknown(span: Span, what: str, name: str, known: Collection[str]) -> Diagnostic:
    """A name that nothing goes by."""
    message, expected = f'There is no {what} "{name}".', f"one of: {', '.join(known)}"
    return Diagnostic("theme-tokens", message, span=span, expected=expected, hints=did_you_mean(name, known))


def _shown(value: object) -> str:
    match value:
        case dict():
            return "a table"
        case list():
            return "a list"
        case _:
            text = f'"{value}"' if isinstance(value, str) else str(value)
            return text if len(text) <= 60 else f"{text[:60]} …"


READING_FAULTS = (tomllib.TOMLDecodeError, ValueError, RecursionError)
"""What the TOML reader raises on a text that is not TOML, or has a number too long to be one."""
