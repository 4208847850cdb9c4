"""Whose name is meant where: a block sees what it takes and what it holds; from outside its things have a path."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from planbuild.records.design import Design, SizeSaid


def holder(id: str) -> str:
    """The path of the block that holds a thing, "" for the design itself."""
    return id.rpartition(".")[0]


def full(scope: str, name: str) -> str:
    """The one name in the whole design of what is called `name` in a block."""
    return f"{scope}.{name}" if scope else name


def levels(id: str) -> tuple[str, ...]:
    """A thing with all blocks around it, the outermost first: `case`, `case.drawer`, `case.drawer.side`."""
    names = id.split(".")
    return tuple(".".join(names[: end + 1]) for end in range(len(names)))


def within(id: str, block: str) -> bool:
    """True if a thing is in a block, however deep."""
    return id.startswith(f"{block}.")


def in_every_size(design: Design, path: str) -> list[str]:
    """The path, and the like of it in the other sizes of a row of unequal openings."""
    for name, sizes in design.unlike.items():
        if path == name or within(path, name):
            return [f"{full(holder(name), own)}{path[len(name) :]}" for own, _ in sizes]
    return [path]


def row_of_unequal(design: Design, id: str) -> str:
    """The name of the row of unequal openings, or of the blocks in them, that a thing stands in; "" for none."""
    own, around = id.rpartition(".")[2], holder(id)
    rows = (name for name, sizes in design.unlike.items() if holder(name) == around and own in dict(sizes))
    return next(rows, "").rpartition(".")[2]


def sizes_of(design: Design) -> dict[str, SizeSaid]:
    """Every size by its full name: those of the design and its blocks, and those that the blocks take."""
    taken = {full(path, name): size for path, block in design.blocks.items() for name, size in block.sizes.items()}
    return {**design.sizes, **taken}


def stock_called(design: Design, scope: str, name: str) -> str | None:
    """The stock that a name means."""
    if scope:
        return design.blocks[scope].stock.get(name)
    return name if name in design.stock else None


def held_in(scope: str, ids: Iterable[str]) -> Iterator[str]:
    """Those that a block holds itself, by the names they have in it."""
    before = f"{scope}." if scope else ""
    return (id.removeprefix(before) for id in ids if holder(id) == scope)


def reached_from(scope: str, ids: Iterable[str]) -> Iterator[str]:
    """All that a block holds, however deep, by the paths they have in it."""
    return (id.removeprefix(f"{scope}.") for id in ids if not scope or within(id, scope))


def known_in(design: Design, scope: str) -> Iterator[str]:
    """Names that mean something there, for hints."""
    for section in (design.parts, design.openings, design.blocks, sizes_of(design)):
        yield from held_in(scope, section)
    yield from design.blocks[scope].stock if scope else design.stock
    yield "frame"
