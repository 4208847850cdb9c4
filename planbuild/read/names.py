"""Names of things: their form, what is reserved, and that one name means one thing."""

from __future__ import annotations

import re

from planbuild.core.diagnostics import Related
from planbuild.core.spelling import nearest
from planbuild.read.nodes import Block, Entry, Node, Row, Scalar
from planbuild.read.report import Report
from planbuild.read.vocabulary import RESERVED, STEP_WORDS

ONE_SPACE = {
    "sizes": "size",
    "stock": "stock",
    "parts": "part",
    "items": "item",
    "details": "detail",
    "takes": "thing taken",
    "openings": "opening",
    "blocks": "block",
}
"""Sections that share one space of names, and what one entry of each is called."""

OWN_SPACE = ("species", "joints", "hardware", "assemblies", "finishes", "editions", "practice")

LONGEST = 40
_ID = re.compile(r"[a-z][a-z0-9_]*")
_STEP = re.compile(r"[a-z][a-z0-9_]*(\.[a-z][a-z0-9_]*)+")


def check_names(design: Block, report: Report) -> None:
    """Reports: name-form, name-reserved, name-taken, step-unknown."""
    first: dict[str, tuple[str, Entry]] = {}
    for section, kind in ONE_SPACE.items():
        for entry in design.section(section):
            if _well_formed(entry.key, kind, report):
                _reserved(entry.key, kind, report)
                _taken(entry, kind, first, report)
    for section in OWN_SPACE:
        for entry in design.section(section):
            _well_formed(entry.key, section, report)
    _steps(design, report)


def _steps(design: Block, report: Report) -> None:
    """Ids of planned steps begin with a kind of work; those of the designer's own may begin with any word."""
    planned = [each for each in design.section("steps") if each.name != "add"]
    adding = [each.value for each in design.section("steps") if each.name == "add"]
    added = [each for block in adding if isinstance(block, Block) for each in block.entries]
    own = {each.name for each in added}
    for entry in planned:
        _step(entry.key, report)
    for entry in added:
        _step_form(entry.key, report)
    for entry in (*planned, *added):
        wishes = entry.value if isinstance(entry.value, Block) else Block((), entry.span)
        for other in (each for name in ("after", "before", "with") if (said := wishes.get(name)) for each in _words(said.value)):
            if other.text not in own:
                _step(other, report)


def _words(node: Node) -> tuple[Scalar, ...]:
    return tuple(each for each in (node.items if isinstance(node, Row) else (node,)) if isinstance(each, Scalar))


def _step(word: Scalar, report: Report) -> None:
    verb = word.text.partition(".")[0]
    if _step_form(word, report) and verb not in STEP_WORDS:
        hints = tuple(f'Did you mean "{near}{word.text[len(verb) :]}"?' for near in [nearest(verb, STEP_WORDS)] if near)
        message = f'No step begins with "{verb}".'
        report.fault("step-unknown", word.span, message, expected=f"one of: {', '.join(STEP_WORDS)}", hints=hints)


def _step_form(word: Scalar, report: Report) -> bool:
    if _STEP.fullmatch(word.text):
        return True
    message = f'"{word.text}" is not the id of a step.'
    report.fault("name-form", word.span, message, expected="`verb.thing`, like `taper.leg`")
    return False


def _well_formed(key: Scalar, kind: str, report: Report) -> bool:
    if _ID.fullmatch(key.text) and len(key.text) <= LONGEST:
        return True
    id = re.sub(r"[^a-z0-9]+", "_", key.text.lower()).strip("_")[:LONGEST]
    id = id if _ID.fullmatch(id) else f"{kind}_{id}".rstrip("_")
    printed = id.replace("_", " ")
    report.fault(
        "name-form",
        key.span,
        f'"{key.text[:LONGEST]}" is not an id.',
        expected=f"small letters, digits and underscores, a letter first, at most {LONGEST}",
        hints=(f'Write `{id}`; it prints as "{printed}".',),
    )
    return False


def _reserved(key: Scalar, kind: str, report: Report) -> None:
    if key.text in RESERVED:
        hint = f"Try `{'drawer' if kind == 'part' else 'my'}_{key.text}`."
        report.fault("name-reserved", key.span, f'"{key.text}" is {RESERVED[key.text]}, so it cannot be a name.', hints=(hint,))


def _taken(entry: Entry, kind: str, first: dict[str, tuple[str, Entry]], report: Report) -> None:
    before_kind, before = first.setdefault(entry.name, (kind, entry))
    if before is not entry:
        report.fault(
            "name-taken",
            entry.span,
            f'"{entry.name}" is a {before_kind} and a {kind}. One name, one thing.',
            hints=(f"Call the {before_kind} `{entry.name}_{'size' if before_kind == 'size' else before_kind}`.",),
            related=(Related(before.span, f"{before_kind} said"),),
        )
