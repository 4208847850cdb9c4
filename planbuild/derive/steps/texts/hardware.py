"""Hardware: recesses and rows of holes cut at the bench, and what is hung, set on pins or fixed at the end."""

from __future__ import annotations

from collections.abc import Sequence

from planbuild.core.geometry import TINY
from planbuild.core.units import drill_text
from planbuild.derive import phrases
from planbuild.derive.lists.hardware import holes_of
from planbuild.derive.steps.job import Draft, Job, Use, features_of, said, same
from planbuild.derive.steps.operations import Verb
from planbuild.derive.steps.tasks import Task
from planbuild.records.features import Groove, Hole
from planbuild.records.hardware import BOLT, CAM, CASTOR, SLIDE, Item, Placed
from planbuild.records.piece import Part


def item_of(job: Job, placed: Placed) -> Item:
    return next(each for each in job.piece.items if each.id == placed.item)


def _served(job: Job, task: Task, verb: Verb) -> list[Placed]:
    """The hardware for which a step cuts."""
    cut = {(op.part, f.id) for op in task.operations if op.verb is verb for f in op.features}
    return [each for each in job.piece.hardware if cut & set(each.cuts)]


# ---------------------------------------------------------------- at the bench


def let_in(job: Job, task: Task) -> Draft:
    """Recesses: knifed round the thing itself, since no two makers' hinges are quite alike."""
    parts = job.parts(task.parts)
    served = _served(job, task, task.verb)
    names = phrases.listed(dict.fromkeys(phrases.plural(item_of(job, each).name) for each in served))
    texts = [
        (part.id, _recess_words(job, part, each))
        for part in parts
        for each in features_of(task, task.verb, part.id)
        if isinstance(each, Groove)
    ]
    return Draft(
        title=f"Let the {names} into the {job.kind(task.parts)}",
        actions=said(
            f"Mark the places on {phrases.the_all(parts)}, {_from_what(task)}",
            "Knife round the leaf or plate itself; gauge the depth",
            "Chop a row of shallow cuts across the grain and pare to the depth, down to the knife lines",
        ),
        sizes=tuple(f"{job.marks(ids)} {text}" for ids, text in same(texts)),
        check="Each lies in its recess without rocking, flush with the wood or as deep as listed.",
        note="Have the hardware in hand first: its own sizes win over the listed ones.",
        uses=(Use("let_in"),),
    )


def _from_what(task: Task) -> str:
    """A door that has been fitted stands in its opening, and takes the marks from there."""
    if task.verb is Verb.HINGE:
        return "stood in place on shims, from the recesses that are cut already"
    return "those that meet from one strip of wood"


def _recess_words(job: Job, part: Part, recess: Groove) -> str:
    long, wide = sorted((recess.void.size(axis) for axis in recess.face.axis.others), reverse=True)
    deep = recess.void.size(recess.face.axis)
    face = phrases.facing(part, recess.face, job.piece)
    return f"{face} face: {job.sizes(long, wide)}, {job.size(deep)} deep"


def drill_rows(job: Job, task: Task) -> Draft:
    """Rows for shelf pins: one template for all, always from the same end, so that the shelf lies level."""
    parts = job.parts(task.parts)
    holes = [(part, each) for part in parts for each in features_of(task, Verb.ROWS, part.id) if isinstance(each, Hole)]
    drills = dict.fromkeys(drill_text(each.diameter, job.edition.ruler) for _, each in holes)
    texts = [(part.id, _hole_words(job, each)) for part, each in holes]
    return Draft(
        title=f"Drill the rows for the shelf pins in the {job.kind(task.parts)}",
        actions=said(
            f"Drill one row from the sheet ([[sheet:{parts[0].id}]]) through a straight strip of hard wood: the template",
            f"Mark one end of it as its foot; lay it on {phrases.the_all(parts)}, foot to the same end each time",
            "Clamp it along each row and drill square, to a depth stop",
        ),
        sizes=tuple(f"{job.marks(ids)} {text}" for ids, text in same(list(dict.fromkeys(texts)))),
        check="Pins set at one height carry a straight board level, and it does not rock.",
        uses=tuple(Use("drill_rows", (("diameter", f"{each} {job.edition.ruler.unit.symbol}"),)) for each in drills),
    )


def _hole_words(job: Job, hole: Hole) -> str:
    return f"{drill_text(hole.diameter, job.edition.ruler)} drill, {job.size(hole.depth or 0.0)} deep"


# ---------------------------------------------------------------- at the end


