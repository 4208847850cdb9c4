"""What a designer may say of a mortise and tenon."""

from __future__ import annotations

from collections.abc import Mapping

from pydantic import Field

from planbuild.records.design import JointSaid, Model, Said


class WedgesSaid(Model):
    """Wedges of a through tenon: `count` for each tenon, `slope` of the spread strips."""

    stock: Said
    count: Said | None = None
    slope: Said | None = None


class TuskSaid(Model):
    """The key of a through tenon, made of `wedge`: `opening` is how long its mortise is where it goes in."""

    wedge: Said
    slope: Said | None = None
    opening: Said | None = None
    thickness: Said | None = None
    length: Said | None = None


class HaunchSaid(Model):
    """A step beside the tenon: at which side, how long (`groove`: as deep as the groove that it fills)."""

    at: Said
    length: Said | None = None
    slope: Said | None = None


class PegSaid(Model):
    """Pegs through mate and tenon, `count` for each tenon: `draw` is how much nearer to the shoulder the hole in the tenon
    lies than that in the mate (0: in line), `from_shoulder` where that in the mate lies; `stock`: the tenon's, unless said."""

    diameter: Said | None = None
    count: Said | None = None
    draw: Said | None = None
    from_shoulder: Said | None = None
    stock: Said | None = None


class MeetingSaid(Model):
    """How two tenons in one post get out of each other's way: `first` names the part whose tenon stays whole, `above`
    that whose tenon lies higher, `through` that whose tenon goes right through, `with` another joint whose tenons stay as
    they are."""

    how: Said
    first: Said | None = None
    above: Said | None = None
    through: Said | None = None
    other: Said | None = Field(None, alias="with")


class MortiseAndTenonSaid(JointSaid):
    """`tenon` names the parts that enter; faces in `shoulders`, `from_face` and `bare` are the tenon part's own.

    `into` names the mates if an end meets more than one part: one, several, or one for each end.  `twin` tenons stand
    side by side in the thickness, `divided` ones in line in the width, `apart` from each other.  `play` is how much
    longer a mortise is than its tenon is wide, at each side, so that a wide part can move.  `round` is the diameter of
    a round tenon, which stands in the middle of its end.
    """

    tenon: tuple[Said, ...]
    into: tuple[Said, ...] | Mapping[str, Said] = ()
    thickness: Said | None = None
    length: Said | None = None
    width: Said | None = None
    shoulders: Mapping[str, Said] = {}
    from_face: Mapping[str, Said] = {}
    bare: tuple[Said, ...] = ()
    twin: Said | None = None
    divided: Said | None = None
    apart: Said | None = None
    through: Said | None = None
    proud: Said | None = None
    wedges: WedgesSaid | None = None
    tusk: TuskSaid | None = None
    play: Said | None = None
    haunch: HaunchSaid | None = None
    peg: PegSaid | None = None
    round: Said | None = None
    meeting: MeetingSaid | Said | None = None

    @property
    def looks_at_others(self) -> bool:
        """True if another joint must be cut first: its groove is filled, or its tenons are given way to."""
        fills = self.haunch is not None and self.haunch.length is not None and self.haunch.length.text == "groove"
        return fills or (isinstance(self.meeting, MeetingSaid) and self.meeting.other is not None)
