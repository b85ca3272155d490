"""Depth of the trench as planned: where it reaches the limit, to the very nanometre."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from models.entries.bodies.surfaces import Collector
from models.entries.kind_names import COLLECTOR
from models.queries.grade.ground_cover import ground_over
from models.queries.grade.trench_depth import (
    PlannedTrench,
    planned_depth_nm,
    planned_trench,
    protection_limit_nm,
    shot_depths,
)
from models.state.job_state import JobState
from tests.models.checks.any_fields_around import IN
from tests.models.checks.any_job import DESIGN, FT
from tests.models.checks.written_job import written_entries


def planned(levels_ft: list[tuple[int, float]], *more: dict[str, Any], **design: Any) -> JobState:
    """A collector 40 ft long, its invert level at 0 ft, pipe 4 in within 4-1/2 in, bedding 1 in."""
    ground = [{"station_nm": s * FT, "level_nm": round(h * FT)} for s, h in levels_ft]
    told = {
        **DESIGN, "stationed_from": "outlet", "start_invert_nm": 0, "fall_nm": 0,
        "outside_nm": 9 * IN // 2, "protection_depth_nm": 5 * FT, "ground": ground, **design,
    }  # fmt: skip
    fields = {"collector_id": "C1", "name": "Main", "design": told}
    return JobState(written_entries([{"kind": "collector", "fields": fields}, *more]))


def judged(state: JobState) -> PlannedTrench:
    """The trench of the only collector."""
    return planned_trench(state, collector_of(state))


def collector_of(state: JobState) -> Collector:
    """The only collector."""
    found = state.latest(COLLECTOR, "C1")
    assert isinstance(found, Collector)
    return found


WALL_AND_BEDDING = IN // 4 + IN


def test_a_stretch_begins_where_the_depth_meets_the_limit() -> None:
    """By hand: the floor lies 1-1/4 in under 0; ground climbs 4 to 6 ft over 40 ft, 0.6 in a foot.

    5 ft of depth is ground of 4 ft 10-3/4 in, 10-3/4 in above 4 ft: at 10.75 / 0.6 = 17.91667 ft.
    """
    (deep,) = judged(planned([(0, 4), (40, 6)])).deep

    assert Fraction(deep.from_nm, FT) == pytest.approx(Fraction(1075, 60), abs=1e-9)
    assert deep.to_nm == deep.at_nm == 40 * FT
    assert deep.deepest_nm == 6 * FT + WALL_AND_BEDDING


def test_a_trench_exactly_at_the_limit_is_deep_and_a_nanometre_less_is_not() -> None:
    """29 CFR 1926.652(a)(1): from 5 ft on; ground level and floor level run side by side."""
    top = 5 * FT - WALL_AND_BEDDING
    at = {"ground": [{"station_nm": s, "level_nm": top} for s in (0, 40 * FT)]}
    under = {"ground": [{"station_nm": s, "level_nm": top - 1} for s in (0, 40 * FT)]}

    (deep,) = judged(planned([], **at)).deep
    assert (deep.from_nm, deep.to_nm, deep.deepest_nm) == (0, 40 * FT, 5 * FT)
    assert judged(planned([], **under)).deep == ()


def test_a_peak_that_just_touches_the_limit_is_a_stretch_of_no_length() -> None:
    """One station is enough to be told."""
    peak = 5 * FT - WALL_AND_BEDDING
    ground = [(0, FT), (20 * FT, peak), (40 * FT, FT)]
    told = [{"station_nm": s, "level_nm": level} for s, level in ground]
    (deep,) = judged(planned([], ground=told)).deep

    assert (deep.from_nm, deep.to_nm) == (20 * FT, 20 * FT)


def test_wall_and_bedding_bring_a_trench_to_the_limit() -> None:
    """Worked by hand: 4.92 ft down to the invert are 5.02 ft down to the floor, 1.25 in lower."""
    trench = judged(planned([(0, 4.92), (40, 4.92)]))

    assert [float(Fraction(one.deepest_nm) / FT) for one in trench.deep] == [
        pytest.approx(5.024, abs=2e-4)
    ]


def test_neighbours_are_one_stretch_and_others_apart() -> None:
    """Deep at 10 to 20 ft in two pieces, shallow between, deep again at the end."""
    deep = judged(planned([(0, 3), (10, 6), (15, 7), (20, 6), (25, 3), (35, 3), (40, 6)])).deep

    assert [one.at_nm // FT for one in deep] == [15, 40]
    assert deep[0].from_nm < 10 * FT < 20 * FT < deep[0].to_nm < 25 * FT


@pytest.mark.parametrize(("own_ft", "held_ft"), [(4, 4), (5, 5), (6, 5)])
def test_the_stricter_limit_holds(own_ft: int, held_ft: int) -> None:
    """The job's own limit where it asks sooner; 5 ft of 29 CFR 1926.652 where it would not."""
    state = planned([(0, 6), (40, 6)], protection_depth_nm=own_ft * FT)

    assert protection_limit_nm(collector_of(state).design) == held_ft * FT
    assert judged(state).limit_nm == held_ft * FT


def test_ground_that_nobody_knows_is_told() -> None:
    """Ground from 10 to 30 ft: either end has none; with none at all the whole run is told."""
    assert judged(planned([(10, 3), (30, 3)])).unknown == ((0, 10 * FT), (30 * FT, 40 * FT))
    assert judged(planned([])).unknown == ((0, 40 * FT),)


def test_ground_as_shot_wins_over_the_plan() -> None:
    """Planned 3 ft deep; the ground is shot at 6 ft at the middle of the run."""
    shot = [
        {"kind": "benchmark", "fields": {"benchmark_id": "BM1", "elevation_nm": 6 * FT}},
        {"kind": "setup", "fields": {"setup_id": "L1", "on_point": "BM1", "backsight_nm": 2 * FT}},
        {
            "kind": "grade_shot",
            "fields": {
                "setup_id": "L1", "collector_id": "C1", "station_nm": 20 * FT,
                "on": "ground", "reading_nm": 2 * FT,
            },
        },
    ]  # fmt: skip
    (deep,) = judged(planned([(0, 3), (40, 3)], *shot)).deep

    assert deep.at_nm == 20 * FT
    assert deep.deepest_nm == 6 * FT + WALL_AND_BEDDING
    assert shot_depths(planned([(0, 3), (40, 3)], *shot), "C1") == []


@given(
    st.lists(st.tuples(st.integers(0, 40), st.integers(1, 9)), min_size=1, max_size=8),
    st.integers(0, 40 * FT),
)
def test_a_station_is_in_a_stretch_just_when_its_depth_meets_the_limit(
    levels: list[tuple[int, int]], at_nm: int
) -> None:
    """Whatever the ground: the stretches and the depth at a station say the same."""
    state = planned(list(dict(levels).items()))
    depth = planned_depth_nm(collector_of(state), ground_over(state, "C1"), at_nm)
    found = judged(state)
    inside = any(one.from_nm <= at_nm <= one.to_nm for one in found.deep)
    at_edge = any(at_nm in {one.from_nm, one.to_nm} for one in found.deep)

    if depth is not None and not at_edge:
        assert inside == (depth >= found.limit_nm)
