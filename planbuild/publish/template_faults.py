"""What went wrong in a template, in words for whoever wrote it: which template, which line, what to try.

Told by the child that fills templates (`setter`) as plain data, and by `template_check` before that.
"""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator
from dataclasses import dataclass
from types import TracebackType

from jinja2 import TemplateNotFound, TemplateSyntaxError, UndefinedError
from jinja2.exceptions import SecurityError

from planbuild.core.spelling import did_you_mean
from planbuild.publish.bounded import TimeUp
from planbuild.publish.sandbox import TooMuch

BOUNDS, TEMPLATE = "theme-bounds", "theme-template"
SMALLER = "A theme sets what the plan holds; take out the sum or loop that goes beyond it."


_WANTED = re.compile(r" \S+ was looking for the following tags: (.*?)\.")
"""How the engine says what should have come."""


@dataclass(frozen=True)
class Fault:
    """`template` and `line` are "" and 0 where no template is to blame."""

    code: str
    message: str
    expected: str = ""
    hints: tuple[str, ...] = ()
    template: str = ""
    line: int = 0


def words_for(fault: Exception, known: Collection[str]) -> Fault:
    """What a maker is told of an exception; `known` are the names of all templates."""
    match fault:
        case TimeUp():
            return Fault(BOUNDS, "This does not come to an end.", hints=("Look for a loop within a loop.", SMALLER))
        case MemoryError():
            return Fault(BOUNDS, "This needs too much memory.", hints=("Look for a text that grows in a loop.", SMALLER))
        case RecursionError():
            hint = "Look for a macro that calls itself, or templates that include each other."
            return Fault(BOUNDS, "This leads back to itself without end, or is nested too deeply.", hints=(hint,))
        case TooMuch():
            return Fault(BOUNDS, str(fault), hints=(SMALLER,))
        case TemplateNotFound():
            return no_template(str(fault.name), known)
        case TemplateSyntaxError():
            return Fault(TEMPLATE, f"This cannot be read as a template: {_slip(fault.message or '')}")
        case UndefinedError() | SecurityError():
            return Fault(TEMPLATE, str(fault))
        case _:
            return Fault(TEMPLATE, f"This cannot be worked out: {_lower(str(fault) or type(fault).__name__)}")


def no_template(name: str, known: Collection[str]) -> Fault:
    """A template asks for another that is not there; a path out of the theme is just a name that is not there."""
    expected = "a template of this theme, or one of the built-in theme as `bench/<name>`"
    return Fault(TEMPLATE, f'There is no template "{name}".', expected, did_you_mean(name, known))


def place_of(fault: Exception, known: Collection[str], own: Collection[str]) -> tuple[str, int]:
    """Template and line: of a slip itself, else of the deepest call, in a template of the theme's own if one is on the way."""
    if isinstance(fault, TemplateSyntaxError):
        return fault.name or "", fault.lineno
    calls = [(trace.tb_frame.f_code.co_filename, trace.tb_lineno) for trace in _traces(fault)]
    there = [call for call in calls if call[0] in own] or [call for call in calls if call[0] in known]
    return there[-1] if there else ("", 0)


def _traces(fault: Exception) -> Iterator[TracebackType]:
    trace = fault.__traceback__
    while trace is not None:
        yield trace
        trace = trace.tb_next


def _slip(message: str) -> str:
    return _WANTED.sub(r" Expected \1.", _lower(message))


def _lower(text: str) -> str:
    return text[:1].lower() + text[1:]
