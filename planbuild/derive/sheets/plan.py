"""Which views a part needs, and which number is printed in which of them.

Long faces first; then sections for what lies inside, a view of an end for what only an end shows, an
enlarged detail for what would be too fine.  A number goes where it is seen in true shape, beside its kin.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from enum import Enum
from itertools import count
from string import ascii_uppercase

from planbuild.core.geometry import TINY, Axis, Box, Face, Span1
from planbuild.derive.dimensions.even_rows import alike
from planbuild.derive.dimensions.measure import Measure, Style, Weight
from planbuild.derive.dimensions.where import third
from planbuild.derive.sheets.ends import twins_of
from planbuild.derive.sheets.lie import Lie, is_panel
from planbuild.derive.views.view import Camera
from planbuild.records.features import Groove, Hole, Mortise, Tenon
from planbuild.records.piece import Part

_QUARTER = 0.25
"""Openings are cut near one end, so that the trace leaves room for a mark at their middle."""


class Kind(Enum):
    LONG = "long face"
    END = "end"
    SECTION = "section"
    DETAIL = "detail"


@dataclass(frozen=True)
class ViewPlan:
    """One view to be drawn: looking at `face`; `clip` is the part of the board that is shown, None for all.

    `station` is the plane of a section, `letter` its name on the sheet.  `features` are those it shows.
    """

    id: str
    kind: Kind
    face: Face
    camera: Camera
    features: tuple[str, ...] = ()
    clip: Box | None = None
    station: float = 0.0
    letter: str = ""
    measures: tuple[Measure, ...] = ()

    def shows(self, axis: Axis) -> bool:
        """True if distances along an axis are seen in true length."""
        return axis is not self.face.axis

    def sees(self, measure: Measure) -> bool:
        """True if the number can be read off here in true shape."""
        if measure.axis is not None and measure.style is Style.LINE and not self.shows(measure.axis):
            return False
        if self.kind in (Kind.LONG, Kind.END):
            return self.face in measure.seen and not measure.inside
        if measure.feature == "body":
            return self.kind is Kind.SECTION and not self.is_partial
        told_here = self.kind is Kind.SECTION and measure.style is Style.LINE
        return measure.feature in self.features and (told_here or self.face in measure.seen)

    @property
    def is_partial(self) -> bool:
        """A section along the grain shows only a stretch of the board."""
        return self.kind is Kind.SECTION and self.letter == ""


@dataclass(frozen=True)
class Plan:
    """The views of a sheet; `twins` are numbers printed once for several like features: (another's, the one drawn).

    `counts` tells for such a number how many features it is printed for; `notes` stand in the list beside the drawing.
    """

    views: tuple[ViewPlan, ...]
    twins: tuple[tuple[Measure, Measure], ...]
    counts: Mapping[str, int]
    notes: tuple[Measure, ...]


def plan_views(part: Part, lie: Lie, measures: Sequence[Measure]) -> Plan:
    """Places every measure in a view.  Raises ValueError if one is seen nowhere (a bug of `measures`)."""
    twins = twins_of(part, lie.start, measures)
    others = [other for other, _ in twins]
    drawn = [each for each in measures if each.style is not Style.NOTE and each not in others]
    views = _long_views(part, lie)
    views += _sections(part, lie, drawn)
    views += _details(part, lie, drawn)
    views += _ends(part, lie, drawn, views)
    placed: dict[str, list[Measure]] = {view.id: [] for view in views}
    likes: list[tuple[Measure, Measure]] = []
    rows = _rows(part, drawn)
    for each in drawn:
        here = placed[_home(part, each, views).id]
        like = next((other for other in here if _says_the_same(part, each, other) or _in_one_row(each, other, rows)), None)
        if like is None:
            here.append(each)
        else:
            likes.append((each, like))
    filled = tuple(replace(view, measures=tuple(placed[view.id])) for view in views)
    counts = {like.id: 1 + sum(other is like for _, other in likes) for _, like in likes if not like.step}
    return Plan(filled, (*twins, *likes), counts, tuple(each for each in measures if each.style is Style.NOTE))


def _says_the_same(part: Part, one: Measure, other: Measure) -> bool:
    """Two leaders with the same words and figure, as on a row of like holes: one leader will do."""
    if Style.LINE in (one.style, other.style) or (one.say, one.unit) != (other.say, other.unit):
        return False
    if abs(one.value - other.value) > TINY:
        return False
    if one.step and other.step:
        return one.feature == other.feature
    return one.axis is None and other.axis is None and one.states == other.states and _one_note(part, one, other)


def _one_note(part: Part, one: Measure, other: Measure) -> bool:
    """Holes share a note if all of it holds for both: those of one drill that go to two depths are told apart."""
    holes = [each for each in part.features if isinstance(each, Hole) and each.id in (one.feature, other.feature)]
    return len(holes) < 2 or alike(*holes)


_MANY = 5
"""So many like features make a row, whose common size is printed once."""

_Row = tuple[str, str, Face, float]


def _row(part: Part, measure: Measure) -> _Row | None:
    """What a length along the grain has in common with those of its neighbours in a row; None for a place or a whole."""
    feature = next((each for each in part.features if each.id == measure.feature), None)
    size = measure.style is Style.LINE and measure.weight is Weight.FUNCTIONAL and measure.axis is part.grain
    if feature is None or not size or measure.inside:
        return None
    return feature.joint or feature.kind, measure.states, measure.seen[0], round(measure.value, 3)


def _rows(part: Part, measures: Sequence[Measure]) -> Mapping[str, _Row]:
    """The row of every measure that has one, by its id."""
    found = {each.id: row for each in measures if (row := _row(part, each))}
    counts = Counter(found.values())
    return {id: row for id, row in found.items() if counts[row] >= _MANY}


def _in_one_row(one: Measure, other: Measure, rows: Mapping[str, _Row]) -> bool:
    return one.id in rows and rows[one.id] == rows.get(other.id)


def _home(part: Part, measure: Measure, views: Sequence[ViewPlan]) -> ViewPlan:
    fit = [view for view in views if view.sees(measure)]
    if not fit:
        raise ValueError(f"{part.id}: no view shows {measure.id}")
    return min(fit, key=lambda view: _liking(part, measure, view))


def _liking(part: Part, measure: Measure, view: ViewPlan) -> int:
    """Lower is better: lengths on the long faces, cross-sections on ends and sections, fine things enlarged."""
    if measure.fine:
        order = (Kind.DETAIL, Kind.LONG, Kind.END, Kind.SECTION)
    elif measure.axis is part.grain or (measure.feature == "body" and is_panel(part) and measure.axis is part.width_axis):
        order = (Kind.LONG, Kind.SECTION, Kind.END, Kind.DETAIL)
    else:
        order = (Kind.END, Kind.SECTION, Kind.LONG, Kind.DETAIL)
    return order.index(view.kind)


# ---------------------------------------------------------------- the views


def _long_views(part: Part, lie: Lie) -> list[ViewPlan]:
    names = tuple(feature.id for feature in part.features)
    return [ViewPlan(f"{face.value} face", Kind.LONG, face, lie.camera(face), names) for face in lie.faces]


def _ends(part: Part, lie: Lie, measures: Sequence[Measure], views: Sequence[ViewPlan]) -> list[ViewPlan]:
    """A view of an end for each number that no other view shows; mostly of the end at the left."""
    found: list[ViewPlan] = []
    for each in measures:
        if any(view.sees(each) for view in (*views, *found)):
            continue
        end = next((end for end in (lie.start, lie.start.opposite) if end in each.seen), None)
        if end and not any(view.face is end for view in found):
            names = tuple(feature.id for feature in part.features)
            found.append(ViewPlan(f"{end.value} end", Kind.END, end, lie.camera(end), names))
    return found


def _sections(part: Part, lie: Lie, measures: Sequence[Measure]) -> list[ViewPlan]:
    """Cuts across the grain where openings have a depth to be told, cuts along it where a mortise opens for wedges."""
    inside = [each for each in measures if each.inside]
    across = [each for each in inside if each.seen[0].axis is part.grain]
    along = [each for each in inside if each.seen[0].axis is not part.grain]
    found = list(_cross_sections(part, lie, across))
    for id in dict.fromkeys(each.feature for each in along):
        found.append(_lengthwise(part, lie, next(each for each in along if each.feature == id)))
    return found


def _cross_sections(part: Part, lie: Lie, measures: Sequence[Measure]) -> Iterator[ViewPlan]:
    """One cut for all openings that can be met with one plane."""
    waiting = list(dict.fromkeys(each.feature for each in measures))
    letters = _letters()
    while waiting:
        span = _span(part, waiting[0])
        together = [waiting[0]]
        for id in waiting[1:]:
            common = span.meet(_span(part, id))
            if common.size > TINY:
                span, together = common, [*together, id]
        waiting = [id for id in waiting if id not in together]
        letter = next(letters)
        station = span.low + _QUARTER * span.size
        yield _cut(part, lie, f"section {letter}", station, tuple(together), letter)


def _letters() -> Iterator[str]:
    """A to Z without I and O, which look like figures; then A2 and so on."""
    for round in count(1):
        yield from (f"{letter}{round if round > 1 else ''}" for letter in ascii_uppercase if letter not in "IO")


def _span(part: Part, id: str) -> Span1:
    (feature,) = (feature for feature in part.features if feature.id == id)
    assert hasattr(feature, "void")
    span: Span1 = feature.void.along(part.grain)
    return span


def _cut(part: Part, lie: Lie, id: str, station: float, features: tuple[str, ...], letter: str) -> ViewPlan:
    """Seen from the end at the left; what lies behind the plane is shown."""
    far = part.extent.at(lie.start.opposite)
    clip = part.extent.with_span(part.grain, Span1(min(station, far), max(station, far)))
    return ViewPlan(id, Kind.SECTION, lie.start, lie.camera(lie.start), features, clip, station, letter)


def _lengthwise(part: Part, lie: Lie, measure: Measure) -> ViewPlan:
    """Through the middle of a mortise or of a stopped housing, a stretch of the board on either side."""
    (feature,) = (feature for feature in part.features if feature.id == measure.feature)
    assert isinstance(feature, Mortise | Groove)
    face = next((each for each in lie.faces if each in measure.seen), measure.seen[0])
    station = feature.void.along(face.axis).middle
    far = part.body.at(face.opposite)
    margin = 0.45 * feature.void.size(part.grain)
    span = feature.void.along(part.grain)
    stretch = Span1(span.low - margin, span.high + margin).meet(part.body.along(part.grain))
    clip = part.body.with_span(part.grain, stretch).with_span(face.axis, Span1(min(station, far), max(station, far)))
    return ViewPlan(f"cut of {feature.id}", Kind.SECTION, face, lie.camera(face), (feature.id,), clip, station)


def _details(part: Part, lie: Lie, measures: Sequence[Measure]) -> list[ViewPlan]:
    """The end of a tenon by itself, for each direction in which something fine is seen."""
    found: list[ViewPlan] = []
    for each in measures:
        if not each.fine or any(view.sees(each) for view in found):
            continue
        (tenon,) = (feature for feature in part.features if feature.id == each.feature)
        assert isinstance(tenon, Tenon)
        face = lie.main if lie.main in each.seen else each.seen[0]
        id = f"{tenon.id} from {face.value}"
        found.append(ViewPlan(id, Kind.DETAIL, face, lie.camera(face), (tenon.id,), _tip_of(part, tenon)))
    return found


def _tip_of(part: Part, tenon: Tenon) -> Box:
    """The tenon and a little of the body behind its shoulder."""
    axis, shoulder = tenon.end.axis, tenon.block.at(tenon.end.opposite)
    behind = max(0.25 * tenon.block.size(axis), 0.4 * min(part.body.size(third(axis, other)) for other in tenon.end.axis.others))
    inner = shoulder - tenon.end.sign * behind
    tip = tenon.block.at(tenon.end)
    kept = part.extent.with_span(axis, Span1(min(inner, tip), max(inner, tip)))
    beside = [f for f in part.features if isinstance(f, Tenon) and f.end is tenon.end and f.id != tenon.id]
    return _by_itself(kept, tenon, behind) if beside else kept


def _by_itself(kept: Box, tenon: Tenon, margin: float) -> Box:
    """Without the others in its row, as much of the shoulder beside it as behind it."""
    for axis in tenon.end.axis.others:
        span = tenon.block.along(axis)
        kept = kept.with_span(axis, kept.along(axis).meet(Span1(span.low - margin, span.high + margin)))
    return kept
