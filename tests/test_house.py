"""The house rules, as tests: who may import whom, no circles, each room says what it is for, the map is true."""

from __future__ import annotations

import ast
import re
from pathlib import Path

import pytest

REPOSITORY = Path(__file__).parent.parent
PACKAGE = REPOSITORY / "planbuild"
STAGES = ("read", "resolve", "shape", "prove", "derive", "proofread", "publish")
GROUND = {
    "core": set(),
    "together": {"core"},
    "cutting": {"core"},
    "records": {"core", "together"}, "joints": {"core", "records"},
}
ABOVE_STAGES = {"beside", "pipeline", "cli", "__main__", "__init__", "starter", "wood_book"}
MODULES = sorted(PACKAGE.rglob("*.py"))
HEAVY = {
    "cadquery": {"shape", "prove", "derive", "proofread"},
    "OCP": {"shape", "prove", "derive", "proofread"},
    "weasyprint": {"publish"},
    "jinja2": {"publish"},
    "numba": {"cutting"},
    "scipy": {"cutting", "together"},
}


def name_of(path: Path) -> str:
    parts = path.relative_to(REPOSITORY).with_suffix("").parts
    return ".".join(parts[:-1] if parts[-1] == "__init__" else parts)


def imports_of(path: Path) -> set[str]:
    """Full names of all that a module imports, wherever in it the import stands."""
    found = set()
    for node in ast.walk(ast.parse(path.read_text("utf-8"))):
        if isinstance(node, ast.Import):
            found |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom) and node.module:
            found |= {node.module} | {f"{node.module}.{alias.name}" for alias in node.names}
    return found


def room(module: str) -> str:
    """`planbuild.read.source` -> `read`."""
    return (module.split(".") + [""])[1]


@pytest.mark.parametrize("path", MODULES, ids=name_of)
def test_import_law(path: Path) -> None:
    here = room(name_of(path)) or "__init__"
    if here in ABOVE_STAGES:
        return
    allowed = GROUND[here] | {here} if here in GROUND else {*GROUND, here}
    used = {room(name) for name in imports_of(path) if name.startswith("planbuild.")}
    assert used <= allowed, f"{name_of(path)} may not import {sorted(used - allowed)}"


@pytest.mark.parametrize("path", MODULES, ids=name_of)
def test_heavy_libraries_stay_in_their_rooms(path: Path) -> None:
    used = {name.split(".")[0] for name in imports_of(path)}
    for library in used & HEAVY.keys():
        typing_only = library == "cadquery" and name_of(path) == "planbuild.records.solids"
        assert typing_only or room(name_of(path)) in HEAVY[library]


def test_no_circles() -> None:
    known = {name_of(path): path for path in MODULES}
    graph = {name: {used for used in imports_of(path) if used in known and used != name} for name, path in known.items()}
    done: set[str] = set()

    def visit(name: str, trail: tuple[str, ...]) -> None:
        assert name not in trail, " -> ".join((*trail, name))
        if name in done:
            return
        for used in sorted(graph[name]):
            # A package's face may import its rooms; a room that imports a sibling imports only that sibling.
            if not name.startswith(used + "."):
                visit(used, (*trail, name))
        done.add(name)

    for name in sorted(graph):
        visit(name, ())


@pytest.mark.parametrize("path", MODULES, ids=name_of)
def test_each_module_says_what_it_is_for(path: Path) -> None:
    text = ast.get_docstring(ast.parse(path.read_text("utf-8")))
    assert text and text.splitlines()[0].rstrip().endswith((".", "?", ":", ",", ";")) or (text and len(text) > 20)


def test_map_in_developers_matches_the_folders() -> None:
    text = (REPOSITORY / "DEVELOPERS.md").read_text("utf-8")
    listed = set(re.findall(r"^\| `planbuild/(\w+)/?`", text, re.M))
    folders = {p.name for p in PACKAGE.iterdir() if p.is_dir() and (p / "__init__.py").exists()}
    assert listed == folders
    assert set(STAGES) <= folders


def test_top_level_is_as_agreed() -> None:
    agreed = {"README.md", "DEVELOPERS.md", "LICENSE", "pyproject.toml", "planbuild", "themes", "designs", "tests", "output"}
    assert {p.name for p in REPOSITORY.iterdir() if not p.name.startswith(".")} - {"planbuild.egg-info"} == agreed


def test_no_machine_paths_or_hosts() -> None:
    """Files name no absolute path of a machine (published sites may be named only in prose of sources)."""
    suspects = re.compile(r"(?<![\w.])/(work|home|root|tmp)/")
    for path in [*MODULES, *sorted((REPOSITORY / "themes").rglob("*.*")), REPOSITORY / "README.md", REPOSITORY / "DEVELOPERS.md"]:
        assert not suspects.search(path.read_text("utf-8", errors="ignore")), path


def test_test_files_have_names_of_their_own() -> None:
    """Pytest imports tests by file name alone: two of one name cannot be run together."""
    names = [path.name for path in (REPOSITORY / "tests").rglob("*.py") if path.name != "conftest.py"]
    assert sorted(names) == sorted(set(names))
