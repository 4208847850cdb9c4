"""Texts for cover, page feet and record; editions."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from fractions import Fraction

from planbuild.core.spelling import did_you_mean
from planbuild.core.units import Ruler, Unit
from planbuild.records.design import BuiltSaid, Design, EditionSaid, RevisionSaid, Said
from planbuild.records.photos import photo_of
from planbuild.records.piece import EditionWish, Imprint
from planbuild.resolve.editions import STEPS
from planbuild.resolve.sayings import Sayings, tried


def ruler(design: Design, sayings: Sayings) -> Ruler:
    """The unit and step of printed lengths; a fault is reported (`size-rounding`) and leaves the default."""
    unit = Unit(tried(sayings.choice, design.units, [each.value for each in Unit], "unit") or Unit.INCH.value)
    said = design.rounding
    step = tried(_rounding, said, sayings) if said else None
    return Ruler(unit, step / unit.mm if step else STEPS[unit])


FINEST, COARSEST = Fraction(1, 10), Fraction(64, 10)
"""mm; a finer step cannot be read off a rule, a coarser one is no size of a joint (a choice of ours)."""


def _rounding(said: Said, sayings: Sayings) -> Fraction:
    step = sayings.size(said, "The rounding")
    if not FINEST <= step <= COARSEST:
        message = f"Lengths rounded to {said.text} cannot be worked to."
        raise sayings.refuse("size-rounding", said, message, "from 1/128 in to 1/4 in, or from 0.1 mm to 6 mm")
    return step


def imprint(design: Design, sayings: Sayings) -> Imprint:
    """Reports `revision-unknown`, `revision-date`."""
    texts = {name: _text(getattr(design, name)) for name in ("title", "series", "summary", "designer", "contact", "licence")}
    dates = {letter: _date(said.date, sayings) for letter, said in design.revisions.items()}
    revision = _revision(design, sayings)
    return Imprint(
        **texts,
        revision=revision,
        date=dates.get(revision, ""),
        revisions=tuple((letter, dates[letter], said.change.text) for letter, said in design.revisions.items()),
        built=_built(design.built, sayings),
        photo=photo_of(design.built.photo, "the prototype") if design.built else None,
        sources=_sources(design),
        notes=_text(design.notes),
    )


def _sources(design: Design) -> tuple[str, ...]:
    """Those of the whole and those of any part, joint, block or step, each once."""
    sections = (design.parts, design.joints, design.hardware, design.openings, design.steps)
    said = [*design.sources, *(each for section in sections for thing in section.values() for each in thing.sources)]
    said += [each for block in design.blocks.values() for each in (*block.sources, *block.said.sources)]
    return tuple(dict.fromkeys(each.text for each in said))


def _text(said: Said | None) -> str:
    return said.text if said else ""


def _revision(design: Design, sayings: Sayings) -> str:
    revisions: Mapping[str, RevisionSaid] = design.revisions
    said = design.revision
    if said is None:
        return max(revisions, default="A")
    if said.text not in revisions:
        message = f'Revision "{said.text}" is not among the revisions.'
        hint = f'Add `{said.text}: {{date: 2026-01-31, change: "first issue"}}` under `revisions`.'
        sayings.refuse("revision-unknown", said, message, hints=(*did_you_mean(said.text, revisions), hint))
    return said.text


def _date(said: Said, sayings: Sayings) -> str:
    try:
        return date.fromisoformat(said.text).isoformat()
    except ValueError:
        sayings.refuse("revision-date", said, f'"{said.text}" is no date.', "year-month-day, such as `2026-01-31`")
        return said.text


def _built(said: BuiltSaid | None, sayings: Sayings) -> str:
    if said is None or tried(sayings.yes, said.prototype) is not True:
        return "not yet built"
    return f"built {_text(said.when)}".strip()


def edition_wishes(said: Mapping[str, EditionSaid], sayings: Sayings) -> tuple[EditionWish, ...]:
    """The editions named in the files.  Reports `word-unknown`."""
    found = (tried(_edition, id, each, sayings) for id, each in said.items())
    return tuple(edition for edition in found if edition is not None)


def _edition(id: str, said: EditionSaid, sayings: Sayings) -> EditionWish:
    def chosen(field: Said | None, among: tuple[str, ...], what: str) -> str:
        return sayings.choice(field, among, what) if field else ""

    return EditionWish(
        id,
        said.origin,
        _text(said.paper),
        chosen(said.units, ("inch", "mm"), "unit"),
        chosen(said.projection, ("first angle", "third angle"), "projection"),
        print=chosen(said.print, ("home", "shop"), "way to print") or "home",
        document=chosen(said.document, ("plan set", "step sheets", "shop pack", "client record"), "document") or "plan set",
        bleed=float(sayings.size(said.bleed, "The bleed")) if said.bleed else 0.0,
    )


