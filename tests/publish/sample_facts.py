"""A small invented piece as finished facts, with simple drawings: pages are tested without solids or a CAD kernel.

A footstool: a top on two ends with a wedged rail between them.  Its sizes need not be good furniture.
"""

from __future__ import annotations

from fractions import Fraction

from planbuild.core.diagnostics import Diagnostic, Severity, Span
from planbuild.core.units import Ruler, Unit
from planbuild.records.drawing import Drawing, Fill, Pen, Point, Stroke, Text, TextRole, Tint, circle, line, ring
from planbuild.records.edition import A4, LETTER, Edition, Paper, Projection
from planbuild.records.facts import (
    SCHEMA,
    Batch,
    BillLine,
    Caution,
    CutGroup,
    CutRow,
    Dimension,
    Facts,
    FeatureFacts,
    FinishFacts,
    GroupWeight,
    HardwareLine,
    JointFacts,
    MatchedSet,
    PartFacts,
    PieceFacts,
    SeasonGap,
    SeasonRow,
    SizeRange,
    StockLine,
    Supply,
    Tool,
    WorkStep,
)
from planbuild.records.findings import Findings, Proof

INCH = Ruler(Unit.INCH, Fraction(1, 32))
DATE = "2026-03-02"


def edition(paper: Paper = LETTER) -> Edition:
    return Edition("home", paper, INCH, Projection.THIRD, DATE)


LETTER_EDITION, A4_EDITION = edition(), edition(A4)


# ---------------------------------------------------------------- drawings


def _box(at: Point, width: float, height: float) -> tuple[Point, ...]:
    (x, y) = at
    return (x, y), (x + width, y), (x + width, y + height), (x, y + height)


def block(
    id: str, width: float, height: float, alt: str, scale: str = "", texts: tuple[Text, ...] = (), new: bool = False
) -> Drawing:
    """A box seen from above left, filling the drawing: enough ink to be looked at."""
    depth = min(width, height) / 4
    top = ring((4, 4 + depth), (4 + depth, 4), (width - 4, 4), (width - 4 - depth, 4 + depth))
    front = ring(*_box((4, 4 + depth), width - 8 - depth, height - 8 - depth))
    side = ring((width - 4 - depth, 4 + depth), (width - 4, 4), (width - 4, height - 4 - depth), (width - 4 - depth, height - 4))
    tints = (Tint.NEW_UP, Tint.NEW_FRONT, Tint.NEW_SIDE) if new else (Tint.UP, Tint.FRONT, Tint.SIDE)
    fills = tuple(Fill(tint, path) for tint, path in zip(tints, (top, front, side), strict=True))
    strokes = tuple(Stroke(Pen.OUTLINE, path) for path in (top, front, side))
    return Drawing(id, width, height, fills, strokes, (), (), texts, alt, scale)


def marked(id: str, width: float, height: float, alt: str, marks: tuple[tuple[str, str], ...]) -> Drawing:
    """The block with a circled mark for each part."""
    base = block(id, width, height, alt, new=id.startswith("step"))
    spots = [(width * (i + 1) / (len(marks) + 1), height / 2) for i in range(len(marks))]
    texts = tuple(
        Text(mark, (x, y + 1.2), 2.5, TextRole.MARK, bold=True, refers=part)
        for (part, mark), (x, y) in zip(marks, spots, strict=True)
    )
    covers = tuple(Fill(Tint.PAPER, circle(spot, 3.4)) for spot in spots)
    rims = tuple(Stroke(Pen.LEADER, circle(spot, 3.4)) for spot in spots)
    return Drawing(id, width, height, base.fills, base.strokes, covers, rims, texts, alt)


def sheet(part: str, name: str, dimensions: tuple[Dimension, ...], height: float = 90) -> Drawing:
    """A part sheet: a plain outline with each dimension's figure above a line."""
    rows = [(d, 20 + 9 * i) for i, d in enumerate(dimensions)]
    texts = tuple(Text(d.text, (100, y - 0.9), 2.5, TextRole.DIMENSION, refers=d.id) for d, y in rows)
    lines = tuple(Stroke(Pen.DIMENSION, line((20, y), (170, y))) for _, y in rows)
    outline = Stroke(Pen.VISIBLE, ring(*_box((20, 5), 140, 9)))
    hidden = Stroke(Pen.HIDDEN, line((20, 9), (160, 9)))
    return Drawing(f"sheet.{part}", 176, height, (), (outline, hidden, *lines), (), (), texts, f"Sheet of the {name}", "1:2")


# ---------------------------------------------------------------- parts


