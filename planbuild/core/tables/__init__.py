"""Tables of trade and timber facts, one CSV file each, with a source in every row.

Apart from the code that uses them so that a maker can look a number up, and a proof can name its row.
"""

from __future__ import annotations

import csv
from collections.abc import Mapping
from functools import cache
from importlib import resources
from types import MappingProxyType

Row = Mapping[str, str]


@cache
def rows(name: str) -> tuple[Row, ...]:
    """The rows of `planbuild/core/tables/<name>.csv` in file order, each cell as text under its column's name."""
    text = resources.files(__name__).joinpath(f"{name}.csv").read_text("utf-8")
    return tuple(MappingProxyType(row) for row in csv.DictReader(text.splitlines()))


def row(name: str, key: str, value: str) -> Row | None:
    """The row of a table whose column `key` reads `value`, or None."""
    return next((each for each in rows(name) if each[key] == value), None)
