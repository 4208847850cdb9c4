"""How far each part has come: as every step finds the parts it works on, and as it leaves them."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace

from planbuild.core.geometry import Span1, hull
from planbuild.derive.lists.blanks import is_key
from planbuild.derive.scene import Stage
from planbuild.derive.steps.operations import Verb, verbs_of
from planbuild.derive.steps.tasks import Task
from planbuild.records.features import Feature, Taper, Tenon
from planbuild.records.piece import Part, Piece

Work = tuple[str, Verb]
"""A feature (id) and a kind of work on it."""


def stages(piece: Piece, ordered: Sequence[Task]) -> tuple[Mapping[str, Stage], ...]:
    """For each step the parts that it works on, by id."""
    done: dict[str, set[Work]] = {part.id: set() for part in piece.parts}
    found = []
    for task in ordered:
        before = {id: _so_far(piece.part(id), done[id]) for id in task.parts}
        for id in task.parts:
            done[id] |= _work(piece.part(id), task)
        found.append({id: Stage(before[id], _left(piece, _so_far(piece.part(id), done[id]), task)) for id in task.parts})
    return tuple(found)


def _work(part: Part, task: Task) -> set[Work]:
    """What a step does to a part.  Holes that are drilled through their mate are drilled where it is fitted."""
    cut = {(f.id, op.verb) for op in task.operations if op.part == part.id for f in op.features}
    return cut | ({(f.id, task.verb) for f in part.features if not verbs_of(f)} if task.verb is Verb.FIT else set())


def _so_far(part: Part, done: Iterable[Work]) -> Part:
    """The part with what is cut on it; where a tenon is still to come there is the whole blank, up to its tip."""
    did = set(done)
    kinds = {f.id: {verb for id, verb in did if id == f.id} for f in part.features}
    features = tuple(_as_far(f, kinds[f.id]) for f in part.features if _is_begun(f, kinds[f.id]))
    begun = {each.id for each in features}
    uncut = [f.block for f in part.features if isinstance(f, Tenon) and f.id not in begun]
    ends = hull([part.body, *uncut]).along(part.grain)
    return replace(part, features=features, body=part.body.with_span(part.grain, ends))


def _is_begun(feature: Feature, did: set[Verb]) -> bool:
    """Laying out does not cut yet."""
    return bool(did - {Verb.LAY_OUT})


def _as_far(feature: Feature, did: set[Verb]) -> Feature:
    """A tenon whose tip is still whole; anything else is cut in one go."""
    if not isinstance(feature, Tenon) or Verb.MAKE in did:
        return feature
    mitre = feature.mitre if Verb.MITRE in did else None
    keyway = feature.keyway if Verb.KEY in did else None
    pegs = feature.pegs if Verb.PEG in did else ()
    if feature.wedging and Verb.KERF not in did:
        return replace(feature, mitre=mitre, keyway=keyway, pegs=pegs, wedging=None, tip_chamfer=0.0)
    return replace(feature, mitre=mitre, keyway=keyway, pegs=pegs)


def _left(piece: Piece, part: Part, task: Task) -> Part:
    """A wedge, tapered to its end, is made with its thick end longer, and trimmed when it is driven home; a key is not."""
    tapers = [f for f in part.features if isinstance(f, Taper)]
    if task.verb is not Verb.MAKE or not tapers or is_key(piece, part):
        return part
    thick, span = tapers[0].end.opposite, part.body.along(part.grain)
    far = part.body.at(thick) + thick.sign * part.rough_length
    return replace(part, body=part.body.with_span(part.grain, span.join(Span1(far, far))))
