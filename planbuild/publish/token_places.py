"""Where in a `tokens.toml` each name and value is written, so that a fault can be pointed at.

Goes line by line over a text that is known to be TOML.  A heuristic: what it does not find (a name in a text of
several lines, say) is told at the next larger thing around it.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field

from planbuild.core.diagnostics import Span

Keys = tuple[str, ...]

_KEY = r"""(?:[A-Za-z0-9_-]+|"[^"\n]*"|'[^'\n]*')"""
_DOTTED = rf"{_KEY}(?:\s*\.\s*{_KEY})*"
_TABLE = re.compile(rf"\s*\[{{1,2}}\s*({_DOTTED})\s*\]")
_PAIR = re.compile(rf"\s*({_DOTTED})\s*=\s*")
_INNER = re.compile(rf"""({_KEY})\s*=\s*(\[[^\]]*\]|"[^"]*"|'[^']*'|[^,{{}}\s]+)""")
_VALUE = re.compile(r"""(?:"[^"]*"|'[^']*'|[^#"'])*""")


@dataclass
class TokenPlaces:
    """The places in one file, by the names that lead there: `("pens", "full", "hidden", "width")`."""

    file: str
    text: str
    _names: dict[Keys, Span] = field(default_factory=dict)
    _values: dict[Keys, Span] = field(default_factory=dict)

    def __post_init__(self) -> None:
        table: Keys = ()
        for number, line in enumerate(self.text.split("\n"), start=1):
            if head := _TABLE.match(line):
                table = _keys(head.group(1))
                self._note(table, number, head.span(1), head.span(1))
            elif pair := _PAIR.match(line):
                self._pair(table + _keys(pair.group(1)), number, line, pair)

    def name(self, keys: Keys) -> Span:
        """Where a name stands, or the nearest one around it that is written."""
        return self._nearest(self._names, keys)

    def value(self, keys: Keys) -> Span:
        """Where the value of a name stands, or the nearest one around it that is written."""
        return self._nearest(self._values, keys)

    def _pair(self, keys: Keys, number: int, line: str, pair: re.Match[str]) -> None:
        found = _VALUE.match(line, pair.end())
        end = pair.end() + len(found.group().rstrip()) if found else len(line)
        self._note(keys, number, pair.span(1), (pair.end(), end))
        if line.startswith("{", pair.end()):
            for inner in _INNER.finditer(line, pair.end(), end):
                self._note(keys + _keys(inner.group(1)), number, inner.span(1), inner.span(2))

    def _note(self, keys: Keys, number: int, name: tuple[int, int], value: tuple[int, int]) -> None:
        self._names[keys] = Span(self.file, number, name[0] + 1, max(1, name[1] - name[0]))
        self._values[keys] = Span(self.file, number, value[0] + 1, max(1, value[1] - value[0]))

    def _nearest(self, places: dict[Keys, Span], keys: Keys) -> Span:
        around = (keys[:count] for count in range(len(keys), 0, -1))
        return next((places[each] for each in around if each in places), Span(self.file, 1, 1))


def _keys(dotted: str) -> Keys:
    return tuple(each.strip("\"'") for each in re.findall(_KEY, dotted))
