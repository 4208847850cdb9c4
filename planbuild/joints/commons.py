"""What every joint says of itself alike: glue, fit, notes, the name it prints, and names for parts that it makes."""

from __future__ import annotations

from dataclasses import dataclass

from planbuild.joints.base import Site
from planbuild.joints.faults import words_of
from planbuild.records.design import JointSaid
from planbuild.records.said import SIGNALS, cautioned

FITS = ("snug", "sliding", "loose")


@dataclass(frozen=True)
class Commons:
    """The fields that every joint has, understood.  `name` is the trade's word unless the design gives its own."""

    name: str
    glue: bool
    fit: str
    note: str
    why: str


def commons(said: JointSaid, kind: str, glued: bool, site: Site) -> Commons | None:
    """`glued` is what the kind does if nothing is said.  A glued joint is snug, another one slides, unless said.

    None after reporting.
    """
    glue = site.words.yes(said.glue) if said.glue else glued
    if glue is None:
        return None
    fit = site.words.choice(said.fit, FITS) if said.fit else ("snug" if glue else "sliding")
    if fit is None:
        return None
    return Commons(words_of(said.name) or kind, glue, fit, _note(said, site), words_of(said.why))


def _note(said: JointSaid, site: Site) -> str:
    """What the designer says of it, a caution first."""
    told = said.caution
    signal = site.words.choice(told.signal, SIGNALS) if told else None
    return cautioned(told, signal, words_of(said.note))


def free_id(wanted: str, joint: str, site: Site) -> str:
    """An id for a part that a joint makes: the plain word, or with the joint before it if that is taken."""
    return f"{joint}_{wanted}" if wanted in site.boards or wanted in site.made else wanted
