"""A reading on its limit is within it, one nanometre past is not, in either system."""

from __future__ import annotations

from decimal import Decimal

from hypothesis import given
from hypothesis import strategies as st

from models.units import LengthUnit, parse_length

EIGHTHS = st.integers(1, 800)
HUNDREDTHS = st.integers(1, 40_000)
SLACK = st.integers(1, 50)


def eighths(count: int) -> str:
    """Write inches and eighths by hand."""
    whole, rest = divmod(count, 8)
    return f"{whole}-{rest}/8 in" if rest else f"{whole} in"


def millimetres(count: int, per: str) -> str:
    """Write the same length in millimetres, by decimal arithmetic."""
    return f"{Decimal(count) * Decimal(per):f} mm"


def lies_within(reading: str, limits: tuple[str, ...], past_nm: int = 0) -> bool:
    """Whether a typed reading lies within typed limits, as checks compare them."""
    reading_nm, target_nm, tolerance_nm = (
        parse_length(text, LengthUnit.FT) for text in (reading, *limits)
    )
    return abs(reading_nm + past_nm - target_nm) <= tolerance_nm


@given(target=EIGHTHS, tolerance=SLACK)
def test_depth_on_its_limit_is_within_in_either_system(target: int, tolerance: int) -> None:
    """Inches and eighths against the same length typed in millimetres, both ways."""
    reading = target + tolerance
    in_us = eighths(reading), eighths(target), eighths(tolerance)
    in_mm = tuple(millimetres(count, "3.175") for count in (reading, target, tolerance))

    for shot in (in_us[0], in_mm[0]):
        for limits in (in_us[1:], in_mm[1:]):
            assert lies_within(shot, limits)
            assert not lies_within(shot, limits, past_nm=1)


@given(target=HUNDREDTHS, tolerance=SLACK)
def test_level_on_its_limit_is_within_in_either_system(target: int, tolerance: int) -> None:
    """Hundredths of a foot against the same length typed in millimetres, below the target."""
    reading = target + 1000 - tolerance
    in_us = tuple(f"{Decimal(n) / 100} ft" for n in (reading, target + 1000, tolerance))
    in_mm = tuple(millimetres(n, "3.048") for n in (reading, target + 1000, tolerance))

    for shot in (in_us[0], in_mm[0]):
        for limits in (in_us[1:], in_mm[1:]):
            assert lies_within(shot, limits)
            assert not lies_within(shot, limits, past_nm=-1)


def test_the_case_that_floats_get_wrong() -> None:
    """98.43 against 98.41 to 0.02 ft is exactly on the limit; as floats it fails."""
    assert lies_within("98.43", ("98.41", "0.02"))
    assert 98.43 - 98.41 > 0.02
