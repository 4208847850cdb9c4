"""The words of steps that the designer has added or joined."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import takewhile
from typing import TypeVar

from planbuild.derive import phrases
from planbuild.derive.steps.job import Draft, Job, said
from planbuild.derive.steps.tasks import Task

Each = TypeVar("Each")


def own(job: Job, task: Task) -> Draft:
    """A step of the designer's own; its title is that of the wish."""
    return Draft(task.id, said(*task.own))


def together(drafts: Sequence[Draft]) -> Draft:
    """Like steps told as one: what is said of several is said once."""
    if len(drafts) == 1:
        return drafts[0]
    return Draft(
        title=_title([each.title for each in drafts]),
        actions=_once(action for each in drafts for action in each.actions),
        sizes=_once(size for each in drafts for size in each.sizes),
        check=" ".join(_once(each.check for each in drafts if each.check)),
        wait=" ".join(_once(each.wait for each in drafts if each.wait)),
        note=" ".join(_once(each.note for each in drafts if each.note)),
        uses=_once(use for each in drafts for use in each.uses),
        clamps=_once(clamp for each in drafts for clamp in each.clamps),
        cautions=_once(caution for each in drafts for caution in each.cautions),
        hardware=tuple(line for each in drafts for line in each.hardware),
    )


def _once(each: Iterable[Each]) -> tuple[Each, ...]:
    return tuple(dict.fromkeys(each))


def _title(titles: Sequence[str]) -> str:
    """`Taper the legs` and `Taper the posts` are `Taper the legs and posts`."""
    words = [each.split(" ") for each in dict.fromkeys(titles)]
    shared = len(list(takewhile(lambda column: len(set(column)) == 1, zip(*words, strict=False))))
    if shared < 2 or any(len(each) == shared for each in words):
        return "; ".join(" ".join(each) for each in words)
    return " ".join((*words[0][:shared], phrases.listed(" ".join(each[shared:]) for each in words)))
