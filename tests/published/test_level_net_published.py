"""Least squares in levels, and the table that its bounds are read from."""

from __future__ import annotations

from fractions import Fraction

import pytest

from models.science.levelling.level_net import (
    AdjustedNet,
    KnownLevel,
    NetSight,
    adjust_net,
    chi_square,
)

FT_NM = 304_800_000

LEVELS_FT = {"A": 91.105, "B": 102.905, "C": 104.705, "D": 108.625}
RISES_FT = [
    ("A", "Q", 8.91),
    ("B", "Q", -2.92),
    ("C", "Q", -4.67),
    ("D", "Q", -8.66),
    ("A", "R", -3.56),
    ("C", "R", -17.12),
    ("D", "R", -21.10),
]
"""J. Mahun, open textbook, Least Squares Lite, chapter B, as read. The heights of the
benchmarks stand in a picture there; these reproduce every residual that it prints."""


def adjusted(rises: list[tuple[str, str, float]]) -> AdjustedNet:
    """The net of some rises, each as a set-up of two readings and half its variance each."""
    half = Fraction(FT_NM**2, 2)
    sights = []
    for n, (low, high, rise) in enumerate(rises):
        sights.append(NetSight(f"{n}", low, round(rise * FT_NM), half))
        sights.append(NetSight(f"{n}", high, 0, half))
    known = {name: KnownLevel(round(level * FT_NM)) for name, level in LEVELS_FT.items()}
    return adjust_net(sights, known)


def test_a_small_net() -> None:
    """Printed: residuals of Q -0.015, +0.015, -0.035, +0.035, of R +0.007, -0.033, +0.027.

    Their squares add up to 0.004767; the standard error of unit weight, by its formula, 0.0309.
    """
    net = adjusted(RISES_FT)
    moved = [2 * float(one.residual_nm) / FT_NM for one in net.residuals[1::2]]

    assert [-one for one in moved] == pytest.approx(
        [-0.015, 0.015, -0.035, 0.035, 0.007, -0.033, 0.027], abs=0.0006
    )
    assert sum(one**2 for one in moved) == pytest.approx(0.004767, abs=2e-6)
    assert net.unit_weight == pytest.approx(0.0309, abs=5e-5)
    assert float(net.levels_nm["Q"]) / FT_NM == pytest.approx(100.000, abs=5e-4)
    assert float(net.levels_nm["R"]) / FT_NM == pytest.approx(87.5517, abs=5e-5)


def test_a_rise_between_unknown_points_makes_both_surer() -> None:
    """The same page's eighth rise, Q to R -12.47; the outcome is worked by a second program."""
    net = adjusted([*RISES_FT, ("Q", "R", -12.47)])
    scale = (net.unit_weight or 0) / FT_NM

    assert float(net.levels_nm["Q"]) / FT_NM == pytest.approx(100.0034, abs=5e-5)
    assert float(net.levels_nm["R"]) / FT_NM == pytest.approx(87.5471, abs=5e-5)
    assert net.unit_weight == pytest.approx(0.0290, abs=5e-5)
    assert net.sigmas_nm["Q"] * scale == pytest.approx(0.0133, abs=5e-5)
    assert net.sigmas_nm["R"] * scale == pytest.approx(0.0149, abs=5e-5)


@pytest.mark.parametrize(
    ("freedom", "low", "high"),
    [
        (1, 0.001, 5.024),
        (2, 0.051, 7.378),
        (3, 0.216, 9.348),
        (5, 0.831, 12.833),
        (10, 3.247, 20.483),
        (20, 9.591, 34.170),
        (30, 16.791, 46.979),
    ],
)
def test_chi_square_table(freedom: int, low: float, high: float) -> None:
    """NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.4, from memory, high confidence."""
    assert chi_square(0.025, freedom) == pytest.approx(low, abs=5.1e-4)
    assert chi_square(0.975, freedom) == pytest.approx(high, abs=5.1e-4)
