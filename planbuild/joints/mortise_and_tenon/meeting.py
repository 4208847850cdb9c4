"""Two tenons that meet inside one post: mitred, butted, stopped short, over and under, or crossing.

Mitred, as it lies in the post seen along its grain (u the way of the first tenon, v that of the second):

    the first tenon is the wood with      u - v <= u_tip - v_long
    the second that with                  v - u <= v_tip - u_long

where `long` is the cheek on the far side, the longer one.  Both ends are cut at 45 degrees through their long
point if the two planes then stay `mitre_gap` apart; otherwise each gives way by half of what is missing.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from planbuild.core.geometry import TINY, Box, Face, Span1
from planbuild.core.poses import blocks_meet, standing
from planbuild.joints.base import Site
from planbuild.joints.copies import boxes_coincide
from planbuild.joints.faults import collision, copies_differ, refuse
from planbuild.joints.mortise_and_tenon.fields import MeetingSaid, MortiseAndTenonSaid
from planbuild.joints.mortise_and_tenon.sizes import Sizes
from planbuild.joints.proportions import length_rule, used
from planbuild.joints.touching import gap
from planbuild.records.design import Said
from planbuild.records.features import Mitre, Mortise

WAYS = ("mitred", "butted", "stop short", "over and under", "crossing")

WHOSE = {"butted": "first", "over and under": "above", "crossing": "through"}
"""The field that names a part, by the way that needs it."""

ACROSS = ("butted", "stop short")
"""How a tenon may give way to one of another joint, which stays as it is."""


@dataclass(frozen=True)
class Way:
    """How tenons that meet make way; `first` is the id of the part whose tenon stays whole, or lies above; `other` that
    of the joint to whose tenons these give way."""

    how: str
    first: str
    said: bool
    other: str = ""


@dataclass(frozen=True)
class Made:
    """A tenon after it has made way: its mitre, and its sizes as far as it still reaches.  `held` is how far from the
    shoulder its long cheek lies on wood, where the mortise of the other tenon passes it."""

    sizes: Sizes
    mitre: Mitre | None = None
    held: float | None = None


@dataclass(frozen=True)
class _Standing:
    """One tenon in one post: which (index in the list of tenons), which copy, and where it stands."""

    index: int
    copy: int
    sizes: Sizes
    toward: Face
    block: Box
    void: Box

    def crosses(self, other: _Standing) -> bool:
        """True if the two mortises share room."""
        if self.is_square and other.is_square:
            return self.void.meet(other.void).is_solid
        ways = (each.sizes.end.board.stands(each.copy) for each in (self, other))
        return blocks_meet(self.sizes.void, next(ways), other.sizes.void, next(ways))

    @property
    def is_square(self) -> bool:
        return self.sizes.end.board.pose is None

    @property
    def part(self) -> str:
        return self.sizes.end.board.id


def way_said(said: MortiseAndTenonSaid, site: Site) -> Way | None:
    """What was said of meeting, mitred by default; None after reporting."""
    if said.meeting is None:
        return Way("mitred", "", False)
    word = said.meeting.how if isinstance(said.meeting, MeetingSaid) else said.meeting
    how = site.words.choice(word, WAYS)
    if how is None:
        return None
    fields = said.meeting if isinstance(said.meeting, MeetingSaid) else None
    if fields and fields.other:
        return _across_joints(how, fields, fields.other, site)
    named = {"first": fields.first, "above": fields.above, "through": fields.through} if fields else {}
    wanted, given = WHOSE.get(how, ""), [word for word, each in named.items() if each]
    if given != ([wanted] if wanted else []):
        whose = {"first": "whose stays whole", "above": "whose lies above", "through": "whose goes right through"}.get(wanted, "")
        message = f"`{how}` needs to know {whose}: `{wanted}`." if wanted else f"`{given[0]}` has no meaning with `{how}`."
        ways = "`meeting: {how: butted, first: ...}`, over and under with `above`, crossing with `through`, mitred, or stop short"
        refuse(site, "joint-meeting", word.span, message, ways)
        return None
    part = named.get(wanted)
    chosen = site.words.part(part) if part else None
    if part and chosen is None:
        return None
    return Way(how, chosen.board.id if chosen else "", True)


def _across_joints(how: str, fields: MeetingSaid, other: Said, site: Site) -> Way | None:
    """The tenons of the other joint stay as they are."""
    if other.text not in site.joined:
        message = f'No joint "{other.text}" is cut before this one.'
        known, hint = ", ".join(site.joined) or "another joint", "Say it in one of the two only."
        refuse(site, "joint-meeting", other.span, message, known, hint)
        return None
    if how not in ACROSS or fields.above or fields.through:
        message = "Across two joints a tenon can be butted against the other, or stop short of it."
        refuse(site, "joint-meeting", fields.how.span, message, " or ".join(ACROSS), "For other ways write both in one joint.")
        return None
    cut, first = site.joined[other.text], site.words.part(fields.first) if fields.first else None
    if cut is None or (fields.first and first is None):
        return None
    if first and fields.first and first.board.id not in cut.features:
        message = f'The tenons of "{other.text}" stay whole, and "{first.board.id}" has none of them.'
        refuse(site, "joint-meeting", fields.first.span, message, ", ".join(cut.features), "Say `meeting` in the other joint.")
        return None
    return Way(how, "", True, other.text)


def said_of_end(said: MortiseAndTenonSaid, part: str, way: Way) -> MortiseAndTenonSaid:
    """What was said, for the ends of one part: where tenons cross, that which is named goes through, the others stop."""
    if way.how != "crossing" or not isinstance(said.meeting, MeetingSaid) or said.meeting.through is None:
        return said
    if part == way.first:
        return said.model_copy(update={"through": replace(said.meeting.through, text="yes"), "length": None})
    return said.model_copy(update={"through": None, "proud": None})


def make_way(sizes: list[Sizes], way: Way, site: Site) -> list[Made] | None:
    """Every tenon after it has made way for those it meets; None after reporting."""
    outcomes: dict[int, dict[int, Made]] = {index: {} for index in range(len(sizes))}
    before = len(site.report.found)
    for tenons in _by_post(sizes).values():
        for number, one in enumerate(tenons):
            for other in tenons[number + 1 :]:
                _meet(one, other, way, outcomes, site)
    if len(site.report.found) > before:
        return None
    made = [_agreed(index, each, outcomes[index], site) for index, each in enumerate(sizes)]
    return None if any(each is None for each in made) else [each for each in made if each]


def _by_post(sizes: list[Sizes]) -> dict[tuple[str, int], list[_Standing]]:
    """The tenons in each standing post."""
    posts: dict[tuple[str, int], list[_Standing]] = {}
    for index, each in enumerate(sizes):
        for copy, home in enumerate(each.end.homes):
            board = each.end.board
            motion = board.copies[copy].motion
            block, void = (standing(own, board.pose, motion) for own in (each.block, each.void))
            one = _Standing(index, copy, each, motion.face(each.end.face), block, void)
            posts.setdefault((home.board.id, home.copy), []).append(one)
    return posts


def _meet(one: _Standing, other: _Standing, way: Way, outcomes: dict[int, dict[int, Made]], site: Site) -> None:
    crossing = one.void.meet(other.void)
    if not one.crosses(other):
        return
    square = one.is_square and other.is_square and one.toward.axis is not other.toward.axis
    if square and gap(one.block, other.block) > length_rule("mitre_gap", site.ruler) - TINY:
        return
    pair = _made_way(one, other, way, site) if square and _may_make_way(one, other, way) else None
    taken = one.copy in outcomes[one.index] or other.copy in outcomes[other.index]
    if pair is None or taken:
        hint = "Make the tenons shorter, or set the rails at different heights."
        home = one.sizes.end.homes[one.copy]
        collision(site, one.sizes.end.span, (one.part, other.part), home.board, crossing, hint)
        return
    outcomes[one.index][one.copy], outcomes[other.index][other.copy] = pair


def _may_make_way(one: _Standing, other: _Standing, way: Way) -> bool:
    """A tenon that goes right through can only stay as it is, crossing the way of one that stops."""
    through = [each.part for each in (one, other) if each.sizes.through]
    return through == ([way.first] if way.how == "crossing" else [])


def _made_way(one: _Standing, other: _Standing, way: Way, site: Site) -> tuple[Made, Made] | None:
    """Both tenons, or None if they cannot make way."""
    if way.how in ("mitred", "over and under") and (one.sizes.round or other.sizes.round):
        return None
    if way.how == "mitred":
        return _mitred(one, other, site)
    if way.how == "stop short":
        first, second = _stopped(one, other.void, site), _stopped(other, one.void, site)
    elif way.first not in (one.part, other.part) or one.part == other.part:
        return None
    elif way.how == "over and under":
        return _halved(one, other, way.first)
    elif way.first == one.part:
        first, second = one.sizes, _butted(other, one.block, site)
    else:
        first, second = _butted(one, other.block, site), other.sizes
    return (Made(first), Made(second)) if first and second else None


# ---------------------------------------------------------------- the ways


def _mitred(one: _Standing, other: _Standing, site: Site) -> tuple[Made, Made] | None:
    reach = _past(one, other) + _past(other, one)
    missing = max(0.0, reach + length_rule("mitre_gap", site.ruler) * math.sqrt(2))
    first, second = (_cut_back(each, by, missing / 2) for each, by in ((one, other), (other, one)))
    if first is None or second is None:
        return None
    return _held(one, first, other, second), _held(other, second, one, first)


def _held(one: _Standing, made: Made, other: _Standing, its: Made) -> Made:
    """Mortises are deeper than their tenons: that of the other may take the wood behind the long cheek."""
    past = other.toward.sign * (other.block.at(other.toward.opposite) - one.block.at(other.toward)) + its.sizes.depth
    begins = one.toward.sign * (other.void.at(one.toward.opposite) - one.block.at(one.toward.opposite))
    return replace(made, held=begins) if past > TINY and begins < made.sizes.length else made


def _past(one: _Standing, other: _Standing) -> float:
    """u_tip - v_long of the first tenon: where its mitre plane lies if it is cut through the long point."""
    return one.toward.sign * one.block.at(one.toward) - other.toward.sign * one.block.at(other.toward)


def _cut_back(one: _Standing, other: _Standing, give: float) -> Made | None:
    start = one.sizes.length - one.sizes.thickness - give
    if start < TINY:
        return None
    home = one.sizes.end.board.copies[one.copy].motion.inverse
    made = _shortened(one.sizes, start + one.sizes.thickness) if give else one.sizes
    return Made(made, Mitre(home.face(other.toward.opposite), start))


def _butted(one: _Standing, whole: Box, site: Site) -> Sizes | None:
    """Stopped just before the cheek of a tenon that stays whole."""
    return _up_to(one, whole, length_rule("mitre_gap", site.ruler))


def _stopped(one: _Standing, void: Box, site: Site) -> Sizes | None:
    """Stopped so that the mortise ends before another begins, with wood between their corners."""
    return _up_to(one, void, _short_of(site))


def _short_of(site: Site) -> float:
    return site.practice.mortise_deeper + length_rule("mitre_gap", site.ruler)


def _halved(one: _Standing, other: _Standing, above: str) -> tuple[Made, Made] | None:
    """Each keeps its half of the height that they share, the one named the upper."""
    grain = one.sizes.end.homes[one.copy].grain
    middle = one.block.along(grain).meet(other.block.along(grain)).middle
    halves = []
    for each in (one, other):
        span = each.block.along(grain)
        kept = Span1(middle, span.high) if each.part == above else Span1(span.low, middle)
        home = each.sizes.end.board.copies[each.copy].motion.inverse
        block = home.box(each.block.with_span(grain, kept))
        section = each.sizes.section.with_span(each.sizes.wide, block.along(each.sizes.wide))
        halves.append(Made(replace(each.sizes, section=section)))
    return halves[0], halves[1]


def give_way(sizes: list[Sizes], way: Way, site: Site) -> list[Made] | None:
    """Every tenon shortened as far as those of the other joint want it; None after reporting."""
    outcomes: dict[int, dict[int, Made]] = {index: {} for index in range(len(sizes))}
    room = _short_of(site) if way.how == "stop short" else length_rule("mitre_gap", site.ruler)
    for post, tenons in _by_post(sizes).items():
        for one in tenons:
            for void in _voids(way.other, post, site):
                crossing = one.void.meet(void)
                made = _up_to(one, void, room) if crossing.is_solid else None
                if crossing.is_solid and made is None:
                    hint = "Make the tenons shorter, or set the rails at different heights."
                    collision(site, one.sizes.end.span, (one.part, way.other), site.boards[post[0]], crossing, hint)
                    return None
                if made:
                    outcomes[one.index][one.copy] = Made(made)
    agreed = [_agreed(index, each, outcomes[index], site) for index, each in enumerate(sizes)]
    return None if any(each is None for each in agreed) else [each for each in agreed if each]


def _voids(joint: str, post: tuple[str, int], site: Site) -> list[Box]:
    """The mortises that a joint has cut in one standing post."""
    cut, motion = site.joined[joint], site.boards[post[0]].copies[post[1]].motion
    return [motion.box(f.void) for f in cut.features.get(post[0], ()) if isinstance(f, Mortise)] if cut else []


def _up_to(one: _Standing, obstacle: Box, room: float) -> Sizes | None:
    """As long as it may be to stay `room` before a block in its way; None if nothing is left of it."""
    shoulder, wall = one.block.at(one.toward.opposite), obstacle.at(one.toward.opposite)
    length = min(one.sizes.length, one.toward.sign * (wall - shoulder) - room)
    return _shortened(one.sizes, length) if length > TINY else None


def _shortened(sizes: Sizes, length: float) -> Sizes:
    return replace(sizes, length=length, depth=length + (sizes.depth - sizes.length))


# ---------------------------------------------------------------- one outcome a tenon


def _agreed(index: int, sizes: Sizes, outcomes: dict[int, Made], site: Site) -> Made | None:
    """What all copies came to; None after reporting that they differ."""
    if not outcomes:
        return Made(sizes)
    whole = len(outcomes) == len(sizes.end.homes)
    first = next(iter(outcomes.values()))
    if whole and all(_same(first, each) for each in outcomes.values()):
        return first
    message = f"{sizes.end.spoken} meets another tenon in some copies and not, or otherwise, in others."
    copies_differ(site, sizes.end.span, sizes.end.board, message)
    return None


def _same(one: Made, other: Made) -> bool:
    if (one.mitre is None) is not (other.mitre is None):
        return False
    if one.mitre and other.mitre and one.mitre.short is not other.mitre.short:
        return False
    if not boxes_coincide(one.sizes.section, other.sizes.section):
        return False
    starts = [each.mitre.start if each.mitre else 0.0 for each in (one, other)]
    return abs(starts[0] - starts[1]) < TINY and abs(one.sizes.length - other.sizes.length) < TINY


def meeting_line(made: list[Made], way: Way, site: Site) -> tuple[str, ...]:
    """The printable line if tenons were mitred without being told to."""
    if way.said or not any(each.mitre for each in made):
        return ()
    return (used("Tenons that meet in a post are mitred, with a gap between their ends", "mitre_gap", site.ruler),)
