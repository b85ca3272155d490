"""Nets of levels by least squares: their laws, and what they refuse."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from models.errors import CalculationInputError
from models.science.levelling.adjustment import share_correction
from models.science.levelling.level_net import (
    MOST_EXACT,
    MOST_UNKNOWN,
    AdjustedNet,
    KnownLevel,
    NetSight,
    adjust_net,
    chi_square,
)

ONE = Fraction(1)
READINGS = st.integers(0, 4_000_000_000)
BM = {"BM": KnownLevel(100_000_000_000)}


def loop(readings: list[tuple[int, int]], variance: Fraction = ONE) -> list[NetSight]:
    """A run out from BM and back to it: a backsight and a foresight from each set-up."""
    points = ["BM", *(f"TP{n}" for n in range(1, len(readings))), "BM"]
    return [
        sight
        for n, (back, fore) in enumerate(readings)
        for sight in (
            NetSight(f"{n}", points[n], back, variance),
            NetSight(f"{n}", points[n + 1], fore, variance),
        )
    ]


@given(st.lists(st.tuples(READINGS, READINGS), min_size=2, max_size=7))
def test_one_loop_is_shared_by_set_ups(readings: list[tuple[int, int]]) -> None:
    """In one loop of equal sights least squares is the share by set-ups, to the nanometre."""
    net = adjust_net(loop(readings), BM)
    level, raw = BM["BM"].level_nm, []
    for back, fore in readings:
        level += back - fore
        raw.append(level)
    shares = share_correction(raw[-1] - BM["BM"].level_nm, [1] * len(readings))
    moved = [net.levels_nm[f"TP{n}"] - one for n, one in enumerate(raw[:-1], 1)]

    assert [round(one) for one in moved] == shares[:-1]


@given(st.lists(st.tuples(READINGS, READINGS), min_size=2, max_size=5), st.integers(1, 10**6))
def test_readings_that_agree_are_left_alone(readings: list[tuple[int, int]], level: int) -> None:
    """A loop that closes exactly has no residuals, whatever its readings are good to."""
    gap = sum(back - fore for back, fore in readings)
    last = (readings[-1][0] - gap, readings[-1][1])
    net = adjust_net(loop([*readings[:-1], last], Fraction(level)), {"BM": KnownLevel(level)})

    assert {one.residual_nm for one in net.residuals} == {0}
    assert net.unit_weight == 0


def net_with(off_nm: int) -> AdjustedNet:
    """Two loops over three turning points, one reading off by so much."""
    sights = loop([(10, 5), (10, 15), (10, 10)], Fraction(4))
    sights += [NetSight("x", "BM", 10, Fraction(4)), NetSight("x", "TP1", 5, Fraction(4))]
    sights += [
        NetSight("y", "TP1", 10, Fraction(4)),
        NetSight("y", "TP2", 15 + off_nm, Fraction(4)),
    ]
    return adjust_net(sights, {"BM": KnownLevel(100)})


def test_a_blunder_is_named() -> None:
    """The reading that is off has the largest residual over its own standard deviation."""
    worst = net_with(50).worst
    assert worst is not None
    assert worst.sight.setup == "y"
    assert abs(worst.normalised or 0) > 3
    assert not net_with(50).is_as_stated


def test_the_way_a_net_errs_is_held_against_what_was_stated() -> None:
    """No error at all is less than stated, and as unlikely as one that is too large."""
    assert net_with(0).unit_weight == 0
    assert not net_with(0).is_as_stated
    assert net_with(6).is_as_stated


def test_surer_readings_move_less() -> None:
    """Of two set-ups the one that is nine times as sure takes a tenth of the misclosure."""
    sure, rough = Fraction(1), Fraction(9)
    sights = [NetSight("1", "BM", 20, sure), NetSight("1", "TP", 10, sure)]
    sights += [NetSight("2", "TP", 10, rough), NetSight("2", "BM", 10, rough)]
    net = adjust_net(sights, {"BM": KnownLevel(100)})

    assert net.levels_nm["TP"] == 110 - 1


def test_a_benchmark_that_is_not_sure_takes_part() -> None:
    """A benchmark with an error of its own is moved; one without is held."""
    sights = [NetSight("1", "A", 10, ONE), NetSight("1", "B", 10, ONE)]
    held = adjust_net(sights, {"A": KnownLevel(0), "B": KnownLevel(8)})
    free = adjust_net(sights, {"A": KnownLevel(0), "B": KnownLevel(8, Fraction(2))})

    assert held.levels_nm["B"] == 8
    assert free.levels_nm["B"] == 4
    assert (held.sigmas_nm["B"], free.sigmas_nm["B"]) == (0, 1)


def test_a_large_net_is_solved_in_floats_to_the_nanometre() -> None:
    """Beyond the size that is solved in fractions one loop is still the share by set-ups."""
    count = MOST_EXACT
    readings = [(1_500_000_000 + 7 * n, 1_500_000_000) for n in range(count)]
    net = adjust_net(loop(readings), {"BM": KnownLevel(0)})
    gap = sum(back - fore for back, fore in readings)
    middle = count // 2
    raw = sum(7 * n for n in range(middle))

    assert float(net.levels_nm[f"TP{middle}"]) == pytest.approx(raw - gap / 2, abs=0.5)


def test_what_no_other_reading_checks_has_no_normalised_residual() -> None:
    """A side shot has no residual to speak of, and a net without surplus no unit weight."""
    net = adjust_net(
        [NetSight("1", "BM", 5, ONE), NetSight("1", "P", 3, ONE)], {"BM": KnownLevel(1)}
    )

    assert net.levels_nm["P"] == 3
    assert [one.normalised for one in net.residuals] == [None, None]
    assert (net.unit_weight, net.is_as_stated, net.worst) == (None, True, None)


@pytest.mark.parametrize(
    ("sights", "known", "why"),
    [
        ([NetSight("1", "A", 1, ONE)], {}, "no point"),
        ([NetSight("1", "A", 1, Fraction(0))], {"A": KnownLevel(0)}, "no error"),
        (
            [NetSight("1", "A", 1, ONE), NetSight("2", "B", 1, ONE)],
            {"A": KnownLevel(0)},
            "hangs from nothing",
        ),
        (
            [NetSight(f"{n}", "A", 1, ONE) for n in range(MOST_UNKNOWN + 1)],
            {"A": KnownLevel(0)},
            "would have to be found",
        ),
    ],
    ids=["nothing known", "no error", "apart", "too many"],
)
def test_a_net_that_cannot_be_solved_is_refused(
    sights: list[NetSight], known: dict[str, KnownLevel], why: str
) -> None:
    """The refusal says what is missing."""
    with pytest.raises(CalculationInputError, match=why):
        adjust_net(sights, known)


@pytest.mark.parametrize(("share", "freedom"), [(0.0, 1), (1.0, 1), (0.5, 0)])
def test_a_chi_square_out_of_range_is_refused(share: float, freedom: int) -> None:
    """A probability is between 0 and 1, and something has to be left over."""
    with pytest.raises(CalculationInputError):
        chi_square(share, freedom)
