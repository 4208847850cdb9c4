"""What a feature is, in one sentence and as plain numbers, for the sheet of its part and for plan.json.

Faces are those of the drawn copy, as the sheet shows it.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from typing import Any

from planbuild.derive import phrases
from planbuild.derive.dimensions.measures import measures_of
from planbuild.derive.dimensions.where import edge_words
from planbuild.derive.lists.measures import is_corner_notch
from planbuild.derive.sheets.lie import lie_of
from planbuild.joints.screws import screw_words
from planbuild.records.corner_slots import CornerSlot
from planbuild.records.edging import Edging
from planbuild.records.facts import FeatureFacts
from planbuild.records.features import (
    Arch,
    Bevel,
    Chamfer,
    Curve,
    EdgeBevel,
    Feature,
    Groove,
    Hole,
    Mortise,
    Rabbet,
    RoundOver,
    Taper,
    Tenon,
)
from planbuild.records.piece import Part, Piece
from planbuild.records.pockets import Pocket
from planbuild.records.shaped import Dished, Moulding, Sawn, Turned
from planbuild.records.slanted import NO_ANGLE, AngledMortise, EndCut
from planbuild.records.tails import Comb, Sockets, Tails


def feature_facts(piece: Piece, part: Part) -> tuple[FeatureFacts, ...]:
    """One entry a feature, in order of work."""
    served = _served(piece, part)
    marks, numbers = {each.id: each.mark for each in piece.parts}, _numbers(part)
    return tuple(
        FeatureFacts(
            several=_several(part, each, served.get(each.id, "")),
            id=each.id,
            kind=each.kind,
            joint=each.joint,
            mate=marks.get(_mate(each), ""),
            words=_words(part, each, served.get(each.id, "")),
            numbers=numbers.get(each.id, ()),
        )
        for each in part.features
    )


def _mate(feature: Feature) -> str:
    mate = getattr(feature, "mate", None)
    return mate.part if mate else ""


def _served(piece: Piece, part: Part) -> Mapping[str, str]:
    """The name of the hardware that each cut is made for, by the cut's id."""
    names = {each.id: each.name for each in piece.items}
    return {id: names[placed.item] for placed in piece.hardware for own, id in placed.cuts if own == part.id}


def _words(part: Part, feature: Feature, served: str) -> str:
    if isinstance(feature, Rabbet) and is_corner_notch(part, feature):
        end, edge = sorted(feature.edge, key=lambda face: face.axis is not part.grain)
        return phrases.sentence(f"notch at the {edge.value} {end.value} corner, beside the end of the housing")
    say = _SAY.get(type(feature))
    text = (say(feature) if say else feature.kind) + (f" for the {served}" if served else "")
    return phrases.sentence(text)


def _several(part: Part, feature: Feature, served: str) -> str:
    return phrases.several(_words(part, feature, phrases.plural(served) if served else ""))


def _mortise(f: Mortise) -> str:
    how = "through mortise" if f.through else "mortise"
    if f.round:
        opened = ", opened to an oval toward the far face for the wedge" if f.flare else ""
        return f"round {how} in the {f.face.value} face for {phrases.mark(f.mate.part)}{opened}"
    if f.haunch:
        slope = f", its floor rising to the surface at the {f.rises.value}" if f.rises else ""
        return f"shallow mortise in the {f.face.value} face for the haunch of {phrases.mark(f.mate.part)}{slope}"
    opened = ", opened a little toward the far face for the wedges" if f.flare else ""
    return f"{how} in the {f.face.value} face for {phrases.mark(f.mate.part)}{opened}"


def _angled_mortise(f: AngledMortise) -> str:
    how = f"{'round ' if f.round else ''}{'through ' if f.through else ''}mortise"
    square = "turned in the face" if f.is_square_in else "leaning as its tenon comes in"
    return f"{how} in the {f.face.value} face for {phrases.mark(f.mate.part)}, {square}"


def _end_cut(f: EndCut) -> str:
    """With the two settings of a saw for a board that lies on its face square to the first slope (plane geometry)."""
    if f.joint:
        return f"mitre of the {f.end.value} end"
    (_, first), (_, second) = f.slopes
    tilt = math.degrees(math.atan(math.tan(math.radians(second)) * math.cos(math.radians(first))))
    compound = min(abs(first), abs(second)) > NO_ANGLE
    saw = f"; on the saw: mitre {abs(first):.1f}°, blade tilted {abs(tilt):.1f}°" if compound else ""
    return f"slanted cut of the {f.end.value} end{saw}"


def _tenon(f: Tenon) -> str:
    kind = f"{'round ' if f.round else ''}{'through ' if f.through else ''}tenon"
    more = [
        "standing proud" if f.proud else "",
        "tip mitred" if f.mitre else "",
        f"{phrases.counted(len(f.wedging.kerfs), 'kerf')} for wedges" if f.wedging else "",
        f"a mortise in it for {phrases.mark(f.keyway.key)}" if f.keyway else "",
        f"{phrases.counted(len(f.pegs), 'hole')} for {phrases.mark(f.pegs[0].peg)}" if f.pegs else "",
        f"a {'sloped ' if f.haunch.sloped else ''}haunch at the {f.haunch.face.value}" if f.haunch else "",
    ]
    tail = "".join(f", {each}" for each in more if each)
    return f"{kind} at the {f.end.value} end into {phrases.mark(f.mate.part)}{tail}"


