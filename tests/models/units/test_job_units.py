"""How a job shows and reads its figures, in either system."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from models.errors import UnreadableError
from models.units.job_units import Figures, figures_of

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


@pytest.mark.parametrize(
    ("figures", "way", "values", "shown"),
    [
        (METRIC, "depth", [219_700_000, 220 * MM], ["219.7 mm", "220 mm"]),
        (METRIC, "depth", [219_980_000, 220 * MM], ["~220.0 mm", "220 mm"]),
        (METRIC, "depth", [219 * MM, 220 * MM], ["219 mm", "220 mm"]),
        (METRIC, "depth", [219_700_000, 219_700_000], ["~220 mm", "~220 mm"]),
        (US, "depth", [214_312_500, 215_900_000], ["8-7/16 in", "8-1/2 in"]),
        (US, "length", [10 * FT + FT // 50, 10 * FT], ["10.02 ft", "10.0 ft"]),
        (METRIC, "rise", [-9_400_000, 9 * MM], ["9.4 mm", "9 mm"]),
        (METRIC, "volume", [10**15 + 10**12, 10**15], ["1.001 m³", "1.000 m³"]),
        (METRIC, "station", [5 * MM, 5_000_001], ["0+000.0", "0+000.0"]),
    ],
)
def test_quantities_that_differ_are_shown_apart(
    figures: Figures, way: str, values: list[int], shown: list[str]
) -> None:
    """Rounding never makes a value look equal to its limit, as long as a finer figure is read."""
    assert figures.show_distinct(way, values) == shown


def test_day_is_said_in_the_order_of_the_system() -> None:
    """Month first with feet and inches, day first with metres; no day stays as it is."""
    assert US.day("2026-05-12") == "Tue May 12, 2026"
    assert METRIC.day("2026-05-12") == "Tue 12 May 2026"
    assert US.day("?") == "?"


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


def test_grades_in_one_sentence_are_told_apart() -> None:
    """A grade just below its least does not read like the least."""
    assert US.show_distinct("grade", [4_960, 5_000]) == ["0.496 %", "0.500 %"]
    assert US.show_distinct("grade", [4_996, 4_999, 5_000]) == ["0.4996 %", "0.4999 %", "0.5000 %"]
    assert US.show_distinct("grade", [4_900, 5_000]) == ["0.49 %", "0.50 %"]
