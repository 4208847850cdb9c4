"""A part with edging is one solid whose faces are divided where the wood changes."""

from __future__ import annotations

import pytest
from timber import board, box, piece, said

from planbuild.core.geometry import Axis, Face
from planbuild.records.edging import Edging, laid_on
from planbuild.records.features import Feature, Groove, Rabbet
from planbuild.records.piece import Part
from planbuild.shape import shape
from planbuild.shape.kernel import faces_of, is_valid, solids_of, volume_and_centre

TOP = box(0, 400, 0, 200, 0, 18)
SIDES = (Face.LEFT, Face.RIGHT, Face.FRONT, Face.BACK)


def strip(edge: Face, mitred: bool = False) -> Edging:
    around = tuple(other for other in SIDES if other.axis is not edge.axis) if mitred else ()
    return Edging(
        **said(f"edging.{edge.value}"), edge=edge, strip=TOP, stock="ash", wood="white ash", thickness=6.0, mitred=around
    )


def edged(*edgings: Edging, cut: tuple[Feature, ...] = ()) -> Part:
    return board(*laid_on(edgings, TOP, Axis.BOTTOM_TOP), *cut, body=TOP)


@pytest.mark.parametrize(
    ("strips", "faces"),
    [
        ((strip(Face.FRONT),), 6 + 4),  # both faces and both ends are divided
        (
            (strip(Face.FRONT), strip(Face.LEFT)),
            2 * 3 + 1 + 3 * 2,
        ),  # the left strip hides an end of the front one, and shows its own two
        (tuple(strip(each, mitred=True) for each in SIDES), 4 + 2 * 5),
    ],
)
def test_faces_are_divided_where_the_wood_changes(strips: tuple[Edging, ...], faces: int) -> None:
    part = edged(*strips)
    solid = shape(piece(part)).of["board"]
    assert len(faces_of(solid.cut.wrapped)) == faces
    assert len(solids_of(solid.cut.wrapped)) == 1 and is_valid(solid.cut.wrapped)
    assert solid.volume == pytest.approx(TOP.volume)


def test_joints_cut_sheet_and_strip_alike() -> None:
    """A housing through the strip and a rabbet along it take what their boxes hold, whatever wood is there."""
    housing = Groove(**said("housing"), face=Face.TOP, void=box(100, 118, 0, 200, 12, 18), what="housing")
    step = Rabbet(**said("step"), edge=(Face.BACK, Face.TOP), void=box(0, 400, 190, 200, 12, 18))
    part = edged(strip(Face.FRONT), strip(Face.BACK), cut=(housing, step))
    solid = shape(piece(part)).of["board"]
    taken = housing.void.volume + step.void.volume - housing.void.meet(step.void).volume
    assert solid.volume == pytest.approx(TOP.volume - taken)
    volume, _ = volume_and_centre(solid.cut.wrapped)
    assert volume == pytest.approx(solid.volume)


def test_a_sheet_without_edging_has_no_seam() -> None:
    assert len(faces_of(shape(piece(board(body=TOP))).of["board"].cut.wrapped)) == 6
