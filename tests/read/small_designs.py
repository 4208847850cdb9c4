"""The smallest design that can be read, in pieces to be changed, and what the fixtures that read it look like."""

from __future__ import annotations

from collections.abc import Callable

from planbuild.core.diagnostics import Diagnostic
from planbuild.records.design import Design

Read = Callable[..., Design]
Told = Callable[..., tuple[Diagnostic, ...]]

TOP = """\
format: 1
title: Shelf board
contact: errata@plans.example
licence: For one maker's own use.
frame: {width: 30, depth: 5, height: 3/4}
"""
UNITS = "units: inch\n"
BOARD = "stock:\n  board: {species: black cherry, rough: 4/4, thickness: 3/4}\n"
SHELF = "parts:\n  shelf: {stock: board, grain: left-right, face: top, fills: frame, top: 0}\n"
PLAIN = TOP + UNITS + BOARD + SHELF
