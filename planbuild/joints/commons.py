"""What every joint says of itself alike: glue, fit, notes, the name it prints, and names for parts that it makes."""

from __future__ import annotations

from dataclasses import dataclass

from planbuild.joints.base import Site
from planbuild.joints.faults import words_of
from planbuild.records.design import GluedPartSaid, JointSaid, Said
from planbuild.records.said import SIGNALS, cautioned

MIDDLE = "middle"
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
    glue = glued if said.glue is None else True if glued_part(said) else site.words.yes(glue_word(said))
    if glue is None:
        return None
    fit = site.words.choice(said.fit, FITS) if said.fit else ("snug" if glue else "sliding")
    if fit is None:
        return None
    return Commons(words_of(said.name) or kind, glue, fit, _note(said, site), words_of(said.why))


def glued_part(said: JointSaid) -> GluedPartSaid | Said | None:
    """What was said of where it is glued, if that is not all along: `middle`, or from where to where."""
    partly = isinstance(said.glue, GluedPartSaid) or (said.glue is not None and said.glue.text == MIDDLE)
    return said.glue if partly else None


def glue_word(said: JointSaid) -> Said:
    """`glue` as a word; what was said of a part of the seam means that it is glued."""
    return said.glue if isinstance(said.glue, Said) else Said("yes", said.glue.origin if said.glue else said.origin)


def _note(said: JointSaid, site: Site) -> str:
    """What the designer says of it, a caution first."""
    told = said.caution
    signal = site.words.choice(told.signal, SIGNALS) if told else None
    return cautioned(told, signal, words_of(said.note))


def free_id(wanted: str, joint: str, site: Site) -> str:
    """An id for a part that a joint makes: the plain word, or with the joint before it if that is taken."""
    return f"{joint}_{wanted}" if wanted in site.boards or wanted in site.made else wanted
