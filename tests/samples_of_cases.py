"""Samples of the joints of cases, boxes and tops.  Sizes in mm."""

from __future__ import annotations

from dataclasses import replace

from hypothesis import strategies as st
from hypothesis.strategies import DrawFn
from samples import BACK, DOWN, FRONT, LEFT, RIGHT, UP, Lumber, Sample, X, Y, Z, sample, whole
from timber import box

SCREW = "items:\n  screw: {item: wood screw, gauge: 8, length: 32, head: pan}\n"


def shelf_and_side(draw: DrawFn) -> tuple[Lumber, Lumber]:
    """A shelf between the ends of the side of a case, flush with it at the front and the back."""
    side, deep, shelf, at = whole(draw, 15, 30), whole(draw, 80, 300), whole(draw, 12, 25), whole(draw, 60, 200)
    upright = Lumber("side", box(0, side, 0, deep, 0, 400), Z, X)
    return Lumber("shelf", box(side, side + 200, 0, deep, at, at + shelf), X, Z), upright


@sample("dado")
def dado(draw: DrawFn) -> Sample:
    boards = _, side = shelf_and_side(draw)
    said = {"kind": "dado", "part": "shelf.left", "depth": f"{whole(draw, 3, side.body.size(X) / 3)}"}
    stop = draw(st.sampled_from((0, 5, 12, 20)))
    said |= {"stopped": f"{{front: {stop}}}"} if stop else {}
    return Sample(boards, said, blocked=(UP, DOWN, *((FRONT,) if stop else ())))


@sample("dado", "tongued")
def tongued_dado(draw: DrawFn) -> Sample:
    """A barefaced tongue, flush with the face side of the shelf."""
    boards = shelf, side = shelf_and_side(draw)
    tongue = draw(st.sampled_from(("third", f"{whole(draw, 3, shelf.body.size(Z) / 2)}")))
    said = {"kind": "dado", "part": "shelf.left", "depth": f"{whole(draw, 3, side.body.size(X) / 3)}", "tongue": tongue}
    stop = draw(st.sampled_from((0, 5, 12, 20)))
    said |= {"stopped": f"{{front: {stop}}}"} if stop else {}
    return Sample(boards, said, blocked=(UP, DOWN, *((FRONT,) if stop else ())))


@sample("sliding dovetail")
def sliding_dovetail(draw: DrawFn) -> Sample:
    boards = shelf, side = shelf_and_side(draw)
    deep = min(side.body.size(X) / 2, shelf.body.size(Z) - 1)  # deeper, a tail of 1:6 would be as thick as its shelf
    said = {"kind": "sliding dovetail", "part": "shelf.left", "depth": f"{whole(draw, 4, deep)}"}
    stop = draw(st.sampled_from((0, 5, 12, 20)))
    said |= {"slope": f"1:{whole(draw, 6, 9)}", **({"stopped": f"{{front: {stop}}}"} if stop else {})}
    return Sample(boards, said, blocked=(UP, DOWN, LEFT, RIGHT), stops=stop > 0)


@sample("sliding dovetail", "tapered")
def tapered_dovetail(draw: DrawFn) -> Sample:
    """Tight only when it is home: the narrow end stops it there, whether or not the housing runs out."""
    straight = sliding_dovetail(draw)
    return replace(straight, said={**straight.said, "taper": draw(st.sampled_from(("yes", "1", "2")))}, stops=True)


@sample("rabbet")
def rabbet(draw: DrawFn) -> Sample:
    """The top of a case in the rabbet of its side."""
    side, deep, thick = whole(draw, 15, 30), whole(draw, 80, 300), whole(draw, 12, 25)
    boards = (
        Lumber("lid", box(side, side + 200, 0, deep, 400 - thick, 400), X, Z),
        Lumber("side", box(0, side, 0, deep, 0, 400), Z, X),
    )
    said = {"kind": "rabbet", "part": "lid.left", "depth": f"{whole(draw, side / 3, 2 * side / 3)}"}
    return Sample(boards, said, blocked=(DOWN,))


# ---------------------------------------------------------------- corners of boxes


