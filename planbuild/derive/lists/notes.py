"""What is said of a part beside its sizes: the designer's words and reasons."""

from __future__ import annotations

from planbuild.derive import phrases
from planbuild.derive.lists.features import feature_facts
from planbuild.records.piece import Part, Piece


def part_notes(piece: Piece, part: Part) -> tuple[str, ...]:
    """The designer's words, and why a feature is as it is where its joint does not say the same."""
    told = {each.why for each in piece.joints}
    reasons: dict[str, str] = {}
    for feature, facts in zip(part.features, feature_facts(piece, part), strict=True):
        if feature.why and feature.why not in told:
            reasons.setdefault(feature.why, _reason(facts.words.rstrip("."), feature.why))
    said = [part.note, part.why, *reasons.values()]
    return tuple(dict.fromkeys(phrases.sentence(each) for each in said if each))


def _reason(words: str, why: str) -> str:
    """`Groove in the back face: takes the tongues`; a reason with a colon of its own becomes a sentence of its own."""
    return f"{words}. {phrases.sentence(why)}" if ":" in why else f"{words}: {why}"
