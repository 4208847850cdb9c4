"""What a designer may say of a mitre."""

from __future__ import annotations

from planbuild.records.design import JointSaid, Model, Said


class SplineSaid(Model):
    """A strip let into both mitre faces: `width` is that of its slot, `depth` how far it goes into each."""

    width: Said | None = None
    depth: Said | None = None
    stock: Said | None = None


class KeysSaid(Model):
    """Small boards let into saw slots across the outside of the corner: `depth` is how far in, along the mitre."""

    count: Said | None = None
    thickness: Said | None = None
    depth: Said | None = None
    stock: Said | None = None


class MitreSaid(JointSaid):
    """Each two of `parts` that share a corner are mitred there; `angle` is that of the cut from square, on the first."""

    parts: tuple[Said, ...]
    angle: Said | None = None
    spline: SplineSaid | None = None
    keys: KeysSaid | None = None
