"""Shots as elevations: through setups, turning points and graded planes."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from models.entries.kind_names import COLLECTOR
from models.queries.levelling.elevations import (
    current_inverts,
    current_shots,
    design_of,
    ground_at,
    plane_of,
    point_elevation,
    reduced_shots,
)
from models.state.job_state import JobState
from tests.models.checks.any_job import DESIGN
from tests.models.checks.written_job import Written, written_entries

IN = 25_400_000
FT = 12 * IN
BENCHMARK: Written = {
    "kind": "benchmark",
    "id": "bm",
    "fields": {"benchmark_id": "BM1", "elevation_nm": 100 * FT},
}


def collector(end: str = "outlet", **design: Any) -> Written:
    """A collector that falls 1 in 100, its invert at nothing where its stations begin."""
    fields = {
        "collector_id": "C1",
        "name": "C1",
        "design": {**DESIGN, "stationed_from": end, **design},
    }
    return {"kind": "collector", "fields": fields}


def setup(name: str, point: str, feet: int | None, **more: Any) -> Written:
    """A setup with a backsight of so many feet."""
    read = None if feet is None else feet * FT
    return {
        "kind": "setup",
        "id": f"setup-{name}",
        "fields": {"setup_id": name, "on_point": point, "backsight_nm": read, **more},
    }


def turn(name: str, point: str, feet: int) -> Written:
    """A foresight of so many feet on a turning point."""
    return {
        "kind": "turning_point",
        "fields": {"setup_id": name, "point_id": point, "foresight_nm": feet * FT},
    }


def shot(name: str, station_ft: int, feet: int, on: str = "invert", **more: Any) -> Written:
    """A rod reading of so many feet at a station."""
    fields = {"setup_id": name, "collector_id": "C1", "station_nm": station_ft * FT}
    return {"kind": "grade_shot", "fields": {**fields, "on": on, "reading_nm": feet * FT}, **more}


def state_of(*written: Written) -> JobState:
    """Job state after what was written."""
    return JobState(written_entries(written))


def levels(state: JobState) -> list[Fraction | None]:
    """Elevations of the shots in feet."""
    found = [one.elevation_nm for one in reduced_shots(state, "C1")]
    return [None if nm is None else Fraction(nm) / FT for nm in found]


def test_shot_hangs_from_its_setup() -> None:
    """By hand: 100 + 4 - 9 is 95."""
    assert levels(state_of(BENCHMARK, setup("L1", "BM1", 4), shot("L1", 10, 9))) == [95]


def test_level_is_carried_by_turning_points() -> None:
    """By hand: 100 + 4 - 7 = 97, + 3 = 100, - 6 = 94, + 2 - 1 = 95."""
    state = state_of(
        BENCHMARK,
        setup("L1", "BM1", 4),
        turn("L1", "TP1", 7),
        setup("L2", "TP1", 3),
        turn("L2", "TP2", 6),
        setup("L3", "TP2", 2),
        shot("L3", 0, 1),
    )

    assert point_elevation(state, "TP2") == 94 * FT
    assert levels(state) == [95]


@pytest.mark.parametrize(("end", "level"), [("outlet", 96), ("head", 94)])
def test_graded_plane_falls_with_the_flow(end: str, level: int) -> None:
    """1 in 100 over 100 ft is a foot: up from the outlet, down from the head."""
    graded = {"collector_id": "C1", "plane": "graded", "fall_nm": 1, "run_nm": 100}
    state = state_of(BENCHMARK, collector(end), setup("L1", "BM1", 4, **graded), shot("L1", 100, 9))

    assert levels(state) == [level]


def test_graded_plane_starts_where_the_backsight_was_read() -> None:
    """From station 1+00 the plane has risen nothing there, and a foot by 2+00."""
    graded = {"collector_id": "C1", "plane": "graded", "fall_nm": 1, "run_nm": 100}
    state = state_of(
        BENCHMARK,
        collector(),
        setup("L1", "BM1", 4, at_station_nm=100 * FT, **graded),
        shot("L1", 100, 9),
        shot("L1", 200, 9),
    )

    assert levels(state) == [95, 96]


@pytest.mark.parametrize(
    "written",
    [
        [shot("L1", 0, 9)],
        [setup("L1", "BM1", 4), shot("L1", 0, 9)],
        [BENCHMARK, setup("L1", "BM1", None), shot("L1", 0, 9)],
        [setup("L1", "TP1", 4), turn("L1", "TP1", 2), shot("L1", 0, 9)],
        [
            *(setup("L1", "TP2", 4), turn("L1", "TP1", 2)),
            *(setup("L2", "TP1", 4), turn("L2", "TP2", 2), shot("L2", 0, 9)),
        ],
    ],
)
def test_shot_that_hangs_from_nothing_has_no_elevation(written: list[Written]) -> None:
    """No setup, no benchmark, no backsight, or names in a circle: no level is made up."""
    state = state_of(*written)

    assert levels(state) == [None]
    assert current_inverts(state, "C1") == []


def test_struck_benchmark_takes_its_shots_with_it() -> None:
    """What a level rests on has been crossed out: the level is gone too."""
    strike = {"kind": "struck", "fields": {"why": "wrong pin"}, "strikes": ["bm"]}

    assert levels(state_of(BENCHMARK, setup("L1", "BM1", 4), shot("L1", 0, 9), strike)) == [None]


def test_corrected_backsight_moves_every_shot() -> None:
    """One foot more on the backsight is one foot more under the rod."""
    better = {**setup("L1", "BM1", 5), "id": "better", "strikes": ["setup-L1"]}
    state = state_of(BENCHMARK, setup("L1", "BM1", 4), shot("L1", 0, 9), better)

    assert levels(state) == [96]


def test_newest_shot_at_a_station_stands() -> None:
    """Shot again after rework, a station counts by its last reading, in order of stations."""
    state = state_of(
        BENCHMARK,
        collector(),
        setup("L1", "BM1", 4),
        *(shot("L1", 20, 8), shot("L1", 10, 7), shot("L1", 20, 9)),
        shot("L1", 20, 3, on="bedding"),
    )

    standing = current_shots(state, "C1", "invert")
    assert [(one.station_nm // FT, one.shot.reading_nm // FT) for one in standing] == [
        (10, 7),
        (20, 9),
    ]


def test_obvert_counts_as_an_invert_one_bore_lower() -> None:
    """A 4 in bore: the invert lies 4 in below the obvert that was shot."""
    state = state_of(BENCHMARK, collector(), setup("L1", "BM1", 4), shot("L1", 0, 9, on="obvert"))

    assert [one.elevation_nm for one in current_inverts(state, "C1")] == [95 * FT - 4 * IN]


@pytest.mark.parametrize(
    ("on", "inches"),
    [
        ("invert", 12),
        ("obvert", 16),
        ("bedding", Fraction(23, 2)),
        ("trench_floor", Fraction(21, 2)),
        ("ground", 12),
    ],
)
def test_design_of_everything_that_is_shot(on: str, inches: Fraction) -> None:
    """By hand, 100 ft up: bore 4 in, outside 5 in, so the wall is 1/2 in; bedding 1 in."""
    state = state_of(collector(ground=[{"station_nm": 0, "level_nm": FT}] * 2))
    design = state.latest(COLLECTOR, "C1")
    assert design is not None
    station_nm = 0 if on == "ground" else 100 * FT

    found = design_of(design, on, station_nm)

    assert found is not None
    assert Fraction(found) / IN == inches


@given(station=st.integers(0, 60))
def test_ground_is_straight_between_its_levels(station: int) -> None:
    """0 ft at 0+00, 3 ft at 0+30, 3 ft at 0+60, given in any order."""
    given_levels = [(60, 3), (0, 0), (30, 3)]
    ground = [{"station_nm": at * FT, "level_nm": high * FT} for at, high in given_levels]
    design = state_of(collector(ground=ground)).latest(COLLECTOR, "C1")
    assert design is not None

    assert ground_at(design, station * FT) == Fraction(min(station, 30), 10) * FT


@pytest.mark.parametrize("station_ft", [-1, 61])
def test_ground_is_not_made_up_beyond_its_levels(station_ft: int) -> None:
    """Where the plan gives no ground there is none."""
    ground = [{"station_nm": at * FT, "level_nm": 0} for at in (0, 60)]
    design = state_of(collector(ground=ground)).latest(COLLECTOR, "C1")
    assert design is not None

    assert ground_at(design, station_ft * FT) is None
    assert design_of(design, "ground", station_ft * FT) is None


def test_plane_of_an_unknown_setup_is_none() -> None:
    """Nobody set up, nothing is swept."""
    assert plane_of(JobState(), "L1") is None
