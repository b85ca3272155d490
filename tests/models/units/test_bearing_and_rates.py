"""Bearings, places on the Earth, shares, areas, densities and rates of water."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from models.errors import UnreadableError
from models.units import (
    parse_area,
    parse_bearing,
    parse_density,
    parse_flow,
    parse_latitude,
    parse_longitude,
    parse_share,
    parse_water_rate,
    show_bearing,
)

# Each by hand from 1 in = 25.4 mm, 1 lb = 453.59237 g, 1 acre = 43,560 ft2.
READ: list[tuple[Callable[[str], int], str, int]] = [
    (parse_bearing, "0", 0),
    (parse_bearing, "360", 0),
    (parse_bearing, "-90", 270_000_000),
    (parse_bearing, "37.25\u00b0", 37_250_000),
    (parse_bearing, "N 30 E", 30_000_000),
    (parse_bearing, "s30w", 210_000_000),
    (parse_bearing, "N 12.5 deg W", 347_500_000),
    (parse_bearing, "NE", 45_000_000),
    (parse_longitude, "-93.625", -93_625_000_000),
    (parse_longitude, "93.625 W", -93_625_000_000),
    (parse_longitude, "7.01 E", 7_010_000_000),
    (parse_latitude, "41.5868 N", 41_586_800_000),
    (parse_latitude, "33.9\u00b0 S", -33_900_000_000),
    (parse_share, "10 %", 100),
    (parse_share, "7.55 %", 76),
    (parse_share, "15\u2030", 15),
    (parse_water_rate, "10 in/h", 254_000),
    (parse_water_rate, "300 mm/h", 300_000),
    (parse_water_rate, "24 ft/day", 304_800),
    # 231 in3 a gallon: 3.785411784 L.
    (parse_flow, "60 gal/min", 3_785_412),
    (parse_flow, "5 L/s", 5_000_000),
    (parse_flow, "36 m3/h", 10_000_000),
    (parse_flow, "1 cfs", 28_316_847),
    (parse_area, "100 ft2", 9_290_304),
    (parse_area, "100 sq ft", 9_290_304),
    (parse_area, "0.5 ha", 5_000_000_000),
    (parse_density, "1570 kg/m3", 1_570_000),
    (parse_density, "2700 lb/yd3", 1_601_846),
    (parse_density, "1.35 ton/yd3", 1_601_846),
]

REFUSED: list[tuple[Callable[[str], int], str, str]] = [
    (parse_bearing, "", "nothing was typed"),
    (parse_bearing, "north", "does not begin with a number"),
    (parse_bearing, "400", "no more than once"),
    (parse_bearing, "N 95 E", "lie 90 degrees"),
    (parse_bearing, "12,5", "comma"),
    (parse_longitude, "181", "beyond 180 degrees"),
    (parse_longitude, "41 N", "N is not a side"),
    (parse_longitude, "-93 W", "a sign and a side"),
    (parse_latitude, "91", "beyond 90 degrees"),
    (parse_share, "10", "unit is missing"),
    (parse_share, "-10 %", "minus sign"),
    (parse_share, "10 ft", "'ft' is not a unit"),
    (parse_water_rate, "10 in", "'in' is not a unit"),
    (parse_area, "6,400 ft2", "comma"),
    (parse_area, "40 ft", "'ft' is not a unit"),
    (parse_density, "1570", "unit is missing"),
    (parse_density, "99999999999999999999 t/m3", "larger than the book"),
]


@pytest.mark.parametrize(("read", "text", "value"), READ, ids=lambda one: str(one)[:20])
def test_figures_are_read(read: Callable[[str], int], text: str, value: int) -> None:
    """What crews and surveyors write is read into whole base units."""
    assert read(text) == value


@pytest.mark.parametrize(("read", "text", "why"), REFUSED, ids=lambda one: str(one)[:20])
def test_others_are_refused(read: Callable[[str], int], text: str, why: str) -> None:
    """What can't be read is refused with the reason and what would be read."""
    with pytest.raises(UnreadableError, match=why) as caught:
        read(text)

    assert "These would be read" in str(caught.value)


@given(st.integers(0, 35_999))
def test_bearing_shown_is_read_back(hundredths: int) -> None:
    """A bearing to a hundredth of a degree survives being shown."""
    bearing_udeg = hundredths * 10_000

    assert parse_bearing(show_bearing(bearing_udeg)) == bearing_udeg
