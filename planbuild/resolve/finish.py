"""The coatings in use: where each goes, what stays bare, what is finished before the glue-up."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from planbuild.core.spelling import did_you_mean
from planbuild.joints.base import Board, Words
from planbuild.records.design import CoatingSaid, Design, FinishSaid, Said
from planbuild.records.piece import Coating, Surface
from planbuild.resolve.amounts import COVERAGE, TIMES, amount, amount_said
from planbuild.resolve.sayings import Sayings, tried
from planbuild.resolve.setting_out import SettingOut
from planbuild.resolve.surfaces import Surfaces

MOST_COATS = 30
"""More than any finish is built up of; the days to dry are added up over them (a choice of ours)."""


def coatings(setting_out: SettingOut, boards: Mapping[str, Board], words: Words) -> tuple[Coating, ...]:
    """The coatings that are put on something, in the order of `finishes`.  Reports `finish-unknown`, `finish-part`, ..."""
    design, sayings = setting_out.design, setting_out.places
    finish = design.finish
    if finish is None:
        return ()
    surfaces = Surfaces(setting_out, boards, words)
    everywhere = _name(finish.everywhere, design, sayings) if finish.everywhere else None
    bare, own = _exceptions(finish, design, surfaces, sayings)
    early = tuple(surface for said in finish.before_gluing for surface in surfaces.of(said.text, said))
    found = []
    for id, said in design.finishes.items():
        coating = tried(_coating, id, said, sayings)
        on = tuple(surface for surface, name in own if name == id)
        if coating and id == everywhere:
            elsewhere = tuple(surface for surface, name in own if name != id)
            first = tuple(surface for surface in early if surface not in elsewhere)
            found.append(replace(coating, everywhere=True, before_gluing=first, bare=bare))
        elif coating and on:
            found.append(replace(coating, on=on, before_gluing=tuple(surface for surface in early if surface in on)))
    return tuple(found)


def _coating(id: str, said: CoatingSaid, sayings: Sayings) -> Coating:
    """A coating as it is described, not yet put on anything."""
    covers = amount(said.covers, COVERAGE, "coverage", sayings) if said.covers else None
    coats = sayings.count(said.coats, most=MOST_COATS) if said.coats else 1
    dries, cures = (_time(each, sayings) for each in (said.dries, said.cures))
    sheen = said.sheen.text if said.sheen else ""
    return Coating(id, said.product.text, coats, sheen, dries, cures, covers, everywhere=False, before_gluing=())


def _time(said: Said | None, sayings: Sayings) -> str:
    """A time as it is printed, once it is known to be one."""
    if said is None:
        return ""
    amount_said(said, TIMES, "time", sayings)
    return said.text


def _name(said: Said, design: Design, sayings: Sayings) -> str | None:
    if said.text in design.finishes:
        return said.text
    expected = f"one of: {', '.join(design.finishes) or 'none is described under finishes'}"
    sayings.refuse("finish-unknown", said, f'No finish "{said.text}".', expected, did_you_mean(said.text, design.finishes))
    return None


def _exceptions(
    finish: FinishSaid, design: Design, surfaces: Surfaces, sayings: Sayings
) -> tuple[tuple[Surface, ...], tuple[tuple[Surface, str], ...]]:
    """Surfaces left bare, and those with a coating of their own."""
    bare: list[Surface] = []
    own: list[tuple[Surface, str]] = []
    for place, said in finish.exceptions.items():
        found = surfaces.of(place, said)
        if said.text != "bare":
            name = _name(said, design, sayings)
            own += [(surface, name) for surface in found if name]
        else:
            bare += found
    return tuple(bare), tuple(own)
