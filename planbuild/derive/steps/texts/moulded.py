"""Mouldings along edges, dishes, and turning between centres."""

from __future__ import annotations

from planbuild.derive import phrases
from planbuild.derive.dimensions.where import edge_words
from planbuild.derive.steps.job import Draft, Job, Use, features_of, said, same
from planbuild.derive.steps.operations import Verb
from planbuild.derive.steps.tasks import Task
from planbuild.records.piece import Part
from planbuild.records.shaped import Dished, Moulding, Turned


def mould(job: Job, task: Task) -> Draft:
    """All mouldings of the piece in one step, as each cutter is set up once."""
    features = [(op.part, f) for op in task.operations for f in op.features if isinstance(f, Moulding)]
    forms = list(dict.fromkeys(f.form for _, f in features))
    uses = dict.fromkeys(Use(f.form, (("size", job.with_unit(f.size)),)) for _, f in features)
    return Draft(
        title=f"{phrases.heading(phrases.listed(forms))} the edges",
        actions=said(
            "Set the cutter on scrap of the same thickness",
            "Work end grain first, then the long edges, so that no corner breaks out",
            "Take the last pass lightly, and clean the quirk with a narrow scraper" if "bead" in forms else "",
            "Sand with a block shaped to the profile",
        ),
        sizes=tuple(f"{job.marks(ids)} {text}" for ids, text in same([(id, _line(job, f)) for id, f in features])),
        check="The profile is alike along the whole edge, and its mitres meet.",
        uses=tuple(uses),
    )


def _line(job: Job, f: Moulding) -> str:
    where = edge_words(f.edges, f.group)
    if f.form == "cove":
        return f"{where}: cove, radius {job.size(f.size)}"
    return f"{where}: bead {job.size(f.size)} wide, quirk {job.size(f.quirk)}"


def dish(job: Job, task: Task) -> Draft:
    part = job.piece.part(task.parts[0])
    cuts = [each for each in features_of(task, Verb.DISH, part.id) if isinstance(each, Dished)]
    return Draft(
        title=f"Dish the {job.kind(task.parts)}",
        actions=said(
            f"Draw the circle on {phrases.the(part)}, and bore a hole at its middle to the depth, less a shaving",
            "Hollow from the rim toward the middle, across the grain first, until the hole is gone",
            "Try the hollow with a template of the radius, and scrape it smooth",
        ),
        sizes=tuple(_dish_line(job, part, each) for each in cuts),
        check="The template touches along its whole length, whichever way it is laid.",
        uses=(Use("dish"),),
    )


def _dish_line(job: Job, part: Part, f: Dished) -> str:
    words = f"{job.size(f.diameter)} across, {job.size(f.depth)} deep, template of radius {job.size(f.radius)}"
    return f"{phrases.mark(part.id)} {f.face.value} face: {words}"


def turn(job: Job, task: Task) -> Draft:
    part = job.piece.part(task.parts[0])
    cuts = [each for each in features_of(task, Verb.TURN, part.id) if isinstance(each, Turned)]
    square = any(each.span.size < part.body.size(part.grain) - 1 for each in cuts)
    return Draft(
        title=f"Turn the {job.kind(task.parts)}",
        actions=said(
            f"Draw the diagonals on both ends of {phrases.the(part)}, and mount it between centres; spin it by hand first",
            "Mark where the square stays, and cut its shoulders clean with the point of a skew" if square else "",
            "Rough the rest down to a cylinder",
            "Mark each station from a strip laid beside it, and part down to its diameter by calliper",
            "Cut beads and coves from the thick to the thin, then sand with the rest taken off",
        ),
        sizes=tuple(text for each in cuts for text in _stations(job, part, each)),
        check="Every station goes through the calliper set to its diameter.",
        uses=(Use("turn"),),
    )


def _stations(job: Job, part: Part, f: Turned) -> list[str]:
    low, end = part.body.along(part.grain).low, part.grain.low.value
    found = []
    for station in f.stations:
        way = "" if station.way == "straight" else f", by a {station.way}"
        place = f"{job.size(station.at - low)} from the {end}" if station.at > low else f"at the {end}"
        found.append(f"{phrases.mark(part.id)} {place}: {job.size(station.diameter)} across{way}")
    return found
