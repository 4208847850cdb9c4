"""How the piece goes together: which glue-ups there are, what moves onto what, and whether it can.

A glue-up can be closed if it can be taken apart again one unit after another, each along one straight
line: all the joints that still hold the unit must agree on its direction.  Only the directions that the
joints declare are looked at here; whether a solid is in the way is proved from the solids.
Source of the idea: directional blocking (Wilson and Latombe 1994).
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import combinations

from planbuild.core.diagnostics import Diagnostic, Span
from planbuild.core.geometry import Axis, Box, Vec, hull
from planbuild.core.poses import same_way
from planbuild.derive.lists.blanks import is_corner_key
from planbuild.derive.phrases import listed
from planbuild.derive.steps.slid_in import slid_in, way_in
from planbuild.records.features import Tenon
from planbuild.records.piece import Assembly, Contact, Joint, Part, Piece
from planbuild.records.solids import Key


@dataclass(frozen=True)
class Unit:
    """What is moved as one: a single copy of a part, or an assembly that is already joined."""

    id: str
    name: str
    keys: tuple[Key, ...]


@dataclass(frozen=True)
class Link:
    """A joint between two units: `a` moves along `way` to go home into `b`."""

    a: Unit
    b: Unit
    way: Vec
    joint: Joint
    contact: Contact


@dataclass(frozen=True)
class Joining:
    """One glue-up, `groups` times over; units, links and moves are those of the first group.

    `inner` units are held from two sides and lie still; each of `stages` is what goes home onto what is there by then, unit by
    unit along its direction.  `made` are parts that a joint calls for (wedges, keys), with the direction in which each is driven.
    """

    id: str
    name: str
    groups: tuple[tuple[Key, ...], ...]
    units: tuple[Unit, ...]
    links: tuple[Link, ...]
    inner: tuple[Unit, ...]
    stages: tuple[tuple[tuple[Unit, Vec], ...], ...]
    made: tuple[tuple[Key, Vec], ...]
    added: tuple[Key, ...]
    """Every copy that is new here, over all groups, driven ones last."""

    @property
    def outer(self) -> tuple[tuple[Unit, Vec], ...]:
        """All that goes home, in the order in which it does."""
        return tuple(moved for stage in self.stages for moved in stage)

    @property
    def glued(self) -> tuple[Link, ...]:
        return tuple(each for each in self.links if each.joint.glue)

    @property
    def dry(self) -> tuple[Link, ...]:
        return tuple(each for each in self.links if not each.joint.glue)

    @property
    def parts(self) -> tuple[str, ...]:
        """Ids of the parts that are added here, made parts last."""
        return tuple(dict.fromkeys(key[0] for key in self.added))


def is_assembled(piece: Piece, joint: Joint) -> bool:
    """Whether a joint is closed in a glue-up (dry or not), and not fitted afterwards like buttons and screws."""
    enters = any(isinstance(f, Tenon) and f.joint == joint.id for part in piece.parts for f in part.features)
    return joint.glue or enters or _captures(piece, joint)


def _captures(piece: Piece, joint: Joint) -> bool:
    """True if a part stands in its mates from more than one side, as a panel in its frame: it cannot go in afterwards, unless
    the grooves are open where it comes from."""
    ways: dict[Key, set[Vec]] = {}
    for contact in joint.contacts:
        if body_of(piece, contact.a).meet(body_of(piece, contact.b)).is_solid:
            ways.setdefault(contact.a, set()).add(contact.insert)
    return any(len(each) > 1 and way_in(piece, joint, key) is None for key, each in ways.items())


def plan_joinings(piece: Piece) -> tuple[tuple[Joining, ...], tuple[Diagnostic, ...]]:
    """The glue-ups in an order that works: the designer's assemblies from the smallest, then what joins them all.

    A block that what is around it holds from more than one side (a case round its web frames) is not joined beforehand; the
    largest such one is taken apart first.  Reports `step-locked` for a glue-up that no order of straight moves closes.
    """
    assemblies = piece.assemblies
    while True:
        planner = _Planner(piece, assemblies)
        found = planner.plan()
        held = [each for each in assemblies if each.of_block and each.id in planner.held]
        if not held:
            return found
        largest = max(held, key=lambda each: len(each.groups[0]))
        assemblies = tuple(each for each in assemblies if each is not largest)


class _Planner:
    def __init__(self, piece: Piece, assemblies: Sequence[Assembly]) -> None:
        self.piece = piece
        self.assemblies = assemblies
        self.joints = [each for each in piece.joints if is_assembled(piece, each)]
        parts = [each for each in piece.parts if not each.made_by]
        self.units = [Unit(part.id, part.name, ((part.id, i),)) for part in parts for i in range(len(part.copies))]
        self.found: list[Joining] = []
        self.faults: list[Diagnostic] = []
        self.held = set[str]()
        """Units that a glue-up holds from more than one side."""

    def plan(self) -> tuple[tuple[Joining, ...], tuple[Diagnostic, ...]]:
        later = {each.id for each in self.piece.parts if slid_in(self.piece, each.id)}
        for each in sorted(self.assemblies, key=lambda a: max(map(len, a.groups), default=0)):
            groups = [tuple(key for key in group if key[0] not in later) for group in each.groups]
            self._join(each.id, each.name, groups, each.origin)
        self._join_rest()
        return tuple(self.found), tuple(self.faults)

    def _join(self, id: str, name: str, groups: Sequence[tuple[Key, ...]], origin: Span | None) -> None:
        """One glue-up (and its like copies) joined into a unit each."""
        inside = [[unit for unit in self.units if set(unit.keys) <= set(group)] for group in groups]
        for units in inside:
            self._refuse_if_locked(units, origin)
        self.found.append(self._joining(id, name, inside))
        for units in inside:
            driven = tuple(key for key, _ in _driven(self.piece, self.links(units)))
            keys = (*(key for unit in units for key in unit.keys), *driven)
            self.units = [each for each in self.units if each not in units] + [Unit(id, name, keys)]

    def _join_rest(self) -> None:
        """What the joints still connect: in one go if it can be closed, else frames along one direction first."""
        clusters = [each for each in _clusters(self.units, self.links(self.units)) if len(each) > 1]
        for number, units in enumerate(clusters):
            if take_apart(units, self.links(units)).stuck:
                units = self._frames_first(units)
            id, name = self._last_name(units, number)
            self._join(id, name, [tuple(key for unit in units for key in unit.keys)], None)

    def _frames_first(self, units: list[Unit]) -> list[Unit]:
        """Join along the one direction that gives the smallest frames, if each of them can be closed."""
        links = self.links(units)
        for axis in sorted(_axes(links), key=lambda axis: self._span(units, axis)):
            along = [link for link in links if _axis_of(link.way) is axis]
            frames = [each for each in _clusters(units, along) if len(each) > 1]
            if len(frames) > 1 and not any(take_apart(each, self.links(each)).stuck for each in frames):
                before = set(self.units)
                self._join_alike(frames)
                rest = [each for each in units if each in self.units]
                return [*(each for each in self.units if each not in before), *rest]
        return units

    def _join_alike(self, frames: list[list[Unit]]) -> None:
        kinds: dict[tuple[str, ...], list[list[Unit]]] = {}
        for frame in frames:
            kinds.setdefault(tuple(sorted(unit.id for unit in frame)), []).append(frame)
        for number, alike in enumerate(kinds.values()):
            id = "frame" if number == 0 else f"frame_{number + 1}"
            groups = [tuple(key for unit in frame for key in unit.keys) for frame in alike]
            self._join(id, id.replace("_", " "), groups, None)

    def _span(self, units: list[Unit], axis: Axis) -> float:
        return hull_of(self.piece, [key for unit in units for key in unit.keys]).size(axis)

    def _last_name(self, units: list[Unit], number: int) -> tuple[str, str]:
        """The piece's own word; `base` if something is fitted on it later, `case` if only what hardware brings is missing, or
        what stays on the wall."""
        here = {key for unit in units for key in unit.keys}
        others = [each for each in self.units if not set(each.keys) <= here]
        brought = {placed.brings for placed in self.piece.hardware} | {each.id for each in self.piece.parts if each.stays_on}
        missing = {key[0] for each in others for key in each.keys}
        word = piece_word(self.piece) if not others else "case" if missing <= brought else "base"
        return (word, word.replace("_", " ")) if number == 0 else (f"{word}_{number + 1}", f"{word} {number + 1}")

    def links(self, units: Iterable[Unit]) -> list[Link]:
        """The joints between these units, in the order of the joints."""
        home = {key: unit for unit in units for key in unit.keys}
        return [
            Link(home[c.a], home[c.b], c.insert, joint, c)
            for joint in self.joints
            for c in joint.contacts
            if c.a in home and c.b in home and home[c.a] != home[c.b]
        ]

    def _joining(self, id: str, name: str, inside: list[list[Unit]]) -> Joining:
        units = inside[0]
        links = self.links(units)
        inner, stages = _in_stages(units, links)
        driven = [key for each in inside for key, _ in _driven(self.piece, self.links(each))]
        single = [unit.keys[0] for each in inside for unit in each if len(unit.keys) == 1]
        return Joining(
            id=id,
            name=name,
            groups=tuple(tuple(key for unit in each for key in unit.keys) for each in inside),
            units=tuple(units),
            links=tuple(links),
            inner=inner,
            stages=stages,
            made=_driven(self.piece, links),
            added=(*single, *driven),
        )

    def _refuse_if_locked(self, units: list[Unit], origin: Span | None) -> None:
        links = self.links(units)
        stuck = take_apart(units, links).stuck
        if stuck:
            self.held |= {each.id for each in stuck if len(ways_home(each, stuck, links)) > 1}
            self.faults.append(_locked(self.piece, stuck, links, origin))


# ---------------------------------------------------------------- taking apart


@dataclass(frozen=True)
class Apart:
    """Units in the order in which they come off, and those that hold each other for good."""

    order: tuple[Unit, ...]
    stuck: tuple[Unit, ...]


def take_apart(units: Sequence[Unit], links: Sequence[Link]) -> Apart:
    """Take one unit after another off; the first that is free goes first, so the result never varies."""
    left, order = list(units), list[Unit]()
    while len(left) > 1:
        free = next((each for each in left if len(ways_home(each, left, links)) <= 1), None)
        if free is None:
            return Apart(tuple(order), tuple(left))
        left.remove(free)
        order.append(free)
    return Apart((*order, *left), ())


def ways_home(unit: Unit, among: Sequence[Unit], links: Sequence[Link]) -> tuple[Vec, ...]:
    """The directions in which its joints with the others let a unit go home, each once."""
    ways = [_from(unit, link) for link in links if unit in (link.a, link.b) and _other(unit, link) in among]
    return tuple(dict.fromkeys(ways))


def _from(unit: Unit, link: Link) -> Vec:
    x, y, z = (round(each, 6) + 0.0 for each in link.way)
    return (x, y, z) if link.a == unit else (0.0 - x, 0.0 - y, 0.0 - z)


def _in_stages(
    units: Sequence[Unit], links: Sequence[Link]
) -> tuple[tuple[Unit, ...], tuple[tuple[tuple[Unit, Vec], ...], ...]]:
    """What lies still, and what goes home onto it stage by stage: the ends onto the rails, then the top onto both."""
    inner, stages = tuple(units), list[tuple[tuple[Unit, Vec], ...]]()
    while True:
        left, outer = _still_and_moving(list(inner), links)
        if not outer or not left:
            return inner, tuple(stages)
        inner = left
        stages.insert(0, outer)


def _still_and_moving(units: list[Unit], links: Sequence[Link]) -> tuple[tuple[Unit, ...], tuple[tuple[Unit, Vec], ...]]:
    """Units with one way home move; if all have one, the biggest (then the most joined, then the first) lies still,
    and with it what would go home as it does: the crossbars of a lattice lie side by side."""
    ways = {unit.keys: ways_home(unit, units, links) for unit in units}
    still = [each for each in units if len(ways[each.keys]) != 1]
    if not still and units:
        first = max(units, key=lambda each: (len(each.keys), sum(each in (link.a, link.b) for link in links)))
        still = [each for each in units if ways[each.keys] == ways[first.keys]]
    return tuple(still), tuple((each, ways[each.keys][0]) for each in units if each not in still)


def _locked(piece: Piece, stuck: Sequence[Unit], links: Sequence[Link], origin: Span | None) -> Diagnostic:
    held = next(each for each in stuck if len(ways_home(each, stuck, links)) > 1)
    around = [_other(held, link) for link in links if held in (link.a, link.b)]
    holders = dict.fromkeys(_spoken(piece, each) for each in around if each in stuck)
    pair = _pair_that_leaves(stuck, links)
    first = listed(_spoken(piece, each) for each in pair) if pair else ""
    hint = f"Join {first} first: name them as an assembly." if pair else "Name smaller assemblies."
    part = piece.part(held.keys[0][0])
    return Diagnostic(
        "step-locked",
        f'"{_spoken(piece, held)}" cannot go in: {listed(holders)} hold it from more than one side.',
        span=origin or part.origin,
        label="cannot be closed along straight lines",
        expected="each unit of a glue-up goes home in one direction",
        hints=(hint,),
    )


def _other(unit: Unit, link: Link) -> Unit:
    return link.b if link.a == unit else link.a


def _pair_that_leaves(stuck: Sequence[Unit], links: Sequence[Link]) -> tuple[Unit, ...]:
    """Two units that could leave together: they would make a subassembly."""
    for pair in combinations(stuck, 2):
        rest = [each for each in stuck if each not in pair]
        joined = any({link.a, link.b} == set(pair) for link in links)
        if joined and rest and len({way for each in pair for way in ways_home(each, rest, links)}) == 1:
            return pair
    return ()


# ---------------------------------------------------------------- small helpers


def _clusters(units: Sequence[Unit], links: Sequence[Link]) -> list[list[Unit]]:
    """Units that the links connect, in the order of the units."""
    found: list[list[Unit]] = []
    left = list(units)
    while left:
        cluster, edge = [], [left[0]]
        while edge:
            unit = edge.pop()
            if unit not in cluster:
                cluster.append(unit)
                edge += [_other(unit, link) for link in links if unit in (link.a, link.b)]
        found.append([each for each in units if each in cluster])
        left = [each for each in left if each not in cluster]
    return found


def _axis_of(way: Vec) -> Axis:
    return Axis(max(range(3), key=lambda i: abs(way[i])))


def _axes(links: Sequence[Link]) -> list[Axis]:
    return list(dict.fromkeys(_axis_of(each.way) for each in links))


def body_of(piece: Piece, key: Key) -> Box:
    part = piece.part(key[0])
    return part.box(key[1], part.body)


def hull_of(piece: Piece, keys: Iterable[Key]) -> Box:
    """Box around the bodies of these copies, tenons and small made parts left out."""
    return hull([body_of(piece, key) for key in keys if not piece.part(key[0]).made_by])


def piece_word(piece: Piece) -> str:
    """The last word of the title, as an id: `Listening bench` -> `bench`."""
    words = "".join(sign if sign.isalnum() else " " for sign in piece.imprint.title.lower()).split()
    return words[-1] if words else "piece"


def _spoken(piece: Piece, unit: Unit) -> str:
    """`front left leg`, `end frame`."""
    return unit.name if len(unit.keys) > 1 else spoken(piece, unit.keys[0])


def spoken(piece: Piece, key: Key) -> str:
    """A copy as it is called: `front left leg`."""
    part = piece.part(key[0])
    return f"{part.copies[key[1]].hand} {part.name}".strip()


def _driven(piece: Piece, links: Sequence[Link]) -> tuple[tuple[Key, Vec], ...]:
    """Made parts that belong to these joints, with the way in which each is driven into its tenon."""
    found = []
    for id in dict.fromkeys(id for link in links for id in link.joint.makes):
        part = piece.part(id)
        if is_corner_key(piece, part):
            continue  # let in when the corner is glued
        for copy in range(len(part.copies)):
            here = body_of(piece, (id, copy))
            mine = [each for each in links if id in each.joint.makes]
            home = (each for each in mine if _tenon_meets(piece, each.contact, here) or _lies_between(each, (id, copy)))
            link = next(home, None)
            if link:
                ways = [contact.insert for contact in link.joint.contacts if contact.a == (id, copy)]
                found.append(((id, copy), ways[0]))
    return tuple(found)


def _lies_between(link: Link, made: Key) -> bool:
    """Whether a loose tenon goes into both parts that this very contact closes."""
    into = [contact.b for contact in link.joint.contacts if contact.a == made]
    return link.contact.a in into and link.contact.b in into


def _tenon_meets(piece: Piece, contact: Contact, box: Box) -> bool:
    """Whether the tenon of this very contact and the box share wood."""
    part: Part = piece.part(contact.a[0])
    tenons = [f for f in part.features if isinstance(f, Tenon) and same_way(part.way(contact.a[1], f.end), contact.insert)]
    return any(part.box(contact.a[1], f.block).meet(box).is_solid for f in tenons)