def corner(draw: DrawFn, least: int = 10) -> tuple[Lumber, Lumber]:
    """The side and the front of a box, both to the outside of their corner."""
    side, front, high = whole(draw, 10, 20), whole(draw, least, 25), whole(draw, 60, 220)
    return (
        Lumber("side", box(0, side, 0, 300, 0, high), Y, X),
        Lumber("front_board", box(0, 300, 0, front, 0, high), X, Y),
    )


def _tails(draw: DrawFn, boards: tuple[Lumber, Lumber]) -> dict[str, str]:
    high = boards[0].body.size(Z)
    said = {"tail": "side", "pin": "front_board", "tails": f"{whole(draw, 1 + high // 60, high / 28)}"}
    return {**said, "slope": f"1:{whole(draw, 6, 8)}", "half_pin": f"{whole(draw, 4, 8)}"}


@sample("mitre")
def mitre(draw: DrawFn) -> Sample:
    """Bare, or with keys or a spline, which fill their slots; pushed back, a side meets the slant of the front."""
    said = {"kind": "mitre", "parts": "[side, front_board]"}
    filling = draw(st.sampled_from(("", "keys", "spline")))
    if filling:
        count = {"count": f"{whole(draw, 1, 3)}"} if filling == "keys" else {}
        # A spline is said to be shallow: between boards of unlike thickness the usual third would come out of the thinner one.
        shallow = {"depth": "4"} if filling == "spline" else {}
        told = {"thickness" if filling == "keys" else "width": f"{whole(draw, 2, 3)}", "stock": "side_wood", **count, **shallow}
        said[filling] = "{" + ", ".join(f"{key}: {text}" for key, text in told.items()) + "}"
    held = {"": (), "keys": (LEFT, UP, DOWN), "spline": (LEFT, BACK)}[filling]
    return Sample(corner(draw), said, blocked=(FRONT, *held))


@sample("through dovetail")
def through_dovetail(draw: DrawFn) -> Sample:
    boards = corner(draw)
    return Sample(boards, {"kind": "through dovetail", **_tails(draw, boards)}, blocked=(FRONT, BACK, UP, DOWN))


@sample("half-blind dovetail")
def half_blind_dovetail(draw: DrawFn) -> Sample:
    boards = corner(draw, 15)
    said = {"kind": "half-blind dovetail", **_tails(draw, boards), "lap": f"{whole(draw, 3, 7)}"}
    return Sample(boards, said, blocked=(FRONT, BACK, UP, DOWN))


@sample("finger joint")
def finger_joint(draw: DrawFn) -> Sample:
    boards = corner(draw)
    said = {"kind": "finger joint", "parts": "[side, front_board]", "finger": f"{whole(draw, 8, 24)}"}
    return Sample(boards, said, blocked=(FRONT, UP, DOWN))


@sample("lapped dovetail")
def lapped_dovetail(draw: DrawFn) -> Sample:
    post, wide, thick = whole(draw, 35, 60), whole(draw, 40, 60), whole(draw, 15, 25)
    boards = (
        Lumber("rail", box(post, post + 200, 0, wide, 400 - thick, 400), X, Z),
        Lumber("post", box(0, post, 0, wide, 0, 400), Z, Y),
    )
    said = {"kind": "lapped dovetail", "tail": "rail.left", "length": f"{whole(draw, 12, post - 10)}"}
    return Sample(boards, {**said, "slope": f"1:{whole(draw, 6, 9)}"}, blocked=(FRONT, BACK, LEFT, RIGHT, DOWN))


# ---------------------------------------------------------------- tops, battens, cleats


def top_on(draw: DrawFn, grain: str, rail: int = 20) -> tuple[Lumber, Lumber]:
    """A top on a rail that lies along its grain or across it."""
    thick, wide, rail, high = whole(draw, 20, 30), whole(draw, 160, 300), whole(draw, rail, rail + 10), whole(draw, 50, 80)
    under = box(60, 340, 40, 40 + rail, 0, high) if grain == "along" else box(60, 60 + rail, 20, wide - 20, 0, high)
    slab = Lumber("slab", box(0, 400, 0, wide, high, high + thick), X, Z)
    return slab, Lumber("rail", under, X if grain == "along" else Y, Y if grain == "along" else X)


