"""What a designer may say of buttons."""

from __future__ import annotations

from planbuild.records.design import JointSaid, Said


class ButtonsSaid(JointSaid):
    """`top` is held on the rails `on`; `stock` is that of the buttons.  `count` is that on each rail."""

    top: Said
    on: tuple[Said, ...]
    stock: Said
    screw: Said
    spacing: Said | None = None
    count: Said | None = None
    groove: Said | None = None
