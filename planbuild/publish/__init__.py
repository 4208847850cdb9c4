"""Publish: finished facts through a theme to pages.

Facts become plain data and pictures, the theme's templates turn them into one HTML text, the layout engine
into a PDF, and the laid out pages are looked over before anything is handed on.  Templates and layout run in
bounded child processes, because a theme may come from a stranger.
"""

from __future__ import annotations

from base64 import b64encode
from collections.abc import Mapping
from types import MappingProxyType
from urllib.parse import quote

from planbuild.publish.check_pages import check_pages, page_facts
from planbuild.publish.pages import Page, pages_of, samples
from planbuild.publish.pdf import Press, fill_templates
from planbuild.publish.photos import Photo, load_photos
from planbuild.publish.plain import plain
from planbuild.publish.plan_json import plan_json
from planbuild.publish.source import Source
from planbuild.publish.style import styles_for
from planbuild.publish.svg import RIM, svg
from planbuild.publish.theme import Theme, load_theme
from planbuild.publish.words import Words
from planbuild.records.edition import Edition
from planbuild.records.facts import Facts
from planbuild.records.findings import Findings
from planbuild.records.planset import PlanSet

__all__ = ["Photo", "Theme", "load_photos", "load_theme", "plan_json", "publish"]


def publish(
    facts: Facts, findings: Findings, theme: Theme, edition: Edition, photos: Mapping[str, Photo] = MappingProxyType({})
) -> PlanSet:
    """The plan set of finished facts: PDF, its pages, and the page on which each sheet, joint and step begins.

    Reports `words-reference`, `theme-template`, `theme-bounds`, `theme-outside`, `native-missing` and
    the `page-...` codes of `check_pages`.
    """
    with Press(edition.date) as press:
        source = Source(facts, findings, edition, Words(facts))
        pages = pages_of(source)
        drawings = {**facts.drawings, **samples(source)}
        data = _data(source, pages, photos)
        source.words.faults.refuse_if_any_stops()
        html = fill_templates(theme, data)
        assets = {f"plan:figure/{id}.svg": svg(each, theme.tokens.inks_for(id)) for id, each in drawings.items()}
        assets |= {_photo_url(name): b64encode(photo.jpeg).decode() for name, photo in photos.items()}
        laid_out = press.print(html, styles_for(theme, edition), assets)
    told = check_pages(laid_out, edition, theme, facts)
    numbered, page_of = page_facts(laid_out, pages, facts)
    return PlanSet(laid_out.pdf, numbered, page_of, told)


def _photo_url(name: str) -> str:
    return f"plan:photo/{quote(name)}"


def _data(source: Source, pages: tuple[Page, ...], photos: Mapping[str, Photo]) -> object:
    """All that templates can see, as plain data."""
    facts, edition = source.facts, source.edition
    drawings = {**facts.drawings, **samples(source)}
    figures = {
        id: {"url": f"plan:figure/{id}.svg", "width": d.width, "height": d.height, "rim": RIM, "alt": d.alt, "scale": d.scale}
        for id, d in drawings.items()
    }
    shown = {
        "facts": {name: getattr(facts, name) for name in facts.__dataclass_fields__ if name != "drawings"},
        "edition": {"paper": edition.paper.name, "width": edition.text_width, "height": edition.text_height,
                    "unit": edition.ruler.unit.symbol, "projection": edition.projection, "date": edition.date},
        "pages": pages,
        "figures": figures,
        "photos": {name: {"url": _photo_url(name), "width": p.width, "height": p.height} for name, p in photos.items()},
    }  # fmt: skip
    return plain(shown, source.words)
