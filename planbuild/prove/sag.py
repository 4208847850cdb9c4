"""What carries a stated load does not sag so that the eye sees it: shelves, seats, slats, and the rails under them.

A beam on two supports, of the full section of the board (holes and notches are not counted), by the stiffness of its wood.
Where two rails or more run along under a board, they bend with it, side by side, over the longest span of any of them; else
the board lies between what holds its ends.  A load that stays roughly doubles the first sag.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from planbuild.core.beams import inertia, sag_even, sag_middle
from planbuild.core.diagnostics import Diagnostic, Severity
from planbuild.core.geometry import Axis, Span1
from planbuild.joints.proportions import habit_number, wood_of
from planbuild.joints.sheet_goods import sheet_stiffness
from planbuild.prove.standing import Standing
from planbuild.prove.telling import told
from planbuild.records.findings import Findings, Proof
from planbuild.records.piece import Contact, Load
from planbuild.records.solids import Key

ALONG = 0.7
"""A support that reaches along so much of a board carries it as a rail (a choice of ours)."""


@dataclass(frozen=True)
class _Bent:
    """A board under its load, over its span (mm): its first sag, and whether the load is there for years."""

    on: Load
    board: Key
    span: float
    stays: bool
    first: float

    @property
    def sag(self) -> float:
        return self.first * (habit_number("creep") if self.stays else 1.0)

    @property
    def most(self) -> float:
        return self.span / habit_number("sag_limit")


def nothing_sags(standing: Standing) -> Findings:
    """Reports `sag-seen` (warning), once for each load."""
    bent = [found for load in standing.piece.loads for found in _bent(standing, load)]
    worst: dict[str, _Bent] = {}
    for each in bent:
        worst[each.on.on] = max(each, worst.get(each.on.on, each), key=_share)
    faults = tuple(_fault(standing, each) for each in worst.values() if each.sag > each.most)
    most = max(worst.values(), key=_share, default=None)
    saying = _told(standing, most) if most else "no load whose supports are known"
    return Findings(faults, (Proof("Nothing that carries a load sags visibly", len(bent), saying),))


def _share(bent: _Bent) -> float:
    return bent.sag / bent.most


def _bent(standing: Standing, load: Load) -> Iterator[_Bent]:
    """The board that carries a load, with its rails; nothing where fewer than two supports are known."""
    key = (load.on, 0)
    part = standing.part(key)
    along = standing.copy(key).motion.axis(part.grain)
    if along is Axis.BOTTOM_TOP or part.pose:
        return
    newtons = load.newtons / len(part.copies) if load.shared else load.newtons
    held, long = list(_supports(standing, key, along)), standing.boxes[key].size(along)
    rails = sorted({other for other, reach in held if reach.size >= ALONG * long})
    if len(rails) < 2:  # one edge alone does not carry it
        rails, spans = [], [_span([reach for other, reach in held if other not in rails])]
    else:
        spans = [_span([reach for _, reach in _supports(standing, rail, along)]) for rail in rails]
    stiff = [_stiffness(standing, each, along) for each in (key, *rails)]
    if max(spans) > 0 and stiff[0] is not None:
        yield _beam(load, key, newtons, max(spans), sum(each or 0.0 for each in stiff), long)


def _beam(load: Load, key: Key, newtons: float, span: float, stiffness: float, long: float) -> _Bent:
    if "middle" in load.where:
        return _Bent(load, key, span, False, sag_middle(newtons, span, stiffness))
    return _Bent(load, key, span, True, sag_even(newtons * min(1.0, span / long), span, stiffness))


def _span(held: list[Span1]) -> float:
    """The longest stretch between two supports that follow each other."""
    ordered = sorted(held, key=lambda each: (each.low, each.high))
    free, reached = 0.0, ordered[0].high if ordered else 0.0
    for each in ordered[1:]:
        free, reached = max(free, each.low - reached), max(reached, each.high)
    return free


def _supports(standing: Standing, key: Key, along: Axis) -> Iterator[tuple[Key, Span1]]:
    """What holds a board, and where along it: what its ends go into, what lies under it, the pins that carry it."""
    for joint in standing.piece.joints:
        for contact in joint.contacts:
            if key in (contact.a, contact.b):
                other = contact.b if contact.a == key else contact.a
                enters = contact.a == key and (contact.insert[along.value] != 0 or _at_an_end(standing, contact, along))
                under = contact.shoulder.size(Axis.BOTTOM_TOP) < 0.01 and _below(standing, other, key)
                if enters or under:
                    yield other, contact.shoulder.along(along)
    for placed in standing.piece.hardware:
        if placed.brings == key[0]:
            for at in placed.at:
                near = standing.boxes[key].along(along)
                if near.low - _PIN <= at[along.value] <= near.high + _PIN:
                    yield (placed.on, 0), Span1(at[along.value], at[along.value])


def _at_an_end(standing: Standing, contact: Contact, along: Axis) -> bool:
    """Let in from above or from the side, within the last tenth of its length."""
    whole, reach = standing.boxes[contact.a].along(along), contact.shoulder.along(along)
    return reach.high < whole.low + whole.size / 10 or reach.low > whole.high - whole.size / 10


_PIN = 25.0
"""mm; the pins of a shelf stand so near to its ends, others carry another copy (a choice of ours)."""


def _below(standing: Standing, other: Key, key: Key) -> bool:
    """Under its underside, or so that its underside rests on it."""
    return standing.boxes[other].along(Axis.BOTTOM_TOP).low < standing.boxes[key].along(Axis.BOTTOM_TOP).low - 0.01


def _stiffness(standing: Standing, key: Key, along: Axis) -> float | None:
    """How hard a board is to bend from above, E I, N mm2; None for a wood without a published number."""
    stock, box = standing.piece.stock_of(standing.part(key)), standing.boxes[key]
    wood = wood_of(stock)
    modulus = sheet_stiffness(stock.species, stock.sheet.core) if stock.sheet else wood.moe_mpa if wood else None
    (across,) = (each for each in along.others if each is not Axis.BOTTOM_TOP)
    return modulus * inertia(box.size(across), box.size(Axis.BOTTOM_TOP)) if modulus else None


# ---------------------------------------------------------------- telling


def _told(standing: Standing, bent: _Bent) -> str:
    ruler = standing.ruler
    in_time = " in time" if bent.stays else ""
    return (
        f"most: the {standing.part(bent.board).name} goes down {told(ruler, bent.sag)}{in_time} over {told(ruler, bent.span)} "
        f"under {bent.on.text}, at most {told(ruler, bent.most)}"
    )


def _fault(standing: Standing, bent: _Bent) -> Diagnostic:
    ruler, name = standing.piece.ruler, standing.part(bent.board).name
    much = bent.sag / bent.most
    deep = standing.boxes[bent.board].size(Axis.BOTTOM_TOP) * much ** (1 / 3)
    short = bent.span / much ** (1 / 3 if bent.stays else 1 / 2)
    in_time = " in time" if bent.stays else ""
    message = f"The {name} sags {told(ruler, bent.sag)}{in_time} over {told(ruler, bent.span)} under {bent.on.text}."
    better = f"Make it {told(ruler, deep)} thick, or its span {told(ruler, short)}"
    hint = f"{better}; or glue a strip under its edge, or take stiffer wood."
    source = "beam on two supports; limit: common practice (1/32 in a foot); creep: Wood Handbook, chapter 5 (from memory)"
    expected = f"at most {told(ruler, bent.most)}"
    origin = standing.part((bent.on.on, 0)).origin
    return Diagnostic("sag-seen", message, Severity.WARNING, origin, expected=expected, hints=(hint,), source=source)
