"""Photos: upright, small, without what a camera adds, where they belong; and only from the folder."""

from __future__ import annotations

import io
from dataclasses import replace
from pathlib import Path

import pdfplumber
import pypdf
import pytest
from PIL import Image
from sample_facts import FACTS, FINDINGS, LETTER_EDITION

from planbuild.core.diagnostics import Refused
from planbuild.publish import Theme, load_photos, publish
from planbuild.records.facts import Facts
from planbuild.records.photos import Photo

RED, BLUE = (200, 20, 20), (20, 20, 200)


def with_photo(name: str) -> Facts:
    first, *rest = FACTS.steps
    return replace(FACTS, steps=(replace(first, photo=name, photos=(Photo(name, "The slab is dry"),)), *rest))


def picture(width: int = 3000, height: int = 2000) -> Image.Image:
    """Red, the upper half blue."""
    image = Image.new("RGB", (width, height), RED)
    image.paste(BLUE, (0, 0, width, height // 2))
    return image


def near(pixel: tuple[int, ...], colour: tuple[int, int, int]) -> bool:
    return all(abs(a - b) < 12 for a, b in zip(pixel, colour, strict=True))


def printed(folder: Path, name: str) -> Image.Image:
    return Image.open(io.BytesIO(load_photos(with_photo(name), folder)[name].jpeg))


def test_a_photo_is_no_larger_than_it_is_seen(tmp_path: Path) -> None:
    picture().save(tmp_path / "large.jpg")
    photo = load_photos(with_photo("large.jpg"), tmp_path)["large.jpg"]
    assert (photo.width, photo.height) == pytest.approx((84, 56))
    assert Image.open(io.BytesIO(photo.jpeg)).size == (661, 441)
    assert len(photo.jpeg) < 60_000


def test_a_small_photo_keeps_its_picture_elements(tmp_path: Path) -> None:
    picture(120, 90).save(tmp_path / "small.png")
    assert printed(tmp_path, "small.png").size == (120, 90)


def test_a_photo_stands_upright_and_tells_no_place(tmp_path: Path) -> None:
    """Orientation 6: the camera was turned, the first row of the file is the right-hand side of the picture."""
    exif = Image.Exif()
    exif[0x0112], exif[0x010F] = 6, "a maker of cameras"
    exif.get_ifd(0x8825)[1] = "N"
    picture().save(tmp_path / "turned.jpg", exif=exif)
    shown = printed(tmp_path, "turned.jpg")
    assert shown.height > shown.width and dict(shown.getexif()) == {}
    assert near(shown.getpixel((shown.width - 5, 5)), BLUE) and near(shown.getpixel((5, 5)), RED)
    assert b"a maker of cameras" not in load_photos(with_photo("turned.jpg"), tmp_path)["turned.jpg"].jpeg


def test_what_is_clear_is_white_on_paper(tmp_path: Path) -> None:
    Image.new("RGBA", (40, 40), (0, 0, 0, 0)).save(tmp_path / "clear.png")
    assert near(printed(tmp_path, "clear.png").getpixel((20, 20)), (255, 255, 255))


def test_it_stands_in_its_step(tmp_path: Path, bench_theme: Theme) -> None:
    picture().save(tmp_path / "bench.jpg")
    facts = with_photo("bench.jpg")
    plan = publish(facts, FINDINGS, bench_theme, LETTER_EDITION, load_photos(facts, tmp_path))
    page = pdfplumber.open(io.BytesIO(plan.pdf)).pages[plan.page_of[f"step.{facts.steps[0].id}"] - 1]
    (image,) = page.images
    assert image["width"] == pytest.approx(84 / 25.4 * 72, abs=0.5)
    assert "The slab is dry" in _alternative_texts(plan.pdf)
    assert "The slab is dry" in page.extract_text()


def test_parts_joints_and_the_piece_have_theirs(tmp_path: Path, bench_theme: Theme) -> None:
    """Each on its own page, scaled to the room that it has there; a second photo of a step stands below it."""
    for name in ("part", "joint", "whole", "one", "other"):
        picture().save(tmp_path / f"{name}.jpg")
    part, *parts = FACTS.parts
    joint, *joints = FACTS.joints
    step, *steps = FACTS.steps
    facts = replace(
        FACTS,
        piece=replace(FACTS.piece, photos=(Photo("whole.jpg", "As built"),)),
        parts=(replace(part, photos=(Photo("part.jpg", "The part"),)), *parts),
        joints=(replace(joint, photos=(Photo("joint.jpg", "The joint"),)), *joints),
        steps=(replace(step, photos=(Photo("one.jpg", "Before"), Photo("other.jpg", "After"))), *steps),
    )
    plan = publish(facts, FINDINGS, bench_theme, LETTER_EDITION, load_photos(facts, tmp_path))
    pages = pdfplumber.open(io.BytesIO(plan.pdf)).pages
    # A picture of 3 : 2 in rooms of 84 x 52, 68 x 50, 84 x 64 and 76 x 58 mm: as wide as 78, 68, 84 and 76.
    for key, caption, wide in (
        (f"sheet.{part.id}", "The part", 78),
        (f"joint.{joint.id}", "The joint", 68),
        (f"step.{step.id}", "Before", 84),
        (f"step.{step.id}", "After", 76),
    ):
        page = pages[plan.page_of[key] - 1]
        assert caption in page.extract_text()
        assert any(image["width"] == pytest.approx(wide / 25.4 * 72, abs=0.5) for image in page.images), caption
    assert any("As built" in page.extract_text() and page.images for page in pages[plan.page_of[f"step.{step.id}"] :])


def _alternative_texts(pdf: bytes) -> list[str]:
    """Of every element of the tree of tags."""
    found: list[str] = []
    waiting = [pypdf.PdfReader(io.BytesIO(pdf)).trailer["/Root"]["/StructTreeRoot"]]
    while waiting:
        each = waiting.pop().get_object()
        if isinstance(each, pypdf.generic.DictionaryObject):
            found.append(str(each.get("/Alt", "")))
            waiting.append(each.get("/K", pypdf.generic.NullObject()))
        elif isinstance(each, pypdf.generic.ArrayObject):
            waiting += each
    return found


@pytest.mark.parametrize(
    ("name", "data", "code"),
    [
        ("text.jpg", b"this is no picture", "photo-broken"),
        ("half.jpg", b"", "photo-broken"),
        ("gone.jpg", None, "file-missing"),
        ("../outside.jpg", None, "file-outside"),
    ],
)
def test_what_cannot_be_printed_is_refused(tmp_path: Path, name: str, data: bytes | None, code: str) -> None:
    if data is not None:
        whole = io.BytesIO()
        picture(400, 300).save(whole, "JPEG")
        (tmp_path / name).write_bytes(data or whole.getvalue()[:600])
    with pytest.raises(Refused) as refused:
        load_photos(with_photo(name), tmp_path)
    assert [each.code for each in refused.value.diagnostics] == [code]


def test_a_small_file_that_claims_a_huge_picture(tmp_path: Path) -> None:
    """Refused by its size alone, before memory is taken for it."""
    Image.new("1", (30_000, 30_000)).save(tmp_path / "bomb.png")
    with pytest.raises(Refused) as refused:
        load_photos(with_photo("bomb.png"), tmp_path)
    assert "picture elements" in refused.value.diagnostics[0].message
