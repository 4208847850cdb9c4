"""The child process that lays out the pages and writes the PDF: HTML, style and declared assets in, bytes and page facts out.

Run as a module by `bounded`.  Nothing is fetched but what the job declares: figures by name and our own faces.
"""

from __future__ import annotations

import gc
import json
import logging
from base64 import b64decode
from collections.abc import Mapping
from contextlib import suppress
from typing import Any

from planbuild.core.diagnostics import Refused
from planbuild.core.native import LAYOUT, loading
from planbuild.publish.bounded import serve
from planbuild.publish.fonts import FACES, font_bytes

VARIANT = "pdf/ua-1"
"""Tagged, with language, title and alternative texts, as PDF/UA-1 (ISO 14289-1) asks; we promise tags, not conformity."""


class _Complaints(logging.Handler):
    """Gathers what the layout engine warns of, each once."""

    def __init__(self) -> None:
        super().__init__(logging.WARNING)
        self.told: list[str] = []

    def emit(self, record: logging.LogRecord) -> None:
        text = record.getMessage()
        if text not in self.told:
            self.told.append(text)


def load_engine() -> None:
    """The layout engine into memory while the job is still being made; if that fails, `press` tells why."""
    with suppress(OSError, ImportError):
        import weasyprint  # noqa: F401


def press(job: Mapping[str, Any]) -> bytes:
    """One line of JSON (`pages`, `complaints`, `asked`; or `refused`), then the PDF."""
    try:
        with loading(LAYOUT):
            import weasyprint
    except Refused as refused:
        told = [{"code": d.code, "message": d.message, "hints": d.hints} for d in refused.diagnostics]
        return json.dumps({"refused": told}).encode() + b"\n"
    complaints = _Complaints()
    for name in ("weasyprint", "fontTools"):
        logger = logging.getLogger(name)
        logger.handlers, logger.propagate = [complaints], False
    asked: list[str] = []
    pages, pdf = _laid_out(weasyprint, job, asked)
    return json.dumps({"pages": pages, "complaints": complaints.told, "asked": asked}).encode() + b"\n" + pdf


def _laid_out(weasyprint: Any, job: Mapping[str, Any], asked: list[str]) -> tuple[list[dict[str, Any]], bytes]:
    """Pages and PDF; `asked` gets the addresses that were asked for in vain."""
    from weasyprint.text.fonts import FontConfiguration

    from planbuild.publish.page_boxes import articles_of, seen_on

    gc.disable()  # the child ends with its answer, and its memory is bounded; collecting costs a tenth of the time
    fetcher = _fetcher(job["assets"], asked, job["refusal"])
    fonts = FontConfiguration()
    sheet = "\n".join((*(face.rule for face in FACES), *job["styles"]))
    style = weasyprint.CSS(string=sheet, base_url="plan:", url_fetcher=fetcher, font_config=fonts)
    html = weasyprint.HTML(string=job["html"], base_url="plan:", url_fetcher=fetcher)
    document = html.render(stylesheets=[style], font_config=fonts)
    articles = articles_of(html.etree_element)
    pages = [seen_on(page, articles) for page in document.pages]
    pdf: bytes = document.write_pdf(pdf_variant=VARIANT)
    return pages, pdf


def _fetcher(assets: Mapping[str, str], asked: list[str], refusal: str) -> Any:
    """A fetcher that serves declared SVG figures, photos (JPEG in base 64) and our faces; it refuses every other
    address and notes it in `asked`."""
    from weasyprint.urls import URLFetcher, URLFetcherResponse

    faces = {face.url: face for face in FACES}

    class Declared(URLFetcher):  # type: ignore[misc]
        def fetch(self, url: str, headers: object = None) -> Any:
            if url in assets and url.startswith("plan:photo/"):
                return URLFetcherResponse(url, b64decode(assets[url]), {"Content-Type": "image/jpeg"})
            if url in assets:
                return URLFetcherResponse(url, assets[url].encode(), {"Content-Type": "image/svg+xml"})
            if url in faces:
                return URLFetcherResponse(url, font_bytes(faces[url]), {"Content-Type": "font/ttf"})
            if url not in asked:
                asked.append(url)
            raise ValueError(refusal)

    return Declared()


if __name__ == "__main__":
    serve(press, load_engine)
