"""A whole design: the demonstration bench and its series, and the smallest board."""

from __future__ import annotations

from pathlib import Path

import pytest
from small_designs import PLAIN, Read, Told

from planbuild.core.diagnostics import Span
from planbuild.core.files import FileFault
from planbuild.read import read_design
from planbuild.records.design import Design, SheetSaid, SizeSaid, StockSaid
from planbuild.records.shapes_said import ChamferSaid, TaperSaid

MUSIC_ROOM = Path(__file__).parent.parent.parent / "designs" / "music-room"


@pytest.fixture(scope="module")
def design() -> Design:
    return read_design(MUSIC_ROOM / "listening-bench.yaml")


def line_of(file: str, text: str) -> int:
    lines = (MUSIC_ROOM / file).read_text("utf-8").split("\n")
    return next(number for number, line in enumerate(lines, 1) if text in line)


def test_the_bench_is_read_without_findings(design: Design) -> None:
    assert design.warnings == ()
    assert design.title.text == "Listening bench"
    assert list(design.parts) == ["seat", "leg", "long_rail", "short_rail", "lower_rail", "slat"]
    assert list(design.joints) == ["rails", "wedged_rails", "slats", "seat", "seat_on_legs"]


def test_the_series_gives_its_names_and_texts(design: Design) -> None:
    assert design.series is not None and design.series.text == "Music room"
    assert design.units.text == "inch"
    assert design.units.span.file.endswith("series.yaml")
    assert {"leg_size", "end_overhang"} <= set(design.sizes)
    assert {"leg_ash", "walnut"} <= set(design.stock)
    assert design.contact is not None
    assert set(design.words) == {"rail", "slat"}
    assert list(design.editions) == ["home_letter", "home_a4", "print_shop", "client"]


def test_sheets_are_known_by_their_word(design: Design) -> None:
    sheet, solid = design.stock["case_ply"], design.stock["bottom_ash"]
    assert isinstance(sheet, SheetSaid) and sheet.sold_as.text == "3/4"
    assert isinstance(solid, StockSaid) and solid.resaw is not None


def test_a_part_like_a_detail(design: Design) -> None:
    leg = design.parts["leg"]
    assert (leg.stock.text, leg.grain.text, leg.bottom and leg.bottom.text) == ("leg_ash", "up", "0")
    taper, foot = leg.shape
    assert isinstance(taper, TaperSaid) and isinstance(foot, ChamferSaid)
    assert [each.text for each in taper.faces] == ["right"]
    assert taper.leaving.text == "leg_foot"
    assert taper.why is not None and taper.why.text.startswith("one face only")


def test_every_value_has_its_place(design: Design) -> None:
    leg = design.parts["leg"]
    bench = str(MUSIC_ROOM / "listening-bench.yaml")
    assert leg.origin == Span(bench, line_of("listening-bench.yaml", "  leg:"), 3, 3)
    assert leg.stock.span == Span(str(MUSIC_ROOM / "series.yaml"), line_of("series.yaml", "    stock: leg_ash"), 12, 7)
    assert leg.shape[1].origin == Span(bench, line_of("listening-bench.yaml", "      - foot"), 9, 4)


def test_text_stays_text(design: Design) -> None:
    assert design.stock["leg_ash"].rough.text == "8/4"
    assert design.revisions["A"].date.text == "2026-03-02"
    assert design.joints["slats"].glue is not None and design.joints["slats"].glue.text == "no"


def test_one_or_several(design: Design) -> None:
    assert [each.text for each in design.parts["slat"].between] == ["lower_rail"]
    assert [each.text for each in design.parts["long_rail"].mirror] == ["front-back"]
    assert [each.text for each in design.parts["leg"].mirror] == ["left-right", "front-back"]
    assert [each.text for each in design.joints["wedged_rails"].tenon] == ["lower_rail"]  # type: ignore[attr-defined]


def test_words_that_other_readers_turn_into_numbers(read: Read) -> None:
    """YAML 1.1 makes 90, false, 8 and a date of these (YAML 1.1 types int, bool, timestamp)."""
    design = read(PLAIN + "sizes: {a: 1:30, b: 010, c: 1_000}\nsummary: no\nrevision: 2024-01-01\n")
    assert [size.value.text for size in design.sizes.values()] == ["1:30", "010", "1_000"]
    assert design.summary is not None and design.summary.text == "no"
    assert design.revision is not None and design.revision.text == "2024-01-01"


