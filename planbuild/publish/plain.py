"""Records as plain data for templates: dictionaries and lists, sentences already set as safe HTML."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import fields, is_dataclass
from enum import Enum

from planbuild.publish.words import Html, Words

Plain = str | int | float | bool | None | list["Plain"] | dict[str, "Plain"]


def plain(value: object, words: Words) -> Plain:
    """`value` with records as dictionaries, and each text that holds references as `{"html": ...}`."""
    match value:
        case Html():
            return {"html": value.html}
        case str():
            set_text = words.sentence(value)
            return {"html": set_text.html} if isinstance(set_text, Html) else set_text
        case Enum():
            return plain(value.value, words)
        case bool() | int() | float() | None:
            return value
        case Mapping():
            return {str(key): plain(each, words) for key, each in value.items()}
        case list() | tuple():
            return [plain(each, words) for each in value]
        case _ if is_dataclass(value):
            return {each.name: plain(getattr(value, each.name), words) for each in fields(value)}
        case _:
            raise TypeError(f"no plain form of {type(value).__name__}")
