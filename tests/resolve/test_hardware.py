"""Hardware by hand: where each thing stands, what is cut for it in both parts, on every copy; kinds, places, counts."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction
from itertools import pairwise
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from trial import Trial

from planbuild.core.geometry import Face
from planbuild.pipeline import Clock, resolve_file
from planbuild.records.features import Feature, Groove, Hole
from planbuild.records.hardware import Placed
from planbuild.records.piece import Piece
from planbuild.records.solids import Solids

CUPBOARD = Path(__file__).parent.parent / "designs" / "key-cupboard.yaml"
Lay = Callable[..., Trial]

CASE = """
frame: {width: 12, depth: 5, height: 16}
parts:
  side: {stock: board, grain: up, face: left, left: 0, front: 0, back: 0, bottom: 0, top: 0, mirror: left-right, glue_up: no}
  door:
    stock: board
    grain: up
    face: front
    left: 1/16 right of side.right
    right: 1/32 left of middle
    front: 0
    bottom: 0
    top: 0
    mirror: left-right
  shelf:
    stock: board
    grain: left-right
    face: top
    left: 1/32 right of side.right
    right: 1/32 left of right side.left
    front: 1/8 behind door.back
    back: 0
    bottom: 8 above bottom
items:
  hinge: {item: butt hinge, leaf: 2 x 5/8, thickness: 1/16, knuckle: 3/16}
  pin: {item: shelf pin, diameter: 1/4, hole_depth: 3/8}
  knob: {item: turned knob, diameter: 1, projection: 1, spigot: 3/8 x 1/2}
hardware:
"""


def one(trial: Trial, id: str = "it") -> Placed:
    assert trial.found == (), [each.message for each in trial.found]
    return next(each for each in trial.laid.hardware if each.id == id)


def cut(trial: Trial, part: str) -> list[Feature]:
    return list(trial.part(part).features)


def inches(*mm: float) -> tuple[float, ...]:
    return tuple(round(each / 25.4, 6) for each in mm)


# ---------------------------------------------------------------- hinges


@pytest.fixture
def hung(lay: Lay) -> Trial:
    return lay(CASE + "  it: {item: hinge, leaves: [door.left, side.right], knuckle: front, at: [3 below top, 3 above bottom]}\n")


def test_each_leaf_is_let_in_by_half_of_what_the_knuckle_has_over_the_gap(hung: Trial) -> None:
    """(3/16 - 1/16) / 2 = 1/16 in both: with the gap of 1/16 the two recesses leave the knuckle its 3/16."""
    (upper, lower), sides = cut(hung, "door"), cut(hung, "side")
    assert isinstance(upper, Groove) and isinstance(lower, Groove) and len(sides) == 2
    assert (upper.face, upper.what) == (Face.LEFT, "recess")
    assert inches(upper.void.x.low, upper.void.x.high) == (0.8125, 0.875)
    assert inches(upper.void.y.low, upper.void.y.high) == (0.0, 0.625), "open at the front, as deep as the leaf is wide"
    assert inches(upper.void.z.low, upper.void.z.high) == (12.0, 14.0)
    assert inches(lower.void.z.low, lower.void.z.high) == (2.0, 4.0)
    (mate, _) = sides
    assert isinstance(mate, Groove) and mate.face is Face.RIGHT
    assert inches(mate.void.x.low, mate.void.x.high) == (0.6875, 0.75)


def test_mirrored_doors_have_mirrored_hinges(hung: Trial) -> None:
    hinges = one(hung)
    assert (hinges.count, hinges.brings, hinges.meets) == (4, "door", "side")
    assert [each.on for each in hinges.bought] == [(("door", c), ("side", c)) for c in (0, 0, 1, 1)]
    left, right = hinges.bought[0].box, hinges.bought[2].box
    assert inches(left.x.low, left.x.high) == inches(12 * 25.4 - right.x.high, 12 * 25.4 - right.x.low)


def test_the_knuckle_stands_in_the_middle_of_the_gap_before_the_front(hung: Trial) -> None:
    barrel = one(hung).bought[0].lumps[-1]
    assert inches(barrel.box.x.middle, barrel.box.y.middle, barrel.box.size(barrel.round.others[0])) == (0.78125, 0.0, 0.1875)  # type: ignore[union-attr]


def _said(count: int, of: int) -> str:
    """`2-3/8`."""
    whole, part = divmod(Fraction(count, of), 1)
    return "-".join(str(each) for each in (whole, part) if each) or "0"


SIZES = st.tuples(st.integers(2, 12), st.integers(1, 4), st.integers(1, 16), st.integers(0, 40), st.integers(4, 30))


@settings(max_examples=15, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(sizes=SIZES)
def test_hinges_of_any_size_are_let_in_or_refused(sizes: tuple[int, int, int, int, int], lay: Lay) -> None:
    """The floors of the two recesses are a knuckle apart, and each recess lies in its part; else a finding says why not."""
    knuckle, thick, wide, place, long = sizes
    leaf = f"{_said(long, 8)} x {_said(wide, 16)}"
    hinge = f"{{item: butt hinge, leaf: {leaf}, thickness: {_said(thick, 32)}, knuckle: {_said(knuckle, 32)}}}"
    line = f"  it: {{item: {hinge}, leaves: [door.left, side.right], knuckle: front, at: [{_said(place, 4)} above bottom]}}\n"
    trial = lay(CASE + line)
    if trial.found:
        assert {each.code for each in trial.found} <= {"hardware-gap", "hardware-beside", "hardware-deep"}
        return
    for part in ("door", "side"):
        (recess,) = cut(trial, part)
        assert isinstance(recess, Groove)
        common = recess.void.meet(trial.part(part).body)
        assert common.volume == pytest.approx(recess.void.volume)
    door, side = (cut(trial, part)[0] for part in ("door", "side"))
    assert isinstance(door, Groove) and isinstance(side, Groove)
    assert inches(door.void.x.high - side.void.x.low) == (knuckle / 32,)


CUP = """
  it: {item: {item: cup hinge}, leaves: [door.back, side.right], at: [3 below top]}
