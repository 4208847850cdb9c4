"""Texts as they are printed: in one line, in letters that the typeface has, and never longer than their place."""

from __future__ import annotations

import pytest
from small_designs import PLAIN, Read, Told

from planbuild.core.lettering import without_letter
from planbuild.read.bounds import LONGEST, LONGEST_VALUE, MOST_ENTRIES

TITLE = "title: Shelf board\n"


def titled(text: str) -> str:
    return PLAIN.replace(TITLE, text)


@pytest.mark.parametrize(
    "written",
    ["title: >\n  Shelf\n  board\n", "title: |\n  Shelf\n  board\n", 'title: "Shelf\\nboard"\n', 'title: "Shelf\\tboard"\n'],
)
def test_a_title_is_one_line(read: Read, written: str) -> None:
    assert read(titled(written)).title.text == "Shelf board"


def test_notes_keep_their_lines(read: Read) -> None:
    notes = read(PLAIN + "notes: |\n  One.\n\n  Two.\n").notes
    assert notes is not None and notes.text == "One.\n\nTwo.\n"


def test_a_letter_and_its_accent_become_one_sign(read: Read) -> None:
    assert read(titled("title: Cafe\u0301\n")).title.text == "Caf\u00e9"


@pytest.mark.parametrize("field", ["title", "summary", "notes"])
def test_texts_up_to_their_bound(read: Read, told: Told, field: str) -> None:
    most, base = LONGEST[field], PLAIN.replace(TITLE, "") if field == "title" else PLAIN
    text = ("word " * most)[: most - 1] + "s"
    assert getattr(read(f"{base}{field}: {text}\n"), field).text == text
    (found,) = told(f"{base}{field}: {text}s\n")
    assert (found.code, found.expected) == ("read-too-long", f"at most {most}")


def test_a_title_without_end_is_told_at_once(told: Told) -> None:
    (found,) = told(titled(f"title: {'endless ' * 12_000}\n"))
    assert found.code == "read-too-long"


def test_the_long_form_is_bounded_like_the_short_one(told: Told) -> None:
    found = told(titled(f'title: {{value: "{"long " * 30}", why: "{"because " * 100}"}}\n'))
    assert [each.code for each in found] == ["read-too-long"] * 2


def test_an_address_may_be_one_long_word(read: Read) -> None:
    address = "https://plans.example/" + "a" * 80
    assert read(PLAIN.replace("errata@plans.example", address)).contact is not None


def test_names_without_end(told: Told) -> None:
    (found,) = told(PLAIN + f"words: {{{'w' * 61}: a word}}\n")
    assert found.code == "read-too-long"


def test_what_an_item_says_stands_in_a_table(told: Told) -> None:
    (found,) = told(PLAIN + f"items:\n  strap: {{item: other, size: {'big ' * 30}}}\n")
    assert (found.code, found.expected) == ("read-too-long", "at most 60")


@pytest.mark.parametrize("section", sorted(MOST_ENTRIES))
def test_entries_of_every_section(told: Told, section: str) -> None:
    most = MOST_ENTRIES[section]
    base = PLAIN[: PLAIN.index("parts:")] if section == "parts" else PLAIN.replace(PLAIN[PLAIN.index("stock:") :], "")
    entries = "".join(f"  e{n}: {{}}\n" for n in range(most + 1))
    found = [each for each in told(f"{base}{section}:\n{entries}") if each.code == "read-too-many"]
    assert [each.expected for each in found] == [f"at most {most}"]


def test_a_sum_has_a_bound_of_its_own_below_that_of_values() -> None:
    from planbuild.resolve.expressions.tokens import LONGEST as LONGEST_SUM

    assert LONGEST_SUM < LONGEST_VALUE


@pytest.mark.parametrize(("text", "lacking"), [("Größe ⌀ 1½", ""), ("Ящик", ""), ("plain", ""), ("木", "木"), ("a 🪑", "🪑")])
def test_letters_of_the_face(text: str, lacking: str) -> None:
    assert without_letter(text) == lacking


def test_texts_of_a_series_and_of_departures(told: Told) -> None:
    series = f"format: 1\nseries: {'Long ' * 20}\nsizes: {{wide: 1}}\npieces: [design.yaml]\n"
    design = PLAIN + f"series: series.yaml\ndeparts: {{wide: {{value: 2, why: {'because ' * 80}}}}}\n"
    assert [each.code for each in told(design, series=series)] == ["read-too-long"] * 2


def test_entries_of_design_and_series_together(told: Told) -> None:
    def sizes(letter: str) -> str:
        return "sizes:\n" + "".join(f"  {letter}{n}: 1\n" for n in range(MOST_ENTRIES["sizes"] // 2 + 1))

    series = "format: 1\nseries: Some\npieces: [design.yaml]\n" + sizes("a")
    (found,) = told(PLAIN + "series: series.yaml\n" + sizes("b"), series=series)
    assert found.code == "read-too-many"
