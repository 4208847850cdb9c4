"""Lower bounds against answers known by hand."""

from __future__ import annotations

import numpy as np

from planbuild.cutting.bounds import area_bound, dual_feasible, rounded_up, sheet_bound


def test_area_in_whole_sheets_and_as_far_as_on_hand() -> None:
    items = np.array([[10, 10, 0]] * 5)
    assert area_bound(np.array([[20, 10, 7, 100]]), items, 1) == 21
    two = np.array([[20, 10, 7, 100], [10, 10, 3, 1]])
    assert area_bound(two, items, 1) == 17
    assert area_bound(np.array([[20, 10, 7, 100], [10, 10, 3, 9]]), items, 1) == 15


def test_pieces_over_half_do_not_share() -> None:
    """Seven pieces just over half in both directions: seven sheets, though the area would do with two."""
    assert sheet_bound((100, 100), np.array([[51, 51, 1]] * 7)) == 7
    assert sheet_bound((100, 100), np.array([[51, 30, 0]] * 7)) == 3


def test_images_of_lengths_that_fit_fit() -> None:
    """What fits a stick fits it under every dual feasible function: tried on all pairs and triples."""
    whole = 30
    lengths = np.arange(1, whole + 1)
    for image, scale in dual_feasible(lengths, whole):
        for a in range(1, whole):
            for b in range(1, whole - a + 1):
                assert image[a - 1] + image[b - 1] <= scale
                for c in range(1, whole - a - b + 1):
                    assert image[a - 1] + image[b - 1] + image[c - 1] <= scale


def test_rounding_up_forgives_a_millionth() -> None:
    assert (rounded_up(12.0000000001, 1), rounded_up(12.1, 1), rounded_up(12.1, 5)) == (12, 13, 15)
