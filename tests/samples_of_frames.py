"""Samples of the joints of frames: rails, posts, panels.  Sizes in mm."""

from __future__ import annotations

import math
from collections.abc import Mapping

from hypothesis import strategies as st
from hypothesis.strategies import DrawFn
from samples import BACK, DEEPER, DOWN, FRONT, LEFT, RIGHT, UP, Lumber, Sample, X, Y, Z, sample, whole
from timber import box

from planbuild.core.geometry import Vec
from planbuild.records.piece import Joint

TONGUE_ROOM = 1.0
"""A groove is so much deeper than its tongue is long (table of the joints, row `tongue_room`)."""
TIP_CHAMFER = 1.0
"""Of a tenon that stands proud (row `tip_chamfer`)."""


def post_and_rail(draw: DrawFn) -> tuple[Lumber, Lumber]:
    """A rail that meets the right side of a post somewhere between its front and its back."""
    thick, wide, rail, high = whole(draw, 36, 60), whole(draw, 36, 70), whole(draw, 20, 32), whole(draw, 50, 110)
    back = whole(draw, 0, wide - rail)
    post = Lumber("post", box(0, thick, 0, wide, 0, 300), Z, Y)
    return Lumber("rail", box(thick, thick + 200, back, back + rail, 100, 100 + high), X, Y), post


@sample("mortise and tenon")
def mortise_and_tenon(draw: DrawFn) -> Sample:
    boards = rail, post = post_and_rail(draw)
    thick = whole(draw, rail.body.size(Y) / 4, rail.body.size(Y) / 2)
    above, below = whole(draw, 6, 12), whole(draw, 6, 12)
    high = rail.body.size(Z) - above - below
    said = {"kind": "mortise and tenon", "tenon": "rail.left", "thickness": f"{thick}"}
    said["shoulders"] = f"{{top: {above}, bottom: {below}}}"
    sides = (FRONT, BACK, UP, DOWN)
    if draw(st.booleans()):
        proud = whole(draw, 0, 5)
        stands = thick * high * proud - (chamfered_off(thick, high) if proud else 0.0)
        said |= {"through": "yes", **({"proud": f"{proud}"} if proud else {})}
        return Sample(boards, said, 0.0, stands, sides, beyond="rail" if proud else "")
    length = whole(draw, 12, post.body.size(X) - 9)
    return Sample(boards, {**said, "length": f"{length}"}, thick * high * DEEPER, 0.0, sides)


def chamfered_off(thick: float, high: float) -> float:
    """What a chamfer of 45 degrees takes all round the tip of a tenon (prismoidal formula)."""
    size = TIP_CHAMFER
    areas = [(thick - 2 * size * part) * (high - 2 * size * part) for part in (0, 0.5, 1)]
    return thick * high * size - size / 6 * (areas[0] + 4 * areas[1] + areas[2])


@sample("loose tenon")
def loose_tenon(draw: DrawFn) -> Sample:
    boards = rail, post = post_and_rail(draw)
    thick = whole(draw, rail.body.size(Y) / 4, rail.body.size(Y) / 2)
    wide, length = whole(draw, 20, rail.body.size(Z) - 16), whole(draw, 30, 2 * (post.body.size(X) - 10))
    said = {"kind": "loose tenon", "part": "rail.left", "thickness": f"{thick}", "width": f"{wide}", "length": f"{length}"}
    return Sample(boards, said, 2 * DEEPER * thick * wide, 0.0, (FRONT, BACK, UP, DOWN))


@sample("dowel")
def dowel(draw: DrawFn) -> Sample:
    """The dowels are bought and stand in no solid, so their holes are empty."""
    boards = rail, post = post_and_rail(draw)
    diameter, depth = draw(st.sampled_from((6, 8, 10))), whole(draw, 18, post.body.size(X) - 10)
    count = whole(draw, 1, 2 if rail.body.size(Z) > 6 * diameter else 1)
    said = {"kind": "dowel", "part": "rail.left", "diameter": f"{diameter}", "depth": f"{depth}", "count": f"{count}"}
    return Sample(boards, said, 2 * count * (depth + DEEPER) * math.pi * diameter**2 / 4)


