"""What a designer may say of a breadboard end."""

from __future__ import annotations

from planbuild.records.design import JointSaid, Model, Said


class PegsSaid(Model):
    """A peg through each tenon."""

    diameter: Said | None = None


class BreadboardSaid(JointSaid):
    """`end` lies across the ends of `panel`; `tongue` is its thickness, `depth` how far it goes in between the tenons.

    The tenon at `fixed` (the middle, or a side of the panel) holds; the panel moves to and from it.
    """

    end: Said
    panel: Said
    tongue: Said | None = None
    depth: Said | None = None
    tenon_count: Said | None = None
    tenon_length: Said | None = None
    tenon_width: Said | None = None
    fixed: Said | None = None
    pegs: PegsSaid | Said | None = None
