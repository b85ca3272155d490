"""Layouts of a rectangle and a circle.

Figures worked out apart from the program, from chords of a circle and area over spacing;
derived, no source.
"""

from __future__ import annotations

from math import pi, sqrt

import pytest

from models.science.layout.cuttable_ground import Ground
from models.science.layout.layout import lay_lines
from models.science.layout.layout_types import LinePattern
from models.science.shapes.offsets import circle, rectangle

IN_NM, FT_NM = 25_400_000, 304_800_000
CIRCLE = Ground((circle(40 * FT_NM, chord_error_nm=5_000),))
CORNERS_LOSE_FT = 0.01


@pytest.mark.parametrize("bearing_udeg", [0, 33_000_000, 180_000_000])
def test_rectangle_of_60_by_100_ft_at_16_in(bearing_udeg: int) -> None:
    """45 lines half a spacing in, 4,500 ft, which is area over spacing; wherever it points."""
    field = Ground((rectangle(60 * FT_NM, 100 * FT_NM, bearing_udeg=bearing_udeg),))

    layout = lay_lines(field, LinePattern(16 * IN_NM, bearing_udeg))

    assert layout.line_count == len(layout.segments) == 45
    assert layout.first_nm == pytest.approx(8 * IN_NM, abs=1)
    assert layout.length_nm == pytest.approx(4_500 * FT_NM, abs=200)


@pytest.mark.parametrize(
    ("first_in", "lines", "feet"),
    [
        (16, 59, 3_761.33),  # one on the diameter
        (None, 60, 3_772.42),  # half a spacing off it, which is how both edges are served alike
    ],
)
def test_circle_of_40_ft_at_16_in(first_in: int | None, lines: int, feet: float) -> None:
    """Line counts and lengths; area over spacing is 3,769.91 ft."""
    first_nm = None if first_in is None else first_in * IN_NM

    layout = lay_lines(CIRCLE, LinePattern(16 * IN_NM, first_nm=first_nm, least_nm=IN_NM))

    assert len(layout.segments) == lines
    assert layout.length_nm / FT_NM == pytest.approx(feet, abs=CORNERS_LOSE_FT)


def test_the_figures_are_sums_of_chords() -> None:
    """The same by Pythagoras alone: each line at x off the middle is 2 sqrt(r2 - x2) long."""
    spacing = 16 / 12
    on_it = sum(2 * sqrt(1600 - (k * spacing) ** 2) for k in range(-29, 30))
    beside = sum(2 * sqrt(1600 - ((k + 0.5) * spacing) ** 2) for k in range(-30, 30))

    assert on_it == pytest.approx(3_761.33, abs=0.005)
    assert beside == pytest.approx(3_772.42, abs=0.005)
    assert pi * 1600 / spacing == pytest.approx(3_769.91, abs=0.005)
