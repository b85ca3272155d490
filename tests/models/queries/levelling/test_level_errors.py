"""What elevations rest on, from the benchmark to the rod, and what verdicts on them are worth."""

from __future__ import annotations

import random
from collections.abc import Callable, Mapping
from fractions import Fraction
from typing import Any

import pytest

from models.queries.levelling.level_errors import (
    SetupErrors,
    confidence_of,
    setup_errors,
    turning_terms,
)
from models.science.levelling.laser_plane import Length
from models.science.levelling.uncertainty import ErrorSource, Level, Terms, difference, variance
from models.science.quality.verdict import Z_OF, Verdict, judge_margin
from models.state.job_state import JobState
from tests.models.checks.written_job import entries_of

M_NM = 10**9
READING_NM = 1_524_000  # 0.005 ft


def job(*written: tuple[str, Mapping[str, Any]]) -> JobState:
    """A job with a benchmark, a collector and what was written."""
    entries = [{"kind": kind, "fields": dict(fields)} for kind, fields in written]
    return JobState(entries_of({"plan": ["BM1", "collector C1"], "entries": entries}))


def setup(name: str, on: str, **fields: Any) -> tuple[str, dict[str, Any]]:
    """A setup that looks back on a point."""
    return "setup", {"setup_id": name, "on_point": on, "backsight_nm": "5 ft", **fields}


def turn(name: str, point: str, **fields: Any) -> tuple[str, dict[str, Any]]:
    """A turning point read from a setup."""
    return "turning_point", {
        "setup_id": name,
        "point_id": point,
        "foresight_nm": "4 ft",
        **fields,
    }


def run_of(turns: int) -> JobState:
    """A run of level setups with a turning point between each two."""
    written = [setup("L1", "BM1")]
    for number in range(1, turns + 1):
        written += [turn(f"L{number}", f"TP{number}"), setup(f"L{number + 1}", f"TP{number}")]
    return job(*written, turn(f"L{turns + 1}", "END"))


def errors_of(state: JobState, setup_id: str) -> SetupErrors:
    """What shots from a setup rest on."""
    found = setup_errors(state, setup_id)
    assert found is not None
    return found


def sigma_mm(terms: Terms) -> float:
    """Standard deviation in millimetres."""
    return float(variance(terms)) ** 0.5 / 1e6


def fall(state: JobState, one: tuple[str, int], other: tuple[str, int]) -> Terms:
    """Terms of the difference of two shots, each from a setup at a station."""
    levels = [
        Level(0, errors_of(state, name).terms_at(at_nm, f"{name} {at_nm}"))
        for name, at_nm in (one, other)
    ]
    return difference(*levels).terms


@pytest.mark.parametrize(
    ("reach_m", "sigma", "guard"),
    [
        (3, 1.247, 0.068),
        (5, 1.252, 0.041),
        (10, 1.275, 0.021),
        (20, 1.364, 0.011),
        (50, 1.873, 0.0062),
        (100, 3.063, 0.0050),
    ],
)
def test_fall_of_a_reach_from_one_setup(reach_m: int, sigma: float, guard: float) -> None:
    """Two readings of 0.88 mm, and a tilt of 2.8 mm in 100 m that no length makes smaller.

    Worked by hand; the guard band is that of the grade at 95 %, in per cent.
    """
    found = sigma_mm(fall(job(setup("L1", "BM1")), ("L1", 0), ("L1", reach_m * M_NM)))

    assert found == pytest.approx(sigma, abs=0.0006)
    assert 1.645 * found / (reach_m * 1000) * 100 == pytest.approx(guard, rel=0.03)


@pytest.mark.parametrize(
    ("turns", "sigma", "guard"), [(0, 1.72, 2.8), (1, 2.48, 4.1), (2, 3.06, 5.0), (3, 3.55, 5.8)]
)
def test_elevation_through_turning_points(turns: int, sigma: float, guard: float) -> None:
    """Sights of 30 m where none is noted; worked by hand, in millimetres."""
    terms = turning_terms(run_of(turns), "END")
    assert terms is not None
    # of the point itself: its seat counts once another setup looks back on it
    without_seat = {source: one for source, one in terms.items() if source.name != "seat of END"}
    found = sigma_mm(without_seat)

    assert found == pytest.approx(sigma, abs=0.006)
    assert 1.645 * found == pytest.approx(guard, abs=0.06)


