"""Wood: moisture from the air, and how far a board moves across the grain.

Sizes in mm, moisture and humidity in percent, temperatures in °C.
"""

from __future__ import annotations

FIBRE_SATURATION = 30.0


COEFFICIENT_RANGE = (6.0, 14.0)
"""Moisture contents between which the coefficient method is published."""


BOARD_SPREAD = 0.2
"""Share by which a single board may differ from its species; common practice."""


def equilibrium_moisture(temperature: float, humidity: float) -> float:
    """Give the moisture content wood comes to, in percent.

    Hailwood and Horrobin, Wood Handbook equation 4-5; temperature in °C, relative
    humidity in percent.
    """
    t, h = temperature, humidity / 100
    weight = 349 + 1.29 * t + 0.0135 * t * t
    k = 0.805 + 0.000736 * t - 0.00000273 * t * t
    k1 = 6.27 - 0.00938 * t - 0.000303 * t * t
    k2 = 1.91 + 0.0407 * t - 0.000293 * t * t
    kh = k * h
    hydrate = (k1 * kh + 2 * k1 * k2 * kh**2) / (1 + k1 * kh + k1 * k2 * kh**2)
    return 1800 / weight * (kh / (1 - kh) + hydrate)


def change_by_coefficient(
    width: float, coefficient: float, before: float, after: float
) -> float:
    """Give the change in mm; the coefficient is per percent of moisture."""
    return width * coefficient * (after - before)


def change_by_shrinkage(
    width: float, shrinkage: float, before: float, after: float
) -> float:
    """Give the change in mm from the total shrinkage, green to ovendry, in percent.

    Wood Handbook equation 13-3; moisture above 30 % moves nothing more.
    """
    before, after = min(before, FIBRE_SATURATION), min(after, FIBRE_SATURATION)
    room = FIBRE_SATURATION * 100 / shrinkage - FIBRE_SATURATION + before
    return width * (after - before) / room


def coefficient_from_shrinkage(shrinkage: float) -> float:
    """Give the coefficient that a total shrinkage stands for at 10 % moisture."""
    return 1 / (3000 / shrinkage - 20)


def shrinkage_at(shrinkage: float, moisture: float) -> float:
    """Give the shrinkage from green to a moisture content, in percent."""
    left = FIBRE_SATURATION - min(moisture, FIBRE_SATURATION)
    return shrinkage * left / FIBRE_SATURATION
