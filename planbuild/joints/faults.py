"""How a joint says that it cannot be cut: short ways to report, and to say a fact of a joint in words."""

from __future__ import annotations

from planbuild.core.diagnostics import Diagnostic, Related, Severity, Span
from planbuild.core.geometry import Axis, Box
from planbuild.joints.base import Board, Site
from planbuild.records.design import Said


def refuse(site: Site, code: str, span: Span, message: str, expected: str = "", hint: str = "", source: str = "") -> None:
    """Reports an error at a place of the design file."""
    hints = (hint,) if hint else ()
    site.report.add(Diagnostic(code, message, span=span, expected=expected, hints=hints, source=source))


def warn(site: Site, code: str, span: Span, message: str, expected: str = "", hint: str = "", source: str = "") -> None:
    """Reports what does not stop the build."""
    hints = (hint,) if hint else ()
    site.report.add(Diagnostic(code, message, Severity.WARNING, span, expected=expected, hints=hints, source=source))


def copies_differ(site: Site, span: Span, board: Board, message: str) -> None:
    """The copies of a part would not be alike."""
    site.report.add(
        Diagnostic(
            "joint-copies-differ",
            message,
            span=span,
            expected="the same cuts in every copy of a part",
            hints=(f'Write the copies that differ as a part of their own beside "{board.id}".',),
            related=(Related(board.origin, f'"{board.id}" is placed here'),),
        )
    )


def apart(mm: float, site: Site) -> str:
    """A distance that is not zero, also where it is too small for the printed step."""
    figure, none = site.ruler.plain(mm), site.ruler.plain(0.0)
    return f"less than {site.ruler.plain(float(site.ruler.step * site.ruler.unit.mm))}" if figure == none else figure


def words_of(said: Said | None) -> str:
    """The text of a field, "" if it was not said."""
    return said.text if said else ""


def collision(site: Site, span: Span, names: tuple[str, str], inside: Board, crossing: Box, hint: str) -> None:
    """Two mortises cross in a part."""
    sizes = " x ".join(site.ruler.plain(size) for size in sorted(crossing.size(axis) for axis in Axis))
    first, second = names
    message = f'The mortises of "{first}" and "{second}" cross inside "{inside.id}" ({sizes}).'
    expected = "mortises with wood between them, or tenons that make way for each other"
    refuse(site, "joint-collision", span, message, expected, hint)
