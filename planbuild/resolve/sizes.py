"""The named sizes: their values, the ranges within which a reader may change them."""

from __future__ import annotations

from fractions import Fraction

from planbuild.records.design import Said, SizeSaid
from planbuild.records.piece import NamedSize
from planbuild.resolve.expressions.faults import Poisoned
from planbuild.resolve.expressions.values import Angle, Incline, Place, Quantity, Value
from planbuild.resolve.ledger import SizeOf
from planbuild.resolve.sayings import Sayings, tried
from planbuild.resolve.setting_out import SettingOut


def named_sizes(setting_out: SettingOut) -> tuple[NamedSize, ...]:
    """The sizes of the design.  Reports `size-range`, `size-outside`, `size-step` and faults of the values."""
    counts = _counted(setting_out)
    found = (tried(_size, id, said, setting_out, id in counts) for id, said in setting_out.design.sizes.items())
    return tuple(size for size in found if size is not None)


def _counted(setting_out: SettingOut) -> set[str]:
    """Sizes that some row takes as its count: plain numbers, not lengths."""
    return {part.repeat.count.text for part in setting_out.design.parts.values() if part.repeat and part.repeat.count}


def _size(id: str, said: SizeSaid, setting_out: SettingOut, counted: bool) -> NamedSize:
    sayings = setting_out.places
    value = setting_out.ledger.ask(SizeOf(id))
    if isinstance(value, Place):
        raise sayings.refuse("size-place", said.value, f'"{id}" is a place; a size is wanted.', "a length, an angle or a count")
    kind = "angle" if isinstance(value, Angle | Incline) else "count" if counted or not _is_length(value) else "length"
    figure, low, high = (
        None if each is None else _figure(each, kind, sayings)
        for each in (value, _end(said.low, sayings), _end(said.high, sayings))
    )
    assert figure is not None
    _check_range(id, said, figure, low, high, sayings)
    help, why = (each.text if each else "" for each in (said.help, said.why))
    return NamedSize(id, id.replace("_", " ").replace(".", " "), said.origin, figure, low, high, help, why, kind)


def _is_length(value: Value) -> bool:
    return isinstance(value, Quantity) and value.can_be_length


def _end(said: Said | None, sayings: Sayings) -> Value | None:
    return sayings.value(said) if said else None


def _figure(value: Value, kind: str, sayings: Sayings) -> float:
    """The figure as a record holds it: mm, degrees or a plain number."""
    if isinstance(value, Quantity):
        return float(value.figure * (sayings.unit if kind == "length" else 1))
    if isinstance(value, Angle | Incline):
        return float(value.degrees)
    raise Poisoned


def _check_range(id: str, said: SizeSaid, value: float, low: float | None, high: float | None, sayings: Sayings) -> None:
    low_text, high_text = (each.text if each else "" for each in (said.low, said.high))
    if low is not None and high is not None and low > high and said.low:
        message = f'The range of "{id}" runs from {low_text} to {high_text}: nothing lies in it.'
        sayings.refuse("size-range", said.low, message, "`from` no larger than `to`")
    elif (low is not None and value < low) or (high is not None and value > high):
        message = f'"{id}" is {said.value.text}, outside its own range.'
        sayings.refuse("size-outside", said.value, message, " ".join(_range_words(low_text, high_text)))
    _check_step(id, said, sayings)


def _range_words(low: str, high: str) -> list[str]:
    return [f"at least {low}"] * bool(low and not high) + [f"at most {high}"] * bool(high and not low) or [f"{low} to {high}"]


def _check_step(id: str, said: SizeSaid, sayings: Sayings) -> None:
    """The value lies on the steps, which are counted from the low end (from 0 without one)."""
    if said.step is None:
        return
    step = sayings.value(said.step)
    value, start = sayings.value(said.value), _end(said.low, sayings)
    figures = [each.figure if isinstance(each, Quantity) else Fraction(0) for each in (value, start, step)]
    if figures[2] <= 0:
        sayings.refuse("size-zero", said.step, f'The step of "{id}" is {said.step.text}.', "a length above zero")
    elif ((figures[0] - figures[1]) / figures[2]).denominator != 1:
        message = f'"{id}" is {said.value.text}, which is not on its steps of {said.step.text}.'
        sayings.refuse("size-step", said.value, message)


