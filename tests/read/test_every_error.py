"""Every error that the design language promises is brought about somewhere: by a fault file, or by the test named here."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

TESTS = Path(__file__).parent.parent

PROMISED = (
    "read-format-missing", "read-unknown-key", "read-double-key", "read-empty", "read-comma-in-braces", "read-no-space",
    "read-tab", "read-yaml-extra", "read-yes-no", "name-reserved", "name-taken", "name-form", "sum-no-air",
    "sum-doubtful-mixed", "sum-doubtful-hyphen", "sum-inch-mark", "sum-feet", "sum-unit", "sum-two-places", "sum-area",
    "sum-angle", "sum-zero", "ref-unknown", "ref-which-face", "ref-direction", "ref-no-hand", "ref-measure",
    "place-height-slip", "place-too-few", "place-too-many", "place-negative", "place-circle", "place-frame", "place-leaning",
    "place-face-grain", "place-shoulder-planes", "joint-no-mate", "joint-two-mates", "joint-wrong-family", "joint-overlap",
    "joint-missing", "joint-collision", "joint-wall", "joint-proportion", "joint-cross-grain", "joint-unknown-kind",
    "joint-side", "block-takes", "block-not-taken", "block-range", "stock-missing", "stock-thin", "series-again",
    "shape-outside", "hardware-screw-long", "holes-meet", "step-order", "step-locked", "file-outside", "range-end",
)  # fmt: skip

ELSEWHERE = {
    "joint-overlap": "prove/test_bench.py",
    "step-order": "derive/steps/test_wishes.py",
    "step-locked": "derive/steps/test_glue_ups.py",
}
"""Found later than the faults of reading and placing: on solids, or in the order of work."""


@pytest.fixture(scope="module")
def shown() -> set[str]:
    files = (TESTS / "faults").glob("*.yaml")
    return {code for file in files for code in re.findall(r"# (?:error|warning): ([a-z-]+) @", file.read_text("utf-8"))}


@pytest.mark.parametrize("code", PROMISED)
def test_the_error_is_brought_about(code: str, shown: set[str]) -> None:
    elsewhere = ELSEWHERE.get(code)
    assert code in shown or (elsewhere and f'"{code}"' in (TESTS / elsewhere).read_text("utf-8"))
