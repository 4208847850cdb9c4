"""What a feature is, in one sentence and as plain numbers, for the sheet of its part and for plan.json.

Faces are those of the drawn copy, as the sheet shows it.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import fields
from typing import Any

from planbuild.core.geometry import Axis, Box, Face
from planbuild.derive import phrases
from planbuild.derive.lists.measures import mortise_size, tenon_size
from planbuild.records.facts import FeatureFacts
from planbuild.records.piece import (
    Arch,
    Bevel,
    Chamfer,
    Curve,
    Feature,
    Groove,
    Hole,
    Mortise,
    Part,
    Piece,
    Rabbet,
    RoundOver,
    Taper,
    Tenon,
)


def feature_facts(piece: Piece, part: Part) -> tuple[FeatureFacts, ...]:
    """One entry a feature, in order of work; `numbers` in mm of the drawn copy, positions in the frame of the piece."""
    marks = {each.id: each.mark for each in piece.parts}
    return tuple(
        FeatureFacts(each.id, each.kind, each.joint, marks.get(_mate(each), ""), _words(each), _numbers(part, each))
        for each in part.features
    )


def _mate(feature: Feature) -> str:
    mate = getattr(feature, "mate", None)
    return mate.part if mate else ""


def _words(feature: Feature) -> str:
    say = _SAY.get(type(feature))
    text = say(feature) if say else feature.kind
    return phrases.sentence(text)


def _mortise(f: Mortise) -> str:
    how = "through mortise" if f.through else "mortise"
    opened = ", opened a little toward the far face for the wedges" if f.flare else ""
    return f"{how} in the {f.face.value} face for {phrases.mark(f.mate.part)}{opened}"


def _tenon(f: Tenon) -> str:
    kind = "through tenon" if f.through else "tenon"
    more = [
        "standing proud" if f.proud else "",
        "tip mitred" if f.mitre else "",
        f"{phrases.counted(len(f.wedging.kerfs), 'kerf')} for wedges" if f.wedging else "",
    ]
    tail = "".join(f", {each}" for each in more if each)
    return f"{kind} at the {f.end.value} end into {phrases.mark(f.mate.part)}{tail}"


def _groove(f: Groove) -> str:
    mate = f" for {phrases.mark(f.mate.part)}" if f.mate else ""
    return f"groove in the {f.face.value} face{mate}"


def _edges(f: Chamfer | RoundOver) -> str:
    where = f.group or ", ".join(f"{a.value} {b.value}" for a, b in f.edges)
    return f"{f.kind}: {where}{' edges' if where == 'long' else ''}{', stopped' if f.reach else ''}"


def _hole(f: Hole) -> str:
    kind = {"pilot": "pilot hole", "clearance": "clearance hole"}.get(f.purpose, "hole")
    screw = f" for a number {f.gauge} screw" if f.gauge else ""
    return f"{kind} in the {f.face.value} face{screw}{', through' if f.depth is None else ''}"


def _taper(f: Taper) -> str:
    faces = phrases.listed(face.value for face in f.faces)
    return f"taper of the {faces} {'face' if len(f.faces) == 1 else 'faces'} toward the {f.end.value} end"


_SAY: dict[type, Callable[[Any], str]] = {
    Mortise: _mortise,
    Tenon: _tenon,
    Groove: _groove,
    Rabbet: lambda f: f"step along the edge of {f.edge[0].value} and {f.edge[1].value} face",
    Hole: _hole,
    Taper: _taper,
    Chamfer: _edges,
    RoundOver: _edges,
    Arch: lambda f: f"{'crown' if f.crown else 'arch'} in the {f.face.value} face",
    Curve: lambda f: f"curve in the {f.face.value} face",
    Bevel: lambda f: f"bevel of the {f.face.value} face; the edge at the {f.keeps.value} stays",
}

_SKIP = {"id", "origin", "joint", "why", "mate"}


def _numbers(part: Part, feature: Feature) -> tuple[tuple[str, float | str], ...]:
    """Every number of the record under its own name, and the sizes a maker speaks of."""
    found: list[tuple[str, float | str]] = []
    if isinstance(feature, Mortise):
        size = mortise_size(feature)
        found += [("width", size.width), ("length", size.length), ("depth", size.depth)]
    if isinstance(feature, Tenon):
        tenon = tenon_size(part, feature)
        found += [("thickness", tenon.thickness), ("width", tenon.width), ("length", tenon.length)]
    if isinstance(feature, Arch):
        found.append(("radius", feature.radius))
    for field in fields(feature):
        if field.name not in _SKIP:
            found += _plain(field.name, getattr(feature, field.name))
    return tuple(found)


def _plain(name: str, value: Any) -> list[tuple[str, float | str]]:
    """A value of a record as names and numbers; nested records spell their field before a full stop."""
    if value is None or value == "" or value is False:
        return []
    if isinstance(value, Box):
        return [(f"{name}.{face.value}", value.at(face)) for face in Face]
    if isinstance(value, (Face, Axis)):
        return [(name, value.value if isinstance(value, Face) else value.words)]
    if isinstance(value, (str, bool)):
        return [(name, str(value).lower() if isinstance(value, bool) else value)]
    if isinstance(value, (int, float)):
        return [(name, float(value))]
    if isinstance(value, tuple):
        return [pair for index, each in enumerate(value) for pair in _plain(f"{name}.{index + 1}", each)]
    return [pair for field in fields(value) for pair in _plain(f"{name}.{field.name}", getattr(value, field.name))]