def dimension(part: str, number: int, feature: str, states: str, mm: float) -> Dimension:
    return Dimension(f"{part}.{number}", part, feature, states, mm, INCH.printed(mm), "left-right", (0.0, mm), "front")


def part(id: str, mark: str, count: int, size: tuple[float, float, float], feature: FeatureFacts, **more: object) -> PartFacts:
    """A part with length, width, thickness in mm, one feature and its four dimensions."""
    rough = (size[0] + 25.4, size[1] + 6.35, 25.4 if size[2] < 25 else 50.8)
    words = zip(("length", "width", "thickness"), size, strict=True)
    dims = tuple(dimension(id, i, "body", word, mm) for i, (word, mm) in enumerate(words))
    dims += tuple(
        dimension(id, 3 + i, feature.id, word, mm) for i, (word, mm) in enumerate(feature.numbers) if isinstance(mm, float)
    )
    values: dict[str, object] = {
        "id": id,
        "mark": mark,
        "name": id.replace("_", " "),
        "count": count,
        "mirrored": 0,
        "finished": size,
        "finished_text": tuple(INCH.printed(mm) for mm in size),
        "rough": rough,
        "rough_text": tuple(INCH.printed(mm) for mm in rough),
        "shoulder_text": "",
        "stock": "oak",
        "stock_name": "red oak, flat sawn",
        "grain": "along the length",
        "face": "top",
        "edge": "front",
        "volume": size[0] * size[1] * size[2],
        "mass": size[0] * size[1] * size[2] * 7e-7,
        "centre": (size[0] / 2, size[1] / 2, size[2] / 2),
        "features": (feature,),
        "dimensions": dims,
        "strips": "",
        "notes": (),
        "made_for": "",
        "sheet": f"sheet.{id}",
    }
    return PartFacts(**{**values, **more})  # type: ignore[arg-type]


def feature(id: str, kind: str, mate: str, words: str, **numbers: float) -> FeatureFacts:
    return FeatureFacts(
        id, kind, "rail" if mate else "", mate, words, tuple((k.replace("_", " "), v) for k, v in numbers.items())
    )


PARTS = (
    part(
        "top",
        "A1",
        1,
        (457.2, 279.4, 22.225),
        feature("rim", "chamfer", "", "Chamfer the lower edges all round.", size=6.35),
        strips="3 strips of 3\u202f³⁄₄, rings alternate",
    ),
    part(
        "end",
        "A2",
        2,
        (254.0, 228.6, 22.225),
        feature("rail.end", "mortise", "A3", "Through mortise for the [[part:rail]].", mortise_width=9.525, from_top_end=76.2),
        mirrored=1,
        notes=("Lay both ends out side by side, *inside faces up*.",),
    ),
    part(
        "rail",
        "A3",
        1,
        (363.5375, 63.5, 22.225),
        feature("rail.left", "tenon", "A2", "Tenon for the [[part:end]], wedged.", tenon_thickness=9.525, tenon_length=25.4),
        shoulder_text="12\u202f¹⁄₄ between shoulders",
    ),
    part(
        "wedge",
        "A4",
        4,
        (31.75, 9.525, 4.7625),
        feature("slope", "taper", "", "Slope one face to nothing.", leaving=0.79375),
        made_for="rail",
        stock="walnut",
        stock_name="black walnut",
    ),
)

SAW = Caution(
    "WARNING",
    "The saw can throw a narrow piece back.",
    "It can hit you hard.",
    "Cut wedges from a long blank and keep a push stick at hand.",
)
CHISEL = Caution(
    "CAUTION",
    "A chisel slips when a wedge is trimmed.",
    "It can cut the hand that holds the work.",
    "Clamp the work and keep both hands behind the edge.",
)
RAGS = Caution(
    "WARNING",
    "Rags with drying oil heat up by themselves.",
    "A pile of them can catch fire.",
    "Hang them singly outdoors or put them in water in a closed metal can.",
)
DUST = Caution(
    "CAUTION",
    "Fine wood dust harms nose and lungs.",
    "The harm adds up over years.",
    "Collect it at the tool and wear a mask marked N95 or FFP2.",
)


def work_step(
    number: int, id: str, phase: str, title: str, parts: tuple[str, ...], actions: tuple[str, ...], **more: object
) -> WorkStep:
    counts = {p.id: p.count for p in PARTS}
    values: dict[str, object] = {
        "id": id,
        "number": number,
        "phase": phase,
        "title": title,
        "parts": parts,
        "counts": tuple((p, counts[p]) for p in parts),
        "actions": actions,
        "sizes": (),
        "tools": ("jack plane",),
        "hardware": (),
        "check": "",
        "cautions": (),
        "why": "",
        "wait": "",
        "note": "",
        "drawing": f"step.{id}",
    }
    return WorkStep(**{**values, **more})  # type: ignore[arg-type]


