"""What is typed into each field is read, shown and stored as it was meant."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from crewapp.state.fields import (
    LengthEntry,
    chip_text,
    count_field,
    length_field,
    mass_field,
    station_field,
)
from crewapp.state.keypad import FieldSpec, KeypadState
from crewapp.state.likely import Band, Bands
from models.units.mass import MassUnit
from models.units.station import StationStyle

DEPTH = length_field("Depth", LengthEntry.INCHES)


@pytest.mark.parametrize(
    ("spec", "keys", "value", "shown", "echo"),
    [
        (DEPTH, ("8", "1/8"), 206_375_000, "8-1/8 in", "~0.68 ft"),
        (length_field("", LengthEntry.ROD_FEET), "543", 1_655_064_000, "5.43 ft", "~1.655 m"),
        (length_field("", LengthEntry.ROD_METRES), "1543", 1_543_000_000, "1.543 m", "~5.06 ft"),
        (length_field("", LengthEntry.MM), "216", 216_000_000, "216 mm", "~8-1/2 in"),
        (length_field("", LengthEntry.FEET_TENTHS), "48.5", 14_782_800_000, "48.5 ft", "~14.8 m"),
        (station_field("", StationStyle.US_100FT), "1+25.5", 38_252_400_000, "1+25.50", ""),
        (station_field("", StationStyle.METRIC_1000M), "0+125", 125_000_000_000, "0+125.00", ""),
        (mass_field("", MassUnit.TON), "9.5", 8_618_255_030_000, "9.50 ton", "~8.62 t"),
        (count_field("", "min"), "45", 45, "45 min", ""),
    ],
)
def test_typed_figure_is_stored_and_shown(
    spec: FieldSpec, keys: tuple[str, ...] | str, value: int, shown: str, echo: str
) -> None:
    """Base units by hand: 1 in = 25,400,000 nm, 1 ft = 304,800,000 nm, 1 ton = 2000 lb."""
    state = KeypadState(spec)
    for number, key in enumerate(keys):
        state = state.press(key, number * 1000)

    assert (state.value, state.stored_text, state.echo) == (value, shown, echo)


@given(entry=st.sampled_from(LengthEntry), count=st.integers(0, 9_999))
def test_chip_reads_back_as_itself(entry: LengthEntry, count: int) -> None:
    """A chip's text, typed on the pad, is the chip's figure."""
    spec = length_field("", entry)
    step = spec.parse("1") if spec.grammar.places == 0 else spec.parse("0.1")
    value = (step // 16 if entry is LengthEntry.INCHES else step) * count

    assert spec.parse(chip_text(entry)(value)) == value


def test_depth_in_feet_is_noticed() -> None:
    """0.75 typed for 9 in: the foot reading is offered as 9 in."""
    inch = 25_400_000
    bands = Bands(Band(0, 24 * inch), Band(7 * inch, 11 * inch), 9 * inch)
    spec = length_field("Depth", LengthEntry.INCH_TENTHS, bands)
    state = KeypadState(spec)
    for number, key in enumerate("0.8"):
        state = state.press(key, number * 1000)
    asked = state.enter(9000)

    assert asked.question is not None
    assert asked.question.sentence == "0.8 in? Design is 9.0 in."
    assert [offer.text for offer in asked.question.offers] == ["9.6 in", "8.0 in"]
