"""What the bench prints, kept as text: a change shows in the diff as a sentence about a part, a size or a step.

`pytest tests/test_golden.py --renew-golden` rewrites the files; read the diff before committing it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator

import pytest

from planbuild.pipeline import Checked
from planbuild.records.drawing import Drawing
from planbuild.records.facts import Facts

Golden = Callable[[str, str], None]


def parts(facts: Facts) -> Iterator[str]:
    for p in facts.parts:
        yield f"{p.mark} {p.name}: {p.count} ({p.mirrored} mirrored), {p.stock_name}, grain {p.grain}"
        yield f"  finished {' x '.join(p.finished_text)}, rough {' x '.join(p.rough_text)}, {p.volume / 1000:.1f} cm3"
        yield from (f"  {line}" for line in (p.shoulder_text, p.strips, *p.notes) if line)


def sizes(facts: Facts) -> Iterator[str]:
    for p in facts.parts:
        yield f"{p.mark} {p.name}"
        yield from (f"  {d.feature}, {d.states}: {d.text} [{d.value:.3f} {d.unit}] in {d.view}" for d in p.dimensions)


def steps(facts: Facts) -> Iterator[str]:
    for s in facts.steps:
        yield f"{s.number} {s.id} ({s.phase}): {s.title}"
        yield from (f"  {line}" for line in (*s.actions, *s.sizes, s.check, s.wait, s.note) if line)
        yield from (f"  {c.signal}: {c.hazard} {c.harm} {c.avoid}" for c in s.cautions)


def shopping(facts: Facts) -> Iterator[str]:
    yield from (f"{line.title}: {line.net_text} in the piece, buy {line.buy_text}" for line in facts.stock)
    yield from (f"{line.count} {line.name}, {line.size}, {line.holes}" for line in facts.hardware)
    yield from (f"{s.name}: {s.amount} ({s.basis})" for s in facts.supplies)
    yield from (tool.name for tool in facts.tools)


def lettering(drawing: Drawing) -> Iterator[str]:
    """Every word of a drawing and where it stands, mm on paper."""
    yield f"{drawing.id}: {drawing.width:.1f} x {drawing.height:.1f} mm, scale {drawing.scale}"
    for t in sorted(drawing.texts, key=lambda t: (t.at[1], t.at[0], t.text)):
        yield f"  {t.at[0]:6.1f} {t.at[1]:6.1f} {t.angle:3.0f} {t.text}"


@pytest.mark.parametrize("kind", [parts, sizes, steps, shopping], ids=lambda kind: kind.__name__)
def test_facts(bench: Checked, golden: Golden, kind: Callable[[Facts], Iterator[str]]) -> None:
    golden(f"listening-bench/{kind.__name__}.txt", "\n".join(kind(bench.facts)) + "\n")


@pytest.mark.parametrize("id", ["sheet.button", "sheet.leg"])
def test_sheets(bench: Checked, golden: Golden, id: str) -> None:
    golden(f"listening-bench/{id}.txt", "\n".join(lettering(bench.facts.drawings[id])) + "\n")
