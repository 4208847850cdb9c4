"""What the models of `records.design` ask for, read from their annotations: one truth for fields and forms."""

from __future__ import annotations

import types
from collections.abc import Mapping
from functools import cache
from typing import Any, Union, get_args, get_origin

from pydantic.fields import FieldInfo

from planbuild.read.report import listed
from planbuild.read.vocabulary import LATER_FIELDS, LATER_FORMS
from planbuild.records.design import Model, Said

OURS = ("origin", "file", "warnings", "absent")
"""Fields that the reader fills by itself; nobody writes them."""


@cache
def written_fields(model: type[Model]) -> Mapping[str, tuple[str, FieldInfo]]:
    """Key as written in a file -> (name in the record, field), in the model's order."""
    fields = {name: field for name, field in model.model_fields.items() if name not in OURS}
    return {field.alias or name: (name, field) for name, field in fields.items()}


@cache
def later_fields(model: type[Model]) -> frozenset[str]:
    """Fields of the language that this version does not build yet for such a thing."""
    later = {word for base, words in LATER_FIELDS.items() if issubclass(model, base) for word in words}
    return frozenset(later - set(written_fields(model)))


@cache
def later_forms(model: type[Model]) -> Mapping[str, tuple[type, ...]]:
    """Fields that the language lets be written in a form, a kind of node, which is not built yet."""
    return {field: kinds for base, forms in LATER_FORMS.items() if issubclass(model, base) for field, kinds in forms.items()}


def members(form: Any) -> tuple[Any, ...]:
    """The alternatives of an annotation, without None."""
    if get_origin(form) in (Union, types.UnionType):
        return tuple(each for each in get_args(form) if each is not type(None))
    return (form,)


def model_in(form: Any) -> type[Model] | None:
    return next((each for each in members(form) if isinstance(each, type) and issubclass(each, Model)), None)


def mapped_in(form: Any) -> Any | None:
    """What the values of a mapping are, if the annotation has a mapping."""
    return next((get_args(each)[1] for each in members(form) if get_origin(each) is Mapping), None)


def row_in(form: Any) -> tuple[Any, ...] | None:
    """The arguments of a list: (item, ...) or one form for each place."""
    return next((get_args(each) for each in members(form) if get_origin(each) is tuple), None)


def takes_word(form: Any) -> bool:
    return Said in members(form)


def in_words(form: Any) -> str:
    """What an annotation asks for, as a maker is told."""
    model, row, mapped = model_in(form), row_in(form), mapped_in(form)
    wanted = ["one value"] if takes_word(form) else []
    if row:
        wanted.append("a list" if row[-1] is ... else f"a list of {len(row)}")
    if model:
        wanted.append("fields: " + listed(written_fields(model)))
    if mapped:
        wanted.append("named entries, each `name: value`")
    return ", or ".join(wanted)
