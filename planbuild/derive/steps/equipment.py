"""Tools and safety messages of a step, from the operations that it consists of."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from planbuild.core import tables
from planbuild.derive.cautions import caution, step_keys
from planbuild.derive.lists.blanks import blank_of
from planbuild.derive.phrases import with_unit
from planbuild.derive.steps.clamps import Clamps
from planbuild.derive.steps.job import Draft, Job, Use
from planbuild.derive.steps.operations import Verb
from planbuild.derive.steps.tasks import Task
from planbuild.joints.proportions import habit_length
from planbuild.records.edition import Edition
from planbuild.records.facts import Caution, Tool, WorkStep

MOST_CAUTIONS = 2
"""A step with more warnings than actions is not read; the gravest come first."""
_GRAVITY = ("DANGER", "WARNING", "CAUTION", "NOTICE")


def tools_of(uses: Iterable[Use], way: str) -> tuple[str, ...]:
    """Tools of these operations, worked by `way` (machine or hand), each once.  Raises LookupError for an unknown operation."""
    found: list[str] = []
    for use in uses:
        row = tables.row("operations", "operation", use.operation)
        if row is None:
            raise LookupError(f"no operation {use.operation!r} in the table")
        found += [each.strip().format_map(dict(use.values)) for each in row[way].split(";")]
    return tuple(dict.fromkeys(found))


class ClampRack:
    """All clamps of the plan: for each length the most that one step needs.  A step says in its sizes how many it takes."""

    def __init__(self, drafts: Iterable[Draft], edition: Edition) -> None:
        self._edition = edition
        self._most: dict[float, int] = {}
        for draft in drafts:
            for length, count in _needed(draft.clamps, edition).items():
                self._most[length] = max(count, self._most.get(length, 0))

    def names(self, clamps: Iterable[Clamps]) -> tuple[str, ...]:
        """`bar clamps, 18 in or longer`, shortest first."""
        lengths = sorted(_needed(clamps, self._edition))
        return tuple(self._name(each) for each in lengths)

    def counts(self) -> Mapping[str, int]:
        """How many of each, by that name."""
        return {self._name(length): count for length, count in self._most.items()}

    def _name(self, length: float) -> str:
        return f"bar clamps, {with_unit(self._edition.ruler, length)} or longer"


def _needed(clamps: Iterable[Clamps], edition: Edition) -> dict[float, int]:
    """Clamps of one step by length; glue-ups of one step follow each other and share them."""
    needed: dict[float, int] = {}
    for each in clamps:
        length = each.capacity(edition)
        needed[length] = max(each.count, needed.get(length, 0))
    return needed


def tool_list(steps: Sequence[WorkStep], rack: ClampRack) -> tuple[Tool, ...]:
    """Every tool with the steps that use it, in the order in which they are first needed."""
    users: dict[str, list[str]] = {}
    for step in steps:
        for name in step.tools:
            users.setdefault(name, []).append(step.id)
    many = rack.counts()
    return tuple(Tool(name, tuple(ids), many.get(name, 0)) for name, ids in users.items())


def cautions_of(job: Job, task: Task, draft: Draft, tools: Sequence[str]) -> tuple[Caution, ...]:
    """The designer's come before these: what the writer names, then what the tools bring, two at most."""
    ruler = job.edition.ruler
    values = {name: with_unit(ruler, habit_length(name, ruler)) for name in ("least_machined", "router_step")}
    keys = [*(["short stock"] if _has_short_stock(job, task) else []), *(["sanding"] if Use("sand") in draft.uses else [])]
    keys += [key for key in step_keys() if any(_is_tool(key, tool) for tool in tools)]
    found = list(dict.fromkeys([*draft.cautions, *(caution(key, values) for key in keys)]))[:MOST_CAUTIONS]
    return tuple(sorted(found, key=lambda each: _GRAVITY.index(each.signal)))


def _is_tool(key: str, tool: str) -> bool:
    """Whether the tool is of that kind: a `paring chisel` is a chisel too, but a `drill bit` is no drill."""
    if key in ("drill", "router"):
        return tool in (key, f"hand {key}")
    return tool == key or tool.endswith(f" {key}") or tool.startswith(f"{key} ")


def _has_short_stock(job: Job, task: Task) -> bool:
    """Milling a blank that is shorter than a machine can hold."""
    if task.verb is not Verb.MILL or job.piece.practice.way != "machine":
        return False
    least = habit_length("least_machined", job.edition.ruler)
    return any(blank_of(job.piece, part, job.edition.ruler).each[0] < least for part in job.parts(task.parts) if not part.made_by)
