"""Lists in which nothing stands: said, but saying nothing, so they are refused before anything is made of them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from planbuild.core.diagnostics import Diagnostic
from planbuild.records.design import Design, Model


def empty_lists(design: Design) -> tuple[Diagnostic, ...]:
    """Reports `list-empty` for each."""
    return tuple(
        Diagnostic("list-empty", f"`{field}` is an empty list.", span=model.origin, hints=("Leave it out, or name something.",))
        for model, field in _empty(design)
    )


def _empty(value: object) -> Iterator[tuple[Model, str]]:
    if isinstance(value, Model):
        for field in sorted(value.model_fields_set):
            inner = getattr(value, field)
            if inner == () and field not in ("warnings", "sources"):
                yield value, field
            yield from _empty(inner)
    elif isinstance(value, Mapping):
        for inner in value.values():
            yield from _empty(inner)
    elif isinstance(value, tuple):
        for inner in value:
            yield from _empty(inner)
