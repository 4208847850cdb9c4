"""Every word under `shape`, said once of a board: 400 mm along its grain, 120 wide, 20 thick."""

from __future__ import annotations

DESIGN = """\
format: 1
title: Trial
contact: trial@plans.example
licence: free
units: mm
frame: {width: 400, depth: 120, height: 20}
stock:
  board: {species: white ash, rough: 5/4, thickness: 20}
parts:
  slab: {stock: board, grain: left-right, face: top, left: 0, front: 0, bottom: 0, length: 400, width: 120, glue_up: no, SAID}
""".replace("SAID", "shape: [SHAPE]")

SHAPES = {
    "taper": "{taper: {faces: front, from: 150 inside left, to: right, leaving: 90}}",
    "chamfer": "{chamfer: {edges: front top, size: 4, from: 30 inside left, to: 40 inside right}}",
    "round over": "{round_over: {edges: long, radius: 5}}",
    "arch": "{arch: {edge: front, rise: 15, from: 40 inside left, to: 60 inside right}}",
    "crown": "{arch: {edge: front, rise: 15, crown: yes}}",
    "curve": "{curve: {edge: front, through: [[0, 2], [100, 12], [250, 5], [400, 9]]}}",
    "bevel of an end": "{bevel: {end: left, angle: 20 deg, toward: top}}",
    "bevel of an edge": "{bevel: {edge: front, angle: 12 deg, toward: top}}",
    "hole": "{hole: {face: top, at: {left-right: 60 inside left}, diameter: 12, depth: 10}}",
    "row of holes": "{hole: {face: top, repeat: {count: 4, along: left-right, apart: 60}, diameter: 8, depth: 9}}",
    "counterbored hole": "{hole: {face: top, diameter: 5, through: yes, counterbore: {diameter: 12, depth: 7}}}",
    "rabbet": "{rabbet: {edge: front top, width: 12, depth: 8, from: 50 inside left}}",
    "groove": "{groove: {face: top, at: 15 inside front, width: 6, depth: 7, to: 50 inside right}}",
    "notch at a corner": "{notch: {corner: back left, length: 30, width: 20}}",
    "notch in an edge": "{notch: {edge: front, at: 120 inside left, length: 40, width: 15}}",
    "cut-out": "{cut_out: {face: top, at: {left-right: 90 inside left}, size: 60 x 40, radius: 8, through: yes}}",
    "recess": "{cut_out: {face: top, size: 60 x 40, radius: 8, depth: 6}}",
    "clip": "{clip: {corner: left front, along: {left-right: 30, front-back: 20}}}",
    "round": "{round: {corner: [left front, right front], radius: 25}}",
    "outline": "{outline: {on: top, points: [[0, 0], [400, 0, 30], [400, 80], [200, 120, 40], [0, 90]]}}",
    "cove": "{cove: {edges: front top, radius: 6}}",
    "bead": "{bead: {edges: front top, size: 6}}",
    "raised": "{raised: {faces: top, margin: 30, edge_thickness: 8, step: 3}}",
    "dish": "{dish: {face: top, diameter: 90, depth: 8}}",
    "bow": "{bow: {toward: front, rise: 15}}",
    "turned": "{turned: {profile: [[0, 12], [60, 18 cove], [62, 18 bead], [200, 16], [400, 20]]}}",
    "end cut": "{end_cut: {end: left, angles: {front-back: 5 deg, bottom-top: 8 deg}}}",
}


def design_of(name: str, shape: str) -> str:
    """The board with that shape, or for what is turned a square bar."""
    square = DESIGN.replace("120", "20") if name == "turned" else DESIGN
    return square.replace("SHAPE", shape)
