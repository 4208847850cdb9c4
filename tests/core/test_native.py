"""A missing system library is told by name, with the way to get it."""

from __future__ import annotations

import pytest

from planbuild.core.diagnostics import Refused
from planbuild.core.native import LAYOUT, SOLIDS, loading


@pytest.mark.parametrize(("library", "command"), [(LAYOUT, "libpango-1.0-0"), (SOLIDS, "libgl1")])
def test_missing_library_is_named_with_its_command(monkeypatch: pytest.MonkeyPatch, library, command: str) -> None:
    monkeypatch.setattr("sys.platform", "linux")
    with pytest.raises(Refused) as refused, loading(library):
        raise OSError("cannot load library 'libpango-1.0-0': no such file")
    (finding,) = refused.value.diagnostics
    assert finding.code == "native-missing"
    assert "libpango-1.0-0" in finding.message
    assert any(command in hint for hint in finding.hints)


def test_a_fault_of_our_own_is_not_disguised() -> None:
    with pytest.raises(ModuleNotFoundError), loading(LAYOUT):
        import planbuild.no_such_room  # noqa: F401
