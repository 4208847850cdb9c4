"""What stands where on a laid out page, in mm: read from the layout engine's boxes, judged in `check_pages`."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from typing import Any

_MM = 25.4 / 96
"""The layout engine works in CSS pixels: 96 to the inch (CSS Values, section 6.2)."""
_HANG = 1 / _MM
_CAPITAL, _DESCENT = 0.66, 0.27
"""Of the packaged face, as shares of an em."""
_ZERO = re.compile(r"\b0$")
_INK = ("TextBox", "ReplacedBox", "InlineReplacedBox", "BlockReplacedBox")


def seen_on(page: Any, articles: Mapping[Any, str]) -> dict[str, Any]:
    """Facts of one page, `articles` being the article of each element of the document:
    `width`, `height`, `anchors` (name: height from the top), `ink` (the lowest point of text
    and figures), `spill` (texts outside the margins), `zeros` (references without a page), `headless` (tables
    that go on here without their head), `articles` (ids of the articles that have ink here)."""
    box = page._page_box
    flow = [
        each for child in box.children if type(child).__name__ != "MarginBox" for each in child.descendants(placeholders=True)
    ]
    ink = [each for each in flow if type(each).__name__ in _INK and _is_seen(each)]
    return {
        "width": page.width * _MM,
        "height": page.height * _MM,
        "anchors": {name: at[1] * _MM for name, at in page.anchors.items()},
        "ink": max((_reach(each)[1] for each in ink), default=0.0) * _MM,
        "spill": [_called(each) for each in ink if _is_outside(each, box)],
        "articles": sorted({articles[each.element] for each in ink if each.element in articles}),
        "zeros": [each.text for each in flow if _is_zero(each)],
        "headless": [_called(each) for each in flow if _is_headless(each)],
    }


def _is_seen(box: Any) -> bool:
    return box.width > 0 and (not hasattr(box, "text") or bool(box.text.strip()))


def _is_outside(box: Any, page: Any) -> bool:
    """Beyond the text area by more than 1 mm: large letters are hung a little into the margin on purpose."""
    left, top = page.content_box_x(), page.content_box_y()
    right, bottom = left + page.width, top + page.height
    x, (above, below) = box.position_x, _reach(box)
    return bool(x < left - _HANG or above < top - _HANG or x + box.width > right + _HANG or below > bottom + _HANG)


def articles_of(root: Any) -> dict[Any, str]:
    """The id of the article (a sheet, a joint, a step) that each element of a document belongs to."""
    return {each: str(article.get("id", "")) for article in root.iter("article") for each in article.iter()}


def _reach(box: Any) -> tuple[float, float]:
    """From where to where its ink goes down the page: of text from capitals to descenders, whatever its line height."""
    if not hasattr(box, "text"):
        return box.position_y, box.position_y + box.height
    base, em = box.position_y + box.baseline, box.style["font_size"]
    return base - _CAPITAL * em, base + _DESCENT * em


def _called(box: Any) -> str:
    return str(getattr(box, "text", "") or box.element.get("alt", "") or box.element_tag)


def _is_zero(box: Any) -> bool:
    return type(box).__name__ == "TextBox" and str(box.element_tag).startswith("a::") and bool(_ZERO.search(box.text))


def _is_headless(box: Any) -> bool:
    """A table whose element has a head but whose rows on this page have none above them."""
    if type(box).__name__ != "TableBox" or box.element is None or box.element.find("thead") is None:
        return False
    return not any(group.is_header for group in _groups(box))


def _groups(table: Any) -> Iterator[Any]:
    return (child for child in table.children if hasattr(child, "is_header"))
