"""Facts of each kind of joint: its numbers as printed, where it is used, how it fits, whether it is glued."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from planbuild.core.units import drill_text
from planbuild.derive import phrases
from planbuild.records.edition import Edition
from planbuild.records.facts import JointFacts
from planbuild.records.features import Feature, Groove, Rabbet, Tenon
from planbuild.records.photos import shown
from planbuild.records.piece import Joint, Piece
from planbuild.records.tails import Tails

_FITS = {
    "snug": "snug: goes together by hand or with light taps of a mallet",
    "sliding": "sliding: goes in and comes out by hand",
    "loose": "loose: free to move",
}


def joint_facts(piece: Piece, edition: Edition) -> tuple[JointFacts, ...]:
    """One entry a joint, in the order of the design.  Ids of drawings stay empty until they are drawn."""
    return tuple(_facts(piece, edition, each) for each in piece.joints)


def _facts(piece: Piece, edition: Edition, joint: Joint) -> JointFacts:
    texts = (joint.why, joint.note, _measure_first(piece, edition, joint), *joint.defaults)
    return JointFacts(
        id=joint.id,
        kind=joint.kind,
        name=joint_name(piece, joint),
        title=joint_title(piece, joint),
        numbers=tuple((word, _number(edition, word, value)) for word, value in joint.numbers),
        where=_where(piece, joint),
        fit=_FITS.get(joint.fit, joint.fit) if features_of(piece, joint) else "",
        glue=f"{piece.glue.kind}{_only(edition, joint)}" if joint.glue else "no glue",
        notes=tuple(phrases.sentence(each) for each in texts if each),
        drawing="",
        section="",
        photos=shown(joint.photo),
        enlarged=joint.enlarged,
    )


def _only(edition: Edition, joint: Joint) -> str:
    return f", {phrases.glued_only(joint.glued_part, edition.ruler)}" if joint.glued_part else ""


def _measure_first(piece: Piece, edition: Edition, joint: Joint) -> str:
    """Sheets differ by more than a joint allows: what takes one is cut to the sheet at hand, not to the plan."""
    taken = [f.mate.part for f in features_of(piece, joint) if isinstance(f, Groove | Rabbet) and f.mate]
    sheets = [stock for part in taken if (stock := piece.stock_of(piece.part(part))).sheet]
    if not sheets:
        return ""
    thick = phrases.with_unit(edition.ruler, sheets[0].thickness)
    doubt = "" if all(each.sheet and each.sheet.measured for each in sheets) else ", which is only what such a sheet usually has"
    return f"Measure your sheet first and cut this joint to it; the plan counts on {thick}{doubt}"


def _number(edition: Edition, word: str, value: float | int | str) -> str:
    """Drills by their own names, other lengths by the ruler, counts as they are."""
    if isinstance(value, float):
        return drill_text(value, edition.ruler) if word.endswith(" hole") else edition.ruler.printed(value)
    return str(value)


def joint_name(piece: Piece, joint: Joint) -> str:
    """Its name, with the parts it serves where another joint has the same name; a loose one by what rests on what."""
    if joint.kind == "loose":
        return f"{served(piece, joint)} resting on {_carrying(piece, joint)}"
    alone = [each.name for each in piece.joints].count(joint.name) == 1
    return joint.name if alone else f"{joint.name} of the {served(piece, joint)}"


def served(piece: Piece, joint: Joint) -> str:
    """The parts of the design that a joint holds: `seat`, `lower rails`."""
    ids = dict.fromkeys(contact.a[0] for contact in joint.contacts if contact.a[0] not in joint.makes)
    return phrases.of_kind(piece, [piece.part(each) for each in ids])


def _carrying(piece: Piece, joint: Joint) -> str:
    return phrases.of_kind(piece, [piece.part(each) for each in dict.fromkeys(contact.b[0] for contact in joint.contacts)])


def joint_title(piece: Piece, joint: Joint) -> str:
    """The kind with what sets it apart: `Wedged through mortise and tenon, standing proud`."""
    if joint.kind == "loose":
        return phrases.heading(joint_name(piece, joint))
    tenons = [f for f in features_of(piece, joint) if isinstance(f, Tenon)]
    before = [
        "wedged" if any(f.wedging for f in tenons) else "",
        "keyed" if any(f.keyway for f in tenons) else "",
        _pegged(tenons),
        "through" if any(f.through for f in tenons) else "",
        "round" if any(f.round for f in tenons) else "",
        "blind" if tenons and not any(f.through for f in tenons) else "",
    ]
    mitred = "mitred in the post" if any(f.mitre for f in tenons) else ""
    proud = "standing proud" if any(f.proud for f in tenons) else ""
    return phrases.heading(" ".join(each for each in (*before, joint.kind) if each), _at_each_end(joint), mitred, proud)


def _pegged(tenons: Sequence[Tenon]) -> str:
    """`draw-bored` where the holes lie out of line, `pegged` where they do not."""
    holes = [hole for each in tenons for hole in each.pegs]
    return ("draw-bored" if any(hole.draw for hole in holes) else "pegged") if holes else ""


def _at_each_end(joint: Joint) -> str:
    """`2 tenons at each end`, "" for one."""
    count = dict(joint.numbers).get("tenons at each end")
    return f"{count} tenons at each end" if count else ""


def features_of(piece: Piece, joint: Joint) -> list[Feature]:
    return [each for part in piece.parts for each in part.features if each.joint == joint.id]


def _where(piece: Piece, joint: Joint) -> str:
    """`long rails A3 into legs A2, 4 times; ...`, pairs in the order they first meet."""
    pairs: dict[tuple[str, str], int] = {}
    for contact in joint.contacts:
        pair = (contact.a[0], contact.b[0])
        pairs[pair] = pairs.get(pair, 0) + 1
    enters = joint.kind == "breadboard end" or any(isinstance(f, Tenon | Tails) for f in features_of(piece, joint))
    word = "into" if enters else "on"
    entering = dict.fromkeys(a for a, _ in pairs)
    tenoned = {part.id for part in piece.parts if any(isinstance(f, Tenon) and f.joint == joint.id for f in part.features)}
    if tenoned:  # a key lies against the mate too, but goes into the tenon
        pairs = {pair: count for pair, count in pairs.items() if pair[0] not in joint.makes or pair[1] in tenoned}
    return "; ".join(_places(piece, a, word, {b: n for (each, b), n in pairs.items() if each == a}) for a in entering)


def _places(piece: Piece, entering: str, word: str, counts: Mapping[str, int]) -> str:
    """`buttons A8 on long rails A3, 8 times, and short rails A4, 4 times`."""
    each = [f"{phrases.named(piece.part(id))}, {_times(count)}" for id, count in counts.items()]
    return f"{phrases.named(piece.part(entering))} {word} {', and '.join(each)}"


def _times(count: int) -> str:
    return {1: "once", 2: "twice"}.get(count, f"{count} times")
