"""Small random designs as a designer might write them: a case with openings, blocks, edging and hardware, sizes at random.

Many of them are wrong on purpose: a knob wider than its rail, edging thicker than its board, a drawer without room.
Lengths in mm.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from fractions import Fraction
from random import Random

HEAD = """\
format: 1
title: Random case
contact: trial@plans.example
licence: free
units: mm
"""

DRAWER = """\
    frame: opening
    moves: {goes_in: from front, opens: to front, by: frame.depth / 2}
    takes: {wood: {is: stock}, knob: {is: item, optional: yes}, gap: {value: 1, from: 0, to: 4}}
    parts:
      face: {stock: wood, grain: left-right, face: front, left: gap, right: gap, bottom: 0, top: gap, front: 0, glue_up: no}
      cheek: {stock: wood, grain: front-back, face: left, left: gap, front: %(front)s, length: %(length)s, bottom: 0,
        top: %(top)s, mirror: left-right, glue_up: no}
      tail: {stock: wood, grain: left-right, face: front, between: cheek, back: cheek.back, bottom: %(tail_low)s,
        top: %(high)s below cheek.top, glue_up: no}
      floor: {stock: wood, grain: left-right, face: top, between: cheek, front: face.back, back: cheek.back,
        bottom: %(low)s, glue_up: no}
    joints:
      corner: %(corner)s
      end: %(end)s
      bottom: %(bottom)s
      back: {kind: loose, part: tail, on: floor}
    hardware:
      pull: {when: knob is given, item: knob, on: face.front%(pulled)s}
"""

DOOR = """\
    frame: opening
    moves: {goes_in: from front, swings: to front, about: %(about)s, by: 100 deg}
    takes: {wood: {is: stock}, panel: {is: stock}, gap: {value: 2, from: 0, to: 5}}
    parts:
      stile: {stock: wood, grain: up, face: front, left: gap, width: %(stile)s, bottom: gap, top: gap, front: 0,
        mirror: left-right}
      rail: {stock: wood, grain: left-right, face: front, between: stile, bottom: stile.bottom, width: %(rail)s,
        front: stile.front, mirror: bottom-top}
      field: {stock: panel, grain: up, face: front, left: stile.right, right: right stile.left, bottom: rail.top,
        top: upper rail.bottom, centred: {front-back: stile}, glue_up: {strips: 2}, thickness: %(thick)s}
    joints:
      frame: {kind: %(kind)s, %(member)s}
      panel: {kind: panel in groove, panel: field%(panel)s}
