"""What cannot be cut is told in words of the trade, at the feature's own place, all of it at once."""

from __future__ import annotations

import pytest
from timber import BOTTOM_TOP, FRONT_BACK, board, box, piece, said, wedged_rail

from planbuild.core.diagnostics import Diagnostic, Refused, Span
from planbuild.core.geometry import Face
from planbuild.records.features import (
    Arch,
    Bevel,
    Chamfer,
    Curve,
    EdgeBevel,
    Feature,
    Groove,
    Hole,
    Mate,
    Mitre,
    Mortise,
    RoundOver,
    Taper,
    Tenon,
)
from planbuild.records.piece import Part
from planbuild.shape import shape

LONG = tuple((a, b) for a in (Face.FRONT, Face.BACK) for b in (Face.BOTTOM, Face.TOP))


def faults(*parts: Part) -> tuple[Diagnostic, ...]:
    with pytest.raises(Refused) as refused:
        shape(piece(*parts))
    return refused.value.diagnostics


CASES: dict[str, tuple[tuple[Feature, ...], str]] = {
    "chamfer too large": ((Chamfer(**said(), edges=LONG, size=10),), "leaves nothing of the front"),
    "round over too large": ((RoundOver(**said(), edges=((Face.TOP, Face.FRONT),), radius=20),), "leaves nothing of the front"),
    "edge gone": (
        (
            Chamfer(**said("a"), edges=((Face.TOP, Face.FRONT),), size=2),
            RoundOver(**said(), edges=((Face.FRONT, Face.TOP),), radius=2),
        ),
        "no edge left between front and top",
    ),
    "inside corner": (
        (
            Arch(**said("a"), face=Face.FRONT, rise=10, start=100, stop=300, crown=True),
            Chamfer(**said(), edges=((Face.FRONT, Face.TOP),), size=2),
        ),
        "inside corner",
    ),
    "mortise beside the wood": (
        (Mortise(**said(), face=Face.FRONT, void=box(500, 540, 0, 15, 5, 15), mate=Mate("x")),),
        "takes nothing off",
    ),
    "groove half outside": ((Groove(**said(), face=Face.TOP, void=box(0, 800, 20, 30, 15, 20)),), "Only 50 %"),
    "mortise that cuts the part in two": (
        (Mortise(**said(), face=Face.TOP, void=box(100, 140, 0, 60, 0, 20), mate=Mate("x")),),
        "falls into 2 pieces",
    ),
    "hole off the edge": (
        (Hole(**said(), face=Face.TOP, centre=(50, 1, 20), diameter=8, depth=None),),
        "% of it lies in the wood",
    ),
    "taper that leaves all": (
        (Taper(**said(), faces=(Face.BACK,), end=Face.LEFT, start=300, leaving=((FRONT_BACK, 60),)),),
        "leaves as much as there is",
    ),
    "taper without length": (
        (Taper(**said(), faces=(Face.BACK,), end=Face.LEFT, start=0, leaving=((FRONT_BACK, 40),)),),
        "starts where it ends",
    ),
    "mortise that opens too late": (
        (
            Mortise(
                **said(),
                face=Face.FRONT,
                void=box(100, 140, 0, 60, 5, 15),
                mate=Mate("x"),
                through=True,
                flare=1.0,
                flare_axis=BOTTOM_TOP,
                flare_from=60.0,
            ),
        ),
        "only at its far face",
    ),
    "curve of one point": ((Curve(**said(), face=Face.FRONT, points=((0, 5),)),), "two points or more"),
    "curve that turns back": (
        (Curve(**said(), face=Face.FRONT, points=((0, 5), (300, 20), (300, 20), (400, 5))),),
        "solid modeller gave up",
    ),
    "bevel too steep": ((Bevel(**said(), face=Face.BACK, keeps=Face.TOP, angle=80),), "as deep as the part"),
    "edge bevel too deep": (
        (EdgeBevel(**said(), edge=(Face.BACK, Face.TOP), margin=20, depth=20),),
        "larger than the part",
    ),
    "arch too high": ((Arch(**said(), face=Face.FRONT, rise=40, start=175, stop=225),), "at most half its length"),
    "curve right through": ((Curve(**said(), face=Face.FRONT, points=((0, 0), (200, 70), (400, 0))),), "falls into 2 pieces"),
    "mitre past the tip": (
        (Tenon(**said(), end=Face.LEFT, block=box(-30, 0, 10, 50, 6, 14), mate=Mate("x"), mitre=Mitre(Face.TOP, 31)),),
        "mitre begins",
    ),
    "tenon off its shoulder": (
        (Tenon(**said(), end=Face.LEFT, block=box(-30, 0, 70, 90, 6, 14), mate=Mate("x")),),
        "falls into 2 pieces",
    ),
    "mortise that opens nowhere": (
        (Mortise(**said(), face=Face.FRONT, void=box(100, 140, 0, 60, 5, 15), mate=Mate("x"), through=True, flare=1.0),),
        "in no direction",
    ),
}


@pytest.mark.parametrize("case", CASES)
def test_fault_is_told(case: str) -> None:
    features, words = CASES[case]
    (found,) = faults(board(*features))
    assert found.code == "shape-failed"
    assert found.span == Span("by-hand.yaml", 7, 3)
    assert f'{features[-1].kind} "{features[-1].id}" of board' in found.message
    assert words in found.message


def test_all_faults_of_all_parts_are_told() -> None:
    bad = Chamfer(**said(), edges=LONG, size=10)
    none = Taper(**said("t"), faces=(Face.TOP,), end=Face.LEFT, start=10, leaving=((BOTTOM_TOP, 20),))
    flat = board(id="flat", body=box(0, 400, 0, 60, 0, 0))
    assert len(faults(board(bad), board(bad, none, id="other"), flat)) == 4


def test_kerfs_that_leave_no_strip() -> None:
    (found, *_) = faults(wedged_rail(kerfs=(87.0, 106.0)))
    assert "no strip" in found.message
