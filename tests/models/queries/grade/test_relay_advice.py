"""Advice on the least re-lay of a collector, by hand-worked profiles."""

from __future__ import annotations

from typing import Any

from models.queries.grade.relay_advice import Move, relay_advice
from models.state.job_state import JobState
from tests.models.checks.written_job import entries_of

FT = 304_800_000
PLAN = ["us job", "BM1", "collector C1", "setup L1"]


def shot(station_ft: int, reading: str) -> dict[str, Any]:
    """An invert at a station; on grade it reads 7 ft less a hundredth of the station."""
    fields = {"setup_id": "L1", "collector_id": "C1", "station_nm": f"{station_ft} ft"}
    return {"kind": "grade_shot", "fields": {**fields, "on": "invert", "reading_nm": reading}}


def job(*shots: dict[str, Any], plan: list[str] = PLAN) -> JobState:
    """A job with a collector at one percent and the shots given."""
    return JobState(entries_of({"plan": plan, "entries": list(shots)}))


def test_low_place_is_lifted_between_the_shots_beside_it() -> None:
    """The shot at 50 ft is 0.20 ft low: it alone comes up, and 50 ft of pipe with it."""
    state = job(shot(0, "7 ft"), shot(25, "6.75 ft"), shot(50, "6.7 ft"), shot(75, "6.25 ft"))

    found = relay_advice(state, "C1")

    assert found is not None
    assert found.keep_nm == (0, 25 * FT, 75 * FT)
    assert found.lift == (Move(50 * FT, FT // 5),)
    assert found.lower == ()
    assert found.disturbed_nm == 50 * FT
    assert found.is_needed


def test_high_shot_is_lowered() -> None:
    """The shot at 25 ft is 0.10 ft high: straight between its neighbours it goes down as much."""
    found = relay_advice(job(shot(0, "7 ft"), shot(25, "6.65 ft"), shot(50, "6.5 ft")), "C1")

    assert found is not None
    assert found.lower == (Move(25 * FT, -FT // 10),)
    assert found.lift == ()


def test_good_pipe_is_left_alone() -> None:
    """On both limits of tolerance nothing has to move."""
    found = relay_advice(job(shot(0, "7.04 ft"), shot(25, "6.71 ft")), "C1")

    assert found is not None
    assert not found.is_needed
    assert found.keep_nm == (0, 25 * FT)
    assert found.disturbed_nm == 0


def test_outlet_off_grade_rules_every_plan_out() -> None:
    """The shot nearest to the outlet stays, so nothing cures it but a new one."""
    found = relay_advice(job(shot(0, "7.05 ft"), shot(25, "6.75 ft")), "C1")

    assert found is not None
    assert found.is_needed
    assert found.stuck_nm == (0, 0)
    assert "fixed" in found.no_way


def test_head_is_where_the_stations_say() -> None:
    """Stationed from the head the outlet is the last shot, and the first one moves."""
    state = job(
        {**shot(0, "7.2 ft"), "fields": {**shot(0, "7.2 ft")["fields"], "collector_id": "C2"}},
        {**shot(25, "7.25 ft"), "fields": {**shot(25, "7.25 ft")["fields"], "collector_id": "C2"}},
        plan=["us job", "BM1", "collector C2 from its head", "setup L1"],
    )

    found = relay_advice(state, "C2")

    assert found is not None
    assert found.keep_nm == (25 * FT,)
    assert [move.station_nm for move in found.lift] == [0]


def test_nothing_to_advise_without_two_shots_or_a_plan() -> None:
    """One shot is no reach, and without a plan there is nothing to be off."""
    assert relay_advice(job(shot(0, "7 ft")), "C1") is None
    assert (
        relay_advice(job(shot(0, "7 ft"), shot(25, "6 ft"), plan=["BM1", "setup L1"]), "C1") is None
    )
    assert relay_advice(JobState(), "C1") is None
