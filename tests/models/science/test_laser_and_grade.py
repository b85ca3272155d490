"""Laser planes, deviations, grades, and what readings cannot tell."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from models.errors import CalculationInputError
from models.science.grade.profile import Shot, in_order
from models.science.grade.reach_grade import GradeLimits, length_to_tell_nm, margin_nm
from models.science.levelling.collimation import (
    PegReadings,
    collimation_error,
    corrected_reading_nm,
)
from models.science.levelling.laser_plane import (
    GradeLine,
    Stationing,
    elevation_at_nm,
    laser_plane,
    rod_on_grade_nm,
    shot_elevation_nm,
)
from models.science.quality.verdict import Verdict, judge, judge_margin

GRADES = st.fractions(Fraction(-1, 20), Fraction(1, 20), max_denominator=2000)
STATIONS = st.integers(0, 10**12)
LEVELS = st.integers(-(10**12), 10**12)
STATIONINGS = st.sampled_from(Stationing)

ONE = Fraction(1)


def exact(fall_nm: int | Fraction, length_nm: int, limits: GradeLimits) -> Verdict:
    """Judge a grade from readings that are exact."""
    return judge_margin(margin_nm(fall_nm, length_nm, limits), Fraction(0), ONE)


@given(GRADES, LEVELS, STATIONINGS, STATIONS, STATIONS)
def test_reading_on_a_dialled_grade_is_constant(
    grade: Fraction, invert_nm: int, stationing: Stationing, benchmark_at_nm: int, at_nm: int
) -> None:
    """With the plane dialled to the design grade every shot on design reads the same."""
    design = GradeLine(invert_nm, 0, grade, stationing)
    plane = laser_plane(invert_nm, 1_500_000_000, benchmark_at_nm, grade, stationing)
    here = rod_on_grade_nm(plane, design, at_nm)

    assert here == rod_on_grade_nm(plane, design, benchmark_at_nm)


@given(GRADES, LEVELS, STATIONINGS, STATIONS)
def test_a_rod_on_grade_shoots_the_design(
    grade: Fraction, invert_nm: int, stationing: Stationing, at_nm: int
) -> None:
    """A reading equal to the one worked out lies exactly on design, level plane or not."""
    design = GradeLine(invert_nm, 0, grade, stationing)
    plane = laser_plane(invert_nm + 7, 1_500_000_000)
    rod_nm = round(rod_on_grade_nm(plane, design, at_nm))
    shot_nm = shot_elevation_nm(plane, at_nm, rod_nm)

    assert abs(shot_nm - elevation_at_nm(design, at_nm)) <= Fraction(1, 2)


@given(GRADES, STATIONINGS, st.integers(1, 10**11))
def test_shots_on_design_have_the_design_grade(
    grade: Fraction, stationing: Stationing, length_nm: int
) -> None:
    """Whichever end stations start from, fall with the flow is positive."""
    design = GradeLine(0, 0, grade, stationing)
    low_nm, high_nm = (elevation_at_nm(design, at) for at in (0, length_nm))
    fall_nm = stationing.climb * (high_nm - low_nm)

    assert fall_nm / length_nm == grade
    assert exact(fall_nm, length_nm, GradeLimits(grade, grade)) is Verdict.OK
    assert (exact(fall_nm, length_nm, GradeLimits(Fraction(0))) is Verdict.OUT) is (grade < 0)


@given(st.integers(-(10**9), 10**9), st.integers(1, 10**12), GRADES, st.integers(0, 10**7))
def test_a_verdict_is_proven_outside_the_guard_band_alone(
    fall_nm: int, length_nm: int, least: Fraction, sigma_nm: int
) -> None:
    """Away from its edges the exact verdict is the one of the formula in floats."""
    z = Fraction(1645, 1000)
    margin = Fraction(margin_nm(fall_nm, length_nm, GradeLimits(least)))
    verdict = judge_margin(margin, Fraction(sigma_nm) ** 2, z)
    guard = 1.645 * sigma_nm
    if abs(abs(margin) - guard) < 1e-3 + 1e-9 * abs(margin):
        return
    proven = Verdict.OK if margin >= 0 else Verdict.OUT
    as_read = Verdict.WITHIN if margin >= 0 else Verdict.BEYOND
    assert verdict is (as_read if abs(margin) < guard else proven)


def test_a_grade_on_its_limit_is_within_and_one_nanometre_decides() -> None:
    """With exact readings four verdicts are two, and the limits are inclusive."""
    limits = GradeLimits(Fraction(1, 100), Fraction(2, 100))
    verdicts = [exact(fall, 10_000, limits) for fall in (99, 100, 200, 201)]

    assert verdicts == [Verdict.OUT, Verdict.OK, Verdict.OK, Verdict.OUT]


@given(
    st.fractions(Fraction(1, 10_000), Fraction(1, 10), max_denominator=10_000),
    st.integers(1, 10**7),
    st.fractions(0, Fraction(1, 50_000), max_denominator=10**6),
)
def test_the_length_that_would_tell_does(margin: Fraction, sigma_nm: int, tilt: Fraction) -> None:
    """On that length the verdict is proven, one nanometre shorter it is not."""
    fixed, z = Fraction(sigma_nm) ** 2, Fraction(1645, 1000)
    length_nm = length_to_tell_nm(margin, fixed, tilt**2, z)
    assert length_nm is not None

    def on(reach_nm: int) -> Verdict:
        return judge_margin(margin * reach_nm, fixed + tilt**2 * reach_nm**2, z)

    assert on(length_nm) is Verdict.OK
    assert on(length_nm - 1) is Verdict.WITHIN


def test_no_length_proves_a_grade_nearer_to_its_limit_than_the_tilt_of_the_plane() -> None:
    """A tilt of ten arc seconds is worth 0.0046 % of grade at 95 % on any length."""
    tilt = Fraction(4848, 10**8) ** 2 / 3
    near, off = Fraction(46, 10**6), Fraction(47, 10**6)
    z = Fraction(1645, 1000)

    assert length_to_tell_nm(near, Fraction(1), tilt, z) is None
    assert length_to_tell_nm(off, Fraction(1), tilt, z) is not None


def test_half_an_inch_off_is_within_half_an_inch() -> None:
    """City of Carmel: relay if more than 1/2 in off grade; exactly 1/2 in stands."""
    design = GradeLine(0, 0, Fraction(1, 300))
    half_in_nm, at_nm = 12_700_000, 304_800_001
    on = elevation_at_nm(design, at_nm)
    offs = [shot - on for shot in (on + half_in_nm, on + half_in_nm + Fraction(1, 9))]

    assert [judge(off, -half_in_nm, half_in_nm) for off in offs] == [Verdict.OK, Verdict.OUT]


@pytest.mark.parametrize("stations", [[0, 0], [5, 3]])
def test_shots_out_of_order_are_refused(stations: list[int]) -> None:
    """The refusal says which shot."""
    with pytest.raises(CalculationInputError, match="shot 2"):
        in_order([Shot(at, 0) for at in stations])


def test_a_grade_needs_a_length_and_a_limit() -> None:
    """Nothing is divided by nothing, and a grade on its limit is proven by no length."""
    with pytest.raises(CalculationInputError):
        margin_nm(1, 0, GradeLimits(Fraction(0)))
    with pytest.raises(CalculationInputError):
        margin_nm(1, 1, GradeLimits())
    assert length_to_tell_nm(Fraction(0), Fraction(1), Fraction(0), ONE) is None


@given(st.fractions(-1, 1, max_denominator=1000), st.integers(1, 500), st.integers(0, 400))
def test_a_known_collimation_error_is_found(error: Fraction, far: int, near: int) -> None:
    """Readings made with an error give it back, from either place of the second setup."""
    scale = 1000 * error.denominator
    far_nm, near_nm = far * scale, near * scale
    seen_far, seen_near = 7 * scale + error * far_nm, 4 * scale + error * near_nm
    pegs = PegReadings(7 * scale, 4 * scale, int(seen_far), int(seen_near), far_nm, near_nm)
    if far == near:
        with pytest.raises(CalculationInputError):
            collimation_error(pegs)
        return

    assert collimation_error(pegs) == error
    assert corrected_reading_nm(pegs.end_a_nm, far_nm, error) == 7 * scale