@pytest.mark.parametrize("turns", range(4))
def test_a_run_gives_two_readings_a_setup(turns: int) -> None:
    """A chain of k turning points rests on 2 (k + 1) readings and as many directions."""
    terms = turning_terms(run_of(turns), "END")
    assert terms is not None
    names = [source.name for source in terms]

    assert sum("direction" in name for name in names) == 2 * (turns + 1)
    assert sum(name.startswith(("backsight of", "foresight on")) for name in names) == 2 * (
        turns + 1
    )


def test_what_two_shots_share_is_in_no_difference() -> None:
    """A fall from one setup rests on no benchmark, no backsight and no turning point."""
    bench = ("benchmark", {"benchmark_id": "BM1", "elevation_nm": "100 ft", "sd_nm": "0.1 ft"})
    state = job(bench, setup("L1", "BM1"), turn("L1", "TP1"), setup("L2", "TP1"))
    own = errors_of(state, "L2").terms_at(0, "shot")
    shared = fall(state, ("L2", 0), ("L2", 30 * M_NM))

    assert any(source.name == "benchmark BM1" for source in own)
    assert sorted(source.name for source in shared) == ["L2 0", f"L2 {30 * M_NM}", "tilt of L2"]


def test_two_setups_differ_by_what_they_do_not_share() -> None:
    """Through a turning point the first backsight drops out, and the benchmark with it."""
    state = job(setup("L1", "BM1"), turn("L1", "TP1"), setup("L2", "TP1"))
    names = [source.name for source in fall(state, ("L2", 0), ("L1", 0))]

    assert "backsight of L1" not in names
    assert {"foresight on TP1", "backsight of L2", "seat of TP1"} <= set(names)


@pytest.mark.parametrize("times", [2, 7])
def test_scaling_lengths_scales_the_tilt_alone(times: int) -> None:
    """What two readings are worth does not grow with the reach, the tilt does in proportion."""
    state = job(setup("L1", "BM1"))
    near, far = (fall(state, ("L1", 0), ("L1", one * M_NM)) for one in (10, 10 * times))
    parts = [
        (
            variance({source: one for source, one in terms.items() if "tilt" in source.name}),
            variance({source: one for source, one in terms.items() if "tilt" not in source.name}),
        )
        for terms in (near, far)
    ]

    assert parts[1][0] == times**2 * parts[0][0]
    assert parts[1][1] == parts[0][1] > 0


def test_a_dialled_grade_is_off_as_well() -> None:
    """A plane dialled to a grade has its tilt and what the dial is off, alike in size."""
    state = job(
        setup("L1", "BM1", collector_id="C1", plane="graded", fall_nm="1 ft", run_nm="100 ft"),
        setup("L2", "BM1"),
    )
    graded, level = (sigma_mm(fall(state, (name, 0), (name, 100 * M_NM))) for name in ("L1", "L2"))

    assert graded**2 - level**2 == pytest.approx(7.834, abs=0.01)  # 2.799 mm squared


def test_sights_of_one_length_hide_the_line_of_sight() -> None:
    """The cone of a line of sight off level counts by the difference of two sights alone."""
    state = job(setup("L1", "BM1", stands_at_nm=40 * M_NM, backsight_far_nm=40 * M_NM))
    cone = errors_of(state, "L1").cone
    assert cone is not None
    balanced, far = (errors_of(state, "L1").terms_at(at * M_NM, "shot") for at in (80, 120))

    assert balanced[cone] == 0
    assert far[cone] == 40 * M_NM


def test_curvature_counts_where_sights_are_noted_unequal() -> None:
    """0.683 mm of curvature less refraction in 100 m, worked by hand, and nothing where equal."""
    sights = {"backsight_far_nm": 0}, {"backsight_far_nm": 100 * M_NM}
    found = []
    for noted in sights:
        terms = turning_terms(
            job(setup("L1", "BM1", **noted), turn("L1", "A", far_nm=100 * M_NM)), "A"
        )
        assert terms is not None
        found.append(sum(one for source, one in terms.items() if source.name == "curvature"))

    assert found[0] == pytest.approx(682_781, abs=1)
    assert found[1] == 0


