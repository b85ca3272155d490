"""Limits that a published rule sets for trenches, lasers and pipe, met exactly."""

from __future__ import annotations

import json
from collections.abc import Sequence
from datetime import date
from typing import Any

import pytest

from models.checks.flag_board import FlagBoard
from models.checks.levelling.check_laser_out_of_calibration import good_until
from models.checks.registry import BY_ID
from models.state.job_state import JobState
from tests.models.checks.written_job import CASES, written_entries

PLAN = ("us job", "BM1", "collector C1", "setup L1")


def flags(check: str, design: dict[str, str], shots: Sequence[tuple[str, str]]) -> int:
    """Findings of one check over shots at 25 ft, the plan's limits changed as given."""
    plans = json.loads((CASES / "_plans.json").read_text("utf-8"))
    written: list[dict[str, Any]] = [one for name in PLAN for one in plans[name]]
    for one in written:
        if one["kind"] == "collector":
            one["fields"]["design"].update(design)
    fields = {"setup_id": "L1", "collector_id": "C1", "station_nm": "25 ft"}
    written += [
        {"kind": "grade_shot", "fields": {**fields, "on": on, "reading_nm": reading}}
        for on, reading in shots
    ]
    board = FlagBoard(JobState(written_entries(written)), (BY_ID[check],))
    return len(board.findings())


@pytest.mark.parametrize(
    ("limit", "floor", "flagged"),
    [
        # 29 CFR 1926.651(c)(2): a way out is required in trenches 4 ft (1.22 m) or more deep
        ("4 ft", "8.99 ft", 0),
        ("4 ft", "9.00 ft", 1),
        # 29 CFR 1926.652(a)(1): protection is required from 5 ft on, and below that unless a
        # competent person finds no sign of cave-in
        ("5 ft", "9.99 ft", 0),
        ("5 ft", "10.00 ft", 1),
    ],
)
def test_trench_counts_from_its_limit_on(limit: str, floor: str, flagged: int) -> None:
    """A trench exactly as deep as the rule's limit is flagged, a hundredth less is not."""
    shots = [("ground", "5 ft"), ("trench_floor", floor)]

    assert flags("trench_without_protection", {"protection_depth_nm": limit}, shots) == flagged


@pytest.mark.parametrize(
    ("limit", "invert", "flagged"),
    [
        # 29 CFR 1926.652(a)(1) again: the excavation is as deep as its floor. Ground less
        # invert 4.92 ft, bore 4 in, outside 4-1/2 in, bedding 1 in: the floor is 1-1/4 in
        # lower, 4.92 + 0.1042 = 5.02 ft deep
        ("5 ft", "9.92 ft", 1),
        # 4 ft 10-3/4 in to the invert is exactly 5 ft to the floor; 1/16 in less is not
        ("5 ft", "9'10-3/4\"", 1),
        ("5 ft", "9'10-11/16\"", 0),
        # a job that would allow more than the rule is held to the rule
        ("6 ft", "9'10-3/4\"", 1),
        ("6 ft", "9'10-11/16\"", 0),
        # a job that asks for it sooner is held to the job
        ("4.5 ft", "9'4-3/4\"", 1),
        ("4.5 ft", "9'4-11/16\"", 0),
    ],
)
def test_trench_is_as_deep_as_its_floor(limit: str, invert: str, flagged: int) -> None:
    """Where only the invert was shot, pipe wall and bedding lie below it."""
    shots = [("ground", "5 ft"), ("invert", invert)]

    assert flags("trench_without_protection", {"protection_depth_nm": limit}, shots) == flagged


@pytest.mark.parametrize(
    ("reading", "flagged"),
    # 6.75 ft is on grade: 6 ft 9 in; half an inch off is 6 ft 8-1/2 in and 6 ft 9-1/2 in
    [("6'8-1/2\"", 0), ("6'8-31/64\"", 1), ("6'9-1/2\"", 0), ("6'9-33/64\"", 1)],
)
def test_pipe_more_than_half_an_inch_off_is_relaid(reading: str, flagged: int) -> None:
    """Wastewater code of the City of Carmel: remove and relay if more than 1/2 in off grade."""
    limits = {"high_nm": "1/2 in", "low_nm": "1/2 in"}

    assert flags("grade_out", limits, [("invert", reading)]) == flagged


def test_laser_is_good_for_six_months() -> None:
    """Wastewater code of the City of Carmel: calibration within six months."""
    assert good_until(date(2026, 1, 15)) == date(2026, 7, 15)
    assert good_until(date(2025, 8, 31)) == date(2026, 2, 28)