@sample("buttons")
def buttons(draw: DrawFn) -> Sample:
    boards = top_on(draw, draw(st.sampled_from(("along", "across"))))
    said = {"kind": "buttons", "top": "slab", "on": "rail", "stock": "rail_wood", "screw": "screw"}
    room = boards[1].body.size(boards[1].grain) - 130
    return Sample(boards, {**said, "count": f"{whole(draw, 1, min(3, max(1, 1 + room // 25)))}"}, None, None, more=SCREW)


@sample("plates")
def plates(draw: DrawFn) -> Sample:
    """Figure-eight plates on a rail that lies across the top, which they let move; the plates stand in no solid."""
    boards = top_on(draw, "across", 24)
    said = {"kind": "plates", "top": "slab", "on": "rail", "item": "plate", "count": f"{whole(draw, 1, 2)}"}
    plate = "{item: figure-eight plate, diameter: 18, centres: 15, thickness: 3, screws: small_screw}"
    screw = "{item: wood screw, gauge: 8, length: 18, head: flat}"
    return Sample(boards, said, None, more=f"items:\n  small_screw: {screw}\n  plate: {plate}\n")


@sample("slotted screws")
def slotted_screws(draw: DrawFn) -> Sample:
    boards = top_on(draw, draw(st.sampled_from(("along", "across"))), 34)
    said = {"kind": "slotted screws", "top": "slab", "on": "rail", "screw": "screw", "count": f"{whole(draw, 2, 3)}"}
    said |= {"counterbore": f"{boards[1].body.size(Z) - 18:g}"}
    return Sample(boards, {**said, "fixed_along": draw(st.sampled_from(("middle", "front")))}, None, more=SCREW)


@sample("screws")
def screws(draw: DrawFn) -> Sample:
    boards = top_on(draw, "along")
    said = {"kind": "screws", "part": "slab", "to": "rail", "item": "screw", "count": f"{whole(draw, 1, 4)}"}
    return Sample(boards, said, None, more=SCREW)


@sample("pocket screws")
def pocket_screws(draw: DrawFn) -> Sample:
    """A rail against the edge of a stile, flush with it; pockets in the back, or in the front where it is said."""
    thick, wide, stile = whole(draw, 16, 36), whole(draw, 30, 140), whole(draw, 30, 60)
    boards = (
        Lumber("rail", box(stile, stile + whole(draw, 160, 400), 0, thick, 50, 50 + wide), X, Y),
        Lumber("stile", box(0, stile, 0, thick, 0, 300), Z, Y),
    )
    said = {"kind": "pocket screws", "part": "rail.left", "to": "stile", "item": "screw"}
    said |= draw(st.sampled_from(({}, {"face": "front"}, {"count": "1"}, {"edge": "10"}))) if wide >= 50 else {"count": "1"}
    return Sample(boards, said, None, more=SCREW)


@sample("batten")
def batten(draw: DrawFn) -> Sample:
    thick, wide, bar = whole(draw, 15, 22), whole(draw, 160, 300), whole(draw, 40, 60)
    boards = (
        Lumber("batten", box(100, 100 + bar, 10, wide - 10, 0, 18), Y, Z),
        Lumber("slab", box(0, 400, 0, wide, 18, 18 + thick), X, Z),
    )
    said = {"kind": "batten", "part": "batten", "to": "slab", "screws": f"{{item: screw, count: {whole(draw, 2, 4)}}}"}
    return Sample(boards, said, None, more=SCREW.replace("32", "28"))


@sample("cleat")
def cleat(draw: DrawFn) -> Sample:
    """Two strips behind the top of a case; one hooks into the other by as much as the slope falls."""
    thick, (rise, run) = 4 * whole(draw, 3, 6), draw(st.sampled_from(((1, 1), (3, 4), (5, 4))))
    boards = (
        Lumber("hung", box(0, 400, 100, 100 + thick, 290, 350), X, Y),
        Lumber("wall", box(20, 380, 100, 100 + thick, 230, 290 + thick * rise / run), X, Y),
        Lumber("lid", box(0, 400, 0, 100, 330, 350), X, Z),
    )
    said = {"kind": "cleat", "hung": "hung", "wall": "wall", "angle": f'"{rise}:{run}"'}
    only_hung = 40 * thick * thick * rise / run / 2
    return Sample(boards, said, only_hung, blocked=(FRONT, DOWN), others={"back": "{kind: loose, part: hung, on: lid}"})
