"""What the author wrote: typed by shape, each value still text with its place, no arithmetic done.

The reader has already joined the series file and the shared details (`like`) into one design, so
that nothing after it knows from which file a value came, except by its span.
"""

from __future__ import annotations

from collections.abc import Mapping

from pydantic import Field

from planbuild.core.diagnostics import Diagnostic
from planbuild.records.said import CautionSaid as CautionSaid
from planbuild.records.said import Model as Model
from planbuild.records.said import RepeatSaid as RepeatSaid
from planbuild.records.said import Said as Said
from planbuild.records.said import SizeSaid as SizeSaid
from planbuild.records.shapes_said import ShapeSaid
from planbuild.records.spaces import FrameSaid as FrameSaid
from planbuild.records.spaces import MovesSaid, OpeningSaid, PlacedBlock
from planbuild.records.woods_said import SpeciesSaid


class StockSaid(Model):
    """Solid wood.  `widths` is a pair: the narrowest and the widest board that is sold."""

    species: Said
    rough: Said
    thickness: Said
    cut: Said | None = None
    resaw: Said | None = None
    lengths: tuple[Said, ...] = ()
    widths: Said | None = None
    price: Said | None = None
    note: Said | None = None
    why: Said | None = None


class SheetSaid(Model):
    """Sheet goods: `thickness` as measured, `grain` is `along` one of the two sizes of `sheet_size`, or none."""

    sheet: Said
    sold_as: Said
    sheet_size: Said
    thickness: Said | None = None
    grain: Said | None = None
    core: Said | None = None
    faces: Said | None = None
    price: Said | None = None
    note: Said | None = None
    why: Said | None = None


class ItemSaid(Model):
    """Something bought: `item` is its kind, `fields` all else that was said of it."""

    item: Said
    fields: Mapping[str, Said]
    why: Said | None = None
    photo: Said | None = None
    note: Said | None = None


class GlueUpSaid(Model):
    widest_strip: Said | None = None
    strips: Said | None = None
    rings: Said | None = None
    match: Said | None = None
    layers: Said | None = None
    splines: Said | None = None


class EdgingSaid(Model):
    """Strips on the `edges` (own face words, or `all`), in the order in which they are glued on."""

    edges: tuple[Said, ...]
    stock: Said
    thickness: Said
    how: Said | None = None
    corners: Said | None = None
    why: Said | None = None


class RoughSaid(Model):
    length: Said | None = None
    width: Said | None = None


# ---------------------------------------------------------------- shapes


class LeanSaid(Model):
    """`end` is the end that moves, the other stays put; each direction says how far it goes that way, as seen square to it,
    or where that face of the end lands.  The end of a shelf that leans across its grain is one of its long sides."""

    end: Said
    left: Said | None = None
    right: Said | None = None
    front: Said | None = None
    back: Said | None = None
    up: Said | None = None
    down: Said | None = None
    ends: Said | None = None


class PartSaid(Model):
    stock: Said
    grain: Said
    face: Said | None = None
    edge: Said | None = None
    length: Said | None = None
    width: Said | None = None
    thickness: Said | None = None
    left: Said | None = None
    right: Said | None = None
    front: Said | None = None
    back: Said | None = None
    bottom: Said | None = None
    top: Said | None = None
    between: tuple[Said, ...] = ()
    """One name (the two hands of a mirrored part) or two."""
    fills: Said | None = None
    gap: Said | None = None
    centred: Mapping[str, tuple[Said, ...]] = {}
    """Direction -> () for the frame's middle, one name or place, or two places to lie halfway between."""
    mirror: tuple[Said, ...] | Mapping[str, Said] = ()
    """Directions, mirrored about the middle of the frame; or direction -> the part about whose middle."""
    repeat: RepeatSaid | None = None
    turn: Said | None = None
    lean: LeanSaid | None = None
    shape: tuple[ShapeSaid, ...] = ()
    glue_up: GlueUpSaid | Said | None = None
    """`no` as a plain word says one board."""
    edging: tuple[EdgingSaid, ...] = ()
    rough: RoughSaid | None = None
    when: Said | None = None
    """One comparison; the part is there only while it holds."""
    fit_to_work: Said | None = None
    stays_on: Said | None = None
    moves: MovesSaid | None = None
    name: Said | None = None
    mark: Said | None = None
    note: Said | None = None
    why: Said | None = None
    photo: Said | None = None
    sources: tuple[Said, ...] = ()
    caution: CautionSaid | None = None


