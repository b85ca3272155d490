"""Advice on the least re-lay of a collector, by hand-worked profiles."""

from __future__ import annotations

import json
from typing import Any

from models.queries.grade.fixed_pipe import shots_beside
from models.queries.grade.relay_advice import Move, relay_advice, relay_answers
from models.state.job_state import JobState
from tests.models.checks.written_job import CASES, entries_of

FT = 304_800_000
PLANS = json.loads((CASES / "_plans.json").read_text("utf-8"))
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


def written(kind: str, **fields: Any) -> dict[str, Any]:
    """Something written of collector C1."""
    return {"kind": kind, "fields": {"collector_id": "C1", **fields}}


JOINING = {
    "kind": "collector",
    "fields": {
        **PLANS["collector C2 from its head"][0]["fields"],
        "joins": {"collector_id": "C1", "station_nm": 50 * FT},
    },
}
"""Collector C2, planned to join C1 at 50 ft."""

LOW = (shot(0, "7 ft"), shot(25, "6.75 ft"), shot(50, "6.7 ft"), shot(75, "6.25 ft"))
"""The shot at 50 ft is 0.20 ft low."""


def released(low_ft: int, high_ft: int) -> dict[str, Any]:
    """Leave to cover a stretch."""
    return written("hold_point", from_nm=low_ft * FT, to_nm=high_ft * FT, released_by="Ana")


def test_what_is_covered_is_left_where_that_will_do() -> None:
    """A stretch that was released and has nothing wrong with it stays out of the re-lay."""
    (found,) = relay_answers(job(*LOW, released(0, 25)), "C1")

    assert found.leaves == "covered"
    assert [move.station_nm for move in found.lift] == [50 * FT]
    assert found.opens_nm == 25 * FT  # its end at 25 ft is covered; the reach from there comes up


def test_what_is_covered_is_opened_where_nothing_else_will_do() -> None:
    """A low shot that was released can't stay: the first answer has no way, the second opens it."""
    first, second = relay_answers(job(*LOW, released(40, 60)), "C1")

    assert (first.leaves, first.stuck_nm) == ("covered", (50 * FT, 50 * FT))
    assert first.no_way
    assert not second.no_way
    assert [move.station_nm for move in second.lift] == [50 * FT]
    assert second.opens_nm == 50 * FT
    assert relay_advice(job(*LOW, released(40, 60)), "C1") == second


def test_a_layer_under_the_pipe_covers_nothing() -> None:
    """Bedding lies beneath; surround lies on it, once it is placed after the shot."""
    layer = {"from_nm": 40 * FT, "to_nm": 60 * FT}
    under = relay_answers(job(*LOW, written("layer_check", layer="bedding", **layer)), "C1")
    over = relay_answers(job(*LOW, written("layer_check", layer="surround", **layer)), "C1")
    before = relay_answers(job(written("layer_check", layer="surround", **layer), *LOW), "C1")

    assert [len(one) for one in (under, over, before)] == [1, 2, 1]


def test_a_collector_that_joins_holds_the_pipe_until_nothing_else_will_do() -> None:
    """A junction at the low shot has to be made again, which the last answer says."""
    state = job(*LOW, JOINING)
    first, last = relay_answers(state, "C1")

    assert first.stuck_nm == (50 * FT, 50 * FT)
    assert (last.leaves, last.joints) == ("", ("C2",))
    assert last.opens_nm == 0


def test_a_joint_between_two_shots_holds_both() -> None:
    """Nobody knows the level of the pipe between them, so neither is moved under it."""
    assert shots_beside([0, 25, 50], 25) == {1}
    assert shots_beside([0, 25, 50], 30) == {1, 2}
    assert shots_beside([0, 25, 50], 60) == {2}
    assert shots_beside([], 60) == set()
