"""Shaping: tapers, arches, curves, bevels, and the easing of edges."""

from __future__ import annotations

from planbuild.core.geometry import Axis, Face
from planbuild.derive import phrases
from planbuild.derive.steps.job import Draft, Job, Use, features_of, said, same
from planbuild.derive.steps.operations import Verb
from planbuild.derive.steps.tasks import Task
from planbuild.records.features import Arch, Bevel, Chamfer, Curve, EdgeBevel, Mortise, RoundOver, Taper
from planbuild.records.piece import Part
from planbuild.records.slanted import AngledMortise


def _face_words(job: Job, part: Part, face: Face) -> str:
    """A face by the part that enters it, if one does and no other face has the same; else inside, outside or its name."""
    mates = {each.mate.part for each in part.features if isinstance(each, Mortise | AngledMortise) and each.face is face}
    elsewhere = {each.mate.part for each in part.features if isinstance(each, Mortise | AngledMortise) and each.face is not face}
    if len(mates) == 1 and not mates & elsewhere:
        return f"face mortised for {phrases.mark(mates.pop())}"
    return f"{phrases.facing(part, face, job.piece)} face"


def taper(job: Job, task: Task) -> Draft:
    part = job.piece.part(task.parts[0])
    cuts = [each for each in features_of(task, Verb.TAPER, part.id) if isinstance(each, Taper)]
    return Draft(
        title=f"Taper the {job.kind(task.parts)}",
        actions=said(
            *(_draw(job, part, each) for each in cuts),
            "Saw on the waste side of the line",
            "Plane to the line toward the thin end, from the start of the taper on",
        ),
        sizes=tuple(_taper_line(job, part, each) for each in cuts),
        check=f"{phrases.heading(_at_end(job, part, cuts))} on each; the wood before the start of the taper is untouched.",
        uses=(Use("taper"),),
    )


def _draw(job: Job, part: Part, cut: Taper) -> str:
    faces = phrases.listed(f"the {_face_words(job, part, face)}" for face in cut.faces)
    return f"Draw the taper on {phrases.the(part)} and hatch the waste: it comes off {faces}"


def _start(part: Part, cut: Taper) -> float:
    return abs(cut.start - part.body.at(cut.end.opposite))


def _taper_line(job: Job, part: Part, cut: Taper) -> str:
    left = job.sizes(*(size for _, size in cut.leaving))
    start = f"starts {job.size(_start(part, cut))} from the {cut.end.opposite.value}"
    return f"{phrases.mark(part.id)} {start}, leaves {left} at the {cut.end.value}"


def _at_end(job: Job, part: Part, cuts: list[Taper]) -> str:
    left = {axis: part.body.size(axis) for axis in Axis if axis is not part.grain}
    left.update({axis: size for cut in cuts for axis, size in cut.leaving})
    return f"the {cuts[0].end.value} end measures {job.sizes(*left.values())}"


def arch(job: Job, task: Task) -> Draft:
    part = job.piece.part(task.parts[0])
    cuts = [each for each in features_of(task, Verb.ARCH, part.id) if isinstance(each, Arch)]
    crown, both = cuts[0].crown, len(part.copies) == 2
    hold = "Clamp both together and smooth the curve" if both else "Smooth the curve"
    way = "the middle to both ends" if crown else "both ends to the middle"
    alike = ", alike on both" if both else ""
    word = "bow" if len({each.crown for each in cuts}) == 2 else "crown" if crown else "arch"
    return Draft(
        title=f"Cut the {word} of the {job.kind(task.parts)}",
        actions=said(
            f"Mark both ends of the curve and its middle on {phrases.the(part)}",
            "Bend a batten through the three points, and draw along it",
            "Saw on the waste side of the line",
            f"{hold}, from {way}, with the grain",
        ),
        sizes=tuple(_arch_line(job, part, each) for each in cuts),
        check=f"The curve runs without flats or bumps{alike}; it rises {job.size(cuts[0].rise)} in the middle.",
        uses=(Use("arch"),),
    )


def _arch_line(job: Job, part: Part, cut: Arch) -> str:
    low, high = cut.start - part.body.along(part.grain).low, part.body.along(part.grain).high - cut.stop
    same_ends = job.size(low) == job.size(high)
    ends = f"{job.size(low)} from each shoulder" if same_ends else f"{job.size(low)} and {job.size(high)} from the shoulders"
    return f"{phrases.mark(part.id)} {cut.face.value} edge: begins {ends}, rises {job.size(cut.rise)} in the middle"


def curve(job: Job, task: Task) -> Draft:
    part = job.piece.part(task.parts[0])
    cuts = [each for each in features_of(task, Verb.CURVE, part.id) if isinstance(each, Curve)]
    points = ["; ".join(f"{job.size(along)} along, {job.size(deep)} deep" for along, deep in each.points) for each in cuts]
    return Draft(
        title=f"Cut the curve of the {job.kind(task.parts)}",
        actions=said(
            f"Mark the points on {phrases.the(part)}, bend a batten through them, and draw the curve.",
            "Saw on the waste side of the line.",
            "Smooth the curve with the grain, downhill from both sides.",
        ),
        sizes=tuple(f"{phrases.mark(part.id)} {each.face.value} face: {text}" for each, text in zip(cuts, points, strict=True)),
        check="The curve runs without flats or bumps through every point.",
        uses=(Use("curve"),),
    )


