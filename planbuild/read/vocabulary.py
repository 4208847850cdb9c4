"""The words of the language, format 1, that the reader must know: what is reserved, what is not built yet.

A field that the records can hold is not listed here: its model in `records.design` is its entry.
"""

from __future__ import annotations

from planbuild.read.nodes import Block
from planbuild.records.design import Design, EditionSaid, HardwareSaid, JointSaid, Model
from planbuild.records.shapes_said import (
    ArchSaid,
    BeadSaid,
    BevelSaid,
    BowSaid,
    ChamferSaid,
    ClipSaid,
    CoveSaid,
    CurveSaid,
    CutOutSaid,
    DishSaid,
    EndCutSaid,
    GrooveSaid,
    HoleSaid,
    NotchSaid,
    OutlineSaid,
    RabbetSaid,
    RaisedSaid,
    RoundOverSaid,
    RoundSaid,
    ShapeSaid,
    TaperSaid,
    TurnedSaid,
)

FORMAT = "1"

FACES = ("left", "right", "front", "back", "bottom", "top")
HANDS = ("lower", "upper", "first", "last")
UNITS = ("in", "ft", "mm", "cm", "m", "inch", "deg", "lb", "kg", "h", "min", "l")

RESERVED = {
    **dict.fromkeys((*FACES, "middle"), "a side of every part"),
    **dict.fromkeys(HANDS, "the word for one copy of a part"),
    **dict.fromkeys(
        ("frame", "inside", "outside", "above", "below", "behind", "ahead", "of", "and", "rounded", "to", "larger", "smaller")
        + ("is", "given", "yes", "no"),
        "a word of the language",
    ),
    **dict.fromkeys(UNITS, "a unit"),
}
"""Words that cannot name a thing, and what each is instead."""

STEP_WORDS = (
    "rough", "mill", "break_down", "edge", "lay_out", "mortise", "tenon", "mitre", "peg", "slot", "kerf", "key", "house", "lap",
    "pocket", "tails", "pins", "trench", "tail", "socket", "fingers",
    "groove", "rabbet", "bore", "make", "size", "taper", "arch", "curve", "bevel", "chamfer", "round", "dry_fit", "sand",
    "round_tenon", "prefinish", "trim", "glue", "finish", "fit",
    "drill_rows", "let_in",
    "outline", "cut_out", "notch", "corner", "turn", "dish", "mould",
)  # fmt: skip
"""The first word of a step's id.  What may follow it is known once the order of work is planned (a part, what several
parts have in common, a glue-up)."""

SHAPES: dict[str, type[ShapeSaid]] = {
    "taper": TaperSaid,
    "chamfer": ChamferSaid,
    "round_over": RoundOverSaid,
    "arch": ArchSaid,
    "curve": CurveSaid,
    "bevel": BevelSaid,
    "rabbet": RabbetSaid,
    "groove": GrooveSaid,
    "hole": HoleSaid,
    "notch": NotchSaid,
    "cut_out": CutOutSaid,
    "outline": OutlineSaid,
    "clip": ClipSaid,
    "round": RoundSaid,
    "bead": BeadSaid,
    "cove": CoveSaid,
    "raised": RaisedSaid,
    "turned": TurnedSaid,
    "dish": DishSaid,
    "bow": BowSaid,
    "end_cut": EndCutSaid,
}

LATER_JOINT_FIELDS: dict[str, tuple[str, ...]] = {}
"""By kind of joint, where a kind lacks a field of the language."""

LATER_FIELDS: dict[type[Model], tuple[str, ...]] = {
    Design: ("provenance", "serial", "owner"),
    JointSaid: ("screws", "into", "dowels", "edges"),
    HardwareSaid: ("from",),
    EditionSaid: ("way", "language", "theme"),
}
"""Fields of the language that this version does not build yet, by the model they will join."""

LATER_FORMS: dict[type[Model], dict[str, tuple[type, ...]]] = {
    BowSaid: {"how": (Block,)},
}
"""Fields that are built, but not in every form of the language."""

SERIES_NAMES = ("sizes", "species", "stock", "details", "items", "finishes", "practice", "words", "editions")
"""Sections of named things that a series gives to its designs."""

SERIES_SINGLES = ("units", "rounding", "glue", "climate", "theme")
"""Said once for all pieces of a series."""

SERIES_TEXTS = ("designer", "contact", "licence", "sources")
"""Texts for the cover that a design may say anew."""

SERIES_OWN = ("format", "series", "summary", "pieces")
"""What a series file says of itself."""

YES_NO = ("through", "glue", "glue_up", "shared", "crown", "prototype", "resaw", "split", "fit_to_work", "detail", "optional")
MEANT = {"true": "yes", "on": "yes", "y": "yes", "false": "no", "off": "no", "n": "no"}
"""Other programs' words for yes and no."""

PROSE = ("note", "why", "help", "title", "summary", "name", "hazard", "harm", "avoid", "check", "change", "notes")
"""Fields that hold sentences: names in them are words, not references."""
