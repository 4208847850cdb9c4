"""What is known of a kind of sheet: by its own name, or as plywood with faces of a known wood."""

from __future__ import annotations

from planbuild.core.tables import Row, rows

_PLYWOOD = "plywood"
CORES = {"veneer": _PLYWOOD, "lumber": "blockboard", "mdf": "MDF", "particleboard": "particleboard"}
"""What a faced sheet can be made of inside, and the row of the table that it then weighs like."""


def sheet_row(name: str) -> Row | None:
    """The row of a sheet by its name or another name of it; `ash plywood` is plywood.  None if nobody knows it."""
    wanted = name.lower()
    found = next((each for each in rows("sheets") if wanted in _names(each)), None)
    if found is None and wanted.endswith(f" {_PLYWOOD}"):
        face = wanted.removesuffix(f" {_PLYWOOD}")
        faced = any(face in _names(each) for each in rows("species"))
        return sheet_row(_PLYWOOD) if faced else None
    return found


def sheet_density(name: str, core: str) -> float:
    """Mass over volume of a sheet as it lies in a dry room.  Units: kg/m3.  Raises LookupError for an unknown one.

    Source: the table `sheets`.
    """
    found = sheet_row(CORES[core]) if core else sheet_row(name)
    if found is None:
        raise LookupError(f"no sheet called {name!r} in the table of sheets")
    return float(found["density_kg_m3"])


def sheet_stiffness(name: str, core: str) -> float | None:
    """Along the grain of its faces, MPa; None for an unknown one.  Source: the table `sheets`."""
    found = sheet_row(CORES[core]) if core else sheet_row(name)
    return float(found["moe_mpa"]) if found else None


def _names(row: Row) -> tuple[str, ...]:
    also = tuple(each for each in row["also"].lower().split("|") if each)
    return (row["name"].lower(), *also)
