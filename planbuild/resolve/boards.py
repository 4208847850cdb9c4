"""Each part as a placed board: body, stock, copies, shapes; what the joints are cut into."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from planbuild.core.diagnostics import Diagnostic
from planbuild.core.geometry import Axis
from planbuild.core.poses import Pose
from planbuild.core.units import Ruler
from planbuild.joints.base import Board
from planbuild.records.design import PartSaid, Said
from planbuild.records.piece import Stock
from planbuild.resolve.blank import Blank
from planbuild.resolve.copies import LOW_HIGH, Level, copies, mirror_words
from planbuild.resolve.edging import edging_on
from planbuild.resolve.ledger import Row, StanceOf
from planbuild.resolve.neighbours import Neighbours
from planbuild.resolve.poses import Stance, is_askew
from planbuild.resolve.references import Shaping
from planbuild.resolve.rows import off_step
from planbuild.resolve.sayings import AXES, Sayings, figure, tried
from planbuild.resolve.scopes import holder
from planbuild.resolve.setting_out import SettingOut, Spans, box_of
from planbuild.resolve.shapes import features
from planbuild.resolve.shoulders import shouldered
from planbuild.resolve.stock import check_thickness


def printed_name(id: str, name: Said | None) -> str:
    """The name given, or the id with spaces, without the blocks around it."""
    return name.text if name else id.rpartition(".")[2].replace("_", " ")


def boards(setting_out: SettingOut, stock: Mapping[str, Stock], ruler: Ruler) -> dict[str, Board]:
    """The parts of the design in its order, without those at fault (reported)."""
    for id in setting_out.spaces:
        _check_space(id, setting_out)
    found = {}
    for id in setting_out.design.parts:
        board = _board(id, setting_out, stock, ruler)
        if board:
            found[id] = board
    return shouldered(found, setting_out)


def _check_space(id: str, setting_out: SettingOut) -> None:
    """An opening or a block, used or not, has its faces in order and its copies clear of each other."""
    _check_words(id, setting_out)
    spans, levels = setting_out.spans(id), tried(setting_out.levels_of, id)
    if spans and levels:
        _check_hands(levels[-1], spans, setting_out)


def _board(id: str, setting_out: SettingOut, stock: Mapping[str, Stock], ruler: Ruler) -> Board | None:
    said = setting_out.design.parts[id]
    wood = stock.get(said.stock.text)
    _check_words(id, setting_out)
    lie, spans, middle = setting_out.lies.get(id), setting_out.spans(id), frame_middle(holder(id), setting_out)
    levels = tried(setting_out.levels_of, id)
    if lie is None or spans is None or middle is None or levels is None:
        return None
    _check_section(id, spans, setting_out)
    if wood:
        check_thickness(id, wood, _size(spans, lie.face.axis), setting_out)
    _check_hands(levels[-1], spans, setting_out)
    _note_gaps(id, levels[-1].row, spans, setting_out, ruler)
    stance = tried(setting_out.ledger.ask, StanceOf(id)) if is_askew(said) else Stance(box_of(spans), Pose())
    if stance is None:
        return None
    sayings = Sayings(Shaping(setting_out.placing, id), setting_out.report)
    straight = setting_out.placing.straight_face
    own = {axis: (straight(id, axis.low), straight(id, axis.high)) for axis in Axis}
    shapes = features(said.shape, Blank(id, lie, own, middle, sayings, neighbours=Neighbours(setting_out)))
    if wood is None:
        return None
    strips = edging_on(said, lie, stance.body, wood, stock, sayings, ruler)
    name, pose = _name(id, setting_out), stance.pose if is_askew(said) else None
    cuts = (*stance.ends, *strips, *shapes)
    return Board(id, name, said.origin, wood, lie.grain, lie.face, lie.edge, stance.body, copies(levels), cuts, pose)


def _name(id: str, setting_out: SettingOut) -> str:
    """A part in a block is called by its own name; with the block's before it where another part is called so."""
    parts = setting_out.design.parts
    own = printed_name(id, parts[id].name)
    alike = [other for other in parts if other != id and printed_name(other, parts[other].name) == own]
    return f"{printed_name(holder(id), None)} {own}" if alike and holder(id) else own


def frame_middle(scope: str, setting_out: SettingOut) -> dict[Axis, Fraction] | None:
    """The middle of the frame, or of that of a block: what looks inside looks there."""
    middles = {axis: tried(setting_out.placing.within(scope).frame_middle, axis) for axis in Axis}
    found = {axis: middle for axis, middle in middles.items() if middle is not None}
    return found if len(found) == len(middles) else None


def _check_words(id: str, setting_out: SettingOut) -> None:
    """Fields that would be passed over in silence.  Reports `place-centred`, `place-gap`."""
    said = setting_out.placed(id)
    for word, places in said.centred.items():
        if word not in AXES:
            at = places[0] if places else Said(word, said.origin)
            setting_out.places.refuse("place-centred", at, f'"{word}" is no direction to be centred in.', ", ".join(AXES))
    if isinstance(said, PartSaid) and said.gap and not said.between and not said.fills:
        message = f'"{id}" has a gap, but is not said to lie between or to fill anything.'
        setting_out.places.refuse("place-gap", said.gap, message, "`between` or `fills` beside it")


def _size(spans: Spans, axis: Axis) -> Fraction:
    return spans[axis][1] - spans[axis][0]


def _check_section(id: str, spans: Spans, setting_out: SettingOut) -> None:
    """Only a square section may leave out where its face side looks.  Reports `place-face-missing`."""
    lie = setting_out.lies[id]
    width, thickness = (figure(_size(spans, axis), setting_out.unit) for axis in (lie.width_axis, lie.face.axis))
    if lie.face_said or width == thickness:
        return
    message = f'"{id}" is {width} by {thickness}, not square: where does its face side look?'
    hint = f"Add `face: {lie.face.value}` if its thickness lies {lie.face.axis.words}, `face: {lie.edge.value}` if not."
    setting_out.report.add(Diagnostic("place-face-missing", message, span=lie.origin, hints=(hint,)))


def _check_hands(level: Level, spans: Spans, setting_out: SettingOut) -> None:
    """What is mirrored is written at the left, front or bottom, clear of the middle.  Reports `place-mirror`."""
    spread, said = level.spread, setting_out.placed(level.spread.part)
    for axis in spread.mirrors:
        low, high = spans[axis]
        middle = level.middles[axis]
        if high <= middle:
            continue
        hand = LOW_HIGH[axis][0]
        if low >= middle:
            message = f'"{spread.part}" is mirrored {axis.words}, but the one that is written stands at the {axis.high.value}.'
            hint = f"Write the {hand} one; the other follows."
        else:
            message = f'"{spread.part}" stands across the middle, so its mirror image {axis.words} would stand in the same place.'
            hint = "Move it clear of the middle, or drop `mirror`."
        at = next(word for word in mirror_words(said) if AXES[word.text] is axis)
        setting_out.places.refuse("place-mirror", at, message, hints=(hint,))


def _note_gaps(id: str, row: Row | None, spans: Spans, setting_out: SettingOut, ruler: Ruler) -> None:
    repeat = setting_out.design.parts[id].repeat
    if row is None or repeat is None:
        return
    axis = setting_out.spreads[id].row_axis
    assert axis is not None, "a row runs some way"
    note = off_step(id, repeat, row, _size(spans, axis), ruler.step * ruler.unit.mm, setting_out.places)
    if note:
        setting_out.report.add(note)
