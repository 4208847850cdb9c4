"""A design and its series: whose word holds, and how to differ."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from small_designs import PLAIN, SHELF, TOP, Read, Told

from planbuild.read import forms, vocabulary
from planbuild.records.design import StockSaid

SERIES = """\
format: 1
series: Shelves
units: inch
designer: A workshop
contact: series@plans.example
sizes:
  depth: {value: 5, from: 4, to: 6, help: "of every shelf"}
stock:
  board: {species: black cherry, rough: 4/4, thickness: 3/4}
  bog_oak: {species: black cherry, rough: 4/4, thickness: 3/4, seasoned: 2 years}
details:
  soft: {chamfer: {edges: long, size: 1/16}}
finishes:
  oil: {product: hardwax oil, coats: 2}
glue: {kind: yellow PVA}
"""
OF_SERIES = TOP + "series: series.yaml\n" + SHELF


@pytest.fixture(autouse=True)
def a_word_that_is_not_built(monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    """A field of stock that the language would have and this version would not build."""
    monkeypatch.setitem(vocabulary.LATER_FIELDS, StockSaid, ("seasoned",))
    forms.later_fields.cache_clear()
    yield
    monkeypatch.undo()
    forms.later_fields.cache_clear()


def test_the_series_names_are_the_designs_own(read: Read) -> None:
    design = read(OF_SERIES, series=SERIES)
    assert design.units.text == "inch"
    assert list(design.sizes) == ["depth"]
    assert list(design.stock) == ["board"]
    assert design.departs == {}


def test_texts_of_the_cover_may_be_said_anew(read: Read) -> None:
    design = read(OF_SERIES, series=SERIES)
    assert design.contact is not None and design.contact.text == "errata@plans.example"
    assert design.designer is not None and design.designer.text == "A workshop"


def test_departing_replaces_the_whole_entry_and_keeps_the_reason(read: Read) -> None:
    design = read(OF_SERIES + 'departs: {depth: {value: 4-1/2, why: "a narrow wall"}}\n', series=SERIES)
    depth = design.sizes["depth"]
    assert (depth.value.text, depth.low, depth.why and depth.why.text) == ("4-1/2", None, "a narrow wall")
    assert {name: said.text for name, said in design.departs.items()} == {"depth": "a narrow wall"}


def test_departing_from_a_detail_a_finish_and_a_single(read: Read) -> None:
    design = read(
        OF_SERIES.replace("top: 0", "top: 0, shape: [soft]")
        + "departs:\n"
        + '  soft: {chamfer: {edges: long, size: 1/8}, why: "thick"}\n'
        + '  oil: {product: wax, why: "no smell"}\n'
        + '  glue: {kind: hide glue, why: "can be undone"}\n'
        + '  units: {value: mm, why: "a metric bench"}\n',
        series=SERIES,
    )
    assert design.parts["shelf"].shape[0].size.text == "1/8"  # type: ignore[attr-defined]
    assert design.finishes["oil"].product.text == "wax"
    assert design.glue is not None and design.glue.kind.text == "hide glue"
    assert design.units.text == "mm"
    assert list(design.departs) == ["soft", "oil", "glue", "units"]


def test_faults_of_the_series_are_told_in_its_file(told: Told) -> None:
    (found,) = told(OF_SERIES, series=SERIES.replace("rough: 4/4, thickness: 3/4}", "ruff: 4/4, thickness: 3/4}"))
    assert found.code == "read-unknown-key"
    assert found.span is not None and found.span.file.endswith("series.yaml") and found.span.line == 9


def test_what_cannot_be_built_is_refused_where_it_is_used(told: Told) -> None:
    (found,) = told(OF_SERIES.replace("stock: board", "stock: bog_oak"), series=SERIES)
    assert found.code == "not-built-yet"
    assert found.span is not None and found.span.file.endswith("design.yaml")
    assert found.related[0].span.file.endswith("series.yaml")


def test_what_cannot_be_built_is_found_through_the_series_own_names(told: Told) -> None:
    series = SERIES.replace("sizes:\n", "sizes:\n  board_size: bog_oak.thickness\n")
    (found,) = told(OF_SERIES.replace("top: 0", "top: board_size"), series=series)
    assert found.code == "not-built-yet"
    assert found.span is not None and found.span.line == 7


def test_a_word_in_a_sentence_is_no_use(read: Read) -> None:
    read(OF_SERIES.replace("top: 0", "top: 0, note: not of bog_oak"), series=SERIES)


def test_one_name_one_thing_across_both_files(told: Told) -> None:
    (found,) = told(OF_SERIES.replace("  shelf:", "  depth:"), series=SERIES)
    assert found.code == "name-taken"
    assert found.related[0].span.file.endswith("series.yaml")


def test_a_series_needs_its_format_and_name(told: Told) -> None:
    codes = {each.code for each in told(OF_SERIES, series=SERIES.replace("format: 1\nseries: Shelves\n", ""))}
    assert codes == {"read-format-missing", "series-form"}


def test_a_broken_series_stops_but_faults_of_the_design_are_told_too(told: Told) -> None:
    found = told(OF_SERIES.replace("face: top", "face:"), series="format: 1\nseries: [Shelves\n")
    assert {"read-yaml", "read-empty"} <= {each.code for each in found}


def test_a_list_for_a_section_of_the_series(told: Told) -> None:
    found = told(PLAIN.replace("units: inch", "series: series.yaml"), series="format: 1\nseries: S\nunits: inch\nstock: [a]\n")
    assert {each.code for each in found} == {"read-wrong-type"}


def test_a_series_that_cannot_be_read_is_told_alone(told: Told) -> None:
    """Else each of its names, wanted all over the design, would be told as unknown."""
    uses = OF_SERIES.replace("top: 0", "top: 0, shape: [soft]")
    (missing,) = (each for each in told(uses) if each.stops)
    assert missing.code == "file-missing"
    (broken,) = (each for each in told(uses, series="format: 1\nseries: [\n") if each.stops)
    assert (broken.code, broken.span and broken.span.file.endswith("series.yaml")) == ("read-yaml", True)
