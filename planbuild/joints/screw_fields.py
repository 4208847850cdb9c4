"""What a designer may say of screws, in a joint of screws or beside the glue of another."""

from __future__ import annotations

from pydantic import Field

from planbuild.records.design import ItemSaid, Model, Said


class ScrewFields(Model):
    """`item` by its name or described on the spot; `start` (written `from`) is the part they go through first."""

    item: Said | ItemSaid
    count: Said | None = None
    spacing: Said | None = None
    rows: Said | None = None
    """How many rows stand side by side on each seam; one if nothing is said."""
    edge: Said | None = None
    """How far the outer screws stand from the ends of what they hold."""
    counterbore: Said | None = None
    """How deep the heads are let in."""
    plugs: Said | None = None
    """Stock of the plugs that close the counterbores."""
    start: Said | None = Field(None, alias="from")


def span_of_item(said: Said | ItemSaid) -> Said:
    """The words that name or begin the description of an item."""
    return said if isinstance(said, Said) else said.item
