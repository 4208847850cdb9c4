"""The joints, one module or folder a kind.  A kind is added by adding its module and naming it in `KINDS`."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from planbuild.joints.base import JointKind
from planbuild.joints.breadboard import BreadboardEnd
from planbuild.joints.bridle import Bridle
from planbuild.joints.buttons import Buttons
from planbuild.joints.cleat import Cleat
from planbuild.joints.dado import Dado
from planbuild.joints.dovetails import HalfBlindDovetail, ThroughDovetail
from planbuild.joints.dovetails.lapped import LappedDovetail
from planbuild.joints.dovetails.sliding import SlidingDovetail
from planbuild.joints.dowel import Dowel
from planbuild.joints.finger_joint import FingerJoint
from planbuild.joints.gluing import Butt, EdgeGlue
from planbuild.joints.half_lap import HalfLap
from planbuild.joints.key import Key
from planbuild.joints.loose import Loose
from planbuild.joints.loose_tenon import LooseTenon
from planbuild.joints.mitre import Mitre
from planbuild.joints.mortise_and_tenon import MortiseAndTenon
from planbuild.joints.notch import Notch
from planbuild.joints.panel_in_groove import PanelInGroove
from planbuild.joints.plates import Plates
from planbuild.joints.pocket_screws import PocketScrews
from planbuild.joints.rabbeted import Rabbeted
from planbuild.joints.screwed import Screwed
from planbuild.joints.slotted import Batten, SlottedScrews
from planbuild.joints.tongue_and_groove import TongueAndGroove

_ALL: tuple[JointKind, ...] = (
    MortiseAndTenon(),
    LooseTenon(),
    Dowel(),
    HalfLap(),
    Notch(),
    Bridle(),
    Dado(),
    Rabbeted(),
    TongueAndGroove(),
    PanelInGroove(),
    BreadboardEnd(),
    ThroughDovetail(),
    HalfBlindDovetail(),
    SlidingDovetail(),
    LappedDovetail(),
    FingerJoint(),
    Mitre(),
    Butt(),
    EdgeGlue(),
    Buttons(),
    Plates(),
    SlottedScrews(),
    Batten(),
    Screwed(),
    PocketScrews(),
    Cleat(),
    Key(),
    Loose(),
)

KINDS: Mapping[str, JointKind] = MappingProxyType({kind.name: kind for kind in _ALL})
"""By the trade's name, as it stands after `kind:`."""
