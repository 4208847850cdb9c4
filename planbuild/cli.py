"""Arguments, printing and exit codes: the only file that prints.

Exit status: 0 good, 1 findings that stop, 2 wrong use, 3 a fault of planbuild itself.
"""

from __future__ import annotations

import json
import os
import sys
import traceback
from importlib.metadata import version
from pathlib import Path
from typing import Annotated

import typer
from rich.console import Console

from planbuild import wood_book
from planbuild.core.diagnostics import Diagnostic, Refused, Severity
from planbuild.core.files import FileFault, check_folder, write_files
from planbuild.core.render import as_data, full, one_line
from planbuild.pipeline import Clock, Stage, build, check
from planbuild.starter import starter_files

GOOD, FINDINGS, WRONG_USE, OUR_FAULT = 0, 1, 2, 3

app = typer.Typer(
    help="Turns the design of a piece of furniture into a plan set that can be built.\n\n"
    "Start with `planbuild new my-table`, read the file it writes, then `planbuild build my-table.yaml`. "
    "Every number on the pages comes from real solids; a design that cannot be built is refused with the reason.",
    no_args_is_help=True,
    add_completion=False,
    rich_markup_mode="markdown",
    context_settings={"help_option_names": ["-h", "--help"]},
)


DesignFile = Annotated[Path, typer.Argument(metavar="DESIGN", help="The design, a YAML file.")]
EditionName = Annotated[
    str, typer.Option("--edition", help="An edition named in the design or its series (paper, unit, projection); else the first.")
]
AsJson = Annotated[bool, typer.Option("--json", help="Print findings as JSON, for other programs.")]


class Shown:
    """Prints for whoever listens: a person at a terminal, a pipe, or a program (JSON)."""

    def __init__(self, as_json: bool) -> None:
        self.json = as_json
        self.out = Console(soft_wrap=True, highlight=False, emoji=False)
        self.err = Console(stderr=True, soft_wrap=True, highlight=False, emoji=False)

    def clock(self) -> Clock:
        return Clock(self._begin)

    def _begin(self, stage: Stage) -> None:
        if self.json:
            return
        if self.err.is_terminal:
            self.err.print(f"  [dim]{list(Stage).index(stage) + 1}/{len(Stage)}[/dim] {stage.value} …")
        else:
            self.err.print(f"{stage.name.lower()}: {stage.value}", markup=False)

    def findings(self, diagnostics: tuple[Diagnostic, ...], facts: dict[str, object]) -> None:
        """Findings that a person must read, or one JSON object with all of them and `facts`."""
        if self.json:
            data = {"findings": [as_data(d) for d in diagnostics], **facts}
            self.out.print_json(json.dumps(data)) if self.out.is_terminal else _print(json.dumps(data, indent=1))
            return
        for diagnostic in (d for d in diagnostics if d.severity is not Severity.NOTE):
            text = full(diagnostic) if self.err.is_terminal else one_line(diagnostic)
            self.err.print(text, markup=False, style=_STYLE[diagnostic.severity] if self.err.is_terminal else None)

    def say(self, text: str) -> None:
        if not self.json:
            _print(text)


def _print(text: str) -> None:
    """To standard output; whoever reads it may have seen enough and gone (`| head`), which is no fault and no finding."""
    try:
        print(text, flush=True)
    except BrokenPipeError:
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())


_STYLE = {Severity.ERROR: "red", Severity.WARNING: "yellow", Severity.NOTE: "dim"}


def _tell_version(asked: bool) -> None:
    if asked:
        _print(f"planbuild {version('planbuild')}")
        raise typer.Exit


Version = Annotated[bool, typer.Option("--version", callback=_tell_version, is_eager=True, help="Print the version and stop.")]


@app.callback()
def whatever_the_command(version: Version = False) -> None: ...


@app.command("build", epilog="Example: `planbuild build designs/music-room/listening-bench.yaml --out output`")
def build_command(
    design: DesignFile,
    out: Annotated[Path, typer.Option("--out", metavar="DIR", help="Where plan.pdf and plan.json are written.")] = Path("output"),
    edition: EditionName = "",
    as_json: AsJson = False,
) -> None:
    """Prove a design and write its plan set.

    Writes plan.pdf (the printable plan set) and plan.json (every fact in it, in mm) into DIR.  If the design
    has an error, nothing is written and an earlier plan set stays as it was.
    """
    shown = Shown(as_json)
    clock = shown.clock()
    check_folder(out)
    built = build(design, edition, clock)
    write_files(out, built.files)
    seconds = sum(lap.seconds for lap in clock.laps)
    pages = len(built.plan_set.pages)
    found = (*built.checked.findings.diagnostics, *built.plan_set.told)
    shown.findings(found, {"pages": pages, "files": [str(out / name) for name in built.files]})
    for name in built.files:
        shown.say(f"wrote {out / name}")
    shown.say(f"{built.checked.facts.piece.title}: {pages} pages, {len(built.checked.facts.steps)} steps, {seconds:.1f} s")


