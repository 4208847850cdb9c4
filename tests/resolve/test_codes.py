"""Every code that resolve can give is brought about by a file of `tests/faults` (run by the tests of reading)."""

from __future__ import annotations

import re
from pathlib import Path

ROOT = Path(__file__).parent.parent.parent
TOPICS = (
    "amount|assembly|bill|block|climate|edition|finish|glue-up|hardware|holes|item|list|load|mark|matching|place|practice|range|ref"
    "|revision|shape|size|species|stock|sum|when|word"
)
ELSEWHERE = {
    "place-off-step": "a note, in test_placement",
    "edition-unknown": "needs a wish on the command line, in test_editions",
    "edition-not-built": "needs a wish on the command line, in test_editions",
}


def test_each_code_has_a_fault_file() -> None:
    rooms = sorted((ROOT / "planbuild" / "resolve").rglob("*.py"))
    given = {code for room in rooms for code in re.findall(rf'"((?:{TOPICS})-[a-z-]+)"', room.read_text("utf-8"))}
    faults = sorted((ROOT / "tests" / "faults").glob("*.yaml"))
    shown = {code for file in faults for code in re.findall(r"# (?:error|warning): ([a-z-]+) @", file.read_text("utf-8"))}
    assert len(given) > 60
    assert given - shown == set(ELSEWHERE) & given
