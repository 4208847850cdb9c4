"""Read: from a design file (and its series) to a `Design`, every value still text with its place.

In order: the file's text, its tree of nodes, the series joined in, bounds, names, details filled in, forms.
"""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from planbuild.core.files import read_chosen
from planbuild.read.bound import bound_design
from planbuild.read.bounds import within_bounds
from planbuild.read.names import check_names
from planbuild.read.report import Report
from planbuild.read.series import join_series
from planbuild.read.source import read_source
from planbuild.read.top import checked_top
from planbuild.records.design import Design


def read_design(path: Path) -> Design:
    """What the author wrote, with series and details joined in; no arithmetic done.

    Places in it name `path` as it was given.  Raises FileFault if the file itself cannot be read, and
    Refused with every finding otherwise.
    """
    report, file = Report(), str(path)
    block = checked_top(read_source(read_chosen(path), file, report), file, report)
    if block is None:
        report.refuse_if_any_stops()
        raise AssertionError("a file without fields is always told")
    joined = join_series(within_bounds(block, report), path.parent, file, report)
    joined = replace(joined, block=within_bounds(joined.block, report))
    check_names(joined.block, report)
    if joined.lacking:
        report.refuse_if_any_stops()  # every name of the series would be told as unknown
    return bound_design(joined, path.parent, file, report)
