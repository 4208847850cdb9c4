"""What a theme says about drawings: pens, tints, lettering, and the colours that its style sheet shares.

Read from `tokens.toml` of the theme; whatever it leaves out is inherited from the built-in theme.
"""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Annotated, Any

from pydantic import BaseModel, ConfigDict, Field, ValidationError

from planbuild.core.diagnostics import Diagnostic, Refused
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
    dash: tuple[Millimetre, ...] = ()


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
    """Tokens from (place, text) pairs, later ones over earlier ones.  Reports `theme-tokens`."""
    merged: dict[str, Any] = {}
    for place, text in sources:
        try:
            merged = _over(merged, tomllib.loads(text))
        except (tomllib.TOMLDecodeError, RecursionError) as fault:
            raise Refused((Diagnostic("theme-tokens", f"{place} is not TOML: {fault}"),)) from fault
    place = sources[-1][0]
    try:
        written = _Written.model_validate(merged)
    except ValidationError as fault:
        raise Refused(tuple(_fault(place, each) for each in fault.errors())) from fault
    return _whole(place, written)


def _over(base: dict[str, Any], top: dict[str, Any]) -> dict[str, Any]:
    """`top` laid over `base`, table by table; a line of a pen is taken as a whole."""
    both = {key: _over(base[key], value) if _is_table(base.get(key), value) else value for key, value in top.items()}
    return {**base, **both}


def _is_table(base: object, top: object) -> bool:
    return isinstance(base, dict) and isinstance(top, dict) and "width" not in top


def _fault(place: str, error: Any) -> Diagnostic:
    where = ".".join(str(step) for step in error["loc"] if step != "[key]")
    return Diagnostic("theme-tokens", f"{place}: {where}: {error['msg'][0].lower()}{error['msg'][1:]}.")


def _whole(place: str, written: _Written) -> Tokens:
    faults = [*_missing(written), *_unknown_names(written)]
    if faults:
        raise Refused(tuple(Diagnostic("theme-tokens", f"{place}: {fault}") for fault in faults))
    full = written.pens[WHOLE_GROUP]
    groups = {name: {pen: _coloured({**full, **lines}[pen], written) for pen in Pen} for name, lines in written.pens.items()}
    lettering = {role: written.colours[name] for role, name in written.lettering.items()}
    return Tokens(written.colours, groups, written.figures, written.tints, lettering)


def _coloured(line: Line, written: _Written) -> Line:
    return Line(width=line.width, colour=written.colours[line.colour], dash=line.dash)


def _missing(written: _Written) -> list[str]:
    full = written.pens.get(WHOLE_GROUP, {})
    absent = [f"pens.{WHOLE_GROUP}.{pen.value}" for pen in Pen if pen not in full]
    absent += [f"tints.{tint.value}" for tint in Tint if tint not in written.tints]
    absent += [f"lettering.{role.value}" for role in TextRole if role not in written.lettering]
    return [f"{name} is missing." for name in absent]


def _unknown_names(written: _Written) -> list[str]:
    named = {line.colour for lines in written.pens.values() for line in lines.values()} | set(written.lettering.values())
    colours = [f'there is no colour "{name}".' for name in sorted(named - written.colours.keys())]
    groups = [f'there is no pen group "{name}".' for name in sorted(set(written.figures.values()) - written.pens.keys())]
    return colours + groups
