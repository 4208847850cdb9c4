"""The starter design that `planbuild new` writes: a whole small table, commented, that builds as it is."""

from __future__ import annotations

import re
from importlib import resources

from planbuild.core.diagnostics import Diagnostic, Refused

_PLAIN = re.compile(r"[A-Za-z][A-Za-z0-9 _-]{0,60}")


def starter_files(name: str) -> dict[str, bytes]:
    """File name and text of a starter design called `name`.  Reports `new-name`."""
    if not _PLAIN.fullmatch(name):
        expected = "letters, digits, spaces, hyphens; a letter first; no folder"
        hint = "Try `planbuild new side-table`."
        raise Refused((Diagnostic("new-name", f'"{name}" cannot name a piece.', expected=expected, hints=(hint,)),))
    words = re.split(r"[ _-]+", name.strip(" _-"))
    title = " ".join(words).capitalize()
    text = resources.files("planbuild").joinpath("starter.yaml").read_text("utf-8")
    return {"-".join(words).lower() + ".yaml": text.replace("@TITLE@", title).encode()}