def bevel(job: Job, task: Task) -> Draft:
    """Whole faces by the sliding bevel, edges by gauge lines: a part has the one or the other as a rule."""
    part = job.piece.part(task.parts[0])
    edges = [each for each in features_of(task, Verb.BEVEL, part.id) if isinstance(each, EdgeBevel)]
    if edges:
        return _bevelled_edges(job, task, part, edges)
    parts = job.parts(task.parts)
    cuts = [(each.id, f) for each in parts for f in features_of(task, Verb.BEVEL, each.id) if isinstance(f, Bevel)]
    return Draft(
        title=f"Bevel the {job.kind(task.parts)}",
        actions=said(
            f"Set the sliding bevel and mark both ends of {phrases.the_all(parts)}; the named edge keeps its size.",
            "Saw close to the lines and plane to them.",
        ),
        sizes=tuple(f"{phrases.mark(id)} {f.face.value} face: {f.angle:g}°, the {f.keeps.value} edge stays" for id, f in cuts),
        check="The sliding bevel shows no light anywhere along the bevel.",
        uses=(Use("bevel"),),
    )


def _bevelled_edges(job: Job, task: Task, part: Part, cuts: list[EdgeBevel]) -> Draft:
    """End grain first: what breaks out at its corners is planed away with the long edges."""
    inward = phrases.listed(f.edge[0].value for f in sorted(cuts, key=lambda f: f.edge[0].axis is not part.grain))
    face = cuts[0].edge[1]
    if not cuts[0].joint:
        return _raised_field(job, task, part, cuts)
    return Draft(
        title=f"Bevel the edges of the {job.kind(task.parts)}",
        actions=said(
            f"Gauge the margin on the {phrases.facing(part, face, job.piece)} face of {phrases.the(part)},"
            " and the thickness that stays round its edges",
            f"Plane from line to line, end grain first ({inward}), a scrap clamped behind",
            "Try the edge in an offcut of the groove as you go",
        ),
        sizes=tuple(dict.fromkeys(_bevel_line(job, part, f) for f in cuts)),
        check="Every edge goes to the bottom of the offcut's groove and stops there without a rattle.",
        uses=(Use("bevel"),),
    )


def _raised_field(job: Job, task: Task, part: Part, cuts: list[EdgeBevel]) -> Draft:
    """The same for a field that is raised for its look."""
    inward = phrases.listed(f.edge[0].value for f in sorted(cuts, key=lambda f: f.edge[0].axis is not part.grain)[:4])
    return Draft(
        title=f"Raise the field of the {job.kind(task.parts)}",
        actions=said(
            f"Gauge the margin on the face of {phrases.the(part)}, and the thickness that stays round its edges",
            "Cut the step round the field along a fence, end grain first" if cuts[0].step else "",
            f"Plane from line to line, end grain first ({inward}), a scrap clamped behind",
        ),
        sizes=tuple(dict.fromkeys(_bevel_line(job, part, f) for f in cuts)),
        check="The corners of the field are sharp, and the mitres of the bevels run into them.",
        uses=(Use("bevel"),),
    )


def _bevel_line(job: Job, part: Part, f: EdgeBevel) -> str:
    here = [each.depth for each in part.features if isinstance(each, EdgeBevel) and each.edge[0] is f.edge[0]]
    left = part.body.size(f.edge[1].axis) - sum(here)
    step = f", step {job.size(f.step)}" if f.step else ""
    words = f"{job.size(f.margin)} in, {job.size(left)} left at the edge{step}"
    return f"{phrases.mark(part.id)} {f.edge[0].value} edge: {words}"


def edges(job: Job, task: Task) -> Draft:
    """Chamfers and round-overs of the whole piece in one step; which and how large stands in its sizes."""
    features = [(op.part, f) for op in task.operations for f in op.features if isinstance(f, (Chamfer, RoundOver))]
    radii = dict.fromkeys(job.with_unit(f.radius) for _, f in features if isinstance(f, RoundOver))
    chamfers = any(isinstance(f, Chamfer) for _, f in features)
    verb = phrases.listed(each for each in ("chamfer" if chamfers else "", "round" if radii else "") if each)
    return Draft(
        title=f"{phrases.heading(verb)} the edges",
        actions=said(
            "Pencil the width of each chamfer on both faces" if chamfers else "",
            "Plane across end grain first, then along the grain, so that no corner breaks out" if chamfers else "",
            "Set the round-over on scrap; take end grain first here too" if radii else "",
            "Keep off shoulders, tenons and the mouths of mortises",
        ),
        sizes=tuple(f"{job.marks(ids)} {text}" for ids, text in same([(id, _edge_line(job, f)) for id, f in features])),
        check="Every chamfer is as wide at its end as at its start." if chamfers else "The edges are alike to the hand.",
        uses=(*([Use("chamfer")] if chamfers else []), *(Use("round", (("radius", each),)) for each in radii)),
    )


def _edge_line(job: Job, feature: Chamfer | RoundOver) -> str:
    named = feature.group or phrases.listed(f"{a.value} {b.value}" for a, b in feature.edges)
    where = f"edges {named}" if named.startswith("around") else f"{named} edges"
    if isinstance(feature, Chamfer):
        return f"{where}: chamfer {job.size(feature.size)}"
    return f"{where}: radius {job.size(feature.radius)}"
