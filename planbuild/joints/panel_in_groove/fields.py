"""What is said of a panel in its groove."""

from __future__ import annotations

from planbuild.records.design import JointSaid, Model, Said


class EdgeSaid(Model):
    """The edge of a panel thicker than its grooves: what is left of it where it leaves the groove, how the rest is cut,
    from which face, and how far in from the panel's own edge."""

    thickness: Said
    by: Said | None = None
    on: Said | None = None
    margin: Said | None = None


class PanelInGrooveSaid(JointSaid):
    """`panel` stands in what its edges meet, all of them or those that are named; `stopped` grooves are only as long as
    it needs."""

    panel: Said
    edges: Said | tuple[Said, ...] | None = None
    depth: Said | None = None
    edge: EdgeSaid | None = None
    play: Said | None = None
    stopped: Said | None = None
