"""Work that is not trusted, done in a process of its own with an end to its time and memory.

A theme may come from a stranger, and no sandbox inside one process can stop an endless loop or a
gigantic string.  So templates are filled and pages are laid out in child processes: one that does not
end is killed, one that grows is refused by the system.  Memory is limited where the system can do it
(Linux and most other Unix systems); the time limit holds everywhere.
"""

from __future__ import annotations

import json
import os
import signal
import subprocess
import sys
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Any

_PACKAGES = str(Path(__file__).parents[2])


@dataclass(frozen=True)
class Limit:
    """What a child may use: `seconds` of the clock, `megabytes` of address space."""

    seconds: float
    megabytes: int


class OutOfBounds(Exception):
    """A child was stopped: `reason` says by what, in words for a maker."""

    def __init__(self, reason: str) -> None:
        super().__init__(reason)
        self.reason = reason


class TimeUp(Exception):
    """The work of a child has used up the time of its own clock."""


class Child:
    """A started child that runs a module of this package; it loads its libraries while its job is still being made."""

    def __init__(self, module: str, limit: Limit, environment: Mapping[str, str] | None = None) -> None:
        path = os.pathsep.join(filter(None, (_PACKAGES, os.environ.get("PYTHONPATH", ""))))
        variables = {**os.environ, "PYTHONPATH": path, "PYTHONIOENCODING": "utf-8", "PYTHONHASHSEED": "0", **(environment or {})}
        self._limit = limit
        self._process = subprocess.Popen(
            [sys.executable, "-m", module, str(limit.megabytes)],
            stdin=subprocess.PIPE, stdout=subprocess.PIPE, stderr=subprocess.PIPE, env=variables,
        )  # fmt: skip

    def answer(self, job: object) -> bytes:
        """What the child writes after the JSON `job`.  Raises OutOfBounds if it had to be stopped, RuntimeError if it broke."""
        try:
            out, err = self._process.communicate(json.dumps(job).encode(), timeout=self._limit.seconds)
        except subprocess.TimeoutExpired:
            self.stop()
            raise OutOfBounds(f"it did not end within {self._limit.seconds:g} seconds") from None
        if self._process.returncode != 0:
            raise _failure(err.decode("utf-8", "replace"), self._limit)
        return out

    def stop(self) -> None:
        """Ends the child at once, if it still runs."""
        self._process.kill()
        self._process.communicate()


def _failure(complaint: str, limit: Limit) -> Exception:
    """Out of memory or killed by the system: out of bounds; anything else is a fault of ours, told in full."""
    last = complaint.strip().splitlines()[-1] if complaint.strip() else ""
    if last.startswith("MemoryError") or not last:
        return OutOfBounds(f"it needed more than {limit.megabytes} MB of memory or went too deep")
    return RuntimeError(f"a child process failed:\n{complaint}")


def serve(work: Callable[[Any], bytes], load: Callable[[], object] = lambda: None) -> None:
    """The whole life of a child: limit its memory, load its libraries, read the job, write the answer."""
    _limit_memory(int(sys.argv[1]))
    load()
    job = json.loads(sys.stdin.buffer.read())
    sys.stdout.buffer.write(work(job))


@contextmanager
def clocked(seconds: float) -> Iterator[None]:
    """Raises TimeUp after so much computing, and again soon after in case a library swallowed it.

    For a child that wants to say what it was at; where the system has no such clock, it is stopped from outside.
    """

    def ring(*_: object) -> None:
        raise TimeUp

    if not hasattr(signal, "setitimer"):
        yield
        return
    signal.signal(signal.SIGPROF, ring)
    signal.setitimer(signal.ITIMER_PROF, seconds, 0.2)
    try:
        yield
    finally:
        signal.setitimer(signal.ITIMER_PROF, 0)


def _limit_memory(megabytes: int) -> None:
    try:
        import resource
    except ImportError:
        return
    size = megabytes * 1024 * 1024
    resource.setrlimit(resource.RLIMIT_AS, (size, size))