def _groove(f: Groove) -> str:
    mate = f" for {phrases.mark(f.mate.part)}" if f.mate else ""
    return f"{f.what} in the {f.face.value} {'end' if f.what == 'slot' else 'face'}{mate}"


def _rabbet(f: Rabbet) -> str:
    word, mate = ("rabbet", f" for {phrases.mark(f.mate.part)}") if f.mate else ("step", "")
    return f"{word} along the edge of {f.edge[0].value} and {f.edge[1].value} face{mate}"


def _tails(f: Tails) -> str:
    mate = phrases.mark(f.mate.part)
    if f.what == "tail":
        return f"{_slim(f.comb)}dovetail at the {f.end.value} end into {mate}"
    count = phrases.counted(len(f.comb.tails), f.what.rstrip("s"))
    return f"{count} at the {f.end.value} end {'between those of' if f.what == 'fingers' else 'into'} {mate}"


def _slim(comb: Comb) -> str:
    return "tapered " if comb.slim else ""


def _sockets(f: Sockets) -> str:
    """Sockets at a corner leave pins between them; a single one is a housing or a socket."""
    mate = phrases.mark(f.mate.part)
    if f.mouth:
        return f"{_slim(f.comb)}dovetail {f.what} in the {f.face.value} face for {mate}"
    return f"pins at the end, between {phrases.counted(len(f.comb.tails), 'socket')} for {mate}"


def _edging(f: Edging) -> str:
    how = "with a tongue" if f.tongue else "glued on"
    mitred = f", mitred at the {phrases.listed(each.value for each in f.mitred)}" if f.mitred else ""
    return f"edging of {f.wood} on the {f.edge.value} edge, {how}{mitred}"


def _edges(f: Chamfer | RoundOver | Moulding) -> str:
    where = edge_words(f.edges, f.group)
    named = where if where.startswith("around") else f"of the {where}"
    word = f.form if isinstance(f, Moulding) else f.kind.replace(" ", "-")
    return f"{word} {named}{', stopped' if f.reach else ''}"


def _hole(f: Hole) -> str:
    hole = "slot" if f.slot else "hole"
    kind = {"pilot": "pilot hole", "clearance": f"clearance {hole}", "peg": "peg hole"}.get(f.purpose, hole)
    screw = f" for a {screw_words(f.gauge)} screw" if f.gauge else ""
    return f"{kind} in the {f.face.value} face{screw}{', through' if f.depth is None else ''}"


def _taper(f: Taper) -> str:
    faces = phrases.listed(face.value for face in f.faces)
    return f"taper of the {faces} {'face' if len(f.faces) == 1 else 'faces'} toward the {f.end.value} end"


def _edge_bevel(f: EdgeBevel) -> str:
    stepped = ", below a step" if f.step else ""
    return f"bevel of the {f.edge[1].value} face along its {f.edge[0].value} edge{stepped}"


def _sawn(f: Sawn) -> str:
    mate = f" for {phrases.mark(f.mate.part)}" if f.mate else ""
    if f.what == "outline":
        return f"outline of the {f.face.value} face, {phrases.counted(len(f.corners), 'corner')}"
    deep = "" if f.depth is None else ", not through"
    return f"{f.what}{mate}, sawn square to the {f.face.value} face{deep}"


_SAY: dict[type, Callable[[Any], str]] = {
    Mortise: _mortise,
    AngledMortise: _angled_mortise,
    EndCut: _end_cut,
    CornerSlot: lambda f: f"{f.what} across the mitre of the {f.end.value} end, for {phrases.mark(f.mate.part)}",
    Pocket: lambda f: f"pocket in the {f.face.value} face for a {screw_words(f.gauge)} screw into {phrases.mark(f.mate.part)}",
    Tenon: _tenon,
    Groove: _groove,
    Rabbet: _rabbet,
    Edging: _edging,
    Tails: _tails,
    Sockets: _sockets,
    Hole: _hole,
    Taper: _taper,
    Chamfer: _edges,
    RoundOver: _edges,
    Arch: lambda f: f"{'crown' if f.crown else 'arch'} in the {f.face.value} face",
    Curve: lambda f: f"curve in the {f.face.value} face",
    EdgeBevel: _edge_bevel,
    Sawn: _sawn,
    Moulding: _edges,
    Dished: lambda f: f"round hollow in the {f.face.value} face",
    Turned: lambda f: "round from end to end" if f.joint else f"turned round, {phrases.counted(len(f.stations), 'station')}",
    Bevel: lambda f: f"bevel of the {f.face.value} face; the edge at the {f.keeps.value} stays",
}


def _numbers(part: Part) -> Mapping[str, tuple[tuple[str, float | str], ...]]:
    """The sizes and places of each feature that its sheet states, by the trade's word for each, in mm or degrees."""
    found: dict[str, tuple[tuple[str, float | str], ...]] = {}
    for each in measures_of(part, lie_of(part).datum):
        found[each.feature] = (*found.get(each.feature, ()), (each.states, round(each.value, 6)))
    return found
