"""Go-aheads: no ticket in date is no digging, no protection noted is no entering."""

from __future__ import annotations

from typing import Any

import pytest

from models.checks.safety.go_ahead import (
    Answer,
    DigReason,
    TrenchReason,
    dig_go_ahead,
    trench_go_ahead,
)
from models.state.job_state import JobState
from tests.models.checks.any_job import FT
from tests.models.checks.written_job import written_entries
from tests.models.queries.grade.test_trench_depth import planned

DAY = "2026-06-10"


def ticket(first: str, last: str, *surfaces: str, name: str = "T1") -> dict[str, Any]:
    """A locate ticket; without surfaces it is for the whole site."""
    fields = {"ticket": name, "valid_from": first, "expires_on": last, "surfaces": surfaces}
    return {"kind": "locate_ticket", "fields": fields}


@pytest.mark.parametrize(
    ("tickets", "answer", "why"),
    [
        ([], Answer.NO, DigReason.NONE),
        ([ticket("2026-06-01", "2026-06-09")], Answer.NO, DigReason.RAN_OUT),
        ([ticket("2026-06-01", "2026-06-10")], Answer.LOOK, DigReason.ENDS_SOON),
        ([ticket("2026-06-01", "2026-06-12")], Answer.LOOK, DigReason.ENDS_SOON),
        ([ticket("2026-06-01", "2026-06-13")], Answer.YES, DigReason.IN_DATE),
        ([ticket("2026-06-10", "2026-06-30")], Answer.YES, DigReason.IN_DATE),
        ([ticket("2026-06-11", "2026-06-30")], Answer.NO, DigReason.NOT_YET),
        ([ticket("2026-06-01", "2026-06-30", "C1")], Answer.NO, DigReason.NONE),
        ([ticket("2026-06-01", "2026-06-30", "C1", "G7")], Answer.YES, DigReason.IN_DATE),
        (
            [
                ticket("2026-06-01", "2026-06-10"),
                ticket("2026-06-08", "2026-06-30", name="T2"),
            ],
            Answer.YES,
            DigReason.IN_DATE,
        ),
    ],
)
def test_ground_is_opened_only_under_a_ticket_in_date(
    tickets: list[dict[str, Any]], answer: Answer, why: DigReason
) -> None:
    """First and last day count; the two days before the end are those of the check."""
    found = dig_go_ahead(JobState(written_entries(tickets)), "G7", DAY)

    assert (found.answer, found.why) == (answer, why)


def gone_on(place: str, missing: str) -> dict[str, Any]:
    """A reason given for going on."""
    return {
        "kind": "go_ahead",
        "day": DAY,
        "fields": {"place": place, "missing": missing, "reason": "locator is here"},
    }


def test_a_reason_holds_for_its_place_its_day_and_what_was_missing() -> None:
    """It never says yes: what is missing stays missing."""
    state = JobState(written_entries([gone_on("G7", "locate_ticket")]))

    here = dig_go_ahead(state, "G7", DAY)
    assert (here.answer, here.why, here.reason) == (
        Answer.LOOK,
        DigReason.GONE_ON,
        "locator is here",
    )
    assert dig_go_ahead(state, "G8", DAY).answer is Answer.NO
    assert dig_go_ahead(state, "G7", "2026-06-11").answer is Answer.NO
    other = JobState(written_entries([gone_on("G7", "trench_protection")]))
    assert dig_go_ahead(other, "G7", DAY).answer is Answer.NO


def dug(depth_ft: int, *more: dict[str, Any], ground: bool = True) -> JobState:
    """A collector's floor shot so deep at 20 ft, under planned ground or none."""
    shots = [
        {"kind": "benchmark", "fields": {"benchmark_id": "BM1", "elevation_nm": 0}},
        {"kind": "setup", "fields": {"setup_id": "L1", "on_point": "BM1", "backsight_nm": 6 * FT}},
        {
            "kind": "grade_shot",
            "day": DAY,
            "fields": {
                "setup_id": "L1", "collector_id": "C1", "station_nm": 20 * FT,
                "on": "trench_floor", "reading_nm": (6 - 3 + depth_ft) * FT,
            },
        },
    ]  # fmt: skip
    return planned([(0, 3), (40, 3)] if ground else [], *shots, *more)


def noted(day: str, protection: str = "shored", depth_ft: int = 8) -> dict[str, Any]:
    """Protection noted over the whole trench."""
    fields = {
        "collector_id": "C1", "from_nm": 0, "to_nm": 40 * FT, "depth_nm": depth_ft * FT,
        "protection": protection, "judged_by": "Ana",
    }  # fmt: skip
    return {"kind": "trench_protection", "day": day, "fields": fields}


@pytest.mark.parametrize(
    ("state", "answer", "why"),
    [
        (dug(4), Answer.YES, TrenchReason.SHALLOW),
        (dug(5), Answer.NO, TrenchReason.BARE),
        (dug(5, noted(DAY)), Answer.YES, TrenchReason.PROTECTED),
        (dug(5, noted(DAY, depth_ft=4)), Answer.NO, TrenchReason.BARE),
        # 29 CFR 1926.651(k)(1): inspections are made daily, before the start of work
        (dug(5, noted("2026-06-09")), Answer.LOOK, TrenchReason.LOOK_AGAIN),
        # 29 CFR 1926.652(a)(1)(ii): a judge's word is enough below 5 ft alone
        (dug(5, noted(DAY, "judged_stable")), Answer.NO, TrenchReason.BARE),
        (dug(5, noted(DAY, "stable_rock")), Answer.YES, TrenchReason.PROTECTED),
        (dug(5, gone_on("C1", "trench_protection")), Answer.LOOK, TrenchReason.GONE_ON),
        (dug(5, gone_on("C1", "locate_ticket")), Answer.NO, TrenchReason.BARE),
        (dug(4, ground=False), Answer.LOOK, TrenchReason.NOT_KNOWN),
        (planned([(0, 6), (40, 6)]), Answer.LOOK, TrenchReason.PLANNED_DEEP),
        (planned([(0, 3), (40, 3)]), Answer.YES, TrenchReason.SHALLOW),
        (planned([]), Answer.LOOK, TrenchReason.PLAN_NOT_KNOWN),
    ],
)
def test_nobody_enters_a_deep_trench_without_protection(
    state: JobState, answer: Answer, why: TrenchReason
) -> None:
    """Deep from 5 ft on; what nobody knows is looked at, never taken for shallow."""
    found = trench_go_ahead(state, "C1", DAY)

    assert (found.answer, found.why) == (answer, why)


def test_what_lacks_protection_is_named_with_its_stretch() -> None:
    """The floor at 20 ft, and a shot's spacing of 10 ft to either side."""
    found = trench_go_ahead(dug(6), "C1", DAY)

    assert (found.station_nm, found.depth_nm) == (20 * FT, 6 * FT)
    assert (found.from_nm, found.to_nm) == (10 * FT, 30 * FT)