@sample("butt")
def butt(draw: DrawFn) -> Sample:
    return Sample(post_and_rail(draw), {"kind": "butt", "part": "rail.left", "to": "post", "why": "a trial"})


@sample("loose")
def loose(draw: DrawFn) -> Sample:
    return Sample(post_and_rail(draw), {"kind": "loose", "part": "rail", "on": "post"})


# ---------------------------------------------------------------- bars that share wood


@sample("half lap")
def half_lap(draw: DrawFn) -> Sample:
    """A corner, a T or a cross, as the second bar lies."""
    thick, one, other = whole(draw, 12, 40), whole(draw, 25, 90), whole(draw, 25, 90)
    at, low = draw(st.sampled_from((0, 100))), draw(st.sampled_from((0, -120)))
    first = Lumber("first_bar", box(0, 300, 0, one, 0, thick), X, Z)
    second = Lumber("second_bar", box(at, at + other, low, 300, 0, thick), Y, Z)
    depth = whole(draw, thick / 3, 2 * thick / 3)
    blocked = (LEFT, BACK, *((RIGHT,) if at else ()), *((FRONT,) if low else ()))
    return Sample((first, second), {"kind": "half lap", "parts": "[first_bar, second_bar]", "depth": f"{depth}"}, blocked=blocked)


@sample("bridle")
def bridle(draw: DrawFn) -> Sample:
    """The corner of a frame, or a rail that passes through the top of a post."""
    thick, post, rail, passes = whole(draw, 20, 50), whole(draw, 30, 90), whole(draw, 30, 90), draw(st.sampled_from((0, 150)))
    forked = Lumber("post", box(passes, passes + post, 0, thick, 0, 300), Z, Y)
    tongued = Lumber("rail", box(0, 500, 0, thick, 300 - rail, 300), X, Y)
    said = {"kind": "bridle", "tenon": "rail", "into": "post", "thickness": f"{whole(draw, thick / 4, thick / 2)}"}
    return Sample((tongued, forked), said, blocked=(FRONT, BACK, LEFT, *((RIGHT,) if passes else ())))


@sample("notch")
def notch(draw: DrawFn) -> Sample:
    """A joist let down over a beam that it crosses, the depth shared out or round a cog; the beam goes up into it."""
    tall, thick, wide = whole(draw, 80, 120), whole(draw, 30, 50), whole(draw, 60, 120)
    deep = whole(draw, 10, tall / 4)
    beam = Lumber("beam", box(100, 100 + wide, 0, 300, 0, 80), Y, Z)
    joist = Lumber("joist", box(0, 400, 120, 120 + thick, 80 - deep, 80 - deep + tall), X, Y)
    said = {"kind": "notch", "part": "joist", "over": "beam"}
    said |= draw(st.sampled_from(({"cog": "third"}, {"depth": f"{whole(draw, 3, deep)}"})))
    from_it_alone = said.get("depth") == f"{deep}"  # the beam is not cut, and lets it slide
    return Sample((beam, joist), said, blocked=(LEFT, RIGHT, *(() if from_it_alone else (FRONT, BACK))))


# ---------------------------------------------------------------- panels


def two_boards(draw: DrawFn) -> tuple[Lumber, Lumber]:
    """Edge to edge, their faces flush."""
    thick, one, other, long = whole(draw, 12, 30), whole(draw, 60, 140), whole(draw, 60, 140), whole(draw, 100, 600)
    first = Lumber("first_board", box(0, long, 0, one, 0, thick), X, Z)
    return first, Lumber("second_board", box(0, long, one, one + other, 0, thick), X, Z)


@sample("edge glue")
def edge_glue(draw: DrawFn) -> Sample:
    return Sample(two_boards(draw), {"kind": "edge glue", "parts": "[first_board, second_board]"})


