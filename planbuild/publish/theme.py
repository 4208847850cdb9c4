"""Themes: a folder of templates, one style sheet and drawing tokens, laid over the built-in `bench`.

A theme may come from a stranger: it is looked over as soon as the design is read, and its templates are filled
in a bounded sandbox.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from pathlib import Path

from planbuild.core.diagnostics import Diagnostic, Refused, Related, Span
from planbuild.publish.asked import place_in
from planbuild.publish.look_over import look_over, tokens_of
from planbuild.publish.theme_files import BUILT_IN, STYLE, Files, built_in_files, line_of, own_files
from planbuild.publish.tokens import Tokens, read_tokens

ROOT = "plan.html.j2"


@dataclass(frozen=True)
class Theme:
    """`templates` by file name, those of the built-in theme also as `bench/<name>` so that they can be
    extended; `styles` in the order of the cascade; `own` is what it brings itself, None if it is the built-in one;
    `asked` is where the design asks for it."""

    name: str
    templates: Mapping[str, str]
    styles: tuple[str, ...]
    tokens: Tokens
    own: Files | None = None
    asked: Span | None = None

    def line(self, template: str, number: int) -> Span | None:
        """A line of a template; None where no template is to blame."""
        if template not in self.templates:
            return None
        mine = self.own is not None and template in self.own.texts
        path = self.own.path(template) if self.own and mine else f"themes/{BUILT_IN}/{template.removeprefix(f'{BUILT_IN}/')}"
        return line_of(path, self.templates[template], number)

    def where(self, words: str) -> Span | None:
        """The first place in its own files where something is written."""
        places = (self._place(name, words) for name in (self.own.texts if self.own else ()))
        return next((place for place in places if place), None)

    def _place(self, name: str, words: str) -> Span | None:
        assert self.own is not None, "asked of what a theme brings itself"
        text = self.own.texts[name]
        return place_in(self.own.path(name), text, text.index(words), len(words)) if words in text else None


def load_theme(name: str, design_folder: Path, said: Span | None = None) -> Theme:
    """The theme of that name, from `<design folder>/themes` or built in; `said` is where the design asks for it.

    Reports `theme-unknown`, `theme-file` and the codes of `look_over`.
    """
    base, own = built_in_files(), own_files(name, design_folder, said)
    templates = {f"{BUILT_IN}/{file}": text for file, text in base.templates.items()} | dict(base.templates)
    if own is None:
        return Theme(name, templates, (base.texts[STYLE],), read_tokens(tokens_of(base)))
    templates |= own.templates
    _refuse(look_over(own, base, templates), name, said)
    styles = tuple(files.texts[STYLE] for files in (base, own) if STYLE in files.texts)
    return Theme(name, templates, styles, read_tokens(tokens_of(base, own)), own, said)


def _refuse(faults: tuple[Diagnostic, ...], name: str, said: Span | None) -> None:
    """Raises Refused if there are any; each also tells who asked for the theme."""
    asked = (Related(said, f'theme "{name}" is asked for'),) if said else ()
    if faults:
        raise Refused(tuple(replace(each, related=asked) for each in faults))
