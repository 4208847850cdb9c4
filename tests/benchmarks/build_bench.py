"""Times the build of the demonstration bench: each stage and the whole, cold and after changing one size.

Run it: `python tests/benchmarks/build_bench.py`.  Every build is a process of its own, as a maker
starts it, so imports count; "imports" is what loading the libraries alone costs.  Nothing is kept
between runs but what planbuild itself keeps.
"""

from __future__ import annotations

import json
import re
import shutil
import subprocess
import sys
import tempfile
import time
from pathlib import Path

REPOSITORY = Path(__file__).parent.parent.parent
DESIGN = "listening-bench.yaml"

ONE_BUILD = """
import json, sys, time
start = time.perf_counter()
from pathlib import Path
from planbuild.pipeline import Clock, build
from planbuild.core.files import write_files
clock = Clock()
built = build(Path(sys.argv[1]), "", clock)
write_files(Path(sys.argv[2]), built.files)
laps = {lap.stage.name.lower(): lap.seconds for lap in clock.laps}
print(json.dumps({**laps, "whole": time.perf_counter() - start}))
"""

IMPORTS = {"cad kernel": "import cadquery", "layout engine": "import weasyprint"}


def seconds_of(code: str, *arguments: str) -> tuple[float, str]:
    start = time.perf_counter()
    done = subprocess.run([sys.executable, "-c", code, *arguments], capture_output=True, text=True, check=True)
    return time.perf_counter() - start, done.stdout


def build_once(folder: Path) -> dict[str, float]:
    wall, printed = seconds_of(ONE_BUILD, str(folder / DESIGN), str(folder / "out"))
    return {**json.loads(printed.splitlines()[-1]), "process": wall}


def change_one_size(folder: Path) -> None:
    """Makes the bench an inch longer: most parts, drawings and lists change with it."""
    file = folder / DESIGN
    text, count = re.subn(r"(length:\s+\{value: )44", r"\g<1>45", file.read_text("utf-8"))
    assert count == 1
    file.write_text(text, "utf-8")


def measure() -> dict[str, dict[str, float]]:
    """`imports`, `cold` and `after a change`: seconds by stage."""
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name) / "music-room"
        shutil.copytree(REPOSITORY / "designs" / "music-room", folder)
        imports = {what: seconds_of(code)[0] for what, code in IMPORTS.items()}
        cold = build_once(folder)
        change_one_size(folder)
        return {"imports": imports, "cold": cold, "after a change": build_once(folder)}


def main() -> None:
    for title, laps in measure().items():
        print(title)
        for what, seconds in laps.items():
            print(f"  {what:<14} {seconds:6.2f} s")


if __name__ == "__main__":
    main()
