"""What a designer may say of plates."""

from __future__ import annotations

from planbuild.records.design import ItemSaid, JointSaid, Said


class PlatesSaid(JointSaid):
    """`top` is held on the rails `on` by plates of one `item`; `count` is that on each rail."""

    top: Said
    on: tuple[Said, ...]
    item: Said | ItemSaid
    spacing: Said | None = None
    count: Said | None = None
