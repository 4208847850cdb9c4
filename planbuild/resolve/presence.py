"""`when`: what is there only while one comparison holds, and is left out of the design where it does not."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Mapping
from dataclasses import replace
from fractions import Fraction
from typing import Any, TypeVar

from planbuild.core.diagnostics import Collector
from planbuild.core.spelling import did_you_mean
from planbuild.records.design import AddedStepsSaid, Design, OwnStepSaid, Said, StepSaid
from planbuild.resolve.expressions.evaluate import wanted
from planbuild.resolve.expressions.faults import Poisoned
from planbuild.resolve.expressions.values import Quantity
from planbuild.resolve.places import Places
from planbuild.resolve.scopes import within
from planbuild.resolve.setting_out import SettingOut, unit_of

FORM = "`knob is given`, `bottom is solid` or `length > 48`"
_IS = re.compile(r"(?P<name>[a-z][a-z0-9_]*) is (?P<no>not )?(?P<word>.+)")
_COMPARED = re.compile(r"(?P<left>.+?) (?P<sign>>=|<=|>|<) (?P<right>.+)")
_SIGNS: dict[str, Callable[[Fraction, Fraction], bool]] = {
    ">": lambda a, b: a > b,
    "<": lambda a, b: a < b,
    ">=": lambda a, b: a >= b,
    "<=": lambda a, b: a <= b,
}

AnyStep = TypeVar("AnyStep", StepSaid, OwnStepSaid)

SECTIONS = ("parts", "openings", "blocks", "joints", "hardware")


def present(design: Design, report: Collector) -> Design:
    """The design without what its `when` leaves out, nor what stands in a block that is left out.

    Reports `when-form`, `when-unknown` and faults of what is compared; what cannot be told stays.
    """
    whens = {section: _whens(getattr(design, section)) for section in SECTIONS}
    if not any(whens.values()):
        return design
    conditions = _Conditions(design, report)
    absent = {sec: {id: when for id, when in found.items() if not conditions.holds(when)} for sec, found in whens.items()}
    gone = {id: when for section in ("parts", "openings", "blocks") for id, when in absent[section].items()}
    kept = {section: _kept(getattr(design, section), absent[section], absent["blocks"]) for section in SECTIONS}
    others = {section: _kept(getattr(design, section), {}, absent["blocks"]) for section in ("sizes", "assemblies")}
    return design.model_copy(update={**kept, **others, "steps": _steps(design.steps, gone), "absent": gone})


def _steps(said: Mapping[str, StepSaid], gone: Iterable[str]) -> dict[str, StepSaid]:
    """Without what is said of the work on things that are not there."""

    def there(id: str) -> bool:
        thing = id.partition(".")[2]
        return not any(thing == each or within(thing, each) for each in gone)

    def placed(step: AnyStep) -> AnyStep:
        said = {field: getattr(step, field) for field in ("after", "before") if getattr(step, field)}
        return step.model_copy(update={field: tuple(each for each in ids if there(each.text)) for field, ids in said.items()})

    kept: dict[str, StepSaid] = {}
    for id, step in said.items():
        if isinstance(step, AddedStepsSaid):
            own = {name: placed(each) for name, each in step.added.items() if there(name)}
            kept[id] = step.model_copy(update={"added": own})
        elif there(id):
            kept[id] = placed(step)
    return kept


def _whens(section: Mapping[str, Any]) -> dict[str, Said]:
    saids = {id: getattr(each, "said", each) for id, each in section.items()}
    return {id: said.when for id, said in saids.items() if said.when}


def _kept(section: Mapping[str, Any], absent: Iterable[str], blocks: Iterable[str]) -> dict[str, Any]:
    gone, around = set(absent), tuple(blocks)
    return {id: each for id, each in section.items() if id not in gone and not any(within(id, block) for block in around)}


class _Conditions:
    """Whether comparisons hold, in the design as if everything were there."""

    def __init__(self, design: Design, report: Collector) -> None:
        self.design = design
        whole = SettingOut(design, unit_of(design), Collector())
        self.places = Places(whole.placing, report)

    def holds(self, when: Said) -> bool:
        """True also where it cannot be told: that is reported."""
        try:
            is_word, compared = _IS.fullmatch(when.text), _COMPARED.fullmatch(when.text)
            if is_word:
                return self._is(when, is_word["name"], is_word["word"]) is not bool(is_word["no"])
            if compared:
                left, right = (self._figure(when, compared[side], compared.start(side)) for side in ("left", "right"))
                return _SIGNS[compared["sign"]](left, right)
            raise self.places.refuse("when-form", when, f"`{when.text}` is no comparison.", FORM)
        except Poisoned:
            return True

    def _is(self, when: Said, name: str, word: str) -> bool:
        block = self.design.blocks.get(when.scope)
        if word == "given":
            things = block.things if block else {}
            if name in things:
                return things[name]
            message = f'"{name}" is no item that this block takes.' if block else "Only a block is given things."
            raise self.places.refuse("when-unknown", when, message, hints=did_you_mean(name, things))
        choices = block.choices if block else {}
        if name in choices:
            return choices[name].text == word
        message = f'"{name}" is no choice of this block.' if block else "Only a block has choices."
        raise self.places.refuse("when-unknown", when, message, FORM, did_you_mean(name, choices))

    def _figure(self, when: Said, text: str, start: int) -> Fraction:
        """One side of a comparison, in design units."""
        part = replace(when, text=text, span=replace(when.span, column=when.span.column + start, length=len(text)))
        value = self.places.value(part)
        if not isinstance(value, Quantity):
            self.places.report.add(wanted(value, "a length or a number", text).told(part))
            raise Poisoned
        return value.figure
