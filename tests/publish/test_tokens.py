"""Tokens: inherited piece by piece, and refused with the place of what is wrong."""

from __future__ import annotations

from pathlib import Path

import pytest

from planbuild.core.diagnostics import Refused, Span
from planbuild.publish.tokens import read_tokens
from planbuild.records.drawing import Pen, Tint

BENCH = ("bench/tokens.toml", (Path(__file__).parents[2] / "themes" / "bench" / "tokens.toml").read_text("utf-8"))


def faults(*texts: str) -> str:
    with pytest.raises(Refused) as caught:
        read_tokens((*([BENCH] if texts[0] else []), *(("mine/tokens.toml", text) for text in texts)))
    assert {each.code for each in caught.value.diagnostics} == {"theme-tokens"}
    return "\n".join(f"{each.message} {each.expected}" for each in caught.value.diagnostics)


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
        ("[pens.full]\nvisible = { width = 0, colour = 'ink' }", "more than 0 and at most 20"),
        ("[pens.full]\nvisible = { width = 1, colour = 'inc' }", 'no colour "inc"'),
        ("[tints]\nup = 'red; } body { }'", "six hexadecimal digits"),
        ("[figures]\nstep = 'huge'", 'no pen group "huge"'),
        ("[fonts]\nbody = 'x'", "fonts"),
        ("[colours\n", "not TOML"),
    ],
)
def test_faults_name_what_is_wrong(text: str, told: str) -> None:
    assert told in faults(text)


@pytest.mark.parametrize(
    ("text", "line", "column", "length"),
    [
        ("[pens.full]\nvisble = { width = 1, colour = 'ink' }", 2, 1, 6),
        ("[pens.full]\nvisible = { width = 0, colour = 'ink' }", 2, 21, 1),
        ("[pens.full]\n  visible = { width = 1, colour = 'inc' } # x", 2, 35, 5),
        ("[pens.full]\nvisible = { width = 1 }", 2, 1, 7),
        ("[pens.full]\nvisible.width = 99\nvisible.colour = 'ink'", 2, 17, 2),
        ("[pens.full]\nhidden = { width = 1, colour = 'ink', dash = [1, -2] }", 2, 46, 7),
        ('[tints]\n"new up" = "red"', 2, 12, 5),
        ("# mine\n\n[fonts]\nbody = 'x'", 3, 2, 5),
        ("[figures]\nstep = 'huge'", 2, 8, 6),
        ("[lettering]\nnote = 'qiet' # x", 2, 8, 6),
        ("pens = 3", 1, 8, 1),
        ("[colours\n", 1, 9, 1),
        ("[tints]\nup = '#eeeeee", 2, 14, 1),
    ],
)
def test_faults_have_a_place_in_the_file(text: str, line: int, column: int, length: int) -> None:
    with pytest.raises(Refused) as caught:
        read_tokens((BENCH, ("mine/tokens.toml", text)))
    assert [each.span for each in caught.value.diagnostics] == [Span("mine/tokens.toml", line, column, length)]


@pytest.mark.parametrize("text", ["x = " + "[" * 5000, "x = " + "1" * 5000])
def test_what_the_reader_cannot_take_is_told(text: str) -> None:
    assert faults(text)


def test_a_theme_that_inherits_nothing_is_told_all_that_is_missing() -> None:
    with pytest.raises(Refused) as caught:
        read_tokens((("alone", "[colours]\n[pens.full]\n[figures]\n[tints]\n[lettering]\n"),))
    assert len(caught.value.diagnostics) == len(Pen) + len(Tint) + 4
