"""The room that each kind of drawing has on its page.

Beside the records, because derive draws into these rooms and publish sets the drawings there.  A drawing to scale
is never shrunk on the page, so it must not be wider than its room.  Units: mm on paper, (width, height).
"""

from __future__ import annotations

from planbuild.records.edition import Edition

Room = tuple[float, float]

STEP: Room = (84.0, 64.0)
"""Beside the words of a step; a picture lower than 50 leaves room for the tools under it."""
JOINT_SECTION: Room = (96.0, 75.0)
PART_PHOTO: Room = (84.0, 52.0)
"""Under the notes of its sheet."""
JOINT_PHOTO: Room = (68.0, 50.0)
"""Under the words beside its section."""
CAPTION = 6.0
"""Height of the line under a photo, with its air."""
SECTION: Room = (102.0, 90.0)
"""Beside the sizes that may be changed."""
LEAST_EXPLODED = 110.0
"""Height in which a picture of many parts with their marks can still be read."""
BLOCK_HEIGHT, BETWEEN_BLOCKS = 85.0, 8.0


def cover(edition: Edition) -> Room:
    return edition.text_width, edition.text_height - 115


def three_views(edition: Edition) -> Room:
    return edition.text_width, edition.text_height - 125


def exploded(edition: Edition, parts: int, blocks: int = 0) -> Room:
    """Above a table with a row for each kind of part; a long table goes on on the next page.  If `blocks` have pictures of
    their own, it has a page to itself and they stand above the table."""
    if blocks:
        return edition.text_width, edition.text_height - 36
    return edition.text_width, max(LEAST_EXPLODED, edition.text_height - 32 - 6.8 * parts)


def exploded_block(edition: Edition, blocks: int) -> Room:
    """Two in a row."""
    return (edition.text_width if blocks == 1 else (edition.text_width - BETWEEN_BLOCKS) / 2), BLOCK_HEIGHT


def joint(edition: Edition, enlarged: bool = False) -> Room:
    """Beside its section, or as wide as the page."""
    return (edition.text_width, 70.0) if enlarged else (edition.text_width - JOINT_SECTION[0] - 8, 50.0)


def joint_section(edition: Edition, enlarged: bool = False) -> Room:
    return (edition.text_width, 90.0) if enlarged else JOINT_SECTION