STEPS = (
    work_step(
        1,
        "mill",
        "Prepare the stock",
        "Cut and plane the blanks",
        ("top", "end", "rail"),
        ("Cut [[mark:top]], [[mark:end]] and [[mark:rail]] to rough size.", "Plane each to thickness."),
        tools=("jack plane", "rip saw"),
        drawing="",
        wait="Let the blanks rest for a day.",
    ),
    work_step(
        2,
        "mortise.end",
        "Cut the joints",
        "Cut the mortises in the ends",
        ("end",),
        ("Mark both [[part:end]] together.", "Chop from both faces to the middle."),
        sizes=("mortise ³⁄₈ × 2, through",),
        check="A rule lies flat across the mouth.",
        why="mortises come first, tenons are fitted to them",
        tools=("mortise chisel ³⁄₈",),
    ),
    work_step(
        3,
        "tenon.rail",
        "Cut the joints",
        "Cut the tenons of the rail",
        ("rail",),
        ("Saw the shoulders of [[part:rail]].", "Fit each tenon to its mortise from step [[step:mortise.end]]."),
        check="It goes home by hand, without a mallet.",
        tools=("tenon saw",),
    ),
    work_step(
        4,
        "cut.wedge",
        "Cut the joints",
        "Saw the wedges",
        ("wedge",),
        ("Saw [[mark:wedge]] from a long blank, see [[sheet:wedge]].",),
        cautions=(SAW,),
        tools=("tenon saw",),
    ),
    work_step(
        5,
        "glue",
        "Glue up",
        "Glue ends and rail",
        ("end", "rail", "wedge"),
        (
            "Spread glue in the mortises.",
            "Push both [[mark:end]] home.",
            "Drive the [[mark:wedge]] from outside, see [[joint:rail]].",
        ),
        cautions=(CHISEL,),
        check="The diagonals agree within ¹⁄₁₆.",
        wait="Leave it clamped for an hour.",
        note="A **helper** is welcome here.",
        tools=("two clamps of 24 in",),
    ),
    work_step(
        6,
        "screw.top",
        "Fit the top",
        "Screw the top on",
        ("top",),
        ("Set [[part:top]] face down.", "Drive the screws through the cleats."),
        hardware=(("screw", 6),),
        tools=("screwdriver",),
    ),
)

JOINTS = (
    JointFacts(
        "rail",
        "mortise and tenon",
        "wedged tenon",
        "Rail into end, wedged",
        (("tenon", "³⁄₈ × 2"), ("proud", "¹⁄₁₆"), ("wedges", "2 each")),
        "[[part:rail]] into [[part:end]], 2 times",
        "snug: pushed home by hand",
        "yellow PVA",
        ("Kerfs lie across the grain of the end.",),
        "joint.rail",
        "joint.rail.section",
    ),
    JointFacts(
        "top",
        "screws",
        "screwed top",
        "Top on ends",
        (("screws", "3 each"),),
        "[[part:top]] on [[part:end]], 2 times",
        "loose",
        "no glue",
        (),
        "joint.top",
        "",
    ),
)


def _drawings() -> dict[str, Drawing]:
    marks = tuple((p.id, p.mark) for p in PARTS)
    pictures = [
        block("cover", 165, 120, "The footstool from the front left"),
        block("three_views", 176, 110, "Front, side and top view of the footstool", "1:5"),
        block("section", 90, 60, "Section through the rail", "1:5"),
        marked("exploded", 178, 118, "All parts moved apart, with their marks", marks),
        *(sheet(p.id, p.name, p.dimensions) for p in PARTS),
        block("joint.rail", 85, 60, "Wedged tenon, open", ""),
        block("joint.rail.section", 80, 55, "Section through the wedged tenon", "1:1"),
        block("joint.top", 85, 60, "Screwed top"),
        *(
            marked(s.drawing, 86, 62, f"Step {s.number}: {s.title}", tuple(m for m in marks if m[0] in s.parts))
            for s in STEPS
            if s.drawing
        ),
    ]
    return {each.id: each for each in pictures}


