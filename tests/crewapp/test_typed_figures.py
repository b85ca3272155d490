"""Figures that no day, line or collector has are refused where they are typed, or flagged."""

from __future__ import annotations

from typing import Any

import pytest

from crewapp.commands.day import LogHours
from crewapp.commands.entries import Correct
from crewapp.commands.grade import CheckLayer, SetUpLaser, ShootGrade
from crewapp.commands.passes import LogPass, LogProbe
from crewapp.handlers.day import HoursTooManyError
from crewapp.handlers.known_places import BeyondCollectorError
from crewapp.handlers.passes import BeyondLineError
from crewapp.job.dispatch import do
from crewapp.job.open_job import OpenJob
from crewapp.kit.input.day_fields import date_field, hours_field
from crewapp.kit.input.keypad_value import KeypadState
from models.entries.kind_names import COLLECTOR

FT = 304_800_000


def flags(job: OpenJob) -> set[str]:
    """Return the keys of what is flagged."""
    return {finding.key.split("/")[0] for finding in job.board.findings()}


def test_ninety_nine_hours_are_no_day(job: OpenJob) -> None:
    """Neither in one figure nor in three that come to more than 24 h."""
    with pytest.raises(HoursTooManyError, match=r"99 h of Ana .* 0 to 24 h would be accepted"):
        do(job, LogHours(of="person", who="Ana", run_min=99 * 60))
    with pytest.raises(HoursTooManyError):
        do(job, LogHours(of="machine", who="twin", run_min=720, idle_min=720, down_min=1))

    do(job, LogHours(of="machine", who="twin", run_min=720, idle_min=720))
    assert "hours_over_day" not in flags(job)


def test_hours_of_a_person_are_added_up_over_the_day(job: OpenJob) -> None:
    """Twice 13 h are flagged, and no longer when one of them is corrected."""
    do(job, LogHours(of="person", who="Ana", run_min=13 * 60))
    second = do(job, LogHours(of="person", who="Ana", run_min=13 * 60))
    assert "hours_over_day" in flags(job)

    do(job, Correct(entry_id=second.entries[0].id, reason="1:30 was meant", fields={"run_min": 90}))
    assert "hours_over_day" not in flags(job)


def test_pad_of_hours_says_why_a_figure_is_none() -> None:
    """0.33 h is no whole minute, and the pad says so in place of "not finished"."""
    pad = KeypadState.resume(hours_field("Hours of Ana"), "8.33").enter(0)

    assert pad.refused.startswith("8.33 hours are no whole minutes")


def test_shot_beyond_its_collector_is_refused(job: OpenJob) -> None:
    """The collector is 60 ft long: its length and its stations are named; its ends are taken."""
    setup = do(job, SetUpLaser(on_point="BM1", backsight_nm=4 * FT)).entries[0].body

    def shoot(station_nm: int) -> Any:
        return do(
            job,
            ShootGrade(
                setup_id=setup.setup_id,  # type: ignore[union-attr]
                collector_id="C1",
                station_nm=station_nm,
                on="invert",
                reading_nm=9 * FT,
            ),
        )

    for station_nm in (61 * FT, 600 * FT, -1 * FT):
        with pytest.raises(
            BeyondCollectorError, match=r"C1, which is 60\.0 ft long, from 0\+00.* to 0\+60"
        ):
            shoot(station_nm)
    shoot(0)
    shoot(60 * FT)
    assert "station_off_run" not in flags(job)


def test_layer_beyond_its_collector_is_refused(job: OpenJob) -> None:
    """From whichever end it is told."""
    with pytest.raises(BeyondCollectorError):
        do(job, CheckLayer(collector_id="C1", from_nm=70 * FT, to_nm=10 * FT, layer="bedding"))


def test_probe_beyond_its_line_is_refused(job: OpenJob) -> None:
    """A line of 30 ft is not probed at 31 ft; at its very end it is."""
    cut = do(
        job, LogPass(surface_id="G7", line_ids=("S01",), length_nm=30 * FT, length_typed="30")
    ).entries[0]
    name = cut.body.pass_id  # type: ignore[union-attr]
    fields: dict[str, Any] = {
        "pass_id": name,
        "line_id": "S01",
        "depth_nm": FT,
        "depth_typed": "12",
    }

    with pytest.raises(
        BeyondLineError, match=r"31\.0 ft is beyond the end of S01, which is 30\.0 ft"
    ):
        do(job, LogProbe(along_nm=31 * FT, **fields))
    do(job, LogProbe(along_nm=30 * FT, **fields))


def test_plan_made_shorter_flags_what_lies_beyond_it(job: OpenJob) -> None:
    """What was right when it was written is kept, and told."""
    setup = do(job, SetUpLaser(on_point="BM1", backsight_nm=4 * FT)).entries[0].body
    shot = {"setup_id": setup.setup_id, "collector_id": "C1"}  # type: ignore[union-attr]
    do(job, ShootGrade(station_nm=55 * FT, on="invert", reading_nm=9 * FT, **shot))
    collector = job.state.current(COLLECTOR, "C1")[-1]
    design = collector.body.design

    changed = do(
        job,
        Correct(
            entry_id=collector.id,
            reason="shorter",
            fields={"design": {**design.model_dump(), "length_nm": 50 * FT}},
        ),
    )

    assert "station_off_run" in {finding.check for finding in changed.come}


@pytest.mark.parametrize(
    ("today", "typed", "is_read"),
    [("2026-05-11", "0615", True), ("1970-01-02", "0615", False), ("2101-03-01", "0304", False)],
)
def test_date_of_a_clock_that_runs_wrong_is_refused(today: str, typed: str, is_read: bool) -> None:
    """The pad says which years it takes, and what to do."""
    pad = KeypadState.resume(date_field("Good until", today, is_us=True), typed).enter(0)

    assert (pad.accepted is not None) is is_read
    assert ("2000 to 2100" in pad.refused) is not is_read
