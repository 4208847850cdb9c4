"""Hardware put in its places: on a face, between two leaves, or under what it carries; every copy, and what is cut for it.

A thing is set once, by the part that was named, and then carried along with every copy of that part: mirrored parts
have mirrored hardware.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import product

from planbuild.core.diagnostics import Diagnostic, Span
from planbuild.core.geometry import TINY, Axis, Motion, Vec
from planbuild.joints.base import Site
from planbuild.joints.copies import Struck, brought_home, settled
from planbuild.records.design import HardwareSaid, Said
from planbuild.records.features import Feature
from planbuild.records.hardware import Bought, Item, Lump, Placed
from planbuild.records.photos import photo_of
from planbuild.resolve.expressions.faults import Poisoned
from planbuild.resolve.fittings.base import CutFor, Holder, Put
from planbuild.resolve.fittings.checks import check_cuts, check_screws
from planbuild.resolve.ledger import FrameOf
from planbuild.resolve.sayings import tried
from planbuild.resolve.setting_out import SettingOut
from planbuild.resolve.settings import set_in_place
from planbuild.resolve.spots import Setting

MOST = 400
"""Things bought that have a place of their own: each is cut, proved and drawn."""


@dataclass(frozen=True)
class Fitted:
    """`features` are what all hardware cuts into each part, by its id."""

    placed: tuple[Placed, ...]
    features: Mapping[str, tuple[Feature, ...]]


def hardware(
    said: Mapping[str, HardwareSaid], joints: Mapping[str, Sequence[Feature]], setting_out: SettingOut, site: Site
) -> Fitted:
    """What is put where, and its cuts; `joints` are those of the joints, by part.

    Reports `item-missing`, `hardware-...`, `joint-copies-differ`.
    """
    placed: list[Placed] = []
    features: dict[str, tuple[Feature, ...]] = {}
    for id, each in said.items():
        made = tried(_fitted, id, each, setting_out, site)
        if made is None:
            continue
        placed.append(made[0])
        for part, cut in made[1].items():
            features[part] = (*features.get(part, ()), *cut)
        if _too_many(placed, each, site):
            break
    check_cuts(features, joints, site)
    return Fitted(tuple(placed), features)


def _too_many(placed: Sequence[Placed], said: HardwareSaid, site: Site) -> bool:
    count = sum(len(each.bought) for each in placed)
    if count > MOST:
        message = f"The piece would have {count} pieces of hardware."
        site.report.add(Diagnostic("hardware-many", message, span=said.origin, expected=f"at most {MOST}"))
    return count > MOST


def _fitted(id: str, said: HardwareSaid, setting_out: SettingOut, site: Site) -> tuple[Placed, Mapping[str, tuple[Feature, ...]]]:
    setting = set_in_place(id, said, setting_out, site)
    motions = _motions(said, setting, setting_out)
    if len(setting.puts) * len(motions) > MOST:
        raise _refused(site, "hardware-many", said.origin, f'"{id}" would be put in {len(setting.puts) * len(motions)} places.')
    everywhere = [_moved(put, motion, setting, site) for motion in motions for put in setting.puts]
    puts = _once([each for each in everywhere if each])
    _check_count(said, len(puts), len(setting.copies), site)
    check_screws(setting.item, setting.puts, site)
    features = _cut(id, setting, motions, site)
    return _placed(id, said, setting, puts, features, site), features


def _refused(site: Site, code: str, span: Span, message: str, expected: str = "", hints: tuple[str, ...] = ()) -> Poisoned:
    site.report.add(Diagnostic(code, message, span=span, expected=expected, hints=hints))
    return Poisoned()


# ---------------------------------------------------------------- copies


def _motions(said: HardwareSaid, setting: Setting, setting_out: SettingOut) -> list[Motion]:
    """From where it was set to each copy of the part that carries it, and about the frame's middle where that is said."""
    first = setting.board.copies[setting.copies[0]].motion.inverse
    carried = [setting.board.copies[copy].motion.after(first) for copy in setting.copies]
    axes = [setting_out.places.axis(word) for word in said.mirror]
    mirrored = [_mirroring([axis for axis, flip in zip(axes, flips, strict=True) if flip], setting_out)
                for flips in product((False, True), repeat=len(axes))]  # fmt: skip
    return [mirror.after(motion) for mirror in mirrored for motion in carried]


def _mirroring(axes: Sequence[Axis], setting_out: SettingOut) -> Motion:
    x, y, z = (-1 if axis in axes else 1 for axis in Axis)
    dx, dy, dz = (float(setting_out.ledger.ask(FrameOf("frame", axis))) if axis in axes else 0.0 for axis in Axis)
    return Motion((x, y, z), (dx, dy, dz))


