"""Subassemblies that hold others: named by name, joined whole, and refused where they only overlap."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from planbuild.core.diagnostics import Refused
from planbuild.pipeline import Clock, resolve_file
from planbuild.records.piece import Assembly

POSTS = (Path(__file__).parent.parent / "faults" / "assembly-shared.yaml").read_text("utf-8").partition("assemblies:")[0]


@pytest.fixture
def found(tmp_path: Path) -> Callable[[str], dict[str, Assembly]]:
    """The subassemblies of four posts, by id."""

    def make(assemblies: str) -> dict[str, Assembly]:
        (tmp_path / "posts.yaml").write_text(f"{POSTS}assemblies:\n{assemblies}", "utf-8")
        return {each.id: each for each in resolve_file(tmp_path / "posts.yaml", Clock()).assemblies}

    return make


def test_one_names_another_and_takes_all_its_mirror_images(found: Callable[[str], dict[str, Assembly]]) -> None:
    named = found("  side: {parts: [left leg], mirror: left-right}\n  whole: {parts: [side]}\n")
    assert [len(group) for group in named["side"].groups] == [2, 2]
    assert [sorted(group) for group in named["whole"].groups] == [[("leg", 0), ("leg", 1), ("leg", 2), ("leg", 3)]]


def test_what_is_named_twice_is_there_once(found: Callable[[str], dict[str, Assembly]]) -> None:
    named = found("  side: {parts: [left leg]}\n  whole: {parts: [side, leg]}\n")
    assert len(named["whole"].groups[0]) == 4


def test_the_same_copies_twice_are_refused(found: Callable[[str], dict[str, Assembly]]) -> None:
    """Neither could be joined into the other."""
    with pytest.raises(Refused) as refused:
        found("  side: {parts: [left leg]}\n  again: {parts: [side]}\n")
    assert [each.code for each in refused.value.diagnostics] == ["assembly-shared"]
