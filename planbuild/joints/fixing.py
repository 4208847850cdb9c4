"""Parts held by screws: from what was said to every screw in its place, with its holes in both parts.

Every joint that is screwed comes here; where wood must move, its joint gives the slots.  Lengths in mm.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace

from planbuild.core.diagnostics import Span
from planbuild.core.geometry import TINY
from planbuild.joints.base import Board, Site
from planbuild.joints.commons import free_id
from planbuild.joints.copies import Struck
from planbuild.joints.faults import refuse, warn
from planbuild.joints.proportions import length_rule, share_rule, used
from planbuild.joints.screw_checks import refuse_at_edges, refuse_crowded, refuse_fast, rows_of, warn_of_few
from planbuild.joints.screw_fields import ScrewFields, span_of_item
from planbuild.joints.screw_rows import Place, Seam, Seat, places_on, seam_of, struck
from planbuild.joints.screws import Screw, counterbore_for, depth_of, drill_words, is_dense, screw_into, screw_words
from planbuild.joints.spacing import Spacing, find_spacing
from planbuild.records.piece import Contact, Item, Stock

Number = tuple[str, float | int | str]

Slots = Callable[[Sequence[Place], Screw], list[Place] | None]
"""Draws the holes out to slots where the wood moves; None after reporting."""


@dataclass(frozen=True)
class Fixing:
    """All that was decided of the screws of one joint."""

    screw: Screw
    places: tuple[Place, ...]
    seat: Seat
    cuts: tuple[Struck, ...]
    buys: tuple[Item, ...]
    hardware: tuple[tuple[str, int], ...]
    defaults: tuple[str, ...]

    def numbers(self) -> tuple[Number, ...]:
        """Sizes by name, mm."""
        screw, seat = self.screw, self.seat
        named: list[Number] = [("screws", len(self.places)), ("screw", screw_words(screw.gauge)), ("screw length", screw.length)]
        named.append(("clearance hole", screw.clearance))
        slots = [each.slot.length for each in self.places if each.slot]
        if slots:
            named += [("slots", len(slots)), ("slot length", max(slots))]
        if seat.counterbore:
            named += [("counterbore width", seat.counterbore[0]), ("counterbore depth", seat.counterbore[1])]
        if seat.countersink:
            named.append(("countersink width", seat.countersink[0]))
        named.append(("pilot hole", screw.pilot))
        named += [("pilot hole depth" + where, depth) for where, depth in _depths(self.places)]
        named += _distances(self.places)
        return tuple((name, round(value, 6) if isinstance(value, float) else value) for name, value in named)

    def tools(self, site: Site) -> tuple[str, ...]:
        drills = [drill_words(size, site) for size in (self.screw.pilot, self.screw.clearance)]
        if self.seat.counterbore:
            drills.append(f"counterbore {site.ruler.plain(self.seat.counterbore[0])}")
        if self.seat.countersink:
            drills.append("countersink")
        return (*drills, "screwdriver")


def _depths(places: Sequence[Place]) -> list[tuple[str, float]]:
    """One depth, or one for each part that the screws go through."""
    by_part = {each.seam.outer.board.name: each.depth for each in places}
    if len(set(by_part.values())) <= 1:
        return [("", depth) for depth in list(by_part.values())[:1]]
    return [(f", under {name}", depth) for name, depth in by_part.items()]


def _distances(places: Sequence[Place]) -> list[Number]:
    """For each two parts, how far the first screw is from the end of where they meet, and the next from the first."""
    named: list[Number] = []
    done: set[str] = set()
    for seam in dict.fromkeys(each.seam for each in places):
        names = f"{seam.outer.board.name} to {seam.inner.board.name}"
        row = [each.at(seam.run) for each in places if each.seam == seam]
        if names not in done:
            named.append((f"first screw from the end of the seam, {names}", row[0] - seam.patch.along(seam.run).low))
            named += [(f"screws apart, {names}", row[1] - row[0])] if len(row) > 1 and row[1] > row[0] else []
            lines = sorted({round(each.at(seam.across), 6) for each in places if each.seam == seam})
            named += [(f"rows apart, {names}", lines[1] - lines[0])] if len(lines) > 1 else []
            done.add(names)
    return named


# ---------------------------------------------------------------- deciding


def fixed(
    id: str, contacts: Sequence[Contact], through_first: Callable[[Contact], bool], said: ScrewFields,
    plain: Spacing, default: str, site: Site, slots: Slots | None = None, glued: bool = False,
    boards: Mapping[str, Board] | None = None,
) -> Fixing | None:  # fmt: skip
    """Screws on every contact; None after reporting.  `boards` are the bodies, if the joint itself has changed them.

    Reports `joint-screw`, `joint-screw-gauge`, `joint-spacing`, `hardware-screw-long`, `hardware-screw-short`,
    `joint-screw-edge`, `joint-counterbore`, `joint-cross-grain`; and `joint-screws-few`, `joint-screw-head` (warnings).
    """
    span = span_of_item(said.item).span
    item, spacing, rows = site.words.item(said.item, id), _spacing(said, plain, default, site), rows_of(said, site)
    seams = [seam_of(each, through_first(each), span, boards or site.boards) for each in contacts]
    screw = screw_into(item, _hardest(seams), span, site) if item else None
    seat = _seat(said, screw, seams, site) if screw else None
    if screw is None or seat is None or spacing is None or rows is None:
        return None
    if refuse_crowded(seams, spacing, rows, screw, span, site):
        return None
    places = _all_places(seams, spacing, rows, screw, seat, span, site)
    placed = slots(places, screw) if places and slots else places
    if not placed or refuse_at_edges(id, placed, screw, seat, site):
        return None
    if slots is None and refuse_fast(placed, span, site):
        return None
    _warn(seams, placed, screw, seat, span, glued, site)
    return _decided(id, placed, screw, seat, spacing, said, site)


def _decided(
    id: str, placed: Sequence[Place], screw: Screw, seat: Seat, spacing: Spacing, said: ScrewFields, site: Site
) -> Fixing | None:
    plug = _plug(id, said, seat, site) if said.plugs else None
    if said.plugs and plug is None:
        return None
    why = "lets the wood move under the head" if any(each.slot for each in placed) else "the thread passes free"
    return Fixing(
        screw=screw,
        places=tuple(placed),
        seat=seat,
        cuts=tuple(struck(id, placed, screw, seat, why)),
        buys=(plug,) if plug else (),
        hardware=((screw.item.id, len(placed)), *(((plug.id, len(placed)),) if plug else ())),
        defaults=spacing.defaults,
    )


def _spacing(said: ScrewFields, plain: Spacing, default: str, site: Site) -> Spacing | None:
    edge = site.words.length(said.edge) if said.edge else plain.corner
    if edge is None:
        return None
    plain = replace(plain, corner=edge, from_ends=said.edge is not None)
    return find_spacing(said.spacing, said.count, plain, default, "screws", site)


def screw_spacing(site: Site) -> tuple[Spacing, str]:
    """Where nothing is said of number or distance, and the printable line for it."""
    ruler = site.ruler
    corner = (used("Screws from the ends", "screw_corner", ruler),)
    plain = Spacing(length_rule("screw_corner", ruler), length_rule("screw_spacing", ruler), defaults=corner)
    return plain, used("Distance of the screws", "screw_spacing", ruler)


def _hardest(seams: Sequence[Seam]) -> Stock:
    """One drill for all: that of the densest wood that takes a thread."""
    woods = [each.inner.board.stock for each in seams]
    return next((each for each in woods if is_dense(each)), woods[0])


def _seat(said: ScrewFields, screw: Screw, seams: Sequence[Seam], site: Site) -> Seat | None:
    """How the heads sit; None after reporting `joint-counterbore`."""
    ruler = site.ruler
    if not said.counterbore and not said.plugs:
        sunk = (max(screw.head, screw.clearance), share_rule("countersink_angle", ruler))
        return Seat(countersink=sunk if screw.flat and screw.head > screw.clearance + TINY else None)
    deep = site.words.length(said.counterbore) if said.counterbore else length_rule("plug_bore", ruler)
    least = length_rule("head_wood", ruler)
    thin = min(seams, key=lambda each: each.thick)
    if deep is None:
        return None
    if deep > thin.thick - least + TINY:
        at = said.counterbore or said.plugs
        assert at is not None
        left = f'too little of "{thin.outer.board.id}", {ruler.plain(thin.thick)} thick'
        message = f"A counterbore {ruler.plain(deep)} deep leaves {left}."
        expected = f"{ruler.plain(least)} of wood under the head: at most {ruler.plain(thin.thick - least)}"
        refuse(site, "joint-counterbore", at.span, message, expected, source="common practice")
        return None
    return Seat(counterbore=(counterbore_for(screw, ruler), deep))


def _all_places(
    seams: Sequence[Seam], spacing: Spacing, rows: int, screw: Screw, seat: Seat, span: Span, site: Site
) -> list[Place] | None:
    """None after reporting, for each two parts once, that the screw is too long or too short."""
    found: list[Place] = []
    depths: dict[tuple[float, float], float | None] = {}
    for seam in seams:
        sizes = (round(seam.thick, 6), round(seam.deep, 6))
        if sizes not in depths:
            depths[sizes] = depth_of(screw, seam.thick - seat.let_in, seam.deep, seam.inner.board.id, span, site)
        depth = depths[sizes]
        found += places_on(seam, spacing, depth, rows) if depth is not None else []
    return None if None in depths.values() else found


def _plug(id: str, said: ScrewFields, seat: Seat, site: Site) -> Item | None:
    """The plugs, cut from an offcut of their stock; None after reporting."""
    assert said.plugs is not None and seat.counterbore is not None
    stock = site.words.stock(said.plugs)
    if stock is None:
        return None
    fields = (("diameter", seat.counterbore[0]), ("length", length_rule("plug_length", site.ruler)), ("wood", stock.species))
    why = "closes the counterbores over the screws; cut with a plug cutter from an offcut, grain with grain"
    return Item(free_id("plug", id, site), said.plugs.span, "other", "wooden plug", fields, why)


def _warn(
    seams: Sequence[Seam], places: Sequence[Place], screw: Screw, seat: Seat, span: Span, glued: bool, site: Site
) -> None:
    warn_of_few(seams, places, glued, site)
    if screw.flat and any(each.slot for each in places) and not seat.counterbore:
        message = "A flat head wedges in its slot, and the wood cannot move."
        warn(site, "joint-screw-head", span, message, "a pan or round head", "Use a screw with `head: pan`.", "common practice")
