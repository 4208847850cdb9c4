"""Samples of the forms of mortise and tenon: beside the plain one, everything that a tenon can be.  Sizes in mm."""

from __future__ import annotations

import math

from hypothesis import strategies as st
from hypothesis.strategies import DrawFn
from samples import BACK, DEEPER, DOWN, FRONT, RIGHT, UP, Lumber, Sample, X, Y, Z, sample, whole
from samples_of_frames import chamfered_off, post_and_rail
from timber import box

KIND = "mortise and tenon"
SIDES = (FRONT, BACK, UP, DOWN)
GAP = 0.75
"""Between the ends of tenons that meet (table of the joints, row `mitre_gap`)."""
INSIDE = 1.5
"""The mortise of a key begins so far inside the far face of the mate (row `key_inside`)."""


def between_shoulders(draw: DrawFn, rail: Lumber) -> tuple[int, int, float, dict[str, str]]:
    """A tenon in the middle of the thickness of its rail: its thickness, the shoulders above it, its width; all as said."""
    thick = whole(draw, rail.body.size(Y) / 4, rail.body.size(Y) / 2)
    above, below = whole(draw, 6, 12), whole(draw, 6, 12)
    said = {"kind": KIND, "tenon": "rail.left", "thickness": f"{thick}", "shoulders": f"{{top: {above}, bottom: {below}}}"}
    return thick, above, rail.body.size(Z) - above - below, said


def blind(draw: DrawFn, post: Lumber, least: float = 12) -> int:
    return whole(draw, least, post.body.size(X) - 9)


@sample(KIND, "wedged")
def wedged(draw: DrawFn) -> Sample:
    """Spread tenon and wedges fill the flared mortise; one that stands proud fans out."""
    boards = rail, _ = post_and_rail(draw)
    *_, said = between_shoulders(draw, rail)
    wedges = f"{{stock: rail_wood, count: {whole(draw, 1, 2)}{draw(st.sampled_from(('', ', slope: 1:20', ', slope: 1:12')))}}}"
    proud = whole(draw, 0, 4)
    said |= {"through": "yes", "wedges": wedges, **({"proud": f"{proud}"} if proud else {})}
    return Sample(boards, said, 0.0, None if proud else 0.0, (*SIDES, RIGHT), beyond="rail" if proud else "")


@sample(KIND, "keyed")
def keyed(draw: DrawFn) -> Sample:
    """The key fills its mortise as far as that lies outside the mate; inside, it stays clear."""
    boards = rail, _ = post_and_rail(draw)
    thick, _, high, said = between_shoulders(draw, rail)
    opening, slope, wide = whole(draw, 10, 16), whole(draw, 8, 14), whole(draw, 4, high / 2)
    long, proud = whole(draw, 2.5 * thick, 4 * thick), whole(draw, 2 * opening, 3 * opening)
    tusk = f"{{wedge: rail_wood, opening: {opening}, slope: 1:{slope}, thickness: {wide}, length: {long}}}"
    broad, thin = (opening - INSIDE - (thick - long) / 2 / slope), opening - INSIDE - (thick + long) / 2 / slope
    stands = thick * high * proud - chamfered_off(thick, high)
    stands += wide * ((broad + thin) / 2 * long - (opening - INSIDE - thick / slope / 2) * thick)
    said |= {"proud": f"{proud}", "tusk": tusk}
    return Sample(boards, said, wide * INSIDE * thick, stands, (*SIDES, RIGHT), beyond="rail")


@sample(KIND, "haunched")
def haunched(draw: DrawFn) -> Sample:
    """At the end of the post, where it shows and may be sloped, or below it."""
    rail, post = post_and_rail(draw)
    if draw(st.booleans()):
        z = rail.body.z
        rail = Lumber(rail.id, box(rail.body.x.low, rail.body.x.high, rail.body.y.low, rail.body.y.high, 300 - z.size, 300), X, Y)
    thick, above, high, said = between_shoulders(draw, rail)
    length, sloped = blind(draw, post, 16), draw(st.booleans())
    haunch = whole(draw, 4, length - 4)
    said |= {"length": f"{length}", "haunch": f"{{at: top, length: {haunch}{', slope: yes' if sloped else ''}}}"}
    empty = thick * DEEPER * (high + above * (0.5 if sloped else 1))
    return Sample((rail, post), said, empty, blocked=(FRONT, BACK, DOWN, UP))