def fit_title(job: Job, part: Part, placed: Sequence[Placed], fixed: bool) -> str:
    brought = next((each for each in placed if each.brings == part.id), None)
    name, its = (part.name, "its") if len(part.copies) == 1 else (phrases.plural(part.name), "their")
    if brought is None:
        return f"Fit the {name}" if fixed else f"Set the {name} in place"
    return f"Set the {name} on {its} pins" if item_of(job, brought).kind == "shelf pin" else f"Hang the {name}"


def fix(job: Job, task: Task) -> Draft:
    """What is fixed to a part that stands already."""
    (placed,) = task.placed
    item = item_of(job, placed)
    name = item.name if placed.count == 1 else phrases.plural(item.name)
    return Draft(
        title=f"Hang the {_swinging(job, placed)}" if placed.brings else f"Fix the {name}",
        actions=said(*actions_of(job, placed)),
        sizes=(*places_of(job, placed), *pilots_of(job, placed)),
        check=check_of(job, placed),
        note=notes_of([placed]),
        uses=(Use("fix"), *(Use("screw", (("pilot", pilot_of(job, each)),)) for each in _screws(job, placed))),
        hardware=placed.takes,
    )


def _swinging(job: Job, placed: Placed) -> str:
    """What is hung: the block that a stile belongs to, else the part itself."""
    part = job.piece.part(placed.brings)
    block = part.id.rpartition(".")[0].rpartition(".")[2].replace("_", " ")
    name = block or part.name
    return name if len(part.copies) == 1 else phrases.plural(name)


def _hung_word(job: Job, placed: Placed) -> str:
    """The whole door, if the leaf lies on a stile of it."""
    block = placed.on.rpartition(".")[0].rpartition(".")[2].replace("_", " ")
    return f"the {block}" if block else phrases.mark(placed.on)


def actions_of(job: Job, placed: Placed) -> tuple[str, ...]:
    """How one kind of thing is fixed, in the order of work."""
    kind = item_of(job, placed).kind
    part, other = job.piece.part(placed.on), phrases.mark(placed.meets) if placed.meets else ""
    if kind == "butt hinge" and _in_one_plane(placed):
        return (
            f"Lay both face down on a blanket, the edges of {phrases.mark(part.id)} and {other} together as they will stand",
            "Lay the hinges in their recesses, barrels down; prick the holes, drill, and drive one screw a leaf",
            "Turn it over and let it hang; when it swings freely, drive the other screws",
        )
    if kind == "butt hinge":
        return (
            f"Lay the leaves in the recesses of {phrases.the(part)}; prick the holes, drill, and drive one screw a leaf",
            f"Stand {_hung_word(job, placed)} in place on strips as thick as the gap; drill into {other}, one screw a leaf",
            "Swing it; when the gap is even all round, drive the other screws",
        )
    if kind == "cup hinge":
        return (
            f"Press the cups into {phrases.the(part)}, arms square to the edge; screw them down",
            f"Screw the mounting plates to the holes of {other}",
            "Hook the arms on, and turn the adjusting screws until the gaps are even",
        )
    if kind == "shelf pin":
        rows = phrases.the_all(job.parts(dict.fromkeys(own for own, _ in placed.cuts) or [part.id]))
        return (f"Push the pins into the same hole of each row of {rows}, and lay {other} on them",)
    if kind == SLIDE:
        return (
            f"Take the members apart; screw the outer ones to {other}, level and all at one height, through their slotted holes",
            f"Screw the inner ones to {phrases.the(part)}, level with the lower edge",
            "Push all of it in; shift the slotted screws until it runs freely, then drive the others",
        )
    if kind == BOLT:
        return (
            f"Push the barrels into their holes in {other}; turn them until their threads are in line with the bolts",
            f"Set both parts together; turn the bolts in through {phrases.the(part)} by hand, then draw them up",
        )
    if kind == CAM:
        return (
            f"Turn the pins into {other} by hand until their collars rest on the wood",
            f"Press the cams into {phrases.the(part)}, their openings toward the joint",
            "Set both parts together and turn the cams until they are tight",
        )
    return (_set_on(job, placed, part),)


def _in_one_plane(placed: Placed) -> bool:
    """Whether both leaves lie side by side in one plane, as under the leaf of a table."""
    first, second = (each.box.along(placed.face.axis) for each in placed.bought[0].lumps[:2])
    return abs(first.low - second.low) < TINY and abs(first.high - second.high) < TINY


