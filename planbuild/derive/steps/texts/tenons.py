"""Cutting tenons at one setting, and what is done to their tips."""

from __future__ import annotations

from collections.abc import Sequence

from planbuild.core.geometry import TINY, Face
from planbuild.derive import phrases
from planbuild.derive.lists.cut_list import shoulder_length
from planbuild.derive.lists.measures import cheeks, edge_shoulders, tenon_size
from planbuild.derive.steps import checks
from planbuild.derive.steps.job import Draft, Job, Use, features_of, said, same
from planbuild.derive.steps.operations import Verb
from planbuild.derive.steps.tasks import Task
from planbuild.derive.steps.texts.slants import slanted_shoulders
from planbuild.records.features import Mitre, Tenon, Wedging
from planbuild.records.piece import Part


def _cut(task: Task, verb: Verb, part: Part) -> list[Tenon]:
    return [each for each in features_of(task, verb, part.id) if isinstance(each, Tenon)]


def _mates(task: Task, verb: Verb, parts: Sequence[Part]) -> list[str]:
    return list(dict.fromkeys(each.mate.part for part in parts for each in _cut(task, verb, part)))


def tenon(job: Job, task: Task) -> Draft:
    parts = job.parts(task.parts)
    first = _cut(task, Verb.TENON, parts[0])[0]
    shoulders = [each for part in parts for f in _cut(task, Verb.TENON, part) for each in tenon_size(part, f).shoulders]
    between, slanted = _between(job, task, parts), slanted_shoulders(job, task, Verb.TENON)
    return Draft(
        title=f"Cut the tenons of the {job.kind(task.parts)}",
        actions=said(
            f"{_knife(shoulders)}{_at_one_stop(job, parts)}",
            "Set a sliding bevel to each slanted shoulder; carry the line round from its long corner" if slanted else "",
            *_cheeks(job, task, parts[0], first),
            _waste(job, between, _any_haunch(task, parts)),
            "Pare each tenon to its own mortise, and number both",
        ),
        sizes=(*(_size_line(job, task, each) for each in parts), *slanted),
        check=checks.fit(job.joint(first.joint)),
        uses=(Use("tenon"), *((Use("trim"),) if slanted else ())),
    )


def _at_one_stop(job: Job, parts: Sequence[Part]) -> str:
    """One piece alone needs no stop."""
    if sum(len(each.copies) for each in parts) == 1:
        return ""
    return f", like lengths at one stop{_equal_shoulders(job, parts)}"


def _waste(job: Job, between: Sequence[str], haunches: bool) -> str:
    """What goes between two tenons of an end, and what must not go beside one."""
    waste = f"saw out the waste between the tenons of {job.marks(between)}, and pare to the line" if between else ""
    stay = "leave the haunches standing where the edge shoulder is sawn" if haunches else ""
    return phrases.heading("; ".join(each for each in (waste, stay) if each))


def _knife(shoulders: Sequence[tuple[Face, float]]) -> str:
    whole = "Knife the line all round to which each end goes in"
    return "Knife the shoulders all round from the face side" if shoulders else whole


def _cheeks(job: Job, task: Task, part: Part, tenon: Tenon) -> tuple[str, ...]:
    """How the cheeks are set and sawn; what is as thick as its board has none."""
    mates, edges = job.marks(_mates(task, Verb.TENON, job.parts(task.parts))), edge_shoulders(part, tenon)
    if max(cheeks(part, tenon)) <= TINY:
        whole = f"The full thickness goes in: plane it until it enters a mortise of {mates}"
        return (whole, "Saw the edge shoulders") if edges else (whole,)
    saw = f"Saw all cheeks at this setting{', then the edge shoulders' if edges else ''}"
    if _are_twins(part, tenon):
        gauge = f"Gauge both tenons from the face side, each {job.size(tenon_size(part, tenon).thickness)} thick"
        return f"{gauge}; try them in their mortises of {mates}", saw.replace("at this setting", "on the waste side")
    leaves = f"{_off(job, part, tenon)} leaves {job.size(tenon_size(part, tenon).thickness)}"
    return f"Set the cut on an offcut: {leaves}; try it in a mortise of {mates}", saw


def _are_twins(part: Part, tenon: Tenon) -> bool:
    """True if another tenon stands beside it in the thickness of the same end."""
    thin = tenon_size(part, tenon).thin_axis
    ends = [f for f in part.features if isinstance(f, Tenon) and f.end is tenon.end]
    return any(abs(f.block.along(thin).low - tenon.block.along(thin).low) > TINY for f in ends)


def _between(job: Job, task: Task, parts: Sequence[Part]) -> list[str]:
    """Parts with more than one tenon at an end."""
    ends = {part.id: [each.end for each in _cut(task, Verb.TENON, part)] for part in parts}
    return [id for id, found in ends.items() if len(set(found)) < len(found)]


def _any_haunch(task: Task, parts: Sequence[Part]) -> bool:
    return any(each.haunch for part in parts for each in _cut(task, Verb.TENON, part))


