"""Everything that is printed, derived from the piece for one edition.  Turns into JSON as `plan.json`.

Sentences may hold references that publish turns into links: `[[part:leg]]` (name and mark),
`[[mark:leg]]` (mark only), `[[step:glue.end_frame]]` (step number and page), `[[joint:rails]]`,
`[[sheet:leg]]` (page of its sheet).  Lengths in sentences are already set by the edition's ruler.
Units: mm, kg, m2 unless a field says otherwise.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from planbuild.records.drawing import Drawing
from planbuild.records.photos import Photo

SCHEMA = "planbuild/plan/1"


@dataclass(frozen=True)
class GroupWeight:
    """A subassembly: mass, and where it balances, from the left, front and bottom of the piece."""

    name: str
    count: int
    mass: float
    centre: tuple[float, float, float]


@dataclass(frozen=True)
class PieceFacts:
    title: str
    series: str
    summary: str
    designer: str
    contact: str
    licence: str
    revision: str
    date: str
    revisions: tuple[tuple[str, str, str], ...]
    built: str
    width: float
    depth: float
    height: float
    mass: float
    """kg, from volumes and the density of each wood at workshop moisture."""
    centre: tuple[float, float, float]
    """Where it balances, from its left, front and bottom."""
    groups: tuple[GroupWeight, ...]
    """Subassemblies, each once."""
    part_kinds: int
    part_count: int
    species: tuple[str, ...]
    sources: tuple[str, ...]
    """Where the tables used for this plan were published."""
    words: tuple[tuple[str, str], ...]
    photos: tuple[Photo, ...] = ()
    """Of the prototype."""
    on_castors: float = 0.0
    """Its height with its castors, which stand below the wood; 0 if it has none."""


@dataclass(frozen=True)
class Dimension:
    """One printed size: `value` in mm, `text` exactly as drawn, and the number of a feature it states.

    `feature` is a feature id or `body`; `states` is the trade's word for the number (`length`,
    `from top end`, `mortise depth`, ...).  `axis` and `ends` are the two planes it connects (mm, in
    the frame of the piece, drawn copy); `axis` is "" for radii, diameters and angles, and `unit` then says
    `mm` or `deg`.  `view` is the id of the view it stands in, or `note` for a figure in a note.
    `bracketed` marks a reference size that is stated elsewhere.
    """

    id: str
    part: str
    feature: str
    states: str
    value: float
    text: str
    axis: str
    ends: tuple[float, float]
    view: str
    unit: str = "mm"
    bracketed: bool = False


@dataclass(frozen=True)
class FeatureFacts:
    """A feature as plain data: kind, id, joint, the mark of the part it takes or enters, its numbers."""

    id: str
    kind: str
    joint: str
    mate: str
    words: str
    """One sentence for the sheet, numbers left to the drawing."""
    numbers: tuple[tuple[str, float | str], ...]
    several: str = ""
    """The same of more than one, to be set after their number: `holes in the right face for the cup hinges.`"""


@dataclass(frozen=True)
class PartFacts:
    """`finished` and `rough` are (length, width, thickness); `volume` mm3; `grain` names the direction."""

    id: str
    mark: str
    name: str
    count: int
    mirrored: int
    """How many of `count` are mirror images of the drawn one."""
    finished: tuple[float, float, float]
    finished_text: tuple[str, str, str]
    rough: tuple[float, float, float]
    rough_text: tuple[str, str, str]
    shoulder_text: str
    """`36 1/2 between shoulders`, "" if the part has no tenons."""
    stock: str
    stock_name: str
    grain: str
    face: str
    edge: str
    volume: float
    mass: float
    centre: tuple[float, float, float]
    """Where the drawn copy balances, from the left, front and bottom of the piece."""
    features: tuple[FeatureFacts, ...]
    dimensions: tuple[Dimension, ...]
    strips: str
    """`4 strips of 3 3/4, rings alternate`, "" if the part is one board."""
    notes: tuple[str, ...]
    made_for: str
    """Joint that calls for this part, "" for a part of the design."""
    sheet: str
    """Id of the drawing of its sheet."""
    photos: tuple[Photo, ...] = ()


@dataclass(frozen=True)
class CutRow:
    """A row of the cut list; `part` is the id, `note` one short line (`2 as drawn, 2 mirrored`)."""

    part: str
    note: str
    matched: str
    """Parts cut to the same stop with it, as marks; "" if none."""


@dataclass(frozen=True)
class StripRow:
    """Edging of a part in the cut list: `count` strips, sizes as in `PartFacts`; once glued on they are one with the part."""

    part: str
    name: str
    count: int
    finished_text: tuple[str, str, str]
    rough_text: tuple[str, str, str]
    note: str


@dataclass(frozen=True)
class CutGroup:
    stock: str
    title: str
    rows: tuple[CutRow, ...]
    strips: tuple[StripRow, ...] = ()
    """Edging that is ripped from this stock."""


@dataclass(frozen=True)
class MatchedSet:
    """Pieces that must come out equal: `way` is how (`one stop`, `one rod`, `bookmatched pair`), `parts` their ids.

    `size` is what the stop is set to, mm, 0 where there is none; `told` says it as printed; `why` is the designer's.
    """

    way: str
    parts: tuple[str, ...]
    pieces: int
    size: float
    told: str
    why: str


@dataclass(frozen=True)
class Batch:
    """Cuts of one kind that are made at one set-up: `numbers` are what is set (word, mm), `cuts` how many there are."""

    work: str
    numbers: tuple[tuple[str, float], ...]
    parts: tuple[str, ...]
    cuts: int


@dataclass(frozen=True)
class BillLine:
    """What is ordered for a part: `size` is thickness, width, length (mm); board feet by volume, and with boards under
    an inch counted as an inch thick."""

    part: str
    count: int
    size: tuple[float, float, float]
    by_volume: float
    counted: float


@dataclass(frozen=True)
class StockLine:
    """Wood to buy: net and with waste, in board feet for inch editions and m3 for mm editions; sheets by their number."""

    stock: str
    title: str
    quarters: str
    net: float
    buy: float
    unit: str
    net_text: str
    buy_text: str
    waste_text: str
    longest_text: str
    """The longest and the widest single rough piece: what a board must at least yield."""
    for_parts: tuple[str, ...]
    cost_text: str = ""
    """`about 57`, in the money of the price that the design says; "" for none."""


@dataclass(frozen=True)
class HardwareLine:
    id: str
    name: str
    count: int
    size: str
    holes: str
    """Pilot and clearance holes, "" if none."""
    where: str
    why: str


@dataclass(frozen=True)
class Supply:
    """Glue, finish, abrasive: `amount` as printed, `basis` how it was computed."""

    name: str
    amount: str
    basis: str


@dataclass(frozen=True)
class Tool:
    name: str
    steps: tuple[str, ...]
    """Ids of the steps that use it."""
    count: int = 0
    """How many of it the plan takes at once, 0 where that is not counted."""


@dataclass(frozen=True)
class Caution:
    """Signal words as in ANSI Z535.6.  Hazard, what happens, how to avoid it: one short sentence each."""

    signal: str
    hazard: str
    harm: str
    avoid: str


@dataclass(frozen=True)
class JointFacts:
    id: str
    kind: str
    name: str
    title: str
    numbers: tuple[tuple[str, str], ...]
    """(word, printed value)."""
    where: str
    """Where it is used, with references to parts, and how many times."""
    fit: str
    glue: str
    notes: tuple[str, ...]
    drawing: str
    section: str
    """Id of the drawing of a section through it, "" if none."""
    photos: tuple[Photo, ...] = ()
    enlarged: bool = False
    """Its drawings have the whole width of the page."""


@dataclass(frozen=True)
class WorkStep:
    """One step.  `parts` are those it works on or adds, `actions` at most five short imperatives."""

    id: str
    number: int
    phase: str
    title: str
    parts: tuple[str, ...]
    counts: tuple[tuple[str, int], ...]
    """(part id, how many pieces this step handles)."""
    actions: tuple[str, ...]
    sizes: tuple[str, ...]
    """Sizes needed here, each a short line (`mortise 3/8 x 2 1/4, 1 3/16 deep`)."""
    tools: tuple[str, ...]
    hardware: tuple[tuple[str, int], ...]
    check: str
    cautions: tuple[Caution, ...]
    why: str
    """Why it stands here in the order."""
    wait: str
    note: str
    drawing: str
    """Id of its picture, "" if it has none."""
    photo: str = ""
    """The designer's photo of it: a file in the design's folder, "" for none."""
    photos: tuple[Photo, ...] = ()
    """All that are printed with it: its own first, then those of what is built or fixed in it."""


@dataclass(frozen=True)
class FinishFacts:
    """Finish and care: `actions` in order, `care` for the owner."""

    title: str
    actions: tuple[str, ...]
    figures: tuple[tuple[str, str], ...]
    """(word, value): coats, coverage, area, amount, drying."""
    care: tuple[str, ...]
    cautions: tuple[Caution, ...]


@dataclass(frozen=True)
class SizeRange:
    """A size that the reader may change and what changes with it."""

    name: str
    value_text: str
    range_text: str
    help: str
    why: str


@dataclass(frozen=True)
class SeasonGap:
    """What to leave (mm, and as printed) when the air is at `humidity` % and wood has settled to `moisture` %."""

    humidity: int
    moisture: float
    gap: float
    text: str


@dataclass(frozen=True)
class SeasonRow:
    """Gaps by the day at one place: of a part by id, or "" for what opens as a whole; `where` they are measured."""

    part: str
    name: str
    where: str
    gaps: tuple[SeasonGap, ...]


@dataclass(frozen=True)
class Facts:
    schema: str
    piece: PieceFacts
    unit: str
    step_text: str
    """The rounding step as printed (`1/32 in`)."""
    projection: str
    parts: tuple[PartFacts, ...]
    cut_list: tuple[CutGroup, ...]
    matched: tuple[MatchedSet, ...]
    batches: tuple[Batch, ...]
    bill: tuple[BillLine, ...]
    allowance_note: str
    """The rule by which rough sizes were made."""
    stock: tuple[StockLine, ...]
    hardware: tuple[HardwareLine, ...]
    supplies: tuple[Supply, ...]
    tools: tuple[Tool, ...]
    joints: tuple[JointFacts, ...]
    steps: tuple[WorkStep, ...]
    cautions: tuple[Caution, ...]
    """The general ones, grouped at the front."""
    finish: FinishFacts
    sizes: tuple[SizeRange, ...]
    seasons: tuple[SeasonRow, ...]
    """Gaps by the day, all for the same humidities."""
    practice: tuple[str, ...]
    """Trade defaults in force, one line each."""
    drawings: Mapping[str, Drawing]
    """By id: `cover`, `three_views`, `section`, `exploded`, `exploded.<block>`, `sheet.<part>`, `joint.<id>`,
    `joint.<id>.section`, `step.<id>`."""
    proofs: tuple[str, ...]
    """What was proved, one line each, for the record page."""

    @property
    def photos(self) -> tuple[Photo, ...]:
        """Every photo that is printed somewhere."""
        of_parts = [photo for part in self.parts for photo in part.photos]
        of_joints = [photo for joint in self.joints for photo in joint.photos]
        return (*self.piece.photos, *of_parts, *of_joints, *(photo for step in self.steps for photo in step.photos))

    def part(self, id: str) -> PartFacts:
        return next(p for p in self.parts if p.id == id)