"""


def test_a_cup_hinge_by_the_trade_s_sizes(lay: Lay) -> None:
    """35 mm cup 4 mm from the edge, 12 deep; holes 37 mm behind the front of the side, 32 mm apart (system 32)."""
    before = CASE.replace("    front: 0\n    bottom", "    front: -3/4 inside front\n    bottom")
    overlay = before.replace("left: 1/16 right of side.right", "left: 1/16")
    trial = lay(overlay + CUP)
    cups = [each for each in cut(trial, "door") if isinstance(each, Hole)]
    plates = [each for each in cut(trial, "side") if isinstance(each, Hole)]
    door = trial.part("door").body
    (cup,) = cups
    assert (cup.face, cup.diameter, cup.depth) == (Face.BACK, 35.0, 12.0)
    assert cup.centre[0] - door.x.low == pytest.approx(4 + 17.5)
    assert [round(each.centre[1], 6) for each in plates] == [37.0, 37.0]
    assert abs(plates[0].centre[2] - plates[1].centre[2]) == pytest.approx(32.0)


# ---------------------------------------------------------------- shelf pins


WALLS = "in: [side.right, right side.left], rows: [1 inside front, 1 inside back]"
PINS = f"  it: {{item: pin, carries: shelf, {WALLS}, holes: HOLES}}\n"


def test_rows_of_holes_with_a_pin_under_the_shelf(lay: Lay) -> None:
    trial = lay(CASE + PINS.replace("HOLES", "{pitch: 1, count: 5, around: shelf.bottom}"))
    holes = [each for each in cut(trial, "side") if isinstance(each, Hole)]
    assert len(holes) == 10 and {each.face for each in holes} == {Face.RIGHT}
    heights = sorted({inches(each.centre[2]) for each in holes})
    assert heights == [(5.875,), (6.875,), (7.875,), (8.875,), (9.875,)], "the middle one lies 1/8 under the shelf"
    pins = one(trial)
    assert pins.count == 4 and all(inches(each.box.z.high) == (8.0,) for each in pins.bought), "the shelf lies on its pins"


def test_the_metric_pitch_of_the_trade(lay: Lay) -> None:
    """Holes 5 mm, 32 mm apart, 37 mm behind the front edge (system 32)."""
    text = CASE.replace("diameter: 1/4, hole_depth: 3/8", "diameter: 5 mm, hole_depth: 10 mm")
    rows = PINS.replace("HOLES", "{pitch: 32 mm, count: 7, around: shelf.bottom}")
    rows = rows.replace("1 inside front", "37 mm inside side.front")
    holes = [each for each in cut(lay(text + rows), "side") if isinstance(each, Hole)]
    front = sorted(each.centre[2] for each in holes if abs(each.centre[1] - 37.0) < 0.001)
    assert len(front) == 7 and all(b - a == pytest.approx(32.0) for a, b in pairwise(front))


# ---------------------------------------------------------------- on a face


@pytest.mark.parametrize(
    ("at", "places"),
    [
        ("", [(3.390625, 8.0)]),
        ("at: middle", [(3.390625, 8.0)]),
        ("at: [3 below top]", [(3.390625, 13.0)]),
        ("at: [3 below top, middle]", [(3.390625, 13.0), (3.390625, 8.0)]),
        ("at: {left-right: 1 inside right}", [(4.96875, 8.0)]),
        ("at: {right: 1 inside right}", [(4.46875, 8.0)]),
        ("at: {left-right: 1 inside right, bottom-top: [2 above bottom, 3 above bottom]}", [(4.96875, 2.0), (4.96875, 3.0)]),
        ("at: {left-right: {value: 1 inside right, why: clear}}", [(4.96875, 8.0)]),
    ],
)
def test_the_forms_of_at(at: str, places: list[tuple[float, float]], lay: Lay) -> None:
    knob = one(lay(CASE + f"  it: {{item: knob, on: door.front{', ' if at else ''}{at}}}\n"))
    drawn = [each for each, bought in zip(knob.at, knob.bought, strict=True) if bought.on[0][1] == 0]
    assert [inches(x, z) for x, _, z in drawn] == [pytest.approx(each) for each in places]
    assert knob.count == 2 * len(places)


def test_one_hand_named_gets_it_alone_and_then_the_copies_differ(lay: Lay) -> None:
    """The right side alone would get the hole: a mirrored part is one part."""
    trial = lay(CASE + "  it: {item: knob, on: right door.front}\n")
    assert "joint-copies-differ" in [each.code for each in trial.laid.setting_out.report.found]


@pytest.mark.parametrize("count", ["2", "1 each"])
def test_counts_that_agree(count: str, lay: Lay) -> None:
    assert one(lay(CASE + f"  it: {{item: knob, on: door.front, count: {count}}}\n")).count == 2


def test_a_catch_and_the_half_that_it_meets(lay: Lay) -> None:
    catch = "{item: catch, name: magnetic catch, size: 1 x 1/2 x 1/2, strike: 1 x 1/2 x 1/16}"
    at = "{left-right: 1 inside left, front: door.back}"
    line = f"  it: {{item: {catch}, on: shelf.bottom, meets: door.back, at: {at}, mirror: left-right}}\n"
    trial = lay(CASE.replace("front: 1/8 behind door.back", "front: 1/32 behind door.back") + line)
    catches = one(trial)
    assert (catches.count, catches.meets) == (2, "door")
    assert {each.on for each in catches.bought} == {(("shelf", 0), ("door", 0)), (("shelf", 0), ("door", 1))}
    (strike,) = cut(trial, "door")
    assert isinstance(strike, Groove) and inches(strike.void.y.low, strike.void.y.high) == (0.6875, 0.75)
    assert [each.name for each in trial.laid.items.values() if each.kind == "catch"] == ["magnetic catch"]


def test_let_in_by_its_recess(lay: Lay) -> None:
    trial = lay(CASE + "  it: {item: {item: lock, size: 2 x 1 x 1/4, recess: 1/8}, on: door.back}\n")
    (recess,) = cut(trial, "door")
    assert isinstance(recess, Groove) and inches(recess.void.size(recess.face.axis)) == (0.125,)
    lump = one(trial).bought[0].box
    assert inches(lump.y.low, lump.y.high) == (0.625, 0.875)


def test_a_lock_is_let_in_flush_with_its_key_hole_a_backset_from_the_edge(lay: Lay) -> None:
    """A drawer lock 2 x 1-1/2 x 1/2 at the right edge of a door, its key 3/4 in from that edge."""
    lock = "{item: lock, size: 2 x 1-1/2 x 1/2, key: 1/4, backset: 3/4}"
    trial = lay(CASE + f"  it: {{item: {lock}, on: door.back, at: {{right: right, bottom-top: 8 above bottom}}}}\n")
    recess, hole = cut(trial, "door")
    assert isinstance(recess, Groove) and isinstance(hole, Hole)
    assert inches(recess.void.size(recess.face.axis), recess.void.z.low, recess.void.z.high) == (0.5, 7.0, 9.0)
    assert (hole.purpose, hole.depth) == ("key", None) and inches(hole.diameter, hole.centre[2]) == (0.25, 8.0)
    assert inches(trial.part("door").body.x.high - hole.centre[0]) == (0.75,)
    lump = one(trial).bought[0].box
    assert inches(lump.y.low, lump.y.high) == (0.25, 0.75), "flush with the back"
    middle = lay(CASE + f"  it: {{item: {lock.replace(', backset: 3/4', '')}, on: door.back}}\n")
    assert inches(cut(middle, "door")[1].centre[2]) == (8.0,)  # type: ignore[attr-defined]


def test_a_lock_that_goes_through_its_door_is_told(lay: Lay) -> None:
    assert "hardware-deep" in lay(CASE + "  it: {item: {item: lock, size: 2 x 1 x 3/4}, on: door.back}\n").codes


def test_castors_on_plates_and_on_stems(lay: Lay) -> None:
    """They stand below the wood: the frame says how high that is."""
    plate = one(lay(CASE + "  it: {item: {item: castor, size: 2 x 3/4 x 1-1/2}, on: side.bottom, at: [1 inside front]}\n"))
    assert plate.count == 2 and inches(plate.bought[0].box.z.low, plate.bought[0].box.z.high) == (-1.5, 0.0)
    stem = "{item: castor, size: 3/4 x 3/4 x 1-1/2, stem: 3/8 x 1-1/4}"
    trial = lay(CASE + f"  it: {{item: {stem}, on: side.bottom, at: [1 inside front, 1 inside back]}}\n")
    first, second = cut(trial, "side")
    assert isinstance(first, Hole) and isinstance(second, Hole) and first.face is Face.BOTTOM
    assert inches(first.diameter, first.depth or 0, first.centre[1], second.centre[1]) == (0.375, 1.25, 1.0, 4.0)
    assert inches(one(trial).bought[0].box.z.high) == (1.25,)


@pytest.mark.parametrize("kind", ["pull", "stop", "tip restraint", "glass", "castor", "knock-down fitting", "other"])
def test_what_has_no_form_of_its_own_is_a_block_of_its_size(kind: str, lay: Lay) -> None:
    put = one(lay(CASE + f"  it: {{item: {{item: {kind}, size: 3 x 1 x 1/2}}, on: door.front}}\n"))
    box = put.bought[0].box
    assert inches(box.x.size, box.y.size, box.z.size) == (1.0, 0.5, 3.0), "along the longer way, across it, out of it"


def test_a_thing_without_a_size_is_bought_and_not_drawn(lay: Lay) -> None:
    put = one(lay(CASE + "  it: {item: {item: tip restraint, follow: its own sheet}, on: side.back}\n"))
    assert (put.count, put.bought) == (2, ())


# ---------------------------------------------------------------- the whole


@pytest.fixture(scope="module")
def cupboard() -> Piece:
    return resolve_file(CUPBOARD, Clock())


def test_screws_are_counted_with_their_hinges(cupboard: Piece) -> None:
    (hinges,) = (each for each in cupboard.hardware if each.id == "hinges")
    assert hinges.takes == (("butt_hinge", 4), ("hinge_screw", 24))
    assert "hinge_screw" in [each.id for each in cupboard.items]


@pytest.fixture(scope="module")
def solids(cupboard: Piece) -> Solids:
    from planbuild.shape import shape

    return shape(cupboard)


def test_hardware_stands_clear_of_all_wood(cupboard: Piece, solids: Solids) -> None:
    from planbuild.prove.interference import hardware_has_room
    from planbuild.prove.standing import Standing

    found = hardware_has_room(Standing(cupboard, solids))
    assert found.diagnostics == ()
    assert [each.claim for each in found.proofs] == ["Hardware has room"]


def test_a_knob_that_has_no_hole_is_told(cupboard: Piece) -> None:
    """Without its recesses and holes the same hardware claims wood."""
    from planbuild.prove.interference import hardware_has_room
    from planbuild.prove.standing import Standing
    from planbuild.shape import shape

    bare = replace(cupboard, parts=tuple(replace(p, features=tuple(f for f in p.features if f.joint)) for p in cupboard.parts))
    found = hardware_has_room(Standing(bare, shape(bare)))
    told = {each.message.split('"')[1] for each in found.diagnostics}
    assert {each.code for each in found.diagnostics} == {"hardware-overlap"}
    assert told == {"hinges", "pins", "pull", "catch"}


# ---------------------------------------------------------------- screws


BACKED = CASE.replace(
    "items:",
    "  cleat: {stock: board, grain: left-right, face: front, between: side, back: 0, top: 0, width: 2}\n"
    "  rail: {stock: board, grain: left-right, face: front, between: side, back: cleat.front, top: 0, width: 2}\nitems:",
)


def screw(length: str, on: str) -> str:
    return f"  it: {{item: {{item: wood screw, gauge: 8, length: {length}}}, on: {on}, at: [3 inside left]}}\n"


def test_a_screw_through_one_part_into_the_next(lay: Lay) -> None:
    trial = lay(BACKED + screw("1-1/4", "rail.front"))
    (shank,), (thread,) = (
        [each for each in cut(trial, part) if isinstance(each, Hole) and each.gauge] for part in ("rail", "cleat")
    )
    assert (shank.purpose, shank.depth, thread.purpose) == ("clearance", None, "pilot")
    assert inches(thread.depth or 0.0) == (0.5,), "1-1/4 less the 3/4 that it goes through"
    assert (one(trial).on, one(trial).meets) == ("rail", "cleat")


def test_a_screw_into_the_wall_may_be_as_long_as_it_likes(lay: Lay) -> None:
    trial = lay(BACKED + screw("3", "cleat.front"))
    holes = [each for each in cut(trial, "cleat") if isinstance(each, Hole)]
    assert [each.depth for each in holes] == [None] and one(trial).meets == ""


@pytest.mark.parametrize(("length", "on"), [("1-1/2", "rail.front"), ("3/4", "cleat.top"), ("3", "side.right")])
def test_screws_that_come_out_or_do_not_reach(length: str, on: str, lay: Lay) -> None:
    """Through 3/4 into 3/4 at most 1-3/8 (1/8 is left); a top 2 high holds 3/4; a side of 3/4 does not hold 3."""
    trial = lay(BACKED + screw(length, on).replace("at: [3 inside left]", "at: middle"))
    assert [each.code for each in trial.found] == ([] if on == "cleat.top" else ["hardware-screw-long"])


# ---------------------------------------------------------------- in blocks


DOOR = """\
format: 1
block: plain door
frame: opening
takes:
  wood: {is: stock}
  knob: {is: item, optional: yes}
