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
    """Portraits of a piece, begun at once; leave the `with` block to be rid of the child."""

    def __init__(self, piece: Piece, edition: Edition) -> None:
        self._job = (piece, edition)
        self._child = self._started() if (os.cpu_count() or 1) > 1 else None

    def __enter__(self) -> Beside:
        return self

    def __exit__(self, kind: type[BaseException] | None, fault: BaseException | None, trace: TracebackType | None) -> None:
        if self._child is not None and self._child.poll() is None:
            self._child.kill()
            self._child.communicate()

    def portraits(self, solids: Solids, findings: Findings) -> Portraits:
        """The child's portraits, or our own if there is no child or it came to grief."""
        from planbuild.derive import portray

        if self._child is not None:
            out, _ = self._child.communicate()
            if self._child.returncode == 0:
                found: Portraits = pickle.loads(out)
                return found
        return portray(self._job[0], solids, findings, self._job[1])

    def _started(self) -> subprocess.Popen[bytes]:
        path = os.pathsep.join(filter(None, (_PACKAGES, os.environ.get("PYTHONPATH", ""))))
        child = subprocess.Popen(
            [sys.executable, "-m", "planbuild.beside"],
            stdin=subprocess.PIPE, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, env={**os.environ, "PYTHONPATH": path},
        )  # fmt: skip
        assert child.stdin is not None
        child.stdin.write(pickle.dumps(self._job))
        child.stdin.flush()
        return child


def main() -> None:
    """The child: piece and edition in on standard input, portraits out on standard output."""
    piece, edition = pickle.load(sys.stdin.buffer)
    from planbuild.derive import portray
    from planbuild.prove import prove
    from planbuild.shape import shape

    gc.disable()  # the child ends with its answer; collecting on the way costs a tenth of the time
    solids = shape(piece)
    sys.stdout.buffer.write(pickle.dumps(portray(piece, solids, prove(piece, solids), edition)))


if __name__ == "__main__":
    main()
