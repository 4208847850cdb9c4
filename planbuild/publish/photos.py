"""Photos of a design made ready for print: upright, no larger than their room needs, and with nothing but the picture in them.

A photo tells more than it shows (place, camera, time): only its picture elements are kept.
"""

from __future__ import annotations

import io
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from planbuild.core.diagnostics import Collector, Diagnostic
from planbuild.core.files import PHOTO_LIMIT, FileFault, read_bytes
from planbuild.records.facts import Facts
from planbuild.records.rooms import STEP, Room

if TYPE_CHECKING:
    from PIL.Image import Image

DENSITY = 200.0
"""Picture elements an inch: more cannot be seen on paper from where a plan lies on the bench (common practice)."""
LARGEST = 60_000_000
"""Picture elements of a photo: more than a good camera takes; a small file may claim any number."""
_QUALITY = 85
_FORMATS = ("JPEG", "PNG")


@dataclass(frozen=True)
class Photo:
    """A photo as it is printed: JPEG, and its size on paper in mm."""

    jpeg: bytes
    width: float
    height: float


def load_photos(facts: Facts, folder: Path) -> Mapping[str, Photo]:
    """The photos of a plan by file name, each as large as it is in a step.  Reports `photo-broken` and the faults of files.
    Raises Refused."""
    report, found = Collector(), dict[str, Photo]()
    for name in dict.fromkeys(each.file for each in facts.photos):
        try:
            found[name] = _printable(read_bytes(folder, name, PHOTO_LIMIT), STEP)
        except FileFault as fault:
            report.add(fault.diagnostic)
        except (OSError, ValueError, SyntaxError) as fault:
            hint = "Open it in a picture program and save it again as JPEG or PNG."
            report.add(Diagnostic("photo-broken", f'The photo "{name}" cannot be read: {fault}.', hints=(hint,)))
    report.refuse_if_any_stops()
    return found


def _printable(data: bytes, room: Room) -> Photo:
    """As large as the room allows.  Raises OSError, ValueError or SyntaxError for what is no picture or too large a one."""
    from PIL import Image

    try:
        with Image.open(io.BytesIO(data), formats=_FORMATS) as image:
            if image.width * image.height > LARGEST:
                raise ValueError(f"it has more than {LARGEST // 1_000_000} million picture elements")
            upright = _on_white(_upright(image))
    except Image.DecompressionBombError as bomb:
        raise ValueError(f"it has far more than {LARGEST // 1_000_000} million picture elements") from bomb
    share = min(side / number for side, number in zip(room, upright.size, strict=True))
    width, height = (number * share for number in upright.size)
    upright.thumbnail((round(width / 25.4 * DENSITY), round(height / 25.4 * DENSITY)))
    printed = io.BytesIO()
    upright.save(printed, "JPEG", quality=_QUALITY)
    return Photo(printed.getvalue(), width, height)


def _upright(image: Image) -> Image:
    """Turned as its camera says (tag 0x0112 of Exif 2.3); nothing else is read there, whatever else is broken."""
    from PIL.Image import Transpose

    turns = {
        2: Transpose.FLIP_LEFT_RIGHT, 3: Transpose.ROTATE_180, 4: Transpose.FLIP_TOP_BOTTOM, 5: Transpose.TRANSPOSE,
        6: Transpose.ROTATE_270, 7: Transpose.TRANSVERSE, 8: Transpose.ROTATE_90,
    }  # fmt: skip
    turn = turns.get(image.getexif().get(0x0112, 1))
    return image if turn is None else image.transpose(turn)


def _on_white(image: Image) -> Image:
    """Without transparency, which paper does not have."""
    from PIL.Image import alpha_composite, new

    if not image.has_transparency_data:
        return image.convert("RGB")
    clear = image.convert("RGBA")
    return alpha_composite(new("RGBA", clear.size, "white"), clear).convert("RGB")