@sample("edge glue", "splined")
def splined(draw: DrawFn) -> Sample:
    """Strips in grooves of both edges, each groove deeper than the strip by the room of a tongue."""
    boards = first, second = two_boards(draw)
    thick, narrow = whole(draw, 3, first.body.size(Z) / 2), min(first.body.size(Y), second.body.size(Y))
    said = {"kind": "edge glue", "parts": "[first_board, second_board]"}
    said["splines"] = f"{{thickness: {thick}, depth: {whole(draw, 4, narrow / 3)}}}"
    return Sample(boards, said, 2 * thick * TONGUE_ROOM * first.body.size(X), blocked=(UP, DOWN))


@sample("key")
def key(draw: DrawFn) -> Sample:
    """Keys fill their recesses; a butterfly holds the boards together, a bar only keeps them level.  They lie in the top."""
    boards = first, second = two_boards(draw)
    shape, wide = draw(st.sampled_from(("butterfly", "bar"))), whole(draw, 12, 30)
    long = whole(draw, 20, min(first.body.size(Y), second.body.size(Y)))
    said = {"kind": "key", "parts": "[first_board, second_board]", "shape": shape, "size": f"{long} x {wide}"}
    said |= {"depth": f"{whole(draw, 3, first.body.size(Z) / 2)}", "count": f"{whole(draw, 1, 2)}"}
    return Sample(boards, said, blocked=(LEFT, RIGHT, UP, *((FRONT,) if shape == "butterfly" else ())))


@sample("tongue and groove")
def tongue_and_groove(draw: DrawFn) -> Sample:
    boards = first, _ = two_boards(draw)
    thick = whole(draw, first.body.size(Z) / 4, first.body.size(Z) / 2)
    said = {"kind": "tongue and groove", "parts": "[first_board, second_board]", "thickness": f"{thick}"}
    depth = whole(draw, 3, 2 * thick)
    return Sample(boards, {**said, "depth": f"{depth}"}, thick * TONGUE_ROOM * first.body.size(X), 0.0, (UP, DOWN))


def panel_and_stile(draw: DrawFn, least: int = 8) -> tuple[tuple[Lumber, Lumber], int, int, int, dict[str, str]]:
    """A panel against one stile: both, its thickness, depth and play of its groove, what is said."""
    stile, wide, high = whole(draw, 20, 30), whole(draw, 45, 70), whole(draw, 120, 360)
    panel, depth, play = whole(draw, least, 16), whole(draw, 7, 12), whole(draw, 1, 3)
    frame = Lumber("stile", box(0, wide, 0, stile, 0, 400), Z, Y)
    held = Lumber("panel", box(wide, wide + 140, 2, 2 + panel, 20, 20 + high), Z, Y)
    said = {"kind": "panel in groove", "panel": "panel", "edges": "[left]", "depth": f"{depth}", "play": f"{play}"}
    said |= {"stopped": "yes"} if draw(st.booleans()) else {}
    return (held, frame), panel, depth, play, said


def panel_held(boards: tuple[Lumber, Lumber], said: Mapping[str, str]) -> tuple[float, float, tuple[Vec, ...]]:
    """How long the groove and the panel are, and where the panel cannot go."""
    high = boards[0].body.size(Z)
    return (high, high, (FRONT, BACK, UP, DOWN)) if "stopped" in said else (400.0, high, (FRONT, BACK))


@sample("panel in groove")
def panel_in_groove(draw: DrawFn) -> Sample:
    """As thick as its groove is wide."""
    boards, panel, depth, play, said = panel_and_stile(draw)
    groove, high, blocked = panel_held(boards, said)
    return Sample(boards, said, panel * (groove * depth - high * (depth - play)), 0.0, blocked, play)


@sample("panel in groove", "rabbeted")
def rabbeted_panel(draw: DrawFn) -> Sample:
    """Thicker than its groove: its shoulder keeps clear of the stile by the play, or stands back to a margin."""
    boards, panel, depth, play, said = panel_and_stile(draw)
    groove, high, blocked = panel_held(boards, said)
    edge, margin = whole(draw, 4, panel - 2), draw(st.sampled_from((0, depth + 2, 25)))
    said["edge"] = f"{{thickness: {edge}, by: rabbet{f', margin: {margin}' if margin else ''}}}"
    clear = margin - (depth - play) if margin else play
    empty = edge * (groove * depth - high * (depth - play)) + (panel - edge) * clear * high
    return Sample(boards, said, empty, 0.0, blocked, min(play, clear))


