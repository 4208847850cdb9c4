"""The moisture that wood settles to in air of a given dampness and warmth."""

from __future__ import annotations


def settled_moisture(humidity: float, celsius: float) -> float:
    """Equilibrium moisture content, % of dry mass; `humidity` is relative, %, from 0 to below 100.

    Source: Wood Handbook (USDA Forest Products Laboratory, FPL-GTR-282, 2021), equation 4-5, after Hailwood and Horrobin.
    """
    t, h = celsius, humidity / 100
    w = 349 + 1.29 * t + 0.0135 * t * t
    k = 0.805 + 0.000736 * t - 0.00000273 * t * t
    k1 = 6.27 - 0.00938 * t - 0.000303 * t * t
    k2 = 1.91 + 0.0407 * t - 0.000293 * t * t
    kh = k * h
    bound = (k1 * kh + 2 * k1 * k2 * kh * kh) / (1 + k1 * kh + k1 * k2 * kh * kh)
    return 1800 / w * (kh / (1 - kh) + bound)