class GluedPartSaid(Model):
    """Glue only `from` one place `to` another along the seam, both from its low end."""

    start: Said = Field(alias="from")
    stop: Said = Field(alias="to")


class JointSaid(Model):
    """Fields that every joint has; each module of `joints` adds its own by deriving from this."""

    kind: Said
    name: Said | None = None
    glue: Said | GluedPartSaid | None = None
    fit: Said | None = None
    when: Said | None = None
    note: Said | None = None
    why: Said | None = None
    detail: Said | None = None
    """`yes`: draw it larger."""
    photo: Said | None = None
    sources: tuple[Said, ...] = ()
    caution: CautionSaid | None = None


class HolesSaid(Model):
    """A row of holes, `count` of them, the middle one where it carries what is `around`."""

    pitch: Said
    count: Said
    around: Said


class HardwareSaid(Model):
    """Put `on` a face, between two `leaves`, or into the walls that carry something (`carries`)."""

    item: Said | ItemSaid
    on: Said | None = None
    leaves: tuple[Said, Said] | None = None
    at: Mapping[str, tuple[Said, ...]] = {}
    """Direction or face -> places; `at` alone holds a list whose direction its places tell."""
    count: Said | None = None
    when: Said | None = None
    knuckle: Said | None = None
    meets: Said | None = None
    mirror: tuple[Said, ...] = ()
    carries: Said | None = None
    walls: tuple[Said, ...] = Field((), alias="in")
    rows: tuple[Said, ...] = ()
    holes: HolesSaid | None = None
    note: Said | None = None
    why: Said | None = None
    photo: Said | None = None
    sources: tuple[Said, ...] = ()
    caution: CautionSaid | None = None


class AssemblySaid(Model):
    parts: tuple[Said, ...]
    mirror: tuple[Said, ...] = ()
    photo: Said | None = None
    name: Said | None = None


class PlacedCautionSaid(CautionSaid):
    """A caution of the whole piece; `at` is a step, or `use` for what its owner must know."""

    at: Said


class MatchingSaid(Model):
    """Parts that are to be alike in a way that no size tells: `cut` says which."""

    parts: tuple[Said, ...]
    cut: Said
    why: Said | None = None
    note: Said | None = None


class BillLineSaid(Model):
    """A line of the designer's own bill: `size` is thickness x width x length, `parts` what is cut from it."""

    count: Said
    size: Said
    parts: tuple[Said, ...]
    note: Said | None = None


class StepTextsSaid(Model):
    """What can be said of any step, planned or added."""

    title: Said | None = None
    note: Said | None = None
    why: Said | None = None
    check: Said | None = None
    after: tuple[Said, ...] = ()
    before: tuple[Said, ...] = ()
    caution: CautionSaid | None = None
    photo: Said | None = None
    sources: tuple[Said, ...] = ()


class StepSaid(StepTextsSaid):
    """A planned step: one that it is to be joined `with`; `split: no` keeps all work of its kind in one step."""

    joined: Said | None = Field(None, alias="with")
    split: Said | None = None


class OwnStepSaid(StepTextsSaid):
    """A step of the designer's own; its `note` is what is done, sentence by sentence."""

    title: Said
    note: Said
    parts: tuple[Said, ...] = ()


class AddedStepsSaid(StepSaid):
    """What stands under `add` among the steps."""

    added: Mapping[str, OwnStepSaid] = {}


