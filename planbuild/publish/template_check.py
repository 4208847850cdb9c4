"""A stranger's templates looked over before any slow work: read, never run.

Tells slips, names of filters, tests and templates that are not there, and what the sandbox would refuse anyway.
What only shows when a template is filled is told then (`setter`).
"""

from __future__ import annotations

from collections.abc import Collection, Iterator

from jinja2 import TemplateSyntaxError, nodes

from planbuild.core.diagnostics import Diagnostic
from planbuild.core.spelling import did_you_mean
from planbuild.publish.sandbox import LARGEST_COUNT, NO_POWER, Sandbox, closed
from planbuild.publish.template_faults import BOUNDS, SMALLER, TEMPLATE, Fault, no_template, words_for
from planbuild.publish.theme_files import line_of

_Found = tuple[int, str, Fault]
"""Line, the word in it to point at, and what is wrong."""


def template_faults(path: str, text: str, known: Collection[str]) -> Iterator[Diagnostic]:
    """What is wrong with one template; `known` are the names of all that it can include.

    Reports `theme-template`, `theme-bounds`.
    """
    for line, word, fault in _faults(Sandbox(lambda name: None), text, known):
        span = line_of(path, text, line, word)
        yield Diagnostic(fault.code, fault.message, span=span, expected=fault.expected, hints=fault.hints)


def _faults(sandbox: Sandbox, text: str, known: Collection[str]) -> list[_Found]:
    try:
        tree = sandbox.parse(text)
        return [*_names(sandbox, tree), *_templates(tree, known), *_beyond(tree)]
    except TemplateSyntaxError as slip:
        return [(slip.lineno, "", words_for(slip, known))]
    except RecursionError as deep:
        return [(1, "", words_for(deep, known))]


def _names(sandbox: Sandbox, tree: nodes.Template) -> Iterator[_Found]:
    """Filters and tests that the engine does not have: it would tell them only on the way."""
    for kind, what, there in ((nodes.Filter, "filter", sandbox.filters), (nodes.Test, "test", sandbox.tests)):
        for node in tree.find_all(kind):
            name = str(getattr(node, "name", ""))
            if name not in there:
                yield node.lineno, name, Fault(TEMPLATE, f'There is no {what} "{name}".', hints=did_you_mean(name, there))


def _templates(tree: nodes.Template, known: Collection[str]) -> Iterator[_Found]:
    """Included, imported and extended templates, where the name is written out."""
    for node in tree.find_all((nodes.Include, nodes.Import, nodes.FromImport, nodes.Extends)):
        name = getattr(getattr(node, "template", None), "value", None)
        if isinstance(name, str) and name not in known and not getattr(node, "ignore_missing", False):
            yield node.lineno, name, no_template(name, known)


def _beyond(tree: nodes.Template) -> Iterator[_Found]:
    """Powers, enormous numbers and what lies beneath the data."""
    for power in tree.find_all(nodes.Pow):
        yield power.lineno, "**", Fault(BOUNDS, NO_POWER, hints=("Write the product out.",))
    for number in tree.find_all(nodes.Const):
        if isinstance(number.value, int | float) and abs(number.value) > LARGEST_COUNT:
            message = f"This number is too large: a template writes none above {LARGEST_COUNT:,}."
            yield number.lineno, str(number.value), Fault(BOUNDS, message, hints=(SMALLER,))
    for field in tree.find_all(nodes.Getattr):
        if field.attr.startswith("_"):
            yield field.lineno, field.attr, Fault(TEMPLATE, closed(field.attr))
