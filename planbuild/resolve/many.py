"""How many boards a piece may have: each is cut, proved against its neighbours, drawn and put into the order of work.

Counted before any board is placed, since a row mirrored three ways multiplies eight times.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from planbuild.core.diagnostics import Collector, Diagnostic, Span
from planbuild.joints.base import Joined
from planbuild.resolve.sayings import tried
from planbuild.resolve.setting_out import SettingOut

MOST_BOARDS = 400
"""A large cot has eighty.  Measured: 400 boards housed at 600 places are proved in 7 s; a check of 220 boards, 200 of them
with tenons at both ends, takes a minute or two, most of it drawing."""

MOST_MADE = 400
"""Buttons and wedges that the joints call for: small, but each is cut and proved too."""


MOST_PLACES = 2500
"""Places where two parts are joined: all boards and small parts, each held at several places."""


def refuse_many(setting_out: SettingOut) -> bool:
    """True after reporting `piece-large`; nothing is placed then."""
    counts = {id: _count(id, setting_out) for id in setting_out.design.parts}
    whole = sum(counts.values())
    if whole > MOST_BOARDS:
        most = max(counts, key=lambda id: counts[id])
        said = setting_out.design.parts[most]
        span = said.repeat.origin if said.repeat else said.origin
        span = said.repeat.count.span if said.repeat and said.repeat.count else span
        message = f'The piece would have {whole} boards, {counts[most]} of them "{most}".'
        setting_out.report.add(_large(message, span, MOST_BOARDS))
    return whole > MOST_BOARDS


def refuse_many_joined(joined: Sequence[Joined], report: Collector) -> bool:
    """True after reporting `piece-large` for the small parts that the joints so far call for, or the places they join."""
    made = [sum(len(part.copies) for part in each.makes) for each in joined]
    places = [len(each.joint.contacts) for each in joined]
    for counts, most, what in ((made, MOST_MADE, "call for {} small parts"), (places, MOST_PLACES, "join {} places")):
        whole = sum(counts)
        if whole > most:
            worst = joined[counts.index(max(counts))].joint
            message = f'The joints {what.format(whole)}, {max(counts)} of them for "{worst.id}".'
            report.add(_large(message, worst.origin, most))
            return True
    return False


def _count(id: str, setting_out: SettingOut) -> int:
    each = tried(setting_out.levels_of, id) or ()
    return math.prod(level.count << len(level.spread.mirrors) for level in each)


def _large(message: str, span: Span, most: int) -> Diagnostic:
    hint = "Make fewer of them, or write a design for each half of the piece."
    return Diagnostic("piece-large", message, span=span, expected=f"at most {most}", hints=(hint,))


