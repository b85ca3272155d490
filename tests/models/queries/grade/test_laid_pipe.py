"""A collector as its shots show it: levels, faults told once, the memo."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from typing import Any

from hypothesis import given
from hypothesis import strategies as st

from models.queries.grade.laid_pipe import Fault, height_along, inverts, laid_pipe, newest_shots
from models.queries.levelling.elevations import current_inverts, current_shots
from models.science.levelling.laser_plane import GradeLine, Stationing, elevation_at_nm
from models.state.job_state import JobState
from tests.models.checks.written_job import entries_of

FT = 304_800_000
PLAN = ["us job", "BM1", "collector C1", "setup L1"]

nanometres = st.integers(-(10**13), 10**13)
readings = st.lists(
    st.tuples(st.integers(0, 8), st.integers(600, 760), st.sampled_from(["invert", "obvert"])),
    max_size=12,
)


def shot(station_ft: int, hundredths: int, on: str = "invert") -> dict[str, Any]:
    """A shot whose reading is given in hundredths of a foot."""
    fields = {"setup_id": "L1", "collector_id": "C1", "station_nm": station_ft * FT}
    return {
        "kind": "grade_shot",
        "fields": {**fields, "on": on, "reading_nm": hundredths * FT // 100},
    }


def job(shots: Sequence[dict[str, Any]]) -> JobState:
    """A job with a collector at one percent and the shots given."""
    return JobState(entries_of({"plan": PLAN, "entries": list(shots)}))


@given(
    level=nanometres,
    start=nanometres,
    station=nanometres,
    fall=st.integers(-1000, 1000),
    run=st.integers(1, 1000),
    end=st.sampled_from(list(Stationing)),
)
def test_height_along_is_the_line_exactly(
    level: int, start: int, station: int, fall: int, run: int, end: Stationing
) -> None:
    """The quick way and the plain formula give one height, whole or not."""
    line = GradeLine(level, start, Fraction(fall, run), end)

    assert height_along(line)(station) == elevation_at_nm(line, station)


@given(taken=readings)
def test_standing_levels_are_those_of_the_shots(taken: list[tuple[int, int, str]]) -> None:
    """Inverts and shots stand as the plain reduction has them."""
    state = job([shot(station * 5, hundredths, on) for station, hundredths, on in taken])
    bore_nm = FT // 3

    plain = [(one.station_nm, one.elevation_nm) for one in current_inverts(state, "C1")]
    assert [(one.station_nm, one.level_nm) for one in inverts(state, "C1", bore_nm)] == plain
    for on in ("invert", "obvert"):
        levels = {one.station_nm: one.elevation_nm for one in current_shots(state, "C1", on)}
        quick = newest_shots(state, "C1").get(on, {})
        assert {station: one.level_nm for station, one in quick.items()} == levels


@given(taken=readings)
def test_a_reach_is_never_told_beside_an_end_that_is_told(
    taken: list[tuple[int, int, str]],
) -> None:
    """One fault, one finding: a reach is silent when one of its ends is off grade."""
    state = job([shot(station * 5, hundredths, on) for station, hundredths, on in taken])
    pipe = laid_pipe(state, "C1")

    assert pipe is not None
    for reach in pipe.reaches:
        if Fault.OFF_GRADE in (reach.low.fault, reach.high.fault):
            assert reach.fault in (Fault.NONE, Fault.BELLY)


def test_new_shot_is_seen() -> None:
    """What was worked out for an older state is thrown away by the next entry."""
    entries = entries_of({"plan": PLAN, "entries": [shot(0, 700), shot(25, 600)]})
    state = JobState(entries[:-1])
    before = laid_pipe(state, "C1")
    state.add(entries[-1])
    after = laid_pipe(state, "C1")

    assert before is not None
    assert after is not None
    assert [len(before.shots), len(after.shots)] == [1, 2]


def test_pipe_without_a_plan_is_not_judged() -> None:
    """Nothing is known of a collector that nobody planned."""
    assert laid_pipe(job([shot(0, 700)]), "C9") is None
