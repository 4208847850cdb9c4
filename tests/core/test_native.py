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


def test_a_missing_library_of_the_cad_kernel_is_told_by_the_pipeline(monkeypatch: pytest.MonkeyPatch, bench_path) -> None:
    """What the system says when OpenGL is not there, in the place where the kernel would be loaded."""
    import builtins

    real = builtins.__import__

    def without_opengl(name: str, *rest: object, **more: object) -> object:
        if name == "planbuild.shape":
            raise ImportError("libGL.so.1: cannot open shared object file: No such file or directory")
        return real(name, *rest, **more)

    monkeypatch.setattr(builtins, "__import__", without_opengl)
    from planbuild.pipeline import check

    with pytest.raises(Refused) as refused:
        check(bench_path)
    assert [d.code for d in refused.value.diagnostics] == ["native-missing"]
