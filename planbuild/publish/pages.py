"""Which pages a plan has and in which order; what each shows is in `front_pages` and `work_pages`.

A page is a template and plain data; how it looks is the theme's affair.  The order follows the work: what it
is, how to read it, what to buy and to cut, part by part, joint by joint, step by step, finish, record.
"""

from __future__ import annotations

from dataclasses import dataclass

from planbuild.publish import front_pages, work_pages
from planbuild.publish.legend import legend
from planbuild.publish.samples import check_square, projection_symbol
from planbuild.publish.source import Content, Filler, Source
from planbuild.records.drawing import Drawing


@dataclass(frozen=True)
class Page:
    """A page or a run of pages: `kind` names its template (`<kind>.html.j2`) and its anchor (`page.<kind>`)."""

    kind: str
    title: str
    content: Content


ORDER: tuple[tuple[str, str, Filler], ...] = (
    ("cover", "", front_pages.cover),
    ("read_me", "Read me first", front_pages.read_me),
    ("piece", "The piece", front_pages.piece),
    ("glance", "Parts at a glance", front_pages.glance),
    ("buy", "To buy", front_pages.buy),
    ("cut_list", "Cut list", work_pages.cut_list),
    ("sheets", "Part sheets", work_pages.sheets),
    ("joints", "Joints", work_pages.joints),
    ("steps", "Steps", work_pages.steps),
    ("finish", "Finish and care", work_pages.finish),
    ("record", "Record", work_pages.record),
)


def pages_of(source: Source) -> tuple[Page, ...]:
    """The pages in printed order; a run of pages without anything to show is left out."""
    facts = source.facts
    empty = {"cut_list": not facts.cut_list, "sheets": not facts.parts, "joints": not facts.joints, "steps": not facts.steps}
    return tuple(Page(kind, title or facts.piece.title, fill(source)) for kind, title, fill in ORDER if not empty.get(kind))


def samples(source: Source) -> dict[str, Drawing]:
    """The drawings that the pages themselves bring, by id."""
    projection = source.edition.projection
    made = [
        check_square(),
        projection_symbol("sample.projection", projection, 4.5),
        projection_symbol("sample.symbol", projection, 2.2),
    ]
    made += [entry.sample for entry in legend(source.facts)]
    return {each.id: each for each in made}