def _set_on(job: Job, placed: Placed, part: Part) -> str:
    item = item_of(job, placed)
    name = item.name if placed.count == 1 else phrases.plural(item.name)
    face = phrases.facing(part, placed.face, job.piece)
    if item.kind == "wood screw":
        wall = "into what the piece stands or hangs against, with fixings that suit that wall"
        into = f"into {phrases.mark(placed.meets)}" if placed.meets else wall
        return f"Drive the {name} through the holes of {phrases.the(part)} {into}"
    if item.kind == CASTOR:
        how = "Press the stems into their holes in" if "stem" in dict(item.fields) else "Screw the plates to"
        return f"Turn the piece over on a blanket, with help; {how[0].lower()}{how[1:]} {phrases.the(part)}"
    if item.kind == "lock":
        return f"Screw the {name} into its recess in {phrases.the(part)}; try the key from the other side before the last screw"
    if item.kind == "turned knob" and "spigot" in dict(item.fields):
        return f"Glue the {name} into the holes of {phrases.the(part)}; wipe off what squeezes out"
    where = f"to the {face} face of {phrases.the(part)}"
    if placed.meets:
        return f"Fix the {name} {where}; close {phrases.mark(placed.meets)} against it to mark the other half"
    if item.kind == "tip restraint":
        return f"Screw the {name} {where}, and to the wall as its own sheet says; the wall's build decides which fixings hold"
    return f"Fix the {name} {where}"


def places_of(job: Job, placed: Placed) -> tuple[str, ...]:
    """Where the middle of a thing lies on its part, from two edges; what has a cut there is on the sheet."""
    item, part = item_of(job, placed), job.piece.part(placed.on)
    if any(own == part.id for own, _ in placed.cuts):
        return ()
    found = dict.fromkeys(_place(job, part, placed, index) for index in range(len(placed.at)))
    return tuple(f"{item.name}: middle {each}" for each in found)


def _place(job: Job, part: Part, placed: Placed, index: int) -> str:
    """The nearer edge each way, as it stands in the piece."""
    at = placed.at[index]
    bodies = [copy.motion.box(part.body) for copy in part.copies]
    body = min(bodies, key=lambda box: sum(abs(a - b) for a, b in zip(box.centre, at, strict=True)))
    words = []
    for axis in placed.face.axis.others:
        near = min((axis.low, axis.high), key=lambda face: abs(body.at(face) - at[axis.value]))
        words.append(f"{job.size(abs(body.at(near) - at[axis.value]))} from the {near.value}")
    return " and ".join(words)


def pilots_of(job: Job, placed: Placed) -> tuple[str, ...]:
    """The holes for its screws; soft brass is spared by a steel screw that cuts the thread (common practice)."""
    found = []
    for screw in _screws(job, placed):
        brass = dict(screw.fields).get("material") == "brass"
        first = "; drive a steel screw of that size first, brass breaks" if brass else ""
        found.append(f"{phrases.plural(screw.name)}: pilot {pilot_of(job, screw)}, with a stop on the drill{first}")
    return tuple(found)


def _screws(job: Job, placed: Placed) -> list[Item]:
    return [each for each in job.piece.items if each.id in dict(placed.screws)]


def pilot_of(job: Job, item: Item) -> str:
    holes = holes_of(job.piece, item, job.edition.ruler)
    return f"{drill_text(holes.pilot, job.edition.ruler)} {job.edition.ruler.unit.symbol}" if holes else "to suit"


def notes_of(placed: Sequence[Placed]) -> str:
    """What the designer said of the hardware of a step."""
    return " ".join(phrases.sentence(text) for each in placed for text in (each.note, each.why) if text)


def uses_of(job: Job, part: Part, placed: Sequence[Placed]) -> tuple[Use, ...]:
    """Pins are pushed in by hand, and a part that lies on them needs no tool."""
    brought = [each for each in placed if each.brings == part.id]
    if brought and all(item_of(job, each).kind == "shelf pin" for each in placed):
        return ()
    return (Use("fix"),) if brought else (Use("fit"),)


def check_of(job: Job, placed: Placed) -> str:
    kind = item_of(job, placed).kind
    if kind in ("butt hinge", "cup hinge"):
        return "It swings by a finger, stays where it is left, and its gap is even all round."
    if kind == "tip restraint":
        return "Pulled forward at its top edge by hand, the piece stays where it is."
    if kind == "shelf pin":
        return "It lies on all its pins and does not rock."
    if kind == CASTOR:
        return "All wheels turn freely, and the piece does not rock on a flat floor."
    if kind == "lock":
        return "The key turns without force and throws the bolt fully."
    if kind == SLIDE:
        return "It runs from end to end without binding, and its gaps are even."
    if kind in (BOLT, CAM):
        return "The joint is closed all round and does not give when it is racked by hand."
    if kind == "catch":
        return "It closes with a light push and holds."
    return f"{'It sits' if placed.count == 1 else 'Each sits'} square and does not turn or rattle."
