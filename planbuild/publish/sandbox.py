"""The template engine as a theme meets it: nothing unsafe, nothing random, no sum without limit.

`template_check` only reads templates with it; filling them is the affair of a child process (`setter`).
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from jinja2 import FunctionLoader, StrictUndefined
from jinja2.exceptions import SecurityError
from jinja2.runtime import Context, Undefined
from jinja2.sandbox import ImmutableSandboxedEnvironment

from planbuild.core.spelling import did_you_mean

LARGEST_COUNT = 100_000
"""The largest whole number that a template may write, the longest range, and the longest repeated text."""
_LARGEST_PRODUCT = 1e12
"""Of two numbers: the plan's own are mm, mm2 and mm3."""


class TooMuch(Exception):
    """A template asks for more than a theme may have; says what, in words for a maker."""


class Missing(StrictUndefined):
    """A name that is not there, told in plain words with the nearest one that is."""

    __slots__ = ()

    @property
    def _undefined_message(self) -> str:
        if self._undefined_hint:
            return self._undefined_hint
        there = self._undefined_obj if isinstance(self._undefined_obj, dict) else {}
        near = did_you_mean(str(self._undefined_name), map(str, there))
        return " ".join((f'There is nothing called "{self._undefined_name}" here.', *near))


class Sandbox(ImmutableSandboxedEnvironment):
    """Nothing can be changed or reached around, and a field of the data is found before a method of the same name."""

    intercepted_binops = frozenset({"*", "**"})

    def __init__(self, load: Callable[[str], Any]) -> None:
        super().__init__(
            loader=FunctionLoader(load), undefined=Missing, autoescape=True, trim_blocks=True, lstrip_blocks=True
        )  # fmt: skip
        self.globals.pop("lipsum")
        self.filters.pop("random")  # the same design gives the same pages
        self.globals["range"] = _range

    def getattr(self, obj: Any, attribute: str) -> Any:
        return obj[attribute] if isinstance(obj, dict) and attribute in obj else super().getattr(obj, attribute)

    def unsafe_undefined(self, obj: Any, attribute: str) -> Undefined:
        return self.undefined(closed(attribute), exc=SecurityError)

    def call_binop(self, context: Context, operator: str, left: Any, right: Any) -> Any:
        if operator == "**":
            raise TooMuch(NO_POWER)
        numbers = isinstance(left, int | float) and isinstance(right, int | float)
        if _size(left) * _size(right) > (_LARGEST_PRODUCT if numbers else LARGEST_COUNT):
            raise TooMuch("This product is too large." if numbers else f"This text would be longer than {LARGEST_COUNT:,}.")
        return left * right


NO_POWER = "A template has no `**`, because a power can be a number without end."


def closed(attribute: str) -> str:
    """Why a template cannot reach something."""
    return f"`{attribute}` is not open to a theme."


def _size(value: Any) -> float:
    """How large a number is, or how long a text or list."""
    return abs(value) if isinstance(value, int | float) else len(value)


def _range(*numbers: int) -> range:
    found = range(*numbers)
    if len(found[: LARGEST_COUNT + 1]) > LARGEST_COUNT:
        raise TooMuch(f"A range has at most {LARGEST_COUNT:,} numbers.")
    return found