class LoadSaid(Model):
    load: Said
    where: Said | None = None
    shared: Said | None = None
    why: Said | None = None


class CoatingSaid(Model):
    product: Said
    coats: Said | None = None
    sheen: Said | None = None
    dries: Said | None = None
    cures: Said | None = None
    covers: Said | None = None


class FinishSaid(Model):
    everywhere: Said | None = None
    exceptions: Mapping[str, Said] = Field({}, alias="except")
    before_gluing: tuple[Said, ...] = ()


class GlueSaid(Model):
    kind: Said
    open_time: Said | None = None
    clamp_time: Said | None = None


class AirSaid(Model):
    """Wood that has settled in air: `air` is its relative dampness, `at` its warmth."""

    air: Said
    at: Said


class ClimateSaid(Model):
    """Moisture of the wood, or the air in which it settles."""

    driest: Said | AirSaid | None = None
    dampest: Said | AirSaid | None = None
    workshop: Said | AirSaid | None = None


class RevisionSaid(Model):
    date: Said
    change: Said


class BuiltSaid(Model):
    prototype: Said
    when: Said | None = None
    photo: Said | None = None


class EditionSaid(Model):
    paper: Said | None = None
    units: Said | None = None
    projection: Said | None = None
    print: Said | None = None
    document: Said | None = None
    bleed: Said | None = None


class Design(Model):
    """A whole design with its series and details joined in.  `file` is the path as it was given."""

    file: str
    title: Said
    units: Said
    frame: FrameSaid
    parts: Mapping[str, PartSaid]
    series: Said | None = None
    """Printed name of the series."""
    departs: Mapping[str, Said] = {}
    """Names of the series that this design says anew (already put in place), each with its reason."""
    summary: Said | None = None
    designer: Said | None = None
    contact: Said | None = None
    licence: Said | None = None
    sources: tuple[Said, ...] = ()
    rounding: Said | None = None
    theme: Said | None = None
    sizes: Mapping[str, SizeSaid] = {}
    species: Mapping[str, SpeciesSaid] = {}
    """Woods of the design's own, which the table does not know."""
    stock: Mapping[str, StockSaid | SheetSaid] = {}
    items: Mapping[str, ItemSaid] = {}
    openings: Mapping[str, OpeningSaid] = {}
    blocks: Mapping[str, PlacedBlock] = {}
    """By path (`drawer`, `case.drawer`); what a block holds stands among parts, joints and so on under its path and its
    own name (`drawer.drawer_side`)."""
    unlike: Mapping[str, tuple[tuple[str, tuple[int, ...]], ...]] = {}
    """Openings and blocks that stand in a row of unequal openings, by path: (name, places) of each size."""
    joints: Mapping[str, JointSaid] = {}
    hardware: Mapping[str, HardwareSaid] = {}
    assemblies: Mapping[str, AssemblySaid] = {}
    steps: Mapping[str, StepSaid] = {}
    cautions: tuple[PlacedCautionSaid, ...] = ()
    matching: Mapping[str, MatchingSaid] = {}
    bill: tuple[BillLineSaid, ...] = ()
    loads: Mapping[str, LoadSaid] = {}
    finishes: Mapping[str, CoatingSaid] = {}
    finish: FinishSaid | None = None
    glue: GlueSaid | None = None
    climate: ClimateSaid | None = None
    practice: Mapping[str, Said | tuple[Said, ...]] = {}
    revision: Said | None = None
    revisions: Mapping[str, RevisionSaid] = {}
    built: BuiltSaid | None = None
    editions: Mapping[str, EditionSaid] = {}
    words: Mapping[str, Said] = {}
    notes: Said | None = None
    """Free notes in Markdown, printed with the record."""
    absent: Mapping[str, Said] = {}
    """What a `when` leaves out, filled in once that is worked out."""
    warnings: tuple[Diagnostic, ...] = ()
    """What the reader found that does not stop the build."""
