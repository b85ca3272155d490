"""Ground over a collector, as shot or as planned."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from models.entries.bodies.surfaces import Collector
from models.entries.kind_names import COLLECTOR
from models.queries.grade.ground_cover import ground_over
from models.queries.levelling.elevations import ground_at
from models.state.job_state import JobState
from tests.models.checks.written_job import entries_of

FT = 304_800_000
PLAN = ["us job", "BM1", "collector C1", "setup L1"]


@given(station=st.integers(-10 * FT, 210 * FT))
def test_planned_ground_is_straight_between_its_levels(station: int) -> None:
    """Between its levels planned ground is the plain interpolation, beyond them there is none."""
    state = JobState(entries_of({"plan": PLAN, "entries": []}))
    collector = state.latest(COLLECTOR, "C1")

    assert isinstance(collector, Collector)
    assert ground_over(state, "C1")(station) == ground_at(collector, station)


def test_ground_as_shot_comes_before_the_plan() -> None:
    """The shot at 25 ft reads 105 less 4 = 101 ft, where the plan has 100.25 ft."""
    fields = {"setup_id": "L1", "collector_id": "C1", "station_nm": "25 ft"}
    shot = {"kind": "grade_shot", "fields": {**fields, "on": "ground", "reading_nm": "4 ft"}}
    ground = ground_over(JobState(entries_of({"plan": PLAN, "entries": [shot]})), "C1")

    assert ground(25 * FT) == 101 * FT
    assert ground(50 * FT) == 100 * FT + FT // 2


def test_no_ground_where_nobody_planned_it() -> None:
    """A collector that nobody planned has no ground."""
    assert ground_over(JobState(), "C9")(0) is None
