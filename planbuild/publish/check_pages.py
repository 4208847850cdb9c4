"""The finished pages looked over: is the paper right, does anything run off, does every reference have a page?

Errors stop the plan, since a clipped number is a wrong number; the rest is told as a warning.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from itertools import pairwise

from planbuild.core.diagnostics import Diagnostic, Refused, Severity
from planbuild.publish.asked import outside
from planbuild.publish.pages import Page
from planbuild.publish.pdf import REFUSAL, LaidOut
from planbuild.publish.theme import Theme
from planbuild.records.edition import MARGIN_TOP, Edition
from planbuild.records.facts import Facts
from planbuild.records.planset import PageFacts

_LEAST_USED = 0.3
"""Of the text height; less is a nearly empty page (the aim is 60 %)."""
_LEAST_OF_A_THEME = 0.05
"""Less than a heading takes.  Through the built-in theme only a text of the design can come to this; a theme of the
design's own that leaves a page so is at fault."""


def check_pages(laid_out: LaidOut, edition: Edition, theme: Theme, facts: Facts) -> tuple[Diagnostic, ...]:
    """Warnings about the pages.  Raises Refused with `theme-outside` and the `page-...` codes below."""
    found = [*_on_pages(laid_out, edition), *_empty(laid_out, edition, theme), *_split(laid_out), *_missing(laid_out, facts)]
    told = [*(_blamed(each, theme) for each in found), *_refused(laid_out, theme), *_complaints(laid_out, theme)]
    if any(each.stops for each in told):
        raise Refused(tuple(told))
    return tuple(told)


def _on_pages(laid_out: LaidOut, edition: Edition) -> Iterator[Diagnostic]:
    paper = edition.paper
    for number, page in enumerate(laid_out.pages, start=1):
        if abs(page["width"] - paper.width) > 0.05 or abs(page["height"] - paper.height) > 0.05:
            found = f"{page['width']:.1f} x {page['height']:.1f} mm"
            yield Diagnostic(
                "page-paper", f"Page {number} is {found}.", expected=f"{paper.width:g} x {paper.height:g} mm ({paper.name})"
            )
        for text in page["spill"]:
            yield Diagnostic("page-overflow", f'Page {number}: "{text[:60]}" runs over the margin.')
        for text in page["zeros"]:
            yield Diagnostic("page-reference", f'Page {number}: the reference "{text}" leads to no page.')
        for _ in page["headless"]:
            yield Diagnostic("page-table-head", f"Page {number}: a table goes on without its head.", Severity.WARNING)


def _empty(laid_out: LaidOut, edition: Edition, theme: Theme) -> Iterator[Diagnostic]:
    for number, page in enumerate(laid_out.pages, start=1):
        used = (page["ink"] - MARGIN_TOP) / edition.text_height
        if used < _LEAST_USED:
            severity = Severity.ERROR if theme.own and used < _LEAST_OF_A_THEME else Severity.WARNING
            yield Diagnostic("page-near-empty", f"Page {number} is only {max(used, 0):.0%} used.", severity)


def _split(laid_out: LaidOut) -> Iterator[Diagnostic]:
    """Sheets, joints and steps whose picture and words are not on one page."""
    for (number, page), (_, after) in pairwise(enumerate(laid_out.pages, start=1)):
        for name in sorted(set(page["articles"]) & set(after["articles"])):
            yield Diagnostic("page-split", f"{name} goes on from page {number} to the next.", Severity.WARNING)


def _missing(laid_out: LaidOut, facts: Facts) -> Iterator[Diagnostic]:
    """Sheets, joints and steps that a theme forgot to print or to anchor."""
    there = _begins(laid_out)
    for name in _wanted(facts):
        if name not in there:
            yield Diagnostic("page-missing", f"{name} is on no page.", hints=(f'A template gives it id="{name}".',))


def _wanted(facts: Facts) -> list[str]:
    sheets = [f"sheet.{part.id}" for part in facts.parts]
    return sheets + [f"joint.{joint.id}" for joint in facts.joints] + [f"step.{step.id}" for step in facts.steps]


def _blamed(fault: Diagnostic, theme: Theme) -> Diagnostic:
    """With the way out for a design that brings its own look."""
    if theme.own is None:
        return fault
    hint = f'Theme "{theme.name}" sets the pages: build once with `theme: bench` to see whether the fault lies with it.'
    return replace(fault, hints=(*fault.hints, hint))


def _refused(laid_out: LaidOut, theme: Theme) -> Iterator[Diagnostic]:
    """Addresses outside the plan that came up only while the pages were set."""
    for address in laid_out.refused:
        yield outside(address, theme.where(address) or theme.asked)


def _complaints(laid_out: LaidOut, theme: Theme) -> Iterator[Diagnostic]:
    for text in laid_out.complaints:
        if REFUSAL in text:
            continue  # told by `_refused`
        lost = text.startswith("No anchor")
        code, severity = ("page-reference", Severity.ERROR) if lost else ("page-complaint", Severity.WARNING)
        yield Diagnostic(code, f'The layout engine says of theme "{theme.name}": {text}', severity)


def page_facts(laid_out: LaidOut, pages: tuple[Page, ...], facts: Facts) -> tuple[tuple[PageFacts, ...], dict[str, int]]:
    """Each page with the kind and title of what stands first on it, and where sheets, joints and steps begin."""
    begins = _begins(laid_out)
    page_of = {name: begins[name] for name in _wanted(facts)}
    numbers = range(1, len(laid_out.pages) + 1)
    shown = [_shown_on(number, pages, begins) for number in numbers]
    titles = [_title(page, number, page_of, facts) for page, number in zip(shown, numbers, strict=True)]
    return tuple(PageFacts(n, title, page.kind) for n, title, page in zip(numbers, titles, shown, strict=True)), page_of


def _shown_on(number: int, pages: tuple[Page, ...], begins: dict[str, int]) -> Page:
    """The first section that begins on a page, else the one that goes on there."""
    placed = [(begins.get(f"page.{page.kind}", 0), page) for page in pages]
    here = [page for begin, page in placed if begin == number]
    before = [page for begin, page in placed if 0 < begin < number]
    return (here or before[-1:] or pages)[0]


def _title(page: Page, number: int, page_of: dict[str, int], facts: Facts) -> str:
    """The title of a page, with what begins on it: `Part sheets: A1 leg`, `Steps: 4, 5, 6`."""
    parts = [f"{part.mark} {part.name}" for part in facts.parts if page_of[f"sheet.{part.id}"] == number]
    joints = [joint.title for joint in facts.joints if page_of[f"joint.{joint.id}"] == number]
    steps = [str(step.number) for step in facts.steps if page_of[f"step.{step.id}"] == number]
    begun = {"sheets": parts, "joints": joints, "steps": steps}.get(page.kind, [])
    return f"{page.title}: {', '.join(begun)}" if begun else page.title


def _begins(laid_out: LaidOut) -> dict[str, int]:
    """Anchor to the number of the first page that has it."""
    found: dict[str, int] = {}
    for number, page in enumerate(laid_out.pages, start=1):
        for name in page["anchors"]:
            found.setdefault(name, number)
    return found
