"""The starter design that `planbuild new` writes: a whole small table, commented, that builds as it is."""

from __future__ import annotations

import re
from importlib import resources

from planbuild.core.diagnostics import Diagnostic, Refused
from planbuild.core.lettering import composed, without_letter

LONGEST = 60
"""Letters of a name: four bytes each at the most, so that the file's name stays below the 255 that file systems allow."""

_DEVICES = {"con", "prn", "aux", "nul", *(f"{port}{n}" for port in ("com", "lpt") for n in "123456789¹²³")}
"""Names that stand for devices on Windows, whatever follows the dot."""


def starter_files(name: str) -> dict[str, bytes]:
    """File name and text of a starter design called `name`.  Reports `new-name`.

    Letters are composed (NFC), so that the name typed later finds the file on every system; the file's name is in
    small letters, as some systems tell `Desk` from `desk` and some do not.
    """
    plain = " ".join(re.split(r"[ _-]+", composed(name).strip(" _-")))
    file = plain.replace(" ", "-").lower()
    if not plain or name.startswith("-") or len(name) > LONGEST or not _is_a_name(plain) or file in _DEVICES:
        expected = f"Latin, Greek or Cyrillic letters, digits, spaces, hyphens; a letter first; no folder; at most {LONGEST}"
        hint = "Try `planbuild new side-table`."
        raise Refused((Diagnostic("new-name", f'"{name}" cannot name a piece.', expected=expected, hints=(hint,)),))
    text = resources.files("planbuild").joinpath("starter.yaml").read_text("utf-8")
    return {f"{file}.yaml": text.replace("@TITLE@", _title(plain)).encode()}


def _is_a_name(plain: str) -> bool:
    """Letters that the plans can print, digits and spaces: nothing that means something to a shell or a disk."""
    written = plain.replace(" ", "")
    return plain[0].isalpha() and all(sign.isalpha() or sign.isdecimal() for sign in written) and not without_letter(written)


def _title(plain: str) -> str:
    """With a capital, where the first letter has one of its own (ß has not)."""
    capital = plain[0].upper()
    return (capital if len(capital) == 1 else plain[0]) + plain[1:]
