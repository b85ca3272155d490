"""How a job shows and reads its figures, in either system."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from models.errors import UnreadableError
from models.figures import Figures, figures_of

US = figures_of("us", "us_100ft")
METRIC = figures_of("metric", "metric_1000m")
FT, IN, MM = 304_800_000, 25_400_000, 1_000_000


@pytest.mark.parametrize(
    ("way", "value", "us", "metric"),
    [
        ("depth", 8 * IN + IN // 2, "8-1/2 in", "~216 mm"),
        ("length", 52 * FT + FT // 2, "52.5 ft", "16.00 m"),
        ("level", 98 * FT, "98.00", "29.870"),
        ("rise", -9 * MM, "0.03 ft", "9 mm"),
        ("station", 125 * FT + FT // 2, "1+25.5", "0+038.3"),
        ("volume", 764_554_857_984_000, "1.00 yd³", "0.76 m³"),
        ("mass", 907_184_740_000, "1.00 ton", "0.91 t"),
        ("grade", 5_000, "0.50 %", "0.50 %"),
    ],
)
def test_figure_is_shown_in_the_system_of_the_job(
    way: str, value: int, us: str, metric: str
) -> None:
    """Each quantity has its own way in feet and inches, and in metres; worked by hand.

    A depth that is no whole step of what is shown is marked as rounded.
    """
    assert (getattr(US, way)(value), getattr(METRIC, way)(value)) == (us, metric)


@pytest.mark.parametrize(
    ("way", "text", "us", "metric"),
    [
        ("depth", "9", 9 * IN, 9 * MM),
        ("length", "30", 30 * FT, 30 * 10**9),
        ("level", "97.62", 29_754_576_000, 97_620 * MM),
        ("level", "-1", -FT, -(10**9)),
        ("volume", "2", 1_529_109_715_968_000, 2 * 10**15),
        ("mass", "2", 1_814_369_480_000, 2 * 10**12),
        ("depth", "9 in", 9 * IN, 9 * IN),
        ("length", "30 m", 30 * 10**9, 30 * 10**9),
    ],
)
def test_bare_number_takes_the_unit_of_the_field(way: str, text: str, us: int, metric: int) -> None:
    """A number alone is in the field's unit; a unit that is typed counts as typed."""
    read = f"read_{way}"

    assert (getattr(US, read)(text), getattr(METRIC, read)(text)) == (us, metric)


def test_station_is_read_as_the_job_writes_it() -> None:
    """1+25.5 is 125.5 ft by the hundred, 0+125.5 is 125.5 m by the thousand."""
    assert US.read_station("1+25.5") == 125 * FT + FT // 2
    assert METRIC.read_station("0+125.5") == 125_500 * MM


@pytest.mark.parametrize("figures", [US, METRIC])
@given(eighths=st.integers(0, 8_000))
def test_depth_shown_reads_back(figures: Figures, eighths: int) -> None:
    """What is shown as a depth, typed again, is the same depth to the shown resolution."""
    step = IN // 8 if figures.is_us else MM
    value = eighths * step

    assert figures.read_depth(figures.depth(value)) == value


@pytest.mark.parametrize("way", ["depth", "length", "volume", "mass"])
def test_no_quantity_is_below_nothing(way: str) -> None:
    """Only levels and stations have a sign."""
    with pytest.raises(UnreadableError):
        getattr(US, f"read_{way}")("-3")


@pytest.mark.parametrize(("system", "stations"), [("cubits", "us_100ft"), ("us", "miles")])
def test_unknown_settings_are_refused(system: str, stations: str) -> None:
    """Settings that no job can have raise a ValueError."""
    with pytest.raises(ValueError, match="is not a valid"):
        figures_of(system, stations)