def test_a_size_is_a_value_or_more(read: Read) -> None:
    design = read(PLAIN + "sizes:\n  a: 3\n  b: {value: 4, from: 3, to: 5, step: 1/2, help: wide}\n")
    assert design.sizes["a"] == SizeSaid.model_validate({"origin": design.sizes["a"].origin, "value": design.sizes["a"].value})
    b = design.sizes["b"]
    assert [each and each.text for each in (b.value, b.low, b.high, b.step, b.help)] == ["4", "3", "5", "1/2", "wide"]


def test_any_value_may_be_written_long(read: Read) -> None:
    top = read(PLAIN.replace("top: 0", 'top: {value: 0, why: "flush", help: h}')).parts["shelf"].top
    assert top is not None and (top.text, top.why, top.help) == ("0", "flush", "h")


def test_a_long_value_in_place_of_a_list(read: Read) -> None:
    design = read(PLAIN.replace("top: 0", "top: 0, shape: [{chamfer: {edges: {value: long, why: w}, size: 1/8}}]"))
    (chamfer,) = design.parts["shelf"].shape
    assert isinstance(chamfer, ChamferSaid)
    assert [(edge.text, edge.why) for edge in chamfer.edges] == [("long", "w")]


@pytest.mark.parametrize(
    ("written", "expected"),
    [
        ("left-right", {"left-right": ()}),
        ("[left-right, front-back]", {"left-right": (), "front-back": ()}),
        ("{front-back: leg}", {"front-back": ("leg",)}),
        ("{left-right: [a.right, b.left]}", {"left-right": ("a.right", "b.left")}),
    ],
)
def test_centred(read: Read, written: str, expected: dict[str, tuple[str, ...]]) -> None:
    design = read(PLAIN.replace("top: 0", f"top: 0, centred: {written}"))
    assert {way: tuple(each.text for each in places) for way, places in design.parts["shelf"].centred.items()} == expected


def test_glue_up_is_no_or_fields(read: Read) -> None:
    design = read(PLAIN.replace("top: 0", "top: 0, glue_up: no"))
    assert getattr(design.parts["shelf"].glue_up, "text", None) == "no"


def test_the_place_of_a_quoted_text_is_the_text(read: Read) -> None:
    top = read(PLAIN.replace("top: 0", 'top: "1 above bottom"')).parts["shelf"].top
    assert top is not None
    column = PLAIN.split("\n")[9].index("top: 0") + len('top: "') + 1
    assert (top.span.column, top.span.length) == (column, len("1 above bottom"))


def test_all_faults_are_told_at_once_in_the_order_of_the_file(told: Told) -> None:
    found = told(
        PLAIN.replace("units: inch", "unitz: inch").replace("rough: 4/4", "rough: # 4/4\n   ").replace("face: top", "fase: top")
        + "sizes: {front: 3}\nstock_on_hand: 3\nfoto: 4\njoints: {a: {kind: glew}}\n"
    )
    assert [each.code for each in found] == [
        "read-unknown-key",  # unitz
        "read-empty",
        "read-unknown-key",  # fase
        "name-reserved",
        "read-unknown-key",  # stock_on_hand
        "read-unknown-key",  # foto
        "joint-unknown-kind",
    ]
    places = [(each.span.line, each.span.column) for each in found if each.span]
    assert places == sorted(places)


def test_a_file_that_cannot_be_read_is_wrong_use(tmp_path: Path) -> None:
    with pytest.raises(FileFault, match="There is no file"):
        read_design(tmp_path / "no.yaml")


def test_an_item_keeps_all_that_is_said_of_it(read: Read) -> None:
    design = read(PLAIN + 'items:\n  pin: {item: shelf pin, diameter: 1/4, why: "w", note: n, material: brass}\n')
    pin = design.items["pin"]
    assert pin.item.text == "shelf pin"
    assert {name: said.text for name, said in pin.fields.items()} == {"diameter": "1/4", "material": "brass"}
    assert pin.why is not None and pin.why.text == "w"
