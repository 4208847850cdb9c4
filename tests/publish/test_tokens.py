"""Tokens: inherited piece by piece, and refused with the place of what is wrong."""

from __future__ import annotations

from pathlib import Path

import pytest

from planbuild.core.diagnostics import Refused
from planbuild.publish.tokens import read_tokens
from planbuild.records.drawing import Pen, Tint

BENCH = ("bench/tokens.toml", (Path(__file__).parents[2] / "themes" / "bench" / "tokens.toml").read_text("utf-8"))


def faults(*texts: str) -> str:
    with pytest.raises(Refused) as caught:
        read_tokens((*([BENCH] if texts[0] else []), *(("mine/tokens.toml", text) for text in texts)))
    assert {each.code for each in caught.value.diagnostics} == {"theme-tokens"}
    return "\n".join(each.message for each in caught.value.diagnostics)


def test_a_theme_changes_one_line_and_one_tint_and_inherits_the_rest() -> None:
    mine = '[pens.full]\nvisible = { width = 0.7, colour = "accent" }\n[tints]\nup = "#eeeeee"'
    before, after = read_tokens((BENCH,)), read_tokens((BENCH, ("mine", mine)))
    assert after.groups["full"][Pen.VISIBLE].width == 0.7
    assert after.groups["full"][Pen.HIDDEN] == before.groups["full"][Pen.HIDDEN]
    assert after.tints[Tint.UP] == "#eeeeee" and after.tints[Tint.CUT] == before.tints[Tint.CUT]


def test_every_group_is_whole() -> None:
    assert all(set(pens) == set(Pen) for pens in read_tokens((BENCH,)).groups.values())


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("[pens.full]\nvisble = { width = 1, colour = 'ink' }", "visble"),
        ("[pens.full]\nvisible = { width = 0, colour = 'ink' }", "greater than 0"),
        ("[pens.full]\nvisible = { width = 1, colour = 'inc' }", 'no colour "inc"'),
        ("[tints]\nup = 'red; } body { }'", "pattern"),
        ("[figures]\nstep = 'huge'", 'no pen group "huge"'),
        ("[fonts]\nbody = 'x'", "fonts"),
        ("[colours\n", "not TOML"),
    ],
)
def test_faults_name_what_is_wrong(text: str, told: str) -> None:
    assert told in faults(text)


def test_a_theme_that_inherits_nothing_is_told_all_that_is_missing() -> None:
    with pytest.raises(Refused) as caught:
        read_tokens((("alone", "[colours]\n[pens.full]\n[figures]\n[tints]\n[lettering]\n"),))
    assert len(caught.value.diagnostics) == len(Pen) + len(Tint) + 4