@app.command("check", epilog="Exit status 0: can be built; 1: an error stops it.")
def check_command(design: DesignFile, edition: EditionName = "", as_json: AsJson = False) -> None:
    """Prove a design and print the findings, writing nothing.

    Checks that every part is placed and comes out of its stock, that no two parts overlap, that each joint's
    halves meet, that every part is fully dimensioned and that the printed order of work holds.
    """
    shown = Shown(as_json)
    checked = check(design, edition, shown.clock())
    proofs = [f"{p.claim}: {p.checked} checked, {p.worst}" for p in checked.findings.proofs]
    shown.findings(checked.findings.diagnostics, {"proofs": proofs})
    for line in proofs:
        shown.say(f"proved  {line}")
    shown.say(f"{checked.facts.piece.title} can be built.")


@app.command("new", epilog="Example: `planbuild new side-table`, then `planbuild build side-table.yaml`")
def new_command(
    name: Annotated[
        str, typer.Argument(metavar="NAME", help="Name of the piece (letters, digits, spaces); the file is called after it.")
    ],
) -> None:
    """Write a starter design, a small table that builds as it is, to change into your own.

    An existing file is never overwritten.
    """
    files = starter_files(name)
    taken = [file for file in files if os.path.lexists(file)]
    if taken:
        message = f"{taken[0]} is already there; nothing was written."
        raise Refused((Diagnostic("new-exists", message, hints=("Choose another name.",)),))
    write_files(Path("."), files)
    for file in files:
        Shown(False).say(f"wrote {file}\nnext:  planbuild build {file}")


@app.command("wood", epilog="Examples: `planbuild wood ash --width 12 --from 6% --to 11%`, `planbuild wood --air 65% --at 70F`")
def wood_command(
    species: Annotated[str, typer.Argument(metavar="SPECIES", help="A wood or a sheet; nothing to list them all.")] = "",
    width: Annotated[str, typer.Option("--width", help="A width that moves: `12` (inches), `11-1/4`, `300mm`.")] = "",
    before: Annotated[str, typer.Option("--from", metavar="PERCENT", help="Moisture of the wood now.")] = "",
    after: Annotated[str, typer.Option("--to", metavar="PERCENT", help="Moisture of the wood then.")] = "",
    air: Annotated[str, typer.Option("--air", metavar="PERCENT", help="Dampness of the air, relative.")] = "",
    at: Annotated[str, typer.Option("--at", metavar="WARMTH", help="Warmth of the air: `70F`, `21C`.")] = "",
    as_json: Annotated[bool, typer.Option("--json", help="Print the answer as JSON, for other programs.")] = False,
) -> None:
    """Tell what is known of a wood, how it moves, and how moist wood gets in air.

    Every number names its source, or says that it was written from memory.
    """
    answer = _asked_of_wood(species, (width, before, after), air, at)
    if as_json:
        _print(json.dumps(answer.data, indent=1))
    for line in answer.lines:
        Shown(as_json).say(line)


def _asked_of_wood(species: str, moves: tuple[str, str, str], air: str, at: str) -> wood_book.Answer:
    if air or at:
        if not (air and at) or species or any(moves):
            message = "The air needs its dampness and its warmth, and nothing else."
            raise Refused((Diagnostic("wood-air", message, hints=("`planbuild wood --air 65% --at 70F`",)),))
        return wood_book.of_air(wood_book.percent(air, wood_book.DAMPEST), wood_book.celsius(at))
    season = wood_book.season(*moves)
    if not species and season:
        message = "Which wood moves so?"
        raise Refused((Diagnostic("wood-season", message, hints=("`planbuild wood cherry --width 12 --from 6% --to 11%`",)),))
    return wood_book.of_wood(species, season) if species else wood_book.listed()


def main() -> None:
    """Entry point: runs a command and turns every outcome into an exit status."""
    sys.exit(run(sys.argv[1:]))


def run(arguments: list[str]) -> int:
    """Runs one command line and returns its exit status; prints, never raises."""
    try:
        outcome = app(arguments, prog_name="planbuild", standalone_mode=False)
        return outcome if isinstance(outcome, int) else GOOD
    except typer.Exit as stop:
        return stop.exit_code
    except Refused as refused:
        Shown("--json" in arguments).findings(refused.diagnostics, {})
        return FINDINGS
    except FileFault as fault:
        Shown("--json" in arguments).findings((fault.diagnostic,), {})
        return WRONG_USE
    except (typer.Abort, KeyboardInterrupt):
        return WRONG_USE
    except Exception as fault:
        return _told(fault, "--json" in arguments)


def _told(fault: Exception, as_json: bool) -> int:
    usage = getattr(fault, "format_message", None)
    if usage is not None:
        context = getattr(fault, "ctx", None)
        _for_programs("usage-wrong", usage(), as_json)
        print(f"{context.get_usage()}\n\n{usage()}" if context else usage(), file=sys.stderr)
        return WRONG_USE
    _for_programs("fault-of-planbuild", f"{type(fault).__name__}: {fault}", as_json)
    traceback.print_exc()
    print("\nThis is a fault of planbuild, not of your design.", file=sys.stderr)
    print("Please report it with the lines above and the design file.", file=sys.stderr)
    return OUR_FAULT


def _for_programs(code: str, message: str, as_json: bool) -> None:
    """Whoever reads JSON gets JSON whatever happens; the words for a person go to the other stream as ever."""
    if as_json:
        Shown(True).findings((Diagnostic(code, message),), {})


if __name__ == "__main__":
    main()
