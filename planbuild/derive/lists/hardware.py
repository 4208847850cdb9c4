"""Hardware to buy: counted from the joints and from what is placed, with sizes and the holes each screw wants."""

from __future__ import annotations

from collections.abc import Mapping

from planbuild.core.units import Ruler, Unit, drill_text
from planbuild.derive import phrases
from planbuild.joints.pocket_screws import PocketScrews
from planbuild.joints.screws import ScrewHoles, gauge_of, screw_holes, screw_words
from planbuild.records.edition import Edition
from planbuild.records.facts import HardwareLine
from planbuild.records.features import Hole
from planbuild.records.hardware import Figure, Placed
from planbuild.records.piece import Item, Part, Piece

_SHOWN_APART = {"gauge", "diameter", "length", "head", "material", "screws", "screws_each", "check"}


def hardware(piece: Piece, edition: Edition) -> tuple[HardwareLine, ...]:
    """One line for each item that is used, in the order of the items."""
    counts = item_counts(piece)
    return tuple(_line(piece, edition, each, counts[each.id]) for each in piece.items if counts.get(each.id))


def item_counts(piece: Piece) -> Mapping[str, int]:
    """How many of each item the whole piece takes: its joints' and what is placed."""
    counts: dict[str, int] = {}
    fixing = [pair for joint in piece.joints for pair in joint.hardware]
    for item, count in (*fixing, *(pair for placed in piece.hardware for pair in placed.takes)):
        counts[item] = counts.get(item, 0) + count
    return counts


def _line(piece: Piece, edition: Edition, item: Item, count: int) -> HardwareLine:
    return HardwareLine(
        id=item.id,
        name=item.name,
        count=count,
        size=item_size(item, edition.ruler),
        holes=holes_text(piece, item, edition.ruler),
        where=_where(piece, item),
        why=item.why,
    )


def item_size(item: Item, ruler: Ruler) -> str:
    """`No. 8 x 1 1/2, pan head, steel`; other items by their fields."""
    fields = dict(item.fields)
    size = [_field(fields["length"], ruler)] if "length" in fields else []
    if item.kind == "wood screw" and gauge_of(item):
        size = [screw_words(gauge_of(item)), *size]
    elif "diameter" in fields:
        size = [f"⌀ {_field(fields['diameter'], ruler)}", *size]
    head = f"{fields['head']} head" if "head" in fields else ""
    rest = [f"{name.replace('_', ' ')} {_field(value, ruler)}" for name, value in item.fields if name not in _SHOWN_APART]
    first = "have it in hand before you cut for it" if fields.get("check") == "yes" else ""
    return ", ".join(each for each in (" × ".join(size), head, *rest, str(fields.get("material", "")), first) if each)


def _field(value: Figure, ruler: Ruler) -> str:
    if isinstance(value, tuple):
        return " × ".join(ruler.printed(each) for each in value)
    return value if isinstance(value, str) else ruler.printed(value)


def holes_of(piece: Piece, item: Item, ruler: Ruler) -> ScrewHoles | None:
    """Pilot by the wood that the thread holds in; the densest where there are several.  None if it is no screw."""
    gauge = gauge_of(item) if item.kind == "wood screw" and not only_in_pockets(piece, item) else ""
    woods = [piece.stock_of(each) for each in _held_in(piece, item)]
    found = [holes for wood in woods if (holes := screw_holes(gauge, wood, ruler))]
    return max(found, key=lambda each: each.pilot) if gauge and found else None


def only_in_pockets(piece: Piece, item: Item) -> bool:
    """Screws that stand in pockets cut their own thread: nothing is drilled for them in the mate."""
    kinds = {each.kind for each in piece.joints if item.id in dict(each.hardware)}
    return kinds == {PocketScrews.name} and not any(item.id in dict(each.takes) for each in piece.hardware)


def holes_text(piece: Piece, item: Item, ruler: Ruler) -> str:
    holes = holes_of(piece, item, ruler)
    if holes is None:
        own_thread = "no pilot holes: they cut their own thread"
        return own_thread if only_in_pockets(piece, item) else _into_the_wall(piece, item, ruler)
    unit = "in" if ruler.unit is Unit.INCH else "mm"
    woods = phrases.listed(sorted({piece.stock_of(each).species for each in _held_in(piece, item)}))
    return f"pilot {drill_text(holes.pilot, ruler)} {unit} ({woods}), clearance {drill_text(holes.clearance, ruler)} {unit}"


def _into_the_wall(piece: Piece, item: Item, ruler: Ruler) -> str:
    """A screw whose thread is in no part of the piece: only the hole that it passes is known."""
    passed = [each.on for each in piece.hardware if each.item == item.id]
    gauge = gauge_of(item) if item.kind == "wood screw" else ""
    holes = screw_holes(gauge, piece.stock_of(piece.part(passed[0])), ruler) if gauge and passed else None
    return f"clearance {drill_text(holes.clearance, ruler)} {ruler.unit.symbol}; pilot to suit the wall" if holes else ""


def _held_in(piece: Piece, item: Item) -> list[Part]:
    """The parts in which the thread holds: those with pilot holes for it, else the entering parts of its
    joints, else the parts it is placed on."""
    joints = [each for each in piece.joints if item.id in dict(each.hardware)]
    ids = {j.id for j in joints}
    piloted = [p for p in piece.parts if any(isinstance(f, Hole) and f.purpose == "pilot" and f.joint in ids for f in p.features)]
    entering = {contact.a[0] for joint in joints for contact in joint.contacts}
    outward = [each for each in piece.hardware if each.item == item.id and not each.meets and item.kind == "wood screw"]
    holding = [each for each in piece.hardware if item.id in dict(each.takes) and each not in outward]
    placed = {id for each in holding for id in _holding(each)}
    return piloted or [p for p in piece.parts if p.id in (entering or placed)]


def _where(piece: Piece, item: Item) -> str:
    joints = [f"[[joint:{each.id}]]" for each in piece.joints if item.id in dict(each.hardware)]
    placed = [id for each in piece.hardware if item.id in dict(each.takes) for id in _holding(each)]
    return phrases.listed([*joints, *(phrases.named(piece.part(id)) for id in dict.fromkeys(placed))])


def _holding(placed: Placed) -> tuple[str, ...]:
    """The parts into which it goes: the one that carries it, and the one that holds its other half."""
    return tuple(dict.fromkeys(key[0] for each in placed.bought for key in each.on)) or (placed.on,)
