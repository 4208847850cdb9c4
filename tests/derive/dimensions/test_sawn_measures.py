"""What a sheet says of outlines, mouldings, dishes, turnings: every number the proofreader wants is printed, each once."""

from __future__ import annotations

import pytest
from timber import board, said

from planbuild.core.geometry import Face
from planbuild.core.outlines import Corner
from planbuild.derive.dimensions.measure import Measure
from planbuild.derive.dimensions.measures import measures_of
from planbuild.derive.dimensions.tree import choose
from planbuild.derive.sheets.lie import lie_of
from planbuild.derive.sheets.plan import plan_views
from planbuild.proofread.completeness import Groups
from planbuild.proofread.numbers import needs_of
from planbuild.proofread.planes import planes_of
from planbuild.records.facts import Dimension
from planbuild.records.features import EdgeBevel, Feature
from planbuild.records.piece import Part
from planbuild.records.shaped import Dished, Moulding, Sawn, Station, Turned


def sawn(*points: tuple[float, ...], id: str = "it", what: str = "cut-out", face: Face = Face.TOP, **more: object) -> Sawn:
    return Sawn(**said(id), face=face, corners=tuple(Corner((x, y), *rest) for x, y, *rest in points), what=what, **more)  # type: ignore[arg-type]


FEW = (Station(0, 10), Station(40, 18, "cove"), Station(46, 18, "bead"), Station(200, 14), Station(260, 20, "ogee"))
MANY = tuple(Station(30.0 * n, 10.0 + 2 * (n % 3)) for n in range(12))

SHAPES: dict[str, tuple[Feature, ...]] = {
    "bead": (Moulding(**said(), edges=((Face.FRONT, Face.TOP),), form="bead", size=8, quirk=2, reach=(30, 370)),),
    "cove": (Moulding(**said(), edges=((Face.FRONT, Face.TOP),), form="cove", size=8),),
    "dish": (Dished(**said(), face=Face.TOP, centre=(200, 30, 20), diameter=50, depth=6),),
    "turning": (Turned(**said(), stations=FEW),),
    "long turning": (Turned(**said(), stations=MANY),),
    "raised field": (EdgeBevel(**said(), edge=(Face.FRONT, Face.TOP), margin=15, depth=12, step=3),),
    "hand hole": (sawn((150, 20, 5), (250, 20, 5), (250, 40, 5), (150, 40, 5)),),
    "recess": (sawn((150, 20), (250, 20), (250, 40), (150, 40), what="recess", depth=6.0),),
    "recess from below": (sawn((150, 20), (250, 20), (250, 40), (150, 40), what="recess", face=Face.BOTTOM, depth=6.0),),
    "notches": (
        sawn((0, 40), (30, 40), (30, 60), (0, 60), id="a", what="notch"),
        sawn((200, 0), (240, 0), (240, 15), (200, 15), id="b", what="notch"),
    ),
    "finger hole": (sawn((185, 0), (215, 0), (215, 15, 15), (185, 15, 15)),),
    "pointed end": (
        sawn((20, 0), (0, 0), (0, 30), id="a", what="clipped corner"),
        sawn((20, 60), (0, 60), (0, 30), id="b", what="clipped corner"),
    ),
    "rounded corner": (sawn((375, 60, 0.0, 25), (400, 60), (400, 35), what="rounded corner"),),
    "outline": (sawn((0, 0), (400, 0), (400, 20, 8), (200, 60, 30), (0, 20, 8), what="outline", keeps=True),),
    "long outline": (
        sawn(*((20.0 * n, 50.0 + (n % 3) * 3) for n in range(1, 19)), (400, 0), (0, 0), what="outline", keeps=True),
    ),
}


def printed(part: Part) -> list[Dimension]:
    lie = lie_of(part)
    chosen = choose(measures_of(part, lie.datum))
    plan_views(part, lie, chosen.all)
    return [_dimension(part, each, each in chosen.bracketed) for each in chosen.all]


def _dimension(part: Part, each: Measure, bracketed: bool) -> Dimension:
    axis, ends = each.axis.words if each.axis else "", (min(each.ends), max(each.ends))
    return Dimension(each.id, part.id, each.feature, each.states, each.value, "", axis, ends, "", each.unit, bracketed)


@pytest.mark.parametrize("name", SHAPES)
def test_nothing_is_missing_and_every_measure_has_a_view(name: str) -> None:
    part = board(*SHAPES[name])
    sizes = printed(part)
    assert not [need for need in needs_of(part) if not any(need.is_met_by(each) for each in sizes)]
    for axis in {plane.axis for plane in planes_of(part)}:
        groups, planes = Groups(), [plane for plane in planes_of(part) if plane.axis is axis]
        assert all(groups.join(*each.ends) for each in sizes if each.axis == axis.words and not each.bracketed)
        assert len({groups.spot(plane.at) for plane in planes}) == 1


@pytest.mark.parametrize("name", SHAPES)
def test_what_is_left_out_is_missed(name: str) -> None:
    """Each number of the feature is wanted by name or by plane: a sheet without any of them is found incomplete."""
    part = board(*SHAPES[name])
    own = {feature.id for feature in part.features}
    kept = [each for each in printed(part) if each.feature not in own]
    missed = [need for need in needs_of(part) if not any(need.is_met_by(each) for each in kept)]
    assert {need.feature for need in missed} == own


def test_many_offsets_stand_in_the_list() -> None:
    part = board(*SHAPES["long outline"])
    lie = lie_of(part)
    plan = plan_views(part, lie, choose(measures_of(part, lie.datum)).all)
    assert len(plan.notes) >= 36
