"""Safety messages from the table: the general ones for the front, those of an operation for its step.

Signal words and the order hazard, harm, avoidance follow ANSI Z535.6; no compliance is claimed.
"""

from __future__ import annotations

from collections.abc import Mapping

from planbuild.core import tables
from planbuild.records.facts import Caution


def caution(key: str, values: Mapping[str, str] | None = None) -> Caution:
    """The message of that key, its blanks filled from `values`.  Raises LookupError for an unknown key."""
    row = tables.row("cautions", "key", key)
    if row is None:
        raise LookupError(f"no caution {key!r} in the table")
    hazard, harm, avoid = (row[name].format_map(values or {}) for name in ("hazard", "harm", "avoid"))
    return Caution(row["signal"], hazard, harm, avoid)


def general_cautions() -> tuple[Caution, ...]:
    """Those printed once, grouped at the front, in the order of the table."""
    return tuple(caution(each["key"]) for each in tables.rows("cautions") if each["at"] == "front")


def step_keys() -> tuple[str, ...]:
    """Keys of messages tied to an operation or tool, the gravest first where two compete for a step."""
    return tuple(each["key"] for each in tables.rows("cautions") if each["at"] == "step")