def _moved(put: Put, motion: Motion, setting: Setting, site: Site) -> Put | None:
    """The thing where a motion takes it; None after reporting that one of its parts does not stand there."""
    holders = tuple(_carried(each, motion) for each in put.holders)
    for holder in holders:
        if holder.copy is None:
            _nobody(holder, setting, motion, site)
            return None
    lumps = tuple(Lump(motion.box(each.box), motion.axis(each.round) if each.round else None) for each in put.lumps)
    return Put(motion.point(put.at), lumps, holders)


def _carried(holder: Holder, motion: Motion) -> Holder:
    return Holder(holder.board, motion.face(holder.face), motion.point(holder.point))


def _nobody(holder: Holder, setting: Setting, motion: Motion, site: Site) -> None:
    """Either the place itself lies beside the part, or a copy of what it is put on has no such part at its side."""
    if motion == Motion():
        message = f'"{setting.id}" would sit beside "{holder.board.id}", off its {holder.face.value} face.'
        hints = ("`at` gives the middle of the thing; a face word as key gives a side of it.",)
        raise _refused(site, "hardware-beside", setting.span, message, "a place on the face", hints)
    message = f'No "{holder.board.id}" stands where a copy of "{setting.id}" wants one.'
    hints = (f'Name the copies of "{setting.board.id}" that get it, such as `left {setting.board.id}`.',)
    raise _refused(site, "hardware-mirror", setting.span, message, "the same parts beside every copy", hints)


def _once(puts: Iterable[Put]) -> list[Put]:
    """A thing in the mirror plane is its own mirror image."""
    found: list[Put] = []
    for put in puts:
        if not any(_near(put.at, other.at) for other in found):
            found.append(put)
    return found


def _near(one: Vec, other: Vec) -> bool:
    return all(abs(a - b) < TINY for a, b in zip(one, other, strict=True))


# ---------------------------------------------------------------- cuts


def _cut(id: str, setting: Setting, motions: Sequence[Motion], site: Site) -> Mapping[str, tuple[Feature, ...]]:
    """The cuts of all copies as features of the drawn parts."""
    struck = [
        each
        for turn, motion in enumerate(motions)
        for number, put in enumerate(setting.puts, 1)
        for cut in put.cuts
        for each in _struck(cut, motion, str(number), f"copy_{turn}", setting)
    ]
    before = len(site.report.found)
    features = settled(id, struck, site)
    if any(each.stops for each in site.report.found[before:]):
        raise Poisoned
    return features


def _struck(cut: CutFor, motion: Motion, number: str, turn: str, setting: Setting) -> Iterator[Struck]:
    holder = _carried(cut.holder, motion)
    copy = holder.copy
    if copy is None:
        return  # the hole lies beside its part: told with the thing itself, or with what it cuts
    feature = brought_home(cut.feature, motion.inverse)
    home = holder.board.copies[copy].motion.inverse.face(holder.face)
    yield Struck(holder.board, copy, feature, (cut.words[0], home.value, *cut.words[1:], number, turn), None, setting.span)


# ---------------------------------------------------------------- the record


def _check_count(said: HardwareSaid, found: int, copies: int, site: Site) -> None:
    """The places say how many there are; a count that says otherwise is a slip."""
    if said.count is None:
        return
    each = said.count.text.endswith(" each")
    number = site.words.count(replace(said.count, text=said.count.text.removesuffix(" each")))
    if number is None:
        raise Poisoned
    if number * (copies if each else 1) != found:
        message = f"`{said.count.text}` does not agree with {found} places."
        raise _refused(site, "hardware-count", said.count.span, message, f"`{found}`, or nothing")


def _placed(
    id: str, said: HardwareSaid, setting: Setting, puts: Sequence[Put], features: Mapping[str, tuple[Feature, ...]], site: Site
) -> Placed:
    carrier = setting.carrier
    return Placed(
        id=id,
        origin=said.origin,
        item=setting.item.id,
        on=carrier.board.id,
        face=carrier.board.copies[setting.home].motion.inverse.face(carrier.face),
        at=tuple(put.at for put in puts),
        count=len(puts),
        bought=tuple(_bought(put) for put in puts if put.lumps),
        screws=_screws(setting.item, len(puts), site),
        meets=setting.meets,
        brings=setting.board.id if setting.way else "",
        way=setting.way or (0.0, 0.0, 0.0),
        cuts=tuple((part, each.id) for part, cut in features.items() for each in cut),
        note=said.note.text if said.note else "",
        why=said.why.text if said.why else "",
        photo=photo_of(said.photo, f"the {setting.item.name}"),
    )


def _bought(put: Put) -> Bought:
    return Bought(tuple((each.board.id, each.copy or 0) for each in put.holders), put.lumps)


def _screws(item: Item, count: int, site: Site) -> tuple[tuple[str, int], ...]:
    """The screws that come with each thing, by `screws` and `screws_each`."""
    fields = dict(item.fields)
    named = fields.get("screws")
    if not isinstance(named, str):
        return ()
    screw = site.words.item(Said(named, item.origin))
    each = site.words.count(Said(str(fields.get("screws_each", "1")), item.origin))
    return ((screw.id, each * count),) if screw and each else ()
