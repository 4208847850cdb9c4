"""What a theme says about drawings: pens, tints, lettering, and the colours that its style sheet shares.

Read from `tokens.toml` of the theme; whatever it leaves out is inherited from the built-in theme.
"""

from __future__ import annotations

import tomllib
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Annotated, Any

from pydantic import BaseModel, ConfigDict, Field, ValidationError

from planbuild.core.diagnostics import Diagnostic, Refused
from planbuild.publish.token_faults import READING_FAULTS, not_toml, unknown, wrong
from planbuild.publish.token_places import Keys, TokenPlaces
from planbuild.records.drawing import Pen, TextRole, Tint

Colour = Annotated[str, Field(pattern=r"^#[0-9a-fA-F]{6}$")]
Name = Annotated[str, Field(pattern=r"^[a-z][a-z0-9_]*$")]
Millimetre = Annotated[float, Field(gt=0, le=20)]

WHOLE_GROUP = "full"
"""The pen group that must name every pen; the others inherit from it."""


class Line(BaseModel):
    """How a pen draws: `width` and `dash` in mm on paper, `colour` as #rrggbb."""

    model_config = ConfigDict(frozen=True, extra="forbid")
    width: Millimetre
    colour: str
    dash: Annotated[tuple[Millimetre, ...], Field(max_length=8)] = ()


class _Written(BaseModel):
    """The whole of `tokens.toml`, colours still by name."""

    model_config = ConfigDict(frozen=True, extra="forbid")
    colours: dict[Name, Colour]
    pens: dict[Name, dict[Pen, Line]]
    figures: dict[Name, Name]
    tints: dict[Tint, Colour]
    lettering: dict[TextRole, Name]


@dataclass(frozen=True)
class Inks:
    """All that is needed to paint one drawing: a line for each pen, a colour for each tint and role of text."""

    pens: Mapping[Pen, Line]
    tints: Mapping[Tint, str]
    lettering: Mapping[TextRole, str]


@dataclass(frozen=True)
class Tokens:
    """`groups` are whole pen sets by name, `figures` says which kind of drawing (`sheet`, `step`, ...) takes which."""

    colours: Mapping[str, str]
    groups: Mapping[str, Mapping[Pen, Line]]
    figures: Mapping[str, str]
    tints: Mapping[Tint, str]
    lettering: Mapping[TextRole, str]

    def inks_for(self, drawing_id: str) -> Inks:
        """The inks of a drawing; its kind is what stands before the first dot of its id."""
        group = self.figures.get(drawing_id.split(".")[0], WHOLE_GROUP)
        return Inks(self.groups[group], self.tints, self.lettering)


def read_tokens(sources: tuple[tuple[str, str], ...]) -> Tokens:
    """Tokens from (file, text) pairs, later ones over earlier ones; faults are those of the last.  Reports `theme-tokens`."""
    merged: dict[str, Any] = {}
    for file, text in sources:
        try:
            merged = _over(merged, tomllib.loads(text))
        except READING_FAULTS as fault:
            raise Refused((not_toml(file, text, fault),)) from fault
    places = TokenPlaces(*sources[-1])
    try:
        written = _Written.model_validate(merged)
    except ValidationError as fault:
        raise Refused(tuple(wrong(places, each, tuple(_Written.model_fields)) for each in fault.errors())) from fault
    faults = (*_missing(places, written), *_unknown_names(places, written))
    if faults:
        raise Refused(faults)
    return _whole(written)


def _over(base: dict[str, Any], top: dict[str, Any]) -> dict[str, Any]:
    """`top` laid over `base`, table by table; a line of a pen is taken as a whole."""
    both = {key: _over(base[key], value) if _is_table(base.get(key), value) else value for key, value in top.items()}
    return {**base, **both}


def _is_table(base: object, top: object) -> bool:
    return isinstance(base, dict) and isinstance(top, dict) and "width" not in top


def _whole(written: _Written) -> Tokens:
    full = written.pens[WHOLE_GROUP]
    groups = {name: {pen: _coloured({**full, **lines}[pen], written) for pen in Pen} for name, lines in written.pens.items()}
    lettering = {role: written.colours[name] for role, name in written.lettering.items()}
    return Tokens(written.colours, groups, written.figures, written.tints, lettering)


def _coloured(line: Line, written: _Written) -> Line:
    return Line(width=line.width, colour=written.colours[line.colour], dash=line.dash)


def _missing(places: TokenPlaces, written: _Written) -> Iterator[Diagnostic]:
    full = written.pens.get(WHOLE_GROUP, {})
    absent: list[Keys] = [("pens", WHOLE_GROUP, pen.value) for pen in Pen if pen not in full]
    absent += [("tints", tint.value) for tint in Tint if tint not in written.tints]
    absent += [("lettering", role.value) for role in TextRole if role not in written.lettering]
    for keys in absent:
        yield Diagnostic("theme-tokens", f"`{'.'.join(keys)}` is missing.", span=places.name(keys))


def _unknown_names(places: TokenPlaces, written: _Written) -> Iterator[Diagnostic]:
    """Colours and pen groups that are named but not there."""
    named: list[tuple[Keys, str]] = [
        (("pens", group, pen.value, "colour"), line.colour)
        for group, lines in written.pens.items()
        for pen, line in lines.items()
    ]
    named += [(("lettering", role.value), name) for role, name in written.lettering.items()]
    for keys, name in named:
        if name not in written.colours:
            yield unknown(places.value(keys), "colour", name, written.colours)
    for kind, name in written.figures.items():
        if name not in written.pens:
            yield unknown(places.value(("figures", kind)), "pen group", name, written.pens)
