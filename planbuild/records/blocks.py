"""What a block says of itself, in a file of its own or where it is used: what it takes, and what it is made of."""

from __future__ import annotations

from collections.abc import Mapping

from pydantic import Field

from planbuild.records.design import AssemblySaid, HardwareSaid, ItemSaid, JointSaid, PartSaid, SheetSaid, StepSaid, StockSaid
from planbuild.records.said import Model, Said, SizeSaid
from planbuild.records.spaces import FrameSaid, MovesSaid, OpeningSaid


class TakenThing(Model):
    """Stock or an item that the user of a block gives it."""

    sort: Said = Field(alias="is")
    optional: Said | None = None
    help: Said | None = None


class TakenChoice(Model):
    """One of some words; `value` is the one that is meant if none is given."""

    choices: tuple[Said, ...]
    value: Said | None = None
    help: Said | None = None


class BlockFileSaid(Model):
    """A block without what it takes and the blocks in it, which the reader deals with."""

    block: Said | None = None
    summary: Said | None = None
    units: Said | None = None
    frame: FrameSaid | Said
    moves: MovesSaid | None = None
    photo: Said | None = None
    sources: tuple[Said, ...] = ()
    sizes: Mapping[str, SizeSaid] = {}
    parts: Mapping[str, PartSaid] = {}
    openings: Mapping[str, OpeningSaid] = {}
    joints: Mapping[str, JointSaid] = {}
    hardware: Mapping[str, HardwareSaid] = {}
    assemblies: Mapping[str, AssemblySaid] = {}
    stock: Mapping[str, StockSaid | SheetSaid] = {}
    items: Mapping[str, ItemSaid] = {}
    steps: Mapping[str, StepSaid] = {}
