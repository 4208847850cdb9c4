"""Random small designs with blocks, openings, edging and hardware end in sound solids or in findings with a place."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest
from samples_of_small_designs import small_design, with_other_sizes

from planbuild.core.diagnostics import Refused
from planbuild.pipeline import Clock, resolve_file
from planbuild.shape import shape

ROOT = Path(__file__).parent
SOUND = ("key-cupboard.yaml", "edged-case.yaml", "two-trays.yaml", "corner-cupboard.yaml")
LARGE = ("letter-chest.yaml", "wall-cabinet.yaml", "music-room/record-cabinet.yaml", "music-room/score-table.yaml")
BLOCKS = ("blocks/tray.yaml", "music-room/blocks/drawer.yaml", "music-room/blocks/frame-and-panel-door.yaml")
USES = dict(zip(BLOCKS, ("two-trays.yaml", "music-room/score-table.yaml", "music-room/record-cabinet.yaml"), strict=True))


def ends_well(file: Path) -> bool:
    """True if it can be built; whatever is wrong must be told with its place."""
    try:
        piece = resolve_file(file, Clock())
    except Refused as refused:
        faults = [each for each in refused.diagnostics if each.stops]
        assert faults and all(each.span and each.message for each in faults)
        return False
    solids = shape(piece)  # whatever resolve lets pass can be cut
    for part in piece.parts:
        assert solids.of[part.id].volume > 1, part.id
        assert len(solids.of[part.id].cut.Solids()) == 1, part.id
    return True


def built(folder: Path, seeds: range) -> int:
    count = 0
    for seed in seeds:
        (folder / "design.yaml").write_text(small_design(seed), "utf-8")
        count += ends_well(folder / "design.yaml")
    return count


@pytest.fixture(scope="module")
def sound(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """All demonstration and trial designs, with their blocks."""
    folder = tmp_path_factory.mktemp("sound")
    for designs in (ROOT.parent / "designs", ROOT / "designs"):
        shutil.copytree(designs, folder, dirs_exist_ok=True)
    return folder


def changed(folder: Path, name: str, seed: int) -> bool:
    """With other figures in the design, or in the block that it uses."""
    file = folder / name
    text = file.read_text("utf-8")
    file.write_text(with_other_sizes(text, seed), "utf-8")
    try:
        return ends_well(folder / USES.get(name, name))
    finally:
        file.write_text(text, "utf-8")


def test_small_designs(tmp_path: Path) -> None:
    """Enough of them are sound: a generator of nonsense alone would prove little."""
    assert built(tmp_path, range(24)) >= 3


@pytest.mark.parametrize("name", SOUND)
def test_sound_designs_with_other_sizes(sound: Path, name: str) -> None:
    for seed in range(3):
        changed(sound, name, seed)


@pytest.mark.slow
def test_many_small_designs(tmp_path: Path) -> None:
    assert built(tmp_path, range(1000, 1250)) >= 30


@pytest.mark.slow
@pytest.mark.parametrize("name", [*SOUND, *LARGE, *BLOCKS])
def test_sound_designs_with_many_other_sizes(sound: Path, name: str) -> None:
    for seed in range(100, 120):
        changed(sound, name, seed)