@sample(KIND, "haunched in a groove")
def haunched_in_a_groove(draw: DrawFn) -> Sample:
    """The groove of a panel runs out past the tenon, and the haunch fills it there."""
    rail, post = post_and_rail(draw)
    low, high = (rail.body.y.low, 300 - rail.body.size(Z))
    rail = Lumber(rail.id, box(post.body.x.high, post.body.x.high + 200, low, rail.body.y.high, high, 300), X, Y)
    thick, above, wide, said = between_shoulders(draw, rail)
    groove, depth, play = whole(draw, 3, thick), whole(draw, 8, 12), whole(draw, 1, 3)
    middle, start, length = rail.body.y.middle, post.body.x.high, blind(draw, post, 16)
    held = box(start, start + 150, middle - groove / 2, middle + groove / 2, 20, high - 2)
    panel = Lumber("panel", held, Z, Y)
    said |= {"length": f"{length}", "haunch": "{at: top, length: groove}"}
    other = f"{{kind: panel in groove, panel: panel, edges: [left], depth: {depth}, play: {play}}}"
    empty = thick * wide * DEEPER + groove * depth * (300 - wide - above) - groove * (depth - play) * held.size(Z)
    return Sample((rail, post, panel), said, empty, blocked=SIDES, others={"panels": other})


@sample(KIND, "pegged")
def pegged(draw: DrawFn) -> Sample:
    """Pegs fill their holes, in line or drawn."""
    boards = rail, post = post_and_rail(draw)
    thick, _, high, said = between_shoulders(draw, rail)
    diameter = whole(draw, 4, 7)
    count, drawn = whole(draw, 1, 2 if high > 5 * diameter else 1), draw(st.sampled_from(("0", "0.5", "1", "1.5")))
    length, place = blind(draw, post, 3.5 * diameter), f"from_shoulder: {2 * diameter}"
    said |= {"length": f"{length}", "peg": f"{{diameter: {diameter}, count: {count}, draw: {drawn}, {place}}}"}
    return Sample(boards, said, thick * high * DEEPER, blocked=(*SIDES, RIGHT))


@sample(KIND, "round")
def round_tenon(draw: DrawFn) -> Sample:
    boards = rail, post = post_and_rail(draw)
    diameter = whole(draw, 10, rail.body.size(Y) - 6)
    said = {"kind": KIND, "tenon": "rail.left", "round": f"{diameter}"}
    if draw(st.booleans()):
        return Sample(boards, {**said, "through": "yes"}, blocked=SIDES)
    length = blind(draw, post)
    return Sample(boards, {**said, "length": f"{length}"}, math.pi * diameter**2 / 4 * DEEPER, blocked=SIDES)


@sample(KIND, "twin")
def twin(draw: DrawFn) -> Sample:
    """Side by side in the thickness."""
    boards = rail, post = post_and_rail(draw)
    _, _, high, said = between_shoulders(draw, rail)
    thick = whole(draw, rail.body.size(Y) / 6, rail.body.size(Y) / 4)
    said |= {"twin": "2", "thickness": f"{thick}", "apart": f"{whole(draw, 4, thick)}"}
    if draw(st.booleans()):
        return Sample(boards, {**said, "through": "yes"}, blocked=SIDES)
    return Sample(boards, {**said, "length": f"{blind(draw, post)}"}, 2 * thick * high * DEEPER, blocked=SIDES)


@sample(KIND, "divided")
def divided(draw: DrawFn) -> Sample:
    """In line in the width, with gaps as wide as the tenons."""
    boards = rail, post = post_and_rail(draw)
    thick, _, high, said = between_shoulders(draw, rail)
    count = whole(draw, 2, 3 if high > 60 else 2)
    said |= {"divided": f"{count}", "length": f"{blind(draw, post)}"}
    return Sample(boards, said, count * thick * high / (2 * count - 1) * DEEPER, blocked=SIDES)