parts:
  leaf: {stock: wood, grain: up, face: front, left: 1/16, right: 1/32, front: 0, bottom: 0, top: 0}
hardware:
  pull: {when: knob is given, item: knob, on: leaf.front, at: {left-right: 1 inside leaf.right}}
"""


def test_hardware_in_a_block_and_on_it_from_outside(lay: Lay, tmp_path: Path) -> None:
    (tmp_path / "door.yaml").write_text(DOOR, "utf-8")
    head, _, rest = CASE.partition("  door:\n")
    upright = "bottom: bottom, top: top, front: front, back: 3/4 behind front"
    opening = f"openings:\n  space: {{left: side.right, right: middle, {upright}}}\n"
    block = "blocks:\n  door: {use: door.yaml, in: space, mirror: left-right, with: {wood: board, knob: knob}}\n"
    items = rest[rest.index("items:") :]
    hinges = "  it: {item: hinge, leaves: [door.leaf.left, side.right], knuckle: front, at: [3 below top]}\n"
    trial = lay(head + opening + block + items + hinges)
    assert (one(trial).count, one(trial).brings) == (2, "door.leaf")
    pull = one(trial, "door.pull")
    assert [each.on for each in pull.bought] == [(("door.leaf", 0),), (("door.leaf", 1),)]
    assert inches(pull.at[0][0]) == (4.96875,), "1 inside the right face of the leaf"
    assert {type(each) for each in cut(trial, "door.leaf")} == {Hole, Groove}
