"""A second pair of hands: half of the drawings made in a process of their own.

Python uses one core at a time, and half of a build is drawing.  The child is given the piece, cuts the
same solids again and finds the same things out (which costs less than sending them) and hands its
drawings back.  On a machine with one core, or if the child fails, the same function runs here instead, so
the result never depends on it.
"""

from __future__ import annotations

import gc
import os
import pickle
import subprocess
import sys
from contextlib import suppress
from pathlib import Path
from types import TracebackType
from typing import TYPE_CHECKING

from planbuild.records.edition import Edition
from planbuild.records.findings import Findings
from planbuild.records.piece import Piece
from planbuild.records.solids import Solids

if TYPE_CHECKING:
    from planbuild.derive import Portraits

_PACKAGES = str(Path(__file__).parents[1])


class Beside:
    """A child that loads the CAD kernel while the design is read, and portrays the piece once it is given one.

    Leave the `with` block to be rid of the child.
    """

    def __init__(self) -> None:
        self._child = _started() if (os.cpu_count() or 1) > 1 else None

    def __enter__(self) -> Beside:
        return self

    def __exit__(self, kind: type[BaseException] | None, fault: BaseException | None, trace: TracebackType | None) -> None:
        if self._child is not None and self._child.poll() is None:
            self._child.kill()
            self._child.communicate()

    def begin(self, piece: Piece, edition: Edition) -> None:
        """Gives the child its job.  A child that has come to grief already is found out by `portraits`."""
        if self._child is not None and self._child.stdin is not None:
            with suppress(BrokenPipeError):
                self._child.stdin.write(pickle.dumps((piece, edition)))
                self._child.stdin.flush()

    def portraits(self, piece: Piece, solids: Solids, findings: Findings, edition: Edition) -> Portraits:
        """The child's portraits, or our own if there is no child or it came to grief."""
        from planbuild.derive import portray

        if self._child is not None:
            out, _ = self._child.communicate()
            if self._child.returncode == 0:
                found: Portraits = pickle.loads(out)
                return found
        return portray(piece, solids, findings, edition)


def _started() -> subprocess.Popen[bytes]:
    path = os.pathsep.join(filter(None, (_PACKAGES, os.environ.get("PYTHONPATH", ""))))
    return subprocess.Popen(
        [sys.executable, "-m", "planbuild.beside"],
        stdin=subprocess.PIPE, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, env={**os.environ, "PYTHONPATH": path},
    )  # fmt: skip


def main() -> None:
    """The child: piece and edition in on standard input, portraits out on standard output."""
    from planbuild.derive import portray
    from planbuild.prove import prove
    from planbuild.shape import shape

    piece, edition = pickle.load(sys.stdin.buffer)
    gc.disable()  # the child ends with its answer; collecting on the way costs a tenth of the time
    solids = shape(piece)
    sys.stdout.buffer.write(pickle.dumps(portray(piece, solids, prove(piece, solids), edition)))


if __name__ == "__main__":
    main()