@sample(KIND, "with play")
def with_play(draw: DrawFn) -> Sample:
    """A mortise longer than its tenon at both sides, so that a wide part can move."""
    boards = rail, post = post_and_rail(draw)
    thick, _, high, said = between_shoulders(draw, rail)
    play, length = whole(draw, 3, 5), blind(draw, post)
    empty = thick * ((high + 2 * play) * (length + DEEPER) - high * length)
    return Sample(boards, {**said, "length": f"{length}", "play": f"{play}"}, empty, blocked=(FRONT, BACK))


# ---------------------------------------------------------------- two tenons in one post


def meeting(draw: DrawFn) -> tuple[tuple[Lumber, Lumber, Lumber], int, tuple[float, float, float], int, dict[str, str]]:
    """A rail and another behind the same post, both in its middle: boards, side of the post, what rail, other and both have
    in height of their tenons, thickness, and what is said; tenons long enough to meet."""
    side, thick, shoulder = 2 * whole(draw, 22, 30), 2 * whole(draw, 3, 6), whole(draw, 6, 10)
    middle, bar = side / 2, whole(draw, 10, 14)
    spans = [(100, 100 + whole(draw, 60, 90)), (whole(draw, 90, 115), 100 + whole(draw, 60, 90))]
    rail = Lumber("rail", box(side, side + 200, middle - bar, middle + bar, *spans[0]), X, Y)
    other = Lumber("other_rail", box(middle - bar, middle + bar, side, side + 200, *spans[1]), Y, X)
    post = Lumber("post", box(0, side, 0, side, 0, 300), Z, Y)
    inner = [(low + shoulder, high - shoulder) for low, high in spans]
    common = min(inner[0][1], inner[1][1]) - max(inner[0][0], inner[1][0])
    highs = (inner[0][1] - inner[0][0], inner[1][1] - inner[1][0], common)
    length = whole(draw, middle + thick / 2, side - 9)
    said = {"kind": KIND, "tenon": "[rail.left, other_rail.front]", "thickness": f"{thick}", "length": f"{length}"}
    said["shoulders"] = f"{{top: {shoulder}, bottom: {shoulder}}}"
    return (rail, post, other), side, highs, thick, said


@sample(KIND, "mitred")
def mitred(draw: DrawFn) -> Sample:
    """Each is cut back by half of the gap, measured across the mitre; their mortises run into each other."""
    boards, side, (one, two, both), thick, said = meeting(draw)
    long = int(said["length"]) - GAP / math.sqrt(2)
    shared = min(thick, long + DEEPER - (side - thick) / 2) ** 2 * both
    empty = thick * (one + two) * (long + DEEPER) - shared - thick * (one + two) * (long - thick / 2)
    return Sample(boards, said, empty, blocked=SIDES)


@sample(KIND, "butted")
def butted(draw: DrawFn) -> Sample:
    """The first stays whole; the mortise of the other runs a little into its own."""
    boards, _, (one, two, both), thick, said = meeting(draw)
    empty = thick * (one + two) * DEEPER - thick * (DEEPER - GAP) * both
    return Sample(boards, {**said, "meeting": "{how: butted, first: rail}"}, empty, blocked=SIDES)


@sample(KIND, "stopping short")
def stopping_short(draw: DrawFn) -> Sample:
    """With a little wood between the corners of their mortises: where these touch, the post would be no solid."""
    boards, _, (one, two, _), thick, said = meeting(draw)
    return Sample(boards, {**said, "meeting": "stop short"}, thick * (one + two) * DEEPER, blocked=SIDES)


@sample(KIND, "over and under")
def over_and_under(draw: DrawFn) -> Sample:
    """Each keeps its half of the height that they share; nothing of the lower one is left above the upper one's half."""
    boards, _, _, thick, said = meeting(draw)
    rail, _, other = (board.body.z for board in boards)
    shoulder = int(said["shoulders"].split("bottom: ")[1][:-1])
    said |= {"meeting": "{how: over and under, above: rail}"}
    return Sample(boards, said, thick * (rail.high - other.low - 2 * shoulder) * DEEPER, blocked=SIDES)


@sample(KIND, "crossing")
def crossing(draw: DrawFn) -> Sample:
    """One goes right through, the other is butted against its cheek."""
    boards, _, (_, two, both), thick, said = meeting(draw)
    empty = thick * two * DEEPER - thick * (DEEPER - GAP) * both
    return Sample(boards, {**said, "meeting": "{how: crossing, through: rail}"}, empty, blocked=SIDES)
