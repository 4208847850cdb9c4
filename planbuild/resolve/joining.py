"""Every joint cut on both sides, and every touch accounted for.

The kinds know their trade; this room asks each in the order of the design, gathers what they cut by part, and looks
at what no single joint can see: parts that touch without a joint, mortises of two joints that cross.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import combinations, islice, product

from planbuild.core.diagnostics import Diagnostic, Related
from planbuild.core.geometry import TINY, Axis, Box, Face
from planbuild.core.poses import Pose, blocks_meet
from planbuild.core.spelling import did_you_mean
from planbuild.joints import KINDS
from planbuild.joints.base import Board, Joined, Site, joined_by
from planbuild.joints.dovetails.showing import tell_grooves_that_show
from planbuild.joints.faults import collision, warn
from planbuild.joints.partly_glued import partly_glued
from planbuild.joints.screws_covered import refuse_covered
from planbuild.joints.touching import pairs_that_touch
from planbuild.records.design import Design, JointSaid
from planbuild.records.features import Feature, Groove, Mortise, Rabbet, Tenon
from planbuild.records.piece import Item, Joint, Part
from planbuild.records.shaped import Sawn, Turned, goes_in_whole
from planbuild.records.slanted import AngledMortise, EndCut
from planbuild.resolve.many import refuse_many_joined
from planbuild.resolve.turned import Turns

SEEN_OF_ALL = ("joint-no-mate", "joint-missing", "joint-copies-differ", "joint-collision")
"""Faults that may only seem to be there while a part at fault is missing."""


@dataclass(frozen=True)
class Joinery:
    """`features` are what the joints cut into each part, by its id, joint by joint in the order of the design:
    joinery comes before shaping, marked from square faces.  `makes` are the parts that joints call for, `buys` the
    items, `bodies` those of the parts, each as much larger than what is seen as its joints want."""

    joints: tuple[Joint, ...]
    features: Mapping[str, tuple[Feature, ...]]
    makes: tuple[Part, ...]
    buys: tuple[Item, ...]
    bodies: Mapping[str, Box]


def join_all(design: Design, site: Site, outside: Site, turns: Turns) -> Joinery:
    """All joints of the design.  A joint at fault is left out.  What is said inside a turned block is joined straight, as
    `site` has it; all else where it stands, as `outside` has it.

    Reports `joint-unknown-kind`, `joint-missing`, `joint-collision`, `joint-screw-covered`, `joint-groove-shows` and
    `joint-corners-meet` (warnings), `piece-large` and what each kind reports.
    """
    before = len(site.report.found)
    joined = _all_joined(design.joints, site, outside, turns)
    whole = len(site.boards) == len(design.parts)
    if whole and len(joined) == len(design.joints):
        _check_all_touches([each.joint for each in joined], site, outside)
    _check_crossings(joined, site)
    _check_corners(joined, site)
    refuse_covered(joined, site)
    tell_grooves_that_show(joined, site)
    if not whole:
        site.report.found[before:] = [each for each in site.report.found[before:] if each.code not in SEEN_OF_ALL]
    makes = tuple(part for each in joined for part in each.makes)
    bodies = _grown(joined, site)
    features = {id: _run_out(cut, site.boards[id].body, bodies[id]) for id, cut in _by_part(joined).items()}
    buys = tuple({item.id: item for each in joined for item in each.buys}.values())
    return Joinery(tuple(each.joint for each in joined), features, makes, buys, bodies)


def _all_joined(joints: Mapping[str, JointSaid], straight: Site, outside: Site, turns: Turns) -> list[Joined]:
    """In the order of the design, but joined in the order in which they look at each other."""
    found: dict[str, Joined | None] = {}
    for id, said in sorted(joints.items(), key=lambda each: _looks_at_others(each[1])):
        kind, site = KINDS.get(said.kind.text), straight if turns.holder(id) else outside
        if kind is None:
            _unknown(said, site)
            continue
        made = frozenset(part.id for each in found.values() if each for part in each.makes)
        cut = joined_by(kind, id, said, replace(site, made=made, joined=dict(found)))
        cut = partly_glued(cut, said, site) if cut else None
        found[id] = cut if cut and _can_stand_askew(cut, site) else None
        if refuse_many_joined([each for each in found.values() if each], site.report):
            break
    return [cut for id in joints if (cut := found.get(id))]


def _looks_at_others(said: JointSaid) -> bool:
    """True for a joint that hides or fills the groove of another one, or gives way to its tenons: it comes when that is cut."""
    return getattr(said, "hide", None) is not None or getattr(said, "looks_at_others", False)


def _unknown(said: JointSaid, site: Site) -> None:
    message, expected = f'No joint "{said.kind.text}".', ", ".join(KINDS)
    hints = did_you_mean(said.kind.text, KINDS)
    site.report.add(Diagnostic("joint-unknown-kind", message, span=said.kind.span, expected=expected, hints=hints))


CUTS_ASKEW = ("mortise and tenon",)
LIES_ASKEW = (*CUTS_ASKEW, "butt", "loose")
LIES_TURNED = ("loose",)
"""The joints that cut parts which are turned or lean, and those that at least hold them; others reckon with faces square
to the piece."""


def _can_stand_askew(cut: Joined, site: Site) -> bool:
    """False after reporting `not-built-yet`: the joint would be cut as if its parts stood square to the piece."""
    joint = cut.joint
    touched = dict.fromkeys(key[0] for contact in joint.contacts for key in (contact.a, contact.b))
    askew = next((id for id in (*cut.features, *touched) if id in site.boards and _is_askew_in(id, cut, site)), None)
    if askew is None:
        return True
    message = f'A {joint.kind} of "{askew}", which is turned or leans or is cut on the slant, is not built yet.'
    known = LIES_TURNED if site.boards[askew].is_turned else LIES_ASKEW
    expected = f"one of: {', '.join(known)}"
    site.report.add(Diagnostic("not-built-yet", message, span=joint.origin, expected=expected))
    return False


def _is_askew_in(id: str, cut: Joined, site: Site) -> bool:
    """True if a joint does to a board what it cannot do to one that is not square there."""
    board, kind = site.boards[id], cut.joint.kind
    if board.is_turned:
        return kind not in LIES_TURNED
    if board.pose:
        return kind not in (CUTS_ASKEW if id in cut.features else LIES_ASKEW)
    return kind not in CUTS_ASKEW and any(face in board.end_cuts for face in cut.grows.get(id, {}))


def _by_part(joined: Iterable[Joined]) -> dict[str, tuple[Feature, ...]]:
    features: dict[str, tuple[Feature, ...]] = {}
    for each in joined:
        for part, cut in each.features.items():
            features[part] = (*features.get(part, ()), *cut)
    return features


def _grown(joined: Iterable[Joined], site: Site) -> dict[str, Box]:
    """Every body with what goes into its mates.  Two joints on one side: the one that wants more."""
    more: dict[tuple[str, Face], float] = {}
    for each in joined:
        for part, sides in each.grows.items():
            for face, size in sides.items():
                more[part, face] = max(size, more.get((part, face), size))
    cut = _by_part(joined)
    bodies = {id: _with_long_corners(without_hidden_ends(board, cut.get(id, ()))) for id, board in site.boards.items()}
    for (part, face), size in more.items():
        bodies[part] = bodies[part].grown(face, size)
    return bodies


def without_hidden_ends(board: Board, cut: Sequence[Feature]) -> Board:
    """A board without the slanted ends from which a tenon goes on as thick as they are: nothing is cut there.  Such an end
    is turned straight as far back as it stands in the slanted hole on one side."""
    ends = {each.end for each in cut if isinstance(each, Tenon) and goes_in_whole(board.shapes, each)}
    slanted = {face: end for face, end in board.end_cuts.items() if face in ends}
    shapes = [each for each in board.shapes if each not in slanted.values()]
    for face, end in slanted.items():
        shapes = [each.straight_at(face, end.from_square) if isinstance(each, Turned) else each for each in shapes]
    return replace(board, shapes=tuple(shapes))


def _with_long_corners(board: Board) -> Box:
    """The body from its longest corner to its longest corner, where its ends are slanted.

    That of a level or landing end lies on the centre line so far; an end cut by its own word has its long corner already.
    """
    body = board.body
    for face, cut in board.end_cuts.items():
        longest = cut.at + face.sign * cut.beyond(board.body)
        body = body.grown(face, face.sign * (longest - board.body.at(face)))
    return body


def _run_out(features: Iterable[Feature], seen: Box, sawn: Box) -> tuple[Feature, ...]:
    """A groove or rabbet that reaches a side of what is seen goes on through what that side gains."""
    return tuple(
        replace(each, void=_reaching(each.void, seen, sawn)) if isinstance(each, Groove | Rabbet) else each for each in features
    )


def grown_with(shapes: tuple[Feature, ...], seen: Box, sawn: Box) -> tuple[Feature, ...]:
    """Notches and other square openings that reach a side of what is seen go on through what that side gains; what is
    turned up to a slanted end goes on to its longest corner."""
    slanted = [each.end for each in shapes if isinstance(each, EndCut)]
    return tuple(_grown_shape(each, seen, sawn, slanted) if seen != sawn else each for each in shapes)


def _grown_shape(shape: Feature, seen: Box, sawn: Box, slanted: Sequence[Face]) -> Feature:
    if isinstance(shape, Sawn) and shape.is_square:
        return shape.moved_out(seen, sawn)
    if isinstance(shape, Turned):
        for end in slanted:
            shape = shape.drawn_out(end, seen.at(end), sawn.at(end))
    return shape


def _reaching(void: Box, seen: Box, sawn: Box) -> Box:
    for face in Face:
        if abs(void.at(face) - seen.at(face)) < TINY:
            void = void.grown(face, face.sign * (sawn.at(face) - seen.at(face)))
    return void


# ---------------------------------------------------------------- what no single joint sees


def _all_touching(site: Site, outside: Site) -> Iterator[tuple[tuple[Board, int], tuple[Board, int]]]:
    """Each two copies that lie flat against each other.  Those that are turned together are looked at straight."""
    turned = {board.id for board in outside.boards.values() if board.is_turned}
    for pairs, together in ((pairs_that_touch(board for id, board in site.boards.items() if id in turned), True),
                            (pairs_that_touch(outside.boards.values()), False)):  # fmt: skip
        for one, other in pairs:
            poses = [outside.boards[board.id].copies[copy].turned for board, copy in (one, other)]
            if (poses[0] is not None and poses[0] == poses[1]) is together:
                yield one, other


def _check_all_touches(joints: Sequence[Joint], site: Site, outside: Site) -> None:
    """Whatever lies flat against something else is joined to it or said to be loose."""
    held = {frozenset((contact.a, contact.b)) for joint in joints for contact in joint.contacts}
    bare: dict[tuple[str, str], int] = {}
    for (one, copy), (other, at) in _all_touching(site, outside):
        if frozenset(((one.id, copy), (other.id, at))) not in held:
            bare[one.id, other.id] = bare.get((one.id, other.id), 0) + 1
    for (one_id, other_id), count in bare.items():
        _missing(site.boards[one_id], site.boards[other_id], count, site)


def _missing(one: Board, other: Board, count: int, site: Site) -> None:
    places = f"{count} places" if count > 1 else "1 place"
    site.report.add(
        Diagnostic(
            "joint-missing",
            f'"{one.id}" touches "{other.id}" ({places}) and no joint says so.',
            span=one.origin,
            expected="a joint for each two parts that touch",
            hints=(f"Add a joint, or `{{kind: loose, part: {one.id}, on: {other.id}}}` if one only rests against the other.",),
            related=(Related(other.origin, f'"{other.id}" is placed here'),),
        )
    )


_Opening = Mortise | AngledMortise

MOST_CROSSINGS = 20
"""Crossings told at once; the same tenons said in many joints cross without end."""


def _check_crossings(joined: Sequence[Joined], site: Site) -> None:
    """Mortises of two joints in one part: of each two joints the first that cross."""
    for one, other, part, (first, second) in islice(_crossings(joined), MOST_CROSSINGS):
        names = (f"{first.mate.part}", f"{second.mate.part}")
        move = f'Move one of the joints "{one.joint.id}" and "{other.joint.id}", or say in one that it gives way:'
        hint = f"{move} `meeting: {{how: butted, with: {other.joint.id}}}`."
        collision(site, other.joint.origin, names, site.boards[part], first.void.meet(second.void), hint)


def _check_corners(joined: Sequence[Joined], site: Site) -> None:
    """Mortises of two joints that touch along an edge: a weak place, allowed; of each two joints it is told once."""
    told: set[tuple[str, str]] = set()
    for part, (one, first), (other, second) in _cornering(joined):
        if (one.joint.id, other.joint.id) in told or len(told) == MOST_CROSSINGS:
            continue
        told.add((one.joint.id, other.joint.id))
        names = f'"{first.mate.part}" and "{second.mate.part}"'
        message = f'The mortises of {names} meet along an edge inside "{part}": no wood is left between them.'
        hint = "A tenon that is a little shorter leaves some."
        warn(site, "joint-corners-meet", other.joint.origin, message, "wood between two mortises", hint, "common practice")


def _cornering(joined: Sequence[Joined]) -> Iterator[tuple[str, tuple[Joined, Mortise], tuple[Joined, Mortise]]]:
    cut: dict[str, list[tuple[Joined, Mortise]]] = {}
    for each in joined:
        for part, features in each.features.items():
            cut.setdefault(part, []).extend((each, found) for found in features if isinstance(found, Mortise) and not found.round)
    for part, found in cut.items():
        for one, other in combinations(found, 2):
            common = one[1].void.meet(other[1].void)
            thin, thick, long = sorted(common.size(axis) for axis in Axis)
            if one[0] is not other[0] and abs(thin) < TINY and abs(thick) < TINY < long:
                yield part, one, other


def _crossings(joined: Sequence[Joined]) -> Iterator[tuple[Joined, Joined, str, tuple[_Opening, _Opening]]]:
    for one, other in combinations(joined, 2):
        if one.gives_way == other.joint.id or other.gives_way == one.joint.id:
            continue
        for part in one.features:
            crossing = next(_crossing(one.features[part], other.features.get(part, ())), None)
            if crossing:
                yield one, other, part, crossing


def _crossing(some: Iterable[Feature], others: Iterable[Feature]) -> Iterator[tuple[_Opening, _Opening]]:
    for one, other in product(some, others):
        if isinstance(one, Mortise | AngledMortise) and isinstance(other, Mortise | AngledMortise) and _share_room(one, other):
            yield one, other


def _share_room(one: _Opening, other: _Opening) -> bool:
    ways = [each.pose if isinstance(each, AngledMortise) else Pose() for each in (one, other)]
    return one.void.meet(other.void).is_solid if ways == [Pose(), Pose()] else blocks_meet(one.void, ways[0], other.void, ways[1])