def test_an_instrument_states_its_own_error() -> None:
    """Ten times the stated error is ten times the tilt; one of none stands for 10 arc seconds."""
    laser = {"instrument_id": "one", "what": "rotating_laser", "rod_step_nm": 0}
    state = job(
        ("instrument", {**laser, "plane_asec10": 1000}),
        setup("L1", "BM1", instrument_id="one", reading_error_nm=0),
        setup("L2", "BM1", reading_error_nm=0),
    )
    stated, assumed = (fall(state, (name, 0), (name, 10 * M_NM)) for name in ("L1", "L2"))

    assert sigma_mm(stated) == pytest.approx(10 * sigma_mm(assumed), rel=1e-9)
    assert (errors_of(state, "L1").is_stated, errors_of(state, "L2").is_stated) == (True, False)


def test_a_setup_that_hangs_from_nothing_rests_on_nothing() -> None:
    """Without a benchmark at the end of its chain no shot has an elevation to judge."""
    state = job(setup("L1", "nowhere"))

    assert setup_errors(state, "L1") is None
    assert turning_terms(state, "nowhere") is None


@pytest.mark.parametrize("percent", [90, 95, 99])
def test_the_job_says_how_sure_a_verdict_must_be(percent: int) -> None:
    """One-sided quantiles of the normal distribution, 95 % where a job says nothing."""
    said = {"job_id": "j", "name": "Job", "confidence_percent": percent}

    assert confidence_of(job(("job", said))) == Z_OF[percent]
    assert confidence_of(job()) == Fraction(1645, 1000)


def drawn(source: ErrorSource, dice: random.Random) -> float:
    """An error of a source: normal for the seat of a point, else rectangular."""
    sigma = float(variance({source: 1})) ** 0.5
    return (
        dice.gauss(0, sigma)
        if source.name.startswith("seat")
        else dice.uniform(-1, 1) * (sigma * 3**0.5)
    )


def share_called_ok(terms: Terms, is_ok: Callable[[float], bool], seed: int) -> float:
    """Share of trials in which a fall that lies on its limit is called OK, in per cent."""
    dice, trials = random.Random(seed), 20_000
    weights: list[tuple[ErrorSource, Length]] = list(terms.items())
    found = sum(
        is_ok(sum(float(weight) * drawn(source, dice) for source, weight in weights))
        for _ in range(trials)
    )
    return 100 * found / trials


@pytest.mark.parametrize(
    ("ends", "by_readings_alone", "by_guard_band"),
    [
        ((("L1", 0), ("L1", 0)), 4.3, 5.4),
        ((("L1", 0), ("L0", 0)), 11.5, 5.1),
        ((("L2", 0), ("L0", 0)), 17.0, 5.1),
    ],
    ids=["one setup", "two setups", "through a turning point"],
)
def test_of_falls_on_their_limit_one_in_twenty_is_called_proven(
    ends: tuple[tuple[str, int], tuple[str, int]],
    by_readings_alone: float,
    by_guard_band: float,
) -> None:
    """By trial, seeded: a guard band of 95 % lets through what it states, whatever the way.

    To hold a fall against its two readings alone, as r times the root of 2, lets through
    more the more stands between them. Both figures were worked out beforehand.
    """
    state = job(setup("L0", "BM1"), setup("L1", "BM1"), turn("L0", "TP1"), setup("L2", "TP1"))
    (one, _), (other, _) = ends
    levels = [
        errors_of(state, name).terms_at(0, f"shot {n}") for n, name in enumerate((one, other))
    ]
    terms = difference(*(Level(0, one) for one in levels)).terms
    spread, z = variance(terms), Z_OF[95]

    def by_rule(error: float) -> bool:
        return judge_margin(Fraction(round(error)), spread, z) is Verdict.OK

    def by_readings(error: float) -> bool:
        return error >= READING_NM * 2**0.5

    assert share_called_ok(terms, by_readings, 1) == pytest.approx(by_readings_alone, abs=0.6)
    assert share_called_ok(terms, by_rule, 2) == pytest.approx(by_guard_band, abs=0.5)
