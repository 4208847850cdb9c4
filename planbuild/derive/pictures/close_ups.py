"""Which piece of a long part is drawn for a step: the end or the corner that is worked, where the whole would be a thin bar."""

from __future__ import annotations

from collections.abc import Sequence

from planbuild.core.geometry import Axis, Box, Face, Motion, Span1
from planbuild.records.features import Chamfer, Feature, Groove, RoundOver, Tenon
from planbuild.records.piece import Part
from planbuild.records.shaped import Moulding
from planbuild.records.tails import Sockets, Tails

_SLENDER = 8.0
"""Length over width from which on only the worked end is drawn."""
_AROUND = 2.0
"""Wood shown beyond what is worked, as a share of the part's width."""
_CORNER = 5.0
"""Of a long edge that is worked so much is shown, as a multiple of the thickness."""
_FAR = 1e4


def close_up(part: Part, wanted: Sequence[str], lies: Motion) -> Box | None:
    """The box (of the drawn copy) to be kept, None for the whole part; `lies` is how it lies for the picture."""
    features = [feature for feature in part.features if feature.id in wanted]
    if features and all(isinstance(feature, (Chamfer, RoundOver, Moulding)) for feature in features):
        return _corner(part, lies)
    length, width, _ = part.finished
    spans = [span for feature in features for span in _reach(feature, part)]
    if length < _SLENDER * width or not spans:
        return None
    nearest = min(spans, key=lambda span: _near(span, part.grain, lies))
    room = _AROUND * width
    return _kept(part.grain, Span1(nearest.low - room, nearest.high + room))


def _reach(feature: Feature, part: Part) -> list[Span1]:
    """Stretches of the grain that show a feature: either end of what runs through, nothing for what only the whole shows."""
    grain = part.grain
    if isinstance(feature, Tenon):
        return [feature.block.along(grain)]
    if isinstance(feature, (Tails, Sockets)):
        return [feature.comb.block.along(grain)]
    if isinstance(feature, Groove):
        span = feature.void.along(grain)
        return [Span1(span.low, span.low + part.finished[1]), Span1(span.high - part.finished[1], span.high)]
    return []


def _near(span: Span1, grain: Axis, lies: Motion) -> float:
    """The left end of the paper is nearest to the viewer."""
    x, y, z = (span.middle if axis is grain else 0.0 for axis in Axis)
    return lies.point((x, y, z))[0]


def _kept(axis: Axis, span: Span1) -> Box:
    whole = Span1(-_FAR, _FAR)
    return Box(whole, whole, whole).with_span(axis, span)


def _corner(part: Part, lies: Motion) -> Box | None:
    """The corner nearest to the viewer, of a part that is much longer than it is thick."""
    size = _CORNER * part.finished[2]
    if part.finished[0] < 2 * size:
        return None
    keep = [_end(part, axis, lies, size) for axis in (part.grain, part.width_axis)]
    return keep[0].meet(keep[1])


def _end(part: Part, axis: Axis, lies: Motion, size: float) -> Box:
    """The stretch of an axis at the end that lies to the left or to the front."""
    box, turned = part.extent.along(axis), lies.face(axis.low)
    low = turned in (Face.LEFT, Face.FRONT, Face.TOP)
    return _kept(axis, Span1(box.low - 1, box.low + size) if low else Span1(box.high - size, box.high + 1))

