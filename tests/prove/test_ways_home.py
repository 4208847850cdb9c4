"""Every joint comes apart along the way in which it goes together, told from the solids; a hook is found."""

from __future__ import annotations

from dataclasses import replace

import pytest
from timber import frame, wedged_frame

from planbuild.core.geometry import Vec
from planbuild.prove.standing import Standing
from planbuild.prove.ways_home import joints_go_home
from planbuild.records.findings import Findings
from planbuild.records.piece import Piece
from planbuild.shape import shape


def found(whole: Piece) -> Findings:
    return joints_go_home(Standing(whole, shape(whole)))


def turned(whole: Piece, way: Vec) -> Piece:
    """The same solids, but each joint said to go together along another way."""
    joints = tuple(
        replace(each, contacts=tuple(replace(contact, insert=way) for contact in each.contacts)) for each in whole.joints
    )
    return replace(whole, joints=joints)


def test_tenons_go_home_along_themselves() -> None:
    home = found(frame())
    assert home.diagnostics == ()
    assert home.proofs[0].checked == len(frame().joints[0].contacts)


@pytest.mark.parametrize("way", [(0.0, 1.0, 0.0), (0.0, 0.0, -1.0)])
def test_a_way_that_the_cheeks_of_the_mortise_stop_is_told(way: Vec) -> None:
    (fault,) = found(turned(frame(), way)).diagnostics
    assert fault.code == "joint-way" and '"rails"' in fault.message
    assert fault.span == frame().joints[0].origin


def test_wedged_tenons_are_looked_at_as_they_leave_the_bench() -> None:
    """Spread in their mortises they would not come out; the wedges themselves are left to what their joint says."""
    assert found(wedged_frame()).diagnostics == ()
