"""Where marks are put, on made-up paper."""

from __future__ import annotations

from itertools import combinations

import shapely

from planbuild.derive.pictures.label_search import flaws, place
from planbuild.derive.pictures.labels import RADIUS, Label, Site, half_width

ROOM = (0.0, 0.0, 120.0, 90.0)


def site(text: str, *areas: shapely.Geometry) -> Site:
    return Site(text, text, tuple((area,) for area in areas))


def leader(label: Label) -> shapely.Geometry:
    return shapely.LineString([label.centre, label.end]) if label.end else shapely.Point(label.centre)


def bars(count: int) -> list[shapely.Geometry]:
    """Thin bars one below the other: no room on them, all marks must go beside."""
    return [shapely.box(30, 8 + 6.5 * i, 90, 10.5 + 6.5 * i) for i in range(count)]


def test_a_large_face_bears_its_mark_without_a_leader() -> None:
    face = shapely.box(20, 20, 80, 60)
    (label,) = place([site("A1", face)], face, ROOM)
    assert label.end is None and face.contains(shapely.Point(label.centre).buffer(RADIUS))


def test_a_small_part_is_marked_beside_it_and_the_leader_ends_inside() -> None:
    part = shapely.box(50, 40, 56, 43)
    (label,) = place([site("A1", part)], part, ROOM)
    assert label.end and part.contains(shapely.Point(label.end))
    assert part.distance(shapely.Point(label.centre)) > RADIUS


def test_marks_of_many_bars_neither_overlap_nor_cross() -> None:
    parts = bars(12)
    labels = place([site(f"A{i + 1}", part) for i, part in enumerate(parts)], shapely.union_all(parts), ROOM)
    assert len(labels) == 12
    for i, one in enumerate(labels):
        for other in labels[i + 1 :]:
            assert shapely.Point(one.centre).distance(shapely.Point(other.centre)) > one.half_width + other.half_width
            assert not leader(one).crosses(leader(other))


def test_the_copy_with_free_paper_beside_it_is_chosen() -> None:
    """One copy is walled in by another part, one stands free."""
    wall = shapely.box(0, 0, 60, 90).difference(shapely.box(28, 40, 34, 44))
    boxed, free = shapely.box(29, 41, 33, 43), shapely.box(90, 41, 94, 43)
    (label,) = place([site("A1", boxed, free)], shapely.union_all([wall, boxed, free]), ROOM)
    assert label.end and free.contains(shapely.Point(label.end))


def test_no_mark_leaves_the_paper() -> None:
    part = shapely.box(0.5, 0.5, 4, 3)
    (label,) = place([site("A1", part)], part, ROOM)
    x, y = label.centre
    assert x >= RADIUS and y >= RADIUS


def test_long_marks_get_a_wider_outline() -> None:
    assert half_width("A1") == RADIUS < half_width("A1042")


def test_same_sites_give_the_same_places() -> None:
    parts = bars(8)
    found = [site(f"A{i}", part) for i, part in enumerate(parts)]
    assert place(found, shapely.union_all(parts), ROOM) == place(found, shapely.union_all(parts), ROOM)


def test_a_part_that_is_not_seen_has_no_mark_and_that_is_a_flaw() -> None:
    part = shapely.box(20, 20, 80, 60)
    found = [site("A1", part), Site("A2", "A2", ())]
    labels = place(found, part, ROOM)
    assert [label.text for label in labels] == ["A1"] and flaws(labels, found) > 100


def crowd() -> list[shapely.Geometry]:
    """Fourteen bars in two rows in the middle of a small paper, as in a picture of a whole frame."""
    return [shapely.box(24 + 5 * i, 22 + 7 * (i % 2), 27 + 5 * i, 28 + 7 * (i % 2)) for i in range(7)] + [
        shapely.box(24 + 5 * i, 36 + 7 * (i % 2), 27 + 5 * i, 42 + 7 * (i % 2)) for i in range(7)
    ]


def test_a_crowd_of_marks_finds_room_all_round_the_picture() -> None:
    parts = crowd()
    found = [site(f"A{i}", part) for i, part in enumerate(parts)]
    labels = place(found, shapely.union_all(parts), (0.0, 0.0, 84.0, 64.0))
    assert len(labels) == len(parts)
    for one, other in combinations(labels, 2):
        away = shapely.Point(one.centre).distance(shapely.Point(other.centre))
        assert away > one.half_width + other.half_width, (one.text, other.text)
        assert not leader(one).crosses(leader(other)), (one.text, other.text)
        for mark, line in ((one, leader(other)), (other, leader(one))):
            assert line.distance(shapely.Point(mark.centre)) > mark.half_width


def test_a_leader_counts_what_it_runs_over_but_not_its_own_part() -> None:
    """The same bar marked from inside a tray: over its rim it costs more than over bare paper."""
    bar = shapely.box(40, 40, 60, 44)
    rim = shapely.box(30, 30, 70, 54).difference(shapely.box(33, 33, 67, 51))
    (free,) = place([site("A1", bar)], bar, ROOM)
    (held,) = place([site("A1", bar)], shapely.union_all([bar, rim]), ROOM)
    assert free.cost < 6 < held.cost