PIECE = PieceFacts(
    title="Footstool",
    series="Sample room",
    summary="A low stool for one foot or one child.",
    designer="The sample workshop",
    contact="errata@plans.example",
    licence="One maker may build from this plan as often as wished.",
    revision="B",
    date=DATE,
    revisions=(("A", "2026-01-10", "first issue"), ("B", DATE, "rail ¹⁄₄ lower")),
    built="not yet built",
    width=457.2,
    depth=279.4,
    height=276.225,
    mass=4.2,
    centre=(228.6, 127.0, 205.0),
    groups=(GroupWeight("ends and rail", 1, 2.4, (228.6, 127.0, 160.0)),),
    part_kinds=4,
    part_count=8,
    species=("red oak", "black walnut"),
    sources=("USDA Forest Products Laboratory, Wood Handbook",),
    words=(("end", "an upright board that carries the top"),),
)

FACTS = Facts(
    schema=SCHEMA,
    piece=PIECE,
    unit="inch",
    step_text="¹⁄₃₂ in",
    projection="third angle",
    parts=PARTS,
    cut_list=(
        CutGroup(
            "oak",
            "Red oak, 4/4",
            (
                CutRow("top", "3 strips of 3\u202f³⁄₄", ""),
                CutRow("end", "1 as drawn, 1 mirrored", "A3"),
                CutRow("rail", "12\u202f¹⁄₄ between shoulders", ""),
            ),
        ),
        CutGroup("walnut", "Black walnut, 4/4", (CutRow("wedge", "from one long blank", ""),)),
    ),
    matched=(MatchedSet("one stop", ("leg", "rail"), 6, 419.1, "finished length 16 ¹⁄₂ in", ""),),
    batches=(Batch("mortise", (("width", 9.52), ("depth", 28.6)), ("leg", "rail"), 8),),
    bill=(BillLine("leg", 4, (44.45, 50.8, 444.5), 1.7, 1.7),),
    allowance_note="Rough sizes add 1 in to the length and ¹⁄₄ to the width.",
    stock=(
        StockLine(
            "oak",
            "Red oak, flat sawn",
            "4/4",
            4.1,
            5.5,
            "bd ft",
            "4.1 bd ft",
            "5.5 bd ft",
            "a third more for waste",
            "19 × 4 in",
            ("top", "end", "rail"),
        ),
        StockLine(
            "walnut",
            "Black walnut",
            "4/4",
            0.1,
            0.2,
            "bd ft",
            "0.1 bd ft",
            "0.2 bd ft",
            "an offcut will do",
            "6 × 2 in",
            ("wedge",),
        ),
    ),
    hardware=(
        HardwareLine(
            "screw",
            "wood screw",
            6,
            "no. 8 × 1\u202f¹⁄₂, pan head, steel",
            "pilot ¹⁄₈, clearance ¹¹⁄₆₄",
            "cleats into [[part:top]]",
            "³⁄₄ of it in the top",
        ),
    ),
    supplies=(
        Supply("yellow PVA glue", "2 fl oz", "40 in² of joint"),
        Supply("hardwax oil", "¹⁄₄ pint", "0.6 m², 2 coats"),
        Supply("abrasive, grit 180", "2 sheets", "all faces"),
    ),
    tools=(Tool("jack plane", ("mill",)), Tool("tenon saw", ("tenon.rail", "cut.wedge")), Tool("two clamps of 24 in", ("glue",))),
    joints=JOINTS,
    steps=STEPS,
    cautions=(DUST, CHISEL),
    finish=FinishFacts(
        "Oil the stool",
        ("Sand to grit 180.", "Oil every face of [[part:top]] alike."),
        (("coats", "2"), ("area", "0.6 m²")),
        ("Wipe with a damp cloth.", "Oil again when it looks dry."),
        (RAGS,),
    ),
    sizes=(SizeRange("length", "18", "16 to 22", "overall length of the top", ""),),
    seasons=(
        SeasonRow(
            "top", "top", "behind each edge across the grain, in its groove",
            (SeasonGap(35, 6.8, 2.4, "³⁄₃₂"), SeasonGap(45, 8.4, 1.6, "¹⁄₁₆")),
        ),
    ),
    practice=("Tenon: a third of the stock, here ³⁄₈ (common practice)",),
    drawings=_drawings(),
    proofs=("No two parts overlap: 28 pairs, none met",),
)

FINDINGS = Findings(
    (
        Diagnostic(
            "stock-thin",
            "The ends come from 4/4 with ³⁄₃₂ to spare.",
            Severity.WARNING,
            Span("stool.yaml", 12, 5),
            hints=("Pick flat boards.",),
        ),
    ),
    (Proof("No two parts overlap", 28, "none met"),),
)
