"""Cutting layouts against published instances: `python tests/benchmarks/cutting.py FILE.json [--seconds 2] --out RESULT.json`.

Every layout is looked over by the independent check first. Seconds are turned into steps of work, so a run gives the
same layouts every time, on any machine. The compiled parts are made ready (once a machine) before the clock starts.
"""

from __future__ import annotations

import argparse
import json
import statistics
import sys
import time
from pathlib import Path
from typing import Any

sys.path.insert(0, str(Path(__file__).parents[2]))

from planbuild.cutting import Effort, Item, Layout, Problem, Stock, Way, complaints, lay_out


def problem_of(entry: dict[str, Any]) -> Problem:
    """An entry of a file as a problem."""
    if entry["dim"] == 1:
        sticks = tuple(Stock(s["l"], 1, s["cost"], s["copies"]) for s in entry["stock"])
        return Problem(sticks, tuple(Item(length, 1, count) for length, count in entry["items"]), entry["kerf"], way=Way.STICKS)
    sheets = tuple(Stock(s["w"], s["h"], s["cost"], s["copies"]) for s in entry["stock"])
    return Problem(sheets, tuple(Item(w, h, n, bool(turn)) for w, h, n, turn in entry["items"]), entry["kerf"])


def solved(entry: dict[str, Any], effort: Effort) -> tuple[Layout, float, float]:
    """The layout, checked, and how long it took: by the clock, by the processor."""
    problem = problem_of(entry)
    wall, processor = time.perf_counter(), time.process_time()
    layout = lay_out(problem, effort)
    wall, processor = time.perf_counter() - wall, time.process_time() - processor
    faults = complaints(problem, layout)
    assert not faults, (entry["name"], faults)
    return layout, wall, processor


def told(entry: dict[str, Any], layout: Layout, seconds: float) -> dict[str, Any]:
    """One entry of the result."""
    result: dict[str, Any] = {"name": entry["name"], "seconds": round(seconds, 3), "value": layout.value, "bound": layout.bound}
    if entry["dim"] == 1:
        result["sticks"] = [{"stock": s.stock, "pieces": [p.item for p in s.pieces]} for s in layout.sheets]
    else:
        result["sheets"] = [
            {"stock": s.stock, "pieces": [[p.item, p.x, p.y, int(p.turned)] for p in s.pieces]} for s in layout.sheets
        ]
    return result


def warm_up() -> float:
    """Compile, or load what was compiled before."""
    start = time.perf_counter()
    lay_out(Problem((Stock(7, 5),), (Item(3, 2, 9), Item(2, 2, 3, True))), Effort(500_000))
    return time.perf_counter() - start


def main() -> None:
    say = argparse.ArgumentParser(description=__doc__)
    say.add_argument("file", type=Path)
    say.add_argument("--seconds", type=float, default=2.0)
    say.add_argument("--out", type=Path, required=True)
    asked = say.parse_args()
    print(f"made ready in {warm_up():.1f} s")
    results, gaps, times = [], [], []
    for entry in json.loads(asked.file.read_text("utf-8")):
        layout, wall, processor = solved(entry, Effort.of_seconds(asked.seconds))
        results.append(told(entry, layout, wall))
        times.append(wall)
        line = f"{entry['name']:24} {layout.value:>10g} bound {layout.bound:>10g} {wall:6.2f} s ({processor:.2f} s of processor)"
        if entry.get("best_known"):
            gaps.append(layout.value / entry["best_known"] - 1)
            line += f"  best known {entry['best_known']:g}: {gaps[-1]:+.2%}"
        print(line, flush=True)
    asked.out.write_text(json.dumps(results, indent=1), "utf-8")
    if gaps:
        reached = sum(gap <= 1e-9 for gap in gaps)
        print(f"{reached} of {len(gaps)} reach the best known; mean gap {statistics.mean(gaps):.2%}, worst {max(gaps):.2%}")
    print(f"median {statistics.median(times):.2f} s, worst {max(times):.2f} s")


if __name__ == "__main__":
    main()
