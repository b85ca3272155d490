"""Chips lie on natural steps and reach past both limits."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from crewapp.kit.input.chips import INCH_STEPS_NM, MOST_CHIPS, chips

INCH_NM = 25_400_000


def test_eighths_round_nine_inches() -> None:
    """9 in with a quarter either way: from 8-5/8 to 9-3/8 by eighths."""
    found = chips(
        9 * INCH_NM,
        35 * INCH_NM // 4,
        37 * INCH_NM // 4,
        INCH_STEPS_NM,
        lambda v: f"{v / INCH_NM:g}",
    )

    assert [chip.text for chip in found] == [
        "8.625", "8.75", "8.875", "9", "9.125", "9.25", "9.375"
    ]  # fmt: skip


@given(
    design=st.integers(1, 40).map(lambda n: n * 3_175_000),
    under=st.integers(0, 50_000_000),
    over=st.integers(0, 50_000_000),
)
def test_row_reaches_past_both_limits(design: int, under: int, over: int) -> None:
    """The design is a chip, one lies beyond each limit (but not below nothing)."""
    low, high = design - under, design + over
    found = [chip.value for chip in chips(design, low, high, INCH_STEPS_NM, str)]

    assert design in found
    assert found == sorted(set(found))
    assert found[-1] > high
    assert found[0] < low or found[0] - INCH_STEPS_NM[-1] < 0
    assert len(found) <= MOST_CHIPS