@sample("panel in groove", "bevelled")
def bevelled_panel(draw: DrawFn) -> Sample:
    """The slope goes on inside the groove, where the edge is as thick as the groove is wide at its mouth only."""
    boards, panel, depth, play, said = panel_and_stile(draw, 10)
    groove, high, blocked = panel_held(boards, said)
    edge, margin, enters = whole(draw, panel / 2, panel - 2), whole(draw, 26, 45), depth - play
    said["edge"] = f"{{thickness: {edge}, by: bevel, margin: {margin}}}"
    falls = (panel - edge) / (margin - enters)
    inside, outside = enters * (edge - falls * enters / 2), falls * (margin - enters) ** 2 / 2
    return Sample(boards, said, edge * groove * depth - inside * high + outside * high, 0.0, blocked, play)


def breadboard(draw: DrawFn, wide: int) -> tuple[tuple[Lumber, Lumber], dict[str, str]]:
    thick, end = whole(draw, 20, 35), whole(draw, 60, 110)
    panel = Lumber("slab", box(end, end + 300, 0, wide, 0, thick), X, Z)
    across = Lumber("end_board", box(0, end, 0, wide, 0, thick), Y, Z)
    said = {"kind": "breadboard end", "end": "end_board", "panel": "slab.left", "tongue": f"{whole(draw, thick / 4, thick / 2)}"}
    return (panel, across), said | {"depth": f"{whole(draw, 8, 14)}", "tenon_length": f"{whole(draw, 30, end - 15)}"}


def stated(joint: Joint) -> dict[str, float]:
    """The numbers that the page of joints prints."""
    return {name: value for name, value in joint.numbers if isinstance(value, float | int)}


def beside_tenons(joint: Joint, wide: float) -> float:
    """What groove and mortises are wider and deeper than tongue and tenons, by the play that the joint states."""
    at, tongue, groove = stated(joint), stated(joint)["tongue depth"], stated(joint)["groove depth"]
    count, width, long, deep = (at[f"{each}"] for each in ("tenons at each end", "tenon width", "tenon length", "mortise depth"))
    mouths = count * width + 2 * (count - 1) * at.get("play beside every other tenon", 0.0)
    return at["tongue thickness"] * (wide * (groove - tongue) + mouths * (deep - groove) - count * width * (long - tongue))


@sample("breadboard end")
def breadboard_end(draw: DrawFn) -> Sample:
    """The play follows what the panel moves; the tongue keeps it flat, the middle tenon in its place."""
    wide = whole(draw, 200, 600)
    boards, said = breadboard(draw, wide)
    return Sample(boards, said, lambda joint: beside_tenons(joint, wide), 0.0, (UP, DOWN, FRONT, BACK))


@sample("breadboard end", "pegged")
def pegged_breadboard(draw: DrawFn) -> Sample:
    """Pegs are bought and stand in no solid: their holes go through the end, and as slots through all tenons but one."""
    wide, peg = whole(draw, 200, 600), whole(draw, 4, 6)
    boards, said = breadboard(draw, wide)
    thick = boards[0].body.size(Z)

    def empty(joint: Joint) -> float:
        at = stated(joint)
        play, tongue, others = at["play beside every other tenon"], at["tongue thickness"], at["tenons at each end"] - 1
        holes = (others + 1) * math.pi * peg**2 / 4 * thick + others * 2 * play * peg * tongue
        return beside_tenons(joint, wide) + holes

    fixed = draw(st.sampled_from(("middle", "front")))
    return Sample(boards, {**said, "fixed": fixed, "pegs": f"{{diameter: {peg}}}"}, empty, 0.0, (UP, DOWN, FRONT, BACK))
