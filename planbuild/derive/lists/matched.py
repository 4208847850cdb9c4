"""Which parts must be equal because they are cut to one stop or laid out from one rod, and which share a set-up.

Read off the parts and their features, so that nobody has to say it; what the designer wishes beyond that comes first.
"""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterable, Iterator
from typing import TypeVar

from planbuild.core.geometry import Box, Span1
from planbuild.core.poses import around
from planbuild.derive.lists.cut_list import shoulder_length
from planbuild.derive.lists.measures import groove_size, mortise_size, rabbet_size, tenon_size
from planbuild.records.edition import Edition
from planbuild.records.facts import Batch, MatchedSet
from planbuild.records.features import Feature, Groove, Hole, Mortise, Rabbet, Tenon
from planbuild.records.piece import Part, Piece
from planbuild.records.slanted import AngledMortise

Thing = TypeVar("Thing")

SETTING = 0.05
"""mm; sizes nearer to each other than a stop or a gauge can be set are one setting."""


def matched_sets(piece: Piece, edition: Edition) -> tuple[MatchedSet, ...]:
    """The designer's own sets, then one stop for each length, one for each length between shoulders, one rod a layout."""
    wished = [MatchedSet(m.cut, _once(key[0] for key in m.parts), len(m.parts), 0.0, "", m.why) for m in piece.matching]
    parts = [part for part in piece.parts if not part.made_by]
    return (*wished, *_stops(parts, edition), *_rods(parts))


def batches(piece: Piece) -> tuple[Batch, ...]:
    """Cuts of one kind and one set of sizes on more than one part: each is set up once."""
    cuts = [(part, feature) for part in piece.parts if not part.made_by for feature in part.features if feature.joint]
    found = []
    for alike in _grouped(cuts, lambda cut: _key(*cut)):
        kind, numbers = _setting(*alike[0])
        parts = _once(part.id for part, _ in alike)
        if kind and len(parts) > 1:
            found.append(Batch(kind, numbers, parts, sum(len(part.copies) for part, _ in alike)))
    return tuple(found)


# ---------------------------------------------------------------- stops


def _stops(parts: list[Part], edition: Edition) -> Iterator[MatchedSet]:
    by_length = list(_grouped(parts, lambda part: _setting_of(part.finished[0])))
    yield from (_stop(alike, alike[0].finished[0], "finished length", edition) for alike in by_length if _pieces(alike) > 1)
    together = {frozenset(part.id for part in alike) for alike in by_length}
    shouldered = [part for part in parts if shoulder_length(part)]
    for alike in _grouped(shouldered, lambda part: _setting_of(shoulder_length(part) or 0.0)):
        if len(alike) > 1 and frozenset(part.id for part in alike) not in together:
            yield _stop(alike, shoulder_length(alike[0]) or 0.0, "between shoulders", edition)


def _stop(alike: list[Part], size: float, what: str, edition: Edition) -> MatchedSet:
    told = f"{what} {edition.ruler.printed(size, with_unit=True)}"
    return MatchedSet("one stop", _once(part.id for part in alike), _pieces(alike), size, told, "")


def _pieces(parts: Iterable[Part]) -> int:
    return sum(len(part.copies) for part in parts)


# ---------------------------------------------------------------- rods


def _rods(parts: list[Part]) -> Iterator[MatchedSet]:
    """Boards whose joints lie at the same places along them, end for end at most: marked side by side, or from one rod."""
    laid_out = [part for part in parts if _layout(part)]
    for alike in _grouped(laid_out, lambda part: (_setting_of(part.finished[0]), _layout(part))):
        if _pieces(alike) > 1:
            yield MatchedSet("one rod", _once(part.id for part in alike), _pieces(alike), 0.0, "joints at the same places", "")


def _layout(part: Part) -> tuple[tuple[int, int], ...]:
    """From where to where each cut for another part reaches along the board, read from the end that gives the lower numbers."""
    whole = part.extent.along(part.grain)
    spans = [box.along(part.grain) for box in map(_region, part.features) if box]
    inside = [span for span in spans if span.size < whole.size - SETTING]
    forth = sorted({(_setting_of(span.low - whole.low), _setting_of(span.high - whole.low)) for span in inside})
    back = sorted({(_setting_of(whole.high - span.high), _setting_of(whole.high - span.low)) for span in inside})
    return tuple(min(forth, back))


def _region(feature: Feature) -> Box | None:
    if isinstance(feature, Mortise | Groove | Rabbet) and feature.joint:
        return feature.void
    if isinstance(feature, AngledMortise):
        return around(feature.rim)
    if isinstance(feature, Hole) and feature.joint:
        return Box(*(Span1(place, place) for place in feature.centre))
    return None


# ---------------------------------------------------------------- set-ups


def _setting(part: Part, feature: Feature) -> tuple[str, tuple[tuple[str, float], ...]]:
    """What has to be set for a cut: its kind and the sizes of tool, fence and stop."""
    if isinstance(feature, Mortise):
        mortise = mortise_size(feature)
        return "mortise", (("width", mortise.width), ("depth", mortise.depth))
    if isinstance(feature, AngledMortise):
        kind, size = ("angled bore", "diameter") if feature.round else ("angled mortise", "width")
        return kind, ((size, feature.breadth), ("depth", feature.depth))
    if isinstance(feature, Tenon):
        tenon = tenon_size(part, feature)
        return "tenon", (("thickness", tenon.thickness), ("length", tenon.length))
    if isinstance(feature, Groove):
        groove = groove_size(part, feature)
        return feature.what, (("width", groove.width), ("depth", groove.depth))
    if isinstance(feature, Rabbet):
        rabbet = rabbet_size(feature)
        low, high = sorted((rabbet.first[1], rabbet.second[1]))
        return "rabbet", (("one way", low), ("other way", high))
    return "", ()


def _key(part: Part, feature: Feature) -> tuple[str, tuple[int, ...]]:
    kind, numbers = _setting(part, feature)
    return kind, tuple(_setting_of(size) for _, size in numbers)


def _setting_of(size: float) -> int:
    """Sizes of one setting share a number; printed steps of both units stay clear of where it changes."""
    return round(size / SETTING + 0.21)


def _grouped(things: Iterable[Thing], key: Callable[[Thing], Hashable]) -> list[list[Thing]]:
    groups: dict[Hashable, list[Thing]] = {}
    for thing in things:
        groups.setdefault(key(thing), []).append(thing)
    return list(groups.values())


def _once(ids: Iterable[str]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(ids))
