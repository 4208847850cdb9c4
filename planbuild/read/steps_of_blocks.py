"""What a block says of the work on it, carried into every use: its steps are named by the path of the block."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import TypeVar

from planbuild.core.spelling import did_you_mean
from planbuild.read.report import Report, listed
from planbuild.records.blocks import BlockFileSaid
from planbuild.records.design import AddedStepsSaid, OwnStepSaid, Said, StepSaid

_AnyStep = TypeVar("_AnyStep", StepSaid, OwnStepSaid)


def steps_of_block(path: str, kind: str, block: BlockFileSaid, report: Report) -> dict[str, StepSaid]:
    """The steps by their ids in the design: `groove.drawer_side` is `groove.drawer.drawer_side` in a drawer called so.

    Reports `step-unknown` for work on something that the block does not hold.
    """
    added = {id: own for each in block.steps.values() if isinstance(each, AddedStepsSaid) for id, own in each.added.items()}
    names = _Names(path, kind.replace(" ", "_").replace("-", "_"), frozenset(_held(block)), frozenset(added), report)
    found: dict[str, StepSaid] = {}
    for id, said in block.steps.items():
        if isinstance(said, AddedStepsSaid):
            own = {names.own(each): names.placed(step) for each, step in said.added.items()}
            found[f"{path}.{id}"] = said.model_copy(update={"added": own})
        else:
            found[names.full(Said(id, said.origin))] = names.placed(said)
    return found


def _held(block: BlockFileSaid) -> Iterable[str]:
    for section in (block.parts, block.openings, block.assemblies, block.hardware, block.stock):
        yield from section


@dataclass(frozen=True)
class _Names:
    """`kind` is what the block calls itself (`glue.drawer` in a drawer), `held` what it holds, `added` its own steps."""

    path: str
    kind: str
    held: frozenset[str]
    added: frozenset[str]
    report: Report

    def own(self, id: str) -> str:
        verb, _, thing = id.partition(".")
        return f"{verb}.{self.path}.{thing}"

    def full(self, said: Said) -> str:
        """The id in the design of a step of the block."""
        verb, _, thing = said.text.partition(".")
        if said.text in self.added or thing.partition(".")[0] in self.held:
            return self.own(said.text)
        if thing == self.kind:
            return f"{verb}.{self.path}"
        known = sorted({*self.held, self.kind})
        message = f'The block holds no "{thing}", so it has no step `{said.text}`.'
        self.report.fault("step-unknown", said.span, message, expected=listed(known), hints=did_you_mean(thing, known))
        return said.text

    def placed(self, said: _AnyStep) -> _AnyStep:
        """With the steps that it names called as in the design."""
        others = {field: getattr(said, field) for field in ("after", "before") if getattr(said, field)}
        named = {field: tuple(self._named(each) for each in ids) for field, ids in others.items()}
        joined = {"joined": self._named(said.joined)} if isinstance(said, StepSaid) and said.joined else {}
        return said.model_copy(update={**named, **joined})

    def _named(self, said: Said) -> Said:
        return replace(said, text=self.full(said))