"""


SHELVED = ("dado", "rabbet", "sliding dovetail", "dowel", "butt", "loose tenon", "mortise and tenon", "tongue and groove")


class Dice:
    """Sizes and choices of one design."""

    def __init__(self, seed: int) -> None:
        self.random = Random(seed)

    def size(self, low: float, high: float) -> str:
        return f"{self.random.uniform(low, high):.1f}".removesuffix(".0")

    def one(self, *words: str) -> str:
        return self.random.choice(words)

    def often(self, share: float = 0.5) -> bool:
        return self.random.random() < share

    def near(self, good: float, low: float, high: float) -> str:
        """Mostly a size that will do, now and then any."""
        return self.size(0.8 * good, 1.2 * good) if self.often(0.93) else self.size(low, high)

    def maybe(self, text: str, share: float = 0.5) -> str:
        return text if self.often(share) else ""


def small_design(seed: int) -> str:
    """The text of a design: the same seed gives the same text."""
    dice = Dice(seed)
    wide, deep, high = (dice.random.randint(*ends) for ends in ((250, 900), (120, 500), (200, 900)))
    parts, joints, openings, blocks, items, hardware = (list[str]() for _ in range(6))
    _case(dice, parts, joints)
    if dice.often(0.7):
        _shelves(dice, parts, joints)
    if dice.often(0.8):
        _spaces(dice, openings, blocks, joints, parts)
    if blocks or dice.often(0.8):
        door = any("door:" in each for each in blocks)
        _fittings(dice, items, hardware, door, any("loose_shelf" in each for each in parts))
    text = f"{HEAD}frame: {{width: {wide}, depth: {deep}, height: {high}}}\nstock:\n{_stock(dice)}"
    sections = {"parts": parts, "joints": joints, "openings": openings, "blocks": blocks, "items": items, "hardware": hardware}
    return text + "".join(f"{name}:\n" + "\n".join(lines) + "\n" for name, lines in sections.items() if lines)


def _stock(dice: Dice) -> str:
    thick = dice.size(18.5, 22) if dice.often(0.95) else dice.size(8, 25)
    measured = dice.size(17, 18.5) if dice.often(0.95) else dice.size(6, 22)
    sheet = f"  ply: {{sheet: birch plywood, sold_as: 18, thickness: {measured}, sheet_size: 1220 x 2440, grain: along 2440}}\n"
    return (
        f"  board: {{species: white ash, rough: 5/4, thickness: {thick}}}\n"
        f"  thin: {{species: hard maple, rough: 4/4, thickness: {dice.near(13, 4, 15)}}}\n{sheet}"
    )


def _case(dice: Dice, parts: list[str], joints: list[str]) -> None:
    stock = dice.one("board", "ply")
    edging = ""
    if dice.often(0.9 if stock == "ply" else 0.05):
        edges = dice.one("front", "[front, back]", "all", "[front, top]", "top")
        more = dice.maybe(", how: tongued") + dice.maybe(", corners: mitred")
        edging = f", edging: {{edges: {edges}, stock: board, thickness: {dice.near(6, 0.5, 24)}{more}}}"
    side = f"  side: {{stock: {stock}, grain: up, face: left, left: 0, front: 0, back: 0, bottom: 0, top: 0, mirror: left-right"
    parts.append(f"{side}, glue_up: no{edging}}}")
    kind = dice.one(*SHELVED)
    inset = f"{dice.size(0, 60)}"
    wood = dice.one(stock, "board", "thin")
    floor = f"stock: {wood}, grain: left-right, face: top, between: side, glue_up: no"
    deep = f"front: {dice.maybe(inset) or 0}, back: {dice.maybe(inset) or 0}"
    strip = f", edging: {{edges: front, stock: board, thickness: {dice.near(5, 1, 15)}}}"
    own = dice.maybe(strip, 0.5 if wood == "ply" else 0.03)
    in_top = kind == "rabbet" or dice.often(0.05)
    low, top = ("0", "0") if in_top else (dice.size(3, 60), dice.size(3, 60))
    parts.append(f"  floor: {{{floor}, {deep}, bottom: {low}{own}}}")
    parts.append(f"  roof: {{{floor}, {deep}, top: {top}}}")
    for part in ("floor", "roof"):
        joints.append(_shelf_joint(dice, part, kind))


def _shelf_joint(dice: Dice, part: str, kind: str) -> str:
    more = dice.maybe(f", depth: {dice.near(5, 2, 16)}") if kind in ("dado", "rabbet", "sliding dovetail") else ""
    stopped = dice.maybe(f", stopped: {{front: {dice.size(2, 40)}}}", 0.3) if kind in ("dado", "sliding dovetail") else ""
    tongue = dice.maybe(f", tongue: {dice.one('third', dice.near(5, 2, 12))}", 0.2) if kind == "dado" else ""
    count = dice.maybe(f", count: {dice.random.randint(1, 9)}", 0.4) if kind in ("dowel", "loose tenon") else ""
    name = {"mortise and tenon": f"tenon: {part}", "tongue and groove": f"parts: [{part}, side]"}.get(kind, f"part: {part}")
    to = ", to: side" if kind == "butt" else ""
    return f"  {part}_joint: {{kind: {kind}, {name}{to}{more}{stopped}{tongue}{count}}}"


def _shelves(dice: Dice, parts: list[str], joints: list[str]) -> None:
    stock = dice.one("board", "thin", "ply")
    row = dice.one(
        f"repeat: {{count: {dice.random.randint(2, 4)}, along: bottom-top, between: [floor, roof]}}",
        f"repeat: {{near_gap: {dice.size(20, 300)}, along: bottom-top, between: [floor, roof]}}",
        f"bottom: {dice.size(20, 500)} above floor.top",
    )
    said = f"stock: {stock}, grain: left-right, face: top, between: side, front: {dice.size(0, 80)}"
    strip = f", edging: {{edges: {dice.one('front', 'all')}, stock: board, thickness: {dice.near(5, 1, 20)}}}"
    edging = dice.maybe(strip, 0.6 if stock == "ply" else 0.03)
    if dice.often(0.4):
        loose = "left: 1 right of side.right, right: 1 left of right side.left, front: 20, back: 5, bottom: middle, glue_up: no"
        parts.append(f"  loose_shelf: {{stock: {stock}, grain: left-right, face: top, {loose}}}")
        return
    parts.append(f"  shelf: {{{said}, back: {dice.size(0, 40)}, {row}, glue_up: no{edging}}}")
    joints.append(_shelf_joint(dice, "shelf", dice.one("dado", "sliding dovetail", "dowel", "butt")))


def _spaces(dice: Dice, openings: list[str], blocks: list[str], joints: list[str], parts: list[str]) -> None:
    right = dice.one("right side.left", "middle", f"{dice.size(60, 120)} right of side.right")
    front = f"front: {dice.size(0, 40)}, back: {dice.size(0, 60)}"
    row = ""
    if dice.often(0.3):
        parts.append("  rail: {stock: thin, grain: left-right, face: top, between: side, front: 0, width: 40, bottom: middle}")
        joints.append("  rail: {kind: butt, part: rail, to: side}")
        row = f", repeat: {{count: {dice.random.randint(2, 4)}, along: bottom-top, between: [floor, roof], rails: rail}}"
    tall = row or ", " + dice.one("bottom: floor.top, top: roof.bottom", f"bottom: floor.top, height: {dice.size(30, 500)}")
    openings.append(f"  space: {{left: side.right, right: {right}, {front}{tall}}}")
    mirror = dice.maybe(", mirror: left-right", 0.5 if right != "right side.left" else 0.05)
    if dice.often(0.6):
        given = f"wood: {dice.one('board', 'thin')}, gap: {dice.size(0, 4)}" + dice.maybe(", knob: handle", 0.5)
        blocks.append(f"  tray:\n    in: space{mirror.replace(', ', chr(10) + '    ')}\n    with: {{{given}}}\n{_drawer(dice)}")
        joints.append(f"  rests: {{kind: loose, part: tray, on: {dice.one('floor', 'floor', 'floor', '[floor, side]')}}}")
    else:
        given = f"wood: {dice.one('board', 'thin')}, panel: {dice.one('thin', 'thin', 'board')}, gap: {dice.size(0, 5)}"
        kind = dice.one("mortise and tenon", "bridle", "dowel", "loose tenon", "half lap")
        depth, bevel = (f", depth: {dice.near(9, 2, 20)}", f", edge: {{thickness: {dice.near(4, 1, 9)}, by: bevel}}")
        member = {"dowel": "part: rail", "loose tenon": "part: rail", "half lap": "parts: [rail, stile]"}.get(kind, "tenon: rail")
        text = DOOR % {
            "about": dice.one("left", "right", "top"), "stile": dice.near(45, 15, 90), "rail": dice.near(50, 10, 120),
            "thick": dice.near(7, 3, 13), "kind": kind, "member": member, "panel": dice.maybe(depth) + dice.maybe(bevel),
        }  # fmt: skip
        blocks.append(f"  door:\n    in: space{mirror.replace(', ', chr(10) + '    ')}\n    with: {{{given}}}\n{text}")


def _drawer(dice: Dice) -> str:
    corner = dice.one(
        "{kind: half-blind dovetail, tail: cheek, pin: face}", "{kind: rabbet, part: cheek.front}",
        f"{{kind: through dovetail, tail: cheek, pin: face, tails: {dice.random.randint(1, 6)}}}",
        "{kind: finger joint, parts: [cheek, face]}", "{kind: butt, part: cheek, to: face}", "{kind: dado, part: cheek.front}",
    )  # fmt: skip
    shared = "dovetail" in corner or "finger" in corner
    end = dice.one("{kind: dado, part: tail}", "{kind: butt, part: tail, to: cheek}", "{kind: dowel, part: tail}")
    bottom = dice.one(
        f"{{kind: panel in groove, panel: floor, edges: [left, right, front], depth: {dice.near(4, 2, 9)}, play: 0.5}}",
        f"{{kind: dado, part: floor, depth: {dice.near(3.5, 1, 8)}, glue: no}}",
        "{kind: butt, part: floor, to: [cheek, face], glue: no}",
    )
    return DRAWER % {
        "front": "0" if shared else "face.back",
        "length": f"frame.depth - {dice.size(0, 60)}",
        "top": f"gap + {dice.size(0, 20)}",
        "low": dice.size(5, 15) if dice.often(0.9) else "0",
        "high": dice.size(0, 12),
        "tail_low": "floor.top" if dice.often(0.93) else "0",
        "corner": corner,
        "end": end,
        "bottom": bottom,
        "pulled": dice.maybe(f", at: {{left-right: {dice.size(5, 200)} inside left}}", 0.4),
    }


def _fittings(dice: Dice, items: list[str], hardware: list[str], door: bool, shelf: bool) -> None:
    items.append(
        dice.one(
            f"  handle: {{item: turned knob, diameter: {dice.near(25, 8, 60)}, projection: {dice.near(25, 5, 60)}"
            + dice.maybe(f", spigot: {dice.near(8, 3, 20)} x {dice.near(8, 3, 40)}") + "}",
            f"  handle: {{item: pull, size: {dice.near(80, 20, 200)} x {dice.near(10, 5, 60)} x {dice.near(25, 3, 50)}"
            + dice.maybe(f", centres: {dice.near(55, 5, 190)}") + "}",
        )
    )  # fmt: skip
    items.append(f"  pin: {{item: shelf pin, diameter: {dice.near(5, 2, 15)}, hole_depth: {dice.near(8, 2, 25)}}}")
    items.append("  screw: {item: wood screw, gauge: 6, length: " + dice.near(10, 8, 60) + ", head: flat}")
    leaf = f"leaf: {dice.near(50, 15, 120)} x {dice.near(12, 6, 40)}, thickness: {dice.near(1.5, 0.5, 5)}"
    leaf += f", knuckle: {dice.near(5, 2, 14)}"
    items.append(f"  hinge: {{item: butt hinge, {leaf}, screws: screw, screws_each: 4}}")
    choices: dict[str, Callable[[], str]] = {
        "knob": lambda: f"{{item: handle, on: {dice.one('side.left', 'roof.top', 'floor.front', 'left side.front')}, at: "
        + dice.one("middle", f"{{bottom-top: {dice.size(5, 400)} above bottom}}", f"[{dice.size(5, 200)} inside left]") + "}",
        "hinges": lambda: f"{{item: hinge, leaves: [door.stile.{dice.one('left', 'left', 'top', 'back')}, side.right], at: "
        + f"[{dice.size(20, 80)} below top, {dice.size(20, 80)} above bottom]" + dice.maybe(", knuckle: front") + "}",
        "pins": lambda: "{item: pin, carries: loose_shelf, in: [side.right, right side.left], rows: "
        + f"[{dice.size(20, 60)} inside front, {dice.size(5, 60)} inside back], holes: {{pitch: {dice.size(4, 50)}, "
        + f"count: {dice.random.randint(1, 9)}, around: {dice.one('loose_shelf', 'loose_shelf', 'roof')}.bottom}}}}",
        "lock": lambda: f"{{item: {{item: lock, size: {dice.near(40, 5, 90)} x {dice.near(30, 5, 90)} x {dice.near(6, 2, 40)}}}, "
        + f"on: {dice.one('side.right', 'floor.top')}, at: {dice.one('middle', dice.size(0, 90) + ' inside front')}}}",
        "catch": lambda: f"{{item: {{item: catch, size: {dice.near(30, 5, 60)} x {dice.near(12, 5, 30)} x "
        + f"{dice.near(10, 2, 20)}}}, on: roof.bottom, at: {{front: {dice.size(0, 50)} behind roof.front}}"
        + dice.maybe(", mirror: left-right") + "}",
    }  # fmt: skip
    if not door:
        choices.pop("hinges")
    if not shelf:
        choices.pop("pins")
    for name in dice.random.sample(sorted(choices), dice.random.randint(0, 2)):
        hardware.append(f"  {name}: {choices[name]()}")


# ---------------------------------------------------------------- sound designs with other sizes

_FIGURE = re.compile(r"(?<![\w./-])(\d+-\d+/\d+|\d+/\d+|\d+(?:\.\d+)?)(?![\w/-])(?! deg)")
_FIRM = re.compile(r"^(format|  format|title|licence|contact|summary|designer)\b|species|sheet:|date|gauge|coats|practice")


def with_other_sizes(text: str, seed: int) -> str:
    """The same design with some of its figures changed: the most by a little, some by much."""
    random, lines = Random(seed), text.splitlines()
    spots = [
        (row, match.span(1))
        for row, line in enumerate(lines)
        if not _FIRM.search(line)
        for match in _FIGURE.finditer(line.partition("  #")[0])
    ]
    for row, (start, end) in sorted(random.sample(spots, min(len(spots), random.randint(1, 4))), reverse=True):
        lines[row] = lines[row][:start] + _other(lines[row][start:end], random) + lines[row][end:]
    return "\n".join(lines) + "\n"


def _other(figure: str, random: Random) -> str:
    if figure.isdigit() and random.random() < 0.3:
        return str(max(0, int(figure) + random.choice((-2, -1, 1, 2, 5))))
    whole, _, part = figure.rpartition("-")
    value = float(Fraction(whole or 0) + Fraction(part))
    return f"{value * random.choice((0, 0.1, 0.5, 0.8, 0.9, 1.1, 1.25, 1.6, 2.5, 10)):.3f}".rstrip("0").rstrip(".") or "0"
