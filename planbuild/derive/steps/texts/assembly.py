"""Putting together: the dry fit, and each glue-up."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from planbuild.core.geometry import TINY
from planbuild.derive import phrases
from planbuild.derive.lists.blanks import is_edge_spline, is_key, is_let_in, is_peg, is_spline, is_wedge
from planbuild.derive.steps import checks
from planbuild.derive.steps.assembly import Joining, Link, Unit
from planbuild.derive.steps.clamps import clamp_text, frame_clamps, pressed
from planbuild.derive.steps.job import Draft, Job, Use, said
from planbuild.derive.steps.tasks import Task, holds
from planbuild.derive.steps.texts import pegs, screws
from planbuild.derive.steps.texts.keys import drive
from planbuild.joints.proportions import habit_number
from planbuild.records.features import Mortise, Tenon

_SHOWN = 2
"""The last glue-ups that a dry fit tells one by one: more would not fit five actions."""


def dry_fit(job: Job, task: Task) -> Draft:
    whole = task.tries
    if whole is None:
        raise ValueError(f"{task.id} tries nothing")
    inside = [each for each in job.joinings if each is whole or holds(whole, each)]
    told, before = inside[-_SHOWN:], inside[:-_SHOWN]
    it = "it" if len(whole.groups) == 1 else "them"
    measured = [(each, checks.frame_diagonals(job, each)) for each in inside]
    return Draft(
        title=f"Put the {_named(whole)} together without glue",
        actions=said(
            f"Put the {phrases.listed(_named(each) for each in before)} together first" if before else "",
            *(f"{_together(job, each)}{_times(each)}" for each in told),
            f"Draw the joints up lightly with clamps; {checks.compared(job, whole)}",
            f"Pare what holds a shoulder open; number each joint, and take {it} all apart",
        ),
        sizes=tuple(f"{each.name}: diagonals {job.size(found[1])}" for each, found in measured if found),
        check=f"Every shoulder closes all round. {checks.squareness(job, whole)}",
        uses=(Use("dry_fit"),),
        clamps=tuple(clamps for each in inside for clamps in frame_clamps(job.piece, job.edition, each)),
    )


def _named(joining: Joining) -> str:
    """`two doors`, `case`."""
    return phrases.counted(len(joining.groups), joining.name) if len(joining.groups) > 1 else joining.name


def _times(joining: Joining) -> str:
    count = len(joining.groups)
    return "" if count == 1 else "; twice" if count == 2 else f"; {phrases.number_word(count)} times"


def join(job: Job, task: Task) -> Draft:
    joining = task.joining
    if joining is None:
        raise ValueError(f"{task.id} joins nothing")
    last = joining is job.joinings[-1] and not any(each.stays_on for each in job.piece.parts)
    stands = ", and it stands without rocking" if last else ""
    draft = Draft(
        title=f"{'Glue up' if joining.glued else 'Put together'} the {_named(joining)}",
        actions=said(
            _spread(job, joining),
            _between(job, joining),
            _together(job, joining),
            _clamp(job, joining),
            *_wedges(job, joining),
            _splines(job, joining),
            _keys(job, joining),
            *screws.driven(job, joining),
            _stand(joining, last),
        ),
        check=f"{checks.squareness(job, joining)} All shoulders are closed{stands}.",
        uses=(Use("dry_fit"), *screws.uses(job, joining)),
        hardware=screws.hardware_of(job, joining),
    )
    return _glued(job, joining, draft) if joining.glued else draft


def _glued(job: Job, joining: Joining, draft: Draft) -> Draft:
    """What glue adds: clamps, the time it stays open, the time it wants."""
    clamps = frame_clamps(job.piece, job.edition, joining)
    turn = ", one after the other" if len(joining.groups) > 1 else ""
    return replace(
        draft,
        sizes=tuple(clamp_text(job.edition, each) for each in clamps),
        wait=f"{phrases.time_text(job.piece.glue.clamp_time)} in the clamps{turn}.",
        note=" ".join(each for each in (_glue_note(job, joining), _met(job, joining)) if each),
        uses=(Use("glue"), *([Use("wedging")] if _spreads(job, joining) else []), *screws.uses(job, joining)),
        clamps=clamps,
    )


def _entering(links: Sequence[Link]) -> list[str]:
    return list(dict.fromkeys(link.contact.a[0] for link in links))


def _spread(job: Job, joining: Joining) -> str:
    if not joining.glued:
        return ""
    glued = _entering(joining.glued)
    dry = [each for each in _entering(joining.dry) if each not in glued]
    leave = f"; leave {job.marks(dry)} dry" if dry else ""
    return f"Brush glue {phrases.strung(_wetted(job, joining))}{leave}"


def _wetted(job: Job, joining: Joining) -> list[str]:
    """Where the glue goes, joint kind by joint kind."""
    kinds: dict[tuple[str, str], list[Link]] = {}
    for link in joining.glued:
        part = link.joint.glued_part
        only = f", {phrases.glued_only(part, job.edition.ruler)}" if part else ""
        kinds.setdefault((link.joint.kind, only), []).append(link)
    return list(dict.fromkeys(_where(job, joining, kind, links) + only for (kind, only), links in kinds.items()))


def _where(job: Job, joining: Joining, kind: str, links: Sequence[Link]) -> str:
    if kind == "mortise and tenon":
        return _in_mortises(job, joining, links)
    entering = _entering(links)
    if kind == "edge glue" and any(link.joint.makes for link in links):
        kind = "splined edge"
    both = [*entering, *(link.contact.b[0] for link in links)]
    return _WETTED.get(kind, _ON_FACES).format(a=job.marks(entering), both=job.marks(both))


def _in_mortises(job: Job, joining: Joining, links: Sequence[Link]) -> str:
    meeting = _meeting(job, joining)
    clear = f", none into those for {job.marks(meeting)}; thinly on tenons" if meeting else ", thinly on their tenons"
    return f"into the mortises for {job.marks(_entering(links))}{clear}"


_WETTED = {
    "dado": "on the walls of the housings for {a}",
    "dowel": "into the holes for the dowels of {both}, thinly on the dowels",
    "loose tenon": "into the mortises of {both}, thinly on the loose tenons",
    "rabbet": "in the rabbets for {a}",
    "panel in groove": "in the grooves for {a}",
    "tongue and groove": "on the tongues of {a}",
    "breadboard end": "on the fixed tenons of {a} and into their mortises only; the other tenons and the tongues stay dry",
    "bridle": "on both walls of the slots for {a}",
    "mitre": "on the mitres of {both}, twice, since end grain drinks it",
    "key": "along the meeting edges of {both}",
    "notch": "on the seats of the notches of {both}",
    "half lap": "on the laps of {both}",
    "edge glue": "along the meeting edges of {both}",
    "splined edge": "along the meeting edges of {both} and into their grooves",
    **dict.fromkeys(
        ("through dovetail", "half-blind dovetail", "sliding dovetail", "lapped dovetail"),
        "thinly on the tails of {a} and in their sockets",
    ),
    "finger joint": "on the fingers of {both}",
}
_ON_FACES = "on the faces where {a} will lie"
"""By joint kind: {a} are the marks of what goes in, {both} those of both sides.  Others are glued face to face."""


def _meeting(job: Job, joining: Joining) -> list[str]:
    """Parts whose mortises run into those that are glued here, and that go in later: their mortises must stay free of glue."""
    here = {(link.joint.id, link.contact.a[0]) for link in joining.glued}
    posts = {link.contact.b[0] for link in joining.glued}
    mortises = [f for id in posts for f in job.piece.part(id).features if isinstance(f, Mortise)]
    glued = [f for f in mortises if (f.joint, f.mate.part) in here]
    there = {key[0] for group in joining.groups for key in group}
    later = [f for f in mortises if f.mate.part not in there and any(f.void.meet(each.void).is_solid for each in glued)]
    return list(dict.fromkeys(f.mate.part for f in later))


def _clamp(job: Job, joining: Joining) -> str:
    """A clamp cannot press on a tenon that stands proud."""
    if not joining.glued or not frame_clamps(job.piece, job.edition, joining):
        return ""
    free = ", cauls off proud tenons" if any(f.proud > TINY for f in _tenons(job, joining)) else ""
    over = job.marks(pressed(job.piece, job.edition, joining))
    return f"Clamp over {over}{free}; {checks.compared(job, joining)}"


def _stand(joining: Joining, last: bool) -> str:
    return "Stand it on a flat surface; shift the clamps until it does not rock" if joining.glued and last else ""


def _together(job: Job, joining: Joining) -> str:
    """What is set into what, and what is pressed on after it."""
    inner = _units(job, joining.inner)
    if not joining.stages:
        return f"Put {inner} together"
    first, *later = ([unit for unit, _ in stage] for stage in joining.stages)
    if len(first) == 2 and first[0].id == first[1].id and not later:
        return f"Set {inner} into one {_name(first[0])}, then press on the other"
    return ", then ".join([f"Press {_units(job, first)} onto {inner}", *(f"{_units(job, units)} onto those" for units in later)])


def _units(job: Job, units: Sequence[Unit]) -> str:
    """`A4 and all five A6`: parts by their marks, assemblies by name."""
    counts: dict[str, list[Unit]] = {}
    for each in units:
        counts.setdefault(each.id, []).append(each)
    return phrases.listed(_some(job, alike) for alike in counts.values())


def _some(job: Job, alike: Sequence[Unit]) -> str:
    unit = alike[0]
    if _is_part(unit):
        return f"{_share(job, alike)} {_name(unit)}".strip()
    return f"the {unit.name}" if len(alike) == 1 else f"the {phrases.counted(len(alike), unit.name)}"


def _share(job: Job, alike: Sequence[Unit]) -> str:
    """`both`, `all five` or `two` of the copies of a part; nothing for one."""
    count, whole = len(alike), len(job.piece.part(alike[0].id).copies)
    if count == 1:
        return ""
    if count < whole:
        return phrases.number_word(count)
    return "both" if count == 2 else f"all {phrases.number_word(count)}"


def _name(unit: Unit) -> str:
    return phrases.mark(unit.id) if _is_part(unit) else unit.name


def _is_part(unit: Unit) -> bool:
    return unit.id == unit.keys[0][0]


def _tenons(job: Job, joining: Joining) -> list[Tenon]:
    ids = {link.joint.id for link in joining.links}
    return [f for part in job.piece.parts for f in part.features if isinstance(f, Tenon) and f.joint in ids]


def _wedges(job: Job, joining: Joining) -> tuple[str, ...]:
    if not joining.made:
        return ()
    ids = dict.fromkeys(key[0] for key, _ in joining.made)
    keys = [id for id in ids if is_key(job.piece, job.piece.part(id))]
    driven: tuple[str, ...] = (drive(job.marks(keys)),) if keys else ()
    rods = [id for id in ids if is_peg(job.piece, job.piece.part(id))]
    driven += pegs.drive(job, rods) if rods else ()
    wedges = [id for id in ids if is_wedge(job.piece, job.piece.part(id))]
    if not wedges:
        return driven
    marks = job.marks(wedges)
    return (
        *driven,
        f"Glue {marks}; drive those of a tenon in turn, little by little",
        "Saw them flush with the tips once dry",
    )


def _splines(job: Job, joining: Joining) -> str:
    """A spline shows at both ends of its slot."""
    made = {key[0]: job.piece.part(key[0]) for key, _ in joining.made}
    ids = [id for id, part in made.items() if is_spline(job.piece, part) or is_edge_spline(job.piece, part)]
    return f"Trim {job.marks(ids)} flush once the glue is dry" if ids else ""


def _keys(job: Job, joining: Joining) -> str:
    """Keys across a seam go in from above when it has closed."""
    ids = [id for id in dict.fromkeys(key[0] for key, _ in joining.made) if is_let_in(job.piece, job.piece.part(id))]
    return f"Glue {job.marks(ids)} into the recesses with a few taps; plane them flush once dry" if ids else ""


def _spreads(job: Job, joining: Joining) -> bool:
    """True if wedges or pegs are driven here, that are sawn flush."""
    parts = [job.piece.part(key[0]) for key, _ in joining.made]
    return any(is_wedge(job.piece, part) or is_peg(job.piece, part) for part in parts)


def _between(job: Job, joining: Joining) -> str:
    """Loose tenons go into one part before the other closes over them."""
    whole = [job.piece.part(id) for id in dict.fromkeys(key[0] for key, _ in joining.made)]
    loose = [p for p in whole if is_spline(job.piece, p) or not (p.features or is_let_in(job.piece, p))]
    if not loose:
        return ""
    into_what = "slots" if is_spline(job.piece, loose[0]) else "mortises"
    if is_edge_spline(job.piece, loose[0]):
        into_what = "grooves"
    ids = [part.made_by for part in loose]
    into = dict.fromkeys(link.contact.a[0] for link in joining.links if link.joint.id in ids)
    return f"Set {job.marks(part.id for part in loose)} into the {into_what} of {job.marks(into)}, half of each left standing"


def _glue_note(job: Job, joining: Joining) -> str:
    """Whether the glue-up fits the open time: a rule of thumb, and said so."""
    joints = phrases.counted(len(joining.glued), "glued joint")
    each = " in each" if len(joining.groups) > 1 else ""
    time = f"about {minutes(joining):g} of the {job.piece.glue.open_time:g} min that the glue stays open"
    return f"{phrases.heading(joints)}{each}: {time} (rule of thumb)."


def _met(job: Job, joining: Joining) -> str:
    """Why glue stays out of a mortise that is still to be filled."""
    meeting = _meeting(job, joining)
    return f"The mortises for {job.marks(meeting)} run into the glued ones: hard glue would stop their tenons." if meeting else ""


def minutes(joining: Joining) -> float:
    """Time to spread and close all glued joints of one group (heuristic, see `core/tables/making.csv`)."""
    return len(joining.glued) * habit_number("minutes_a_joint")