def _off(job: Job, part: Part, tenon: Tenon) -> str:
    low, high = (job.size(each) for each in cheeks(part, tenon))
    bare = [each for each in cheeks(part, tenon) if each > TINY]
    if len(bare) == 1:
        return f"{job.size(bare[0])} off one face only"
    return f"{low} off each face" if low == high else f"{low} off one face and {high} off the other"


def _equal_shoulders(job: Job, parts: Sequence[Part]) -> str:
    lengths = [(each.id, job.size(between)) for each in parts if (between := shoulder_length(each)) is not None]
    alike = [ids for ids, _ in same(lengths) if len(ids) > 1]
    return f" ({'; '.join(job.marks(ids) for ids in alike)})" if alike else ""


def _size_line(job: Job, task: Task, part: Part) -> str:
    between = shoulder_length(part)
    shoulders = f"{job.size(between)} between shoulders; " if between is not None else ""
    kinds = dict.fromkeys(_one(job, part, each) for each in _cut(task, Verb.TENON, part))
    return f"{phrases.mark(part.id)} {shoulders}{'; '.join(kinds)}"


def _one(job: Job, part: Part, tenon: Tenon) -> str:
    size = tenon_size(part, tenon)
    section = job.sizes(size.thickness, size.width)
    return f"tenon {section}, {job.size(size.length)} long; {_edge_words(job, part, tenon)}{_haunch_words(job, tenon)}"


def _haunch_words(job: Job, tenon: Tenon) -> str:
    if tenon.haunch is None:
        return ""
    slope = ", sloped to nothing at the edge" if tenon.haunch.sloped else ""
    return f"; haunch {job.size(tenon.haunch.box.size(tenon.end.axis))} long at the {tenon.haunch.face.value}{slope}"


def _edge_words(job: Job, part: Part, tenon: Tenon) -> str:
    cuts = [(face, job.size(depth)) for face, depth in reversed(edge_shoulders(part, tenon))]
    if not cuts:
        return "no edge shoulders"
    if len(cuts) == 2 and cuts[0][1] == cuts[1][1]:
        return f"shoulders {cuts[0][1]} at both edges"
    return f"shoulders {', '.join(f'{face.value} {depth}' for face, depth in cuts)}"


def mitre(job: Job, task: Task) -> Draft:
    parts = job.parts(task.parts)
    mitres = [(part, each.mitre) for part in parts for each in _cut(task, Verb.MITRE, part) if each.mitre]
    texts = [(part.id, _mitre_words(job, part, each)) for part, each in mitres]
    post = phrases.mark(_mates(task, Verb.MITRE, parts)[0])
    return Draft(
        title=f"Mitre the tenon tips of the {job.kind(task.parts)}",
        actions=said(
            f"Mark 45° across the tip of each tenon of {job.marks(task.parts)}, its long point on the outside",
            "Saw on the waste side of the line, and pare to it",
            f"Push both tenons of a corner into {post}; shorten a tip that meets the other",
        ),
        sizes=tuple(f"{job.marks(ids)} {text}" for ids, text in same(texts)),
        check="Both shoulders close at once in every corner; the tips do not touch.",
        uses=(Use("mitre"),),
    )


def _mitre_words(job: Job, part: Part, mitre: Mitre) -> str:
    return f"cut starts {job.size(mitre.start)} from the shoulder on the {phrases.facing(part, mitre.short, job.piece)} face"


def kerf(job: Job, task: Task) -> Draft:
    parts = job.parts(task.parts)
    first = _cut(task, Verb.KERF, parts[0])[0]
    wedged = [(part, each, each.wedging) for part in parts for each in _cut(task, Verb.KERF, part) if each.wedging]
    texts = [(part.id, _kerf_words(job, each, wedging)) for part, each, wedging in wedged]
    post = phrases.mark(first.mate.part)
    return Draft(
        title=f"Saw the wedge kerfs in the tenons of the {job.kind(task.parts)}",
        actions=said(
            f"Gauge the kerfs of {job.marks(task.parts)} on tip and cheeks; they lie across the grain of {post}",
            "Saw down each line to the same depth on both cheeks",
            f"Chamfer the tips all round by {job.size(first.tip_chamfer)}" if first.tip_chamfer > TINY else "",
        ),
        sizes=tuple(f"{job.marks(ids)} {text}" for ids, text in same(texts)),
        check="Each outer strip bends a little under the thumb; no kerf has wandered.",
        uses=(Use("kerf"),),
    )


def _kerf_words(job: Job, tenon: Tenon, wedging: Wedging) -> str:
    ends = tenon.block.along(wedging.across)
    insets = dict.fromkeys(job.size(min(k.plane - ends.low, ends.high - k.plane)) for k in wedging.kerfs)
    one = wedging.kerfs[0]
    where = f"{phrases.counted(len(wedging.kerfs), 'kerf')} in each tenon, {phrases.listed(insets)} in from its edges"
    return f"{where}, {job.size(one.width)} wide, {job.size(one.depth)} deep from the tip"
