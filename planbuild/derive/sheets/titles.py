"""What the views of a sheet are called, in words a maker uses."""

from __future__ import annotations

from planbuild.core.geometry import Axis, Face
from planbuild.derive import phrases
from planbuild.derive.sheets.ends import ends_alike, tenons_alike
from planbuild.derive.sheets.lie import Lie
from planbuild.derive.sheets.plan import Kind, ViewPlan
from planbuild.records.features import Feature, Groove, Mortise, Rabbet, Tenon
from planbuild.records.piece import Part, Piece
from planbuild.records.slanted import AngledMortise
from planbuild.records.tails import Sockets

_FROM = {Face.TOP: "from above", Face.BOTTOM: "from below"}


def title_of(piece: Piece, part: Part, lie: Lie, plan: ViewPlan) -> tuple[str, str]:
    """The name of a view, and what else is said of it."""
    if plan.kind is Kind.LONG:
        return _long(piece, part, lie, plan.face)
    if plan.kind is Kind.END:
        return f"{plan.face.value.capitalize()} end", "both ends alike" if ends_alike(part) else ""
    if plan.kind is Kind.SECTION:
        return _section(piece, part, plan)
    alike = "both ends alike" if ends_alike(part) else ""
    if len([f for f in part.features if isinstance(f, Tenon)]) > 2:
        alike = "all alike" if tenons_alike(part) else ""
    return f"Tenon seen {_FROM.get(plan.face, f'from the {plan.face.value}')}", alike


def _section(piece: Piece, part: Part, plan: ViewPlan) -> tuple[str, str]:
    if plan.letter:
        return f"Section {plan.letter}–{plan.letter}", ""
    (feature,) = (f for f in part.features if f.id == plan.features[0])
    if isinstance(feature, Groove):
        return f"Cut through the {feature.what}{f' for {_mark(piece, feature)}' if feature.mate else ''}", ""
    return f"Cut along the mortise for {_mark(piece, feature)}", ""


def _long(piece: Piece, part: Part, lie: Lie, face: Face) -> tuple[str, str]:
    word = face_word(piece, part, lie, face)
    sides = {part.face: "face side", part.edge: "face edge"}
    takes = list(dict.fromkeys(_mark(piece, f) for f in part.features if _opens(f, face)))
    said = [sides.get(face, ""), f"takes {phrases.listed(m for m in takes if m)}" if any(takes) else ""]
    if face is lie.main and part.grain is Axis.BOTTOM_TOP:
        said.append(f"{lie.start.value} end at the left")
    return "Underside" if word == "bottom" else f"{word.capitalize()} face", ", ".join(each for each in said if each)


def _opens(feature: Feature, face: Face) -> bool:
    """True if what a face takes goes in at it; a rabbet is told at the face it runs along, not at the end it cuts."""
    if isinstance(feature, Rabbet):
        return feature.edge[0] is face
    return isinstance(feature, (Mortise, AngledMortise, Groove, Sockets)) and feature.face is face


def face_word(piece: Piece, part: Part, lie: Lie, face: Face) -> str:
    """Inside or outside where that tells the drawn faces apart, else the face of the drawn copy."""
    words = [phrases.facing(part, each, piece) for each in lie.faces]
    return phrases.facing(part, face, piece) if len(set(words)) == len(words) else face.value


def _mark(piece: Piece, feature: Feature) -> str:
    if not isinstance(feature, (Mortise, AngledMortise, Groove, Rabbet, Tenon, Sockets)) or feature.mate is None:
        return ""
    return piece.part(feature.mate.part).mark
