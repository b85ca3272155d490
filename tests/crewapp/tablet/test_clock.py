"""Clocks: which day an instant makes, where, and by whose offset."""

from __future__ import annotations

import time

import pytest

from crewapp.tablet.clock import SetClock, TabletClock, moment_in
from models.units.times import is_time

MIDNIGHT_UTC = 1_778_457_600_000
"""2026-05-11T00:00Z: 20,584 days of 86,400,000 ms since 1970, counted by hand."""


@pytest.mark.parametrize(
    ("zone", "day", "offset_min"),
    [
        ("UTC", "2026-05-11", 0),
        ("America/Chicago", "2026-05-10", -300),
        ("Asia/Kolkata", "2026-05-11", 330),
        ("Pacific/Kiritimati", "2026-05-11", 840),
    ],
)
def test_instant_is_a_local_day(zone: str, day: str, offset_min: int) -> None:
    """The day an entry belongs to is the one where it was written."""
    moment = moment_in(zone, MIDNIGHT_UTC)

    assert (moment.day, moment.offset_min, moment.zone) == (day, offset_min, zone)


@pytest.mark.parametrize("zone", ["Mars/North", "", "../../etc/passwd", "/etc/localtime"])
def test_unknown_zone_counts_as_utc(zone: str) -> None:
    """A zone that this system doesn't know neither stops the work nor is claimed."""
    assert moment_in(zone, MIDNIGHT_UTC).zone == "UTC"


def test_offset_follows_the_season() -> None:
    """Chicago is six hours behind in winter, five in summer."""
    winter = MIDNIGHT_UTC - 120 * 86_400_000

    assert moment_in("America/Chicago", winter).offset_min == -360


def test_set_clock_stands_where_it_is_put() -> None:
    """7:30 in Chicago in May is 12:30 UTC, and time goes on only when told."""
    clock = SetClock("America/Chicago", 0)
    clock.set_to("2026-05-11", 7 * 60 + 30)

    assert clock.now().at_ms == MIDNIGHT_UTC + (12 * 60 + 30) * 60_000
    assert clock.now() == clock.now()
    clock.pass_seconds(90)
    assert clock.now().at_ms == MIDNIGHT_UTC + (12 * 60 + 30) * 60_000 + 90_000


def test_tablet_clock_is_the_tablets_own(monkeypatch: pytest.MonkeyPatch) -> None:
    """The tablet's clock tells the time of the system in the job's zone."""
    monkeypatch.setattr(time, "time_ns", lambda: MIDNIGHT_UTC * 1_000_000 + 999_999)

    assert TabletClock("America/Chicago").now() == moment_in("America/Chicago", MIDNIGHT_UTC)


@pytest.mark.parametrize("zone", ["UTC", "America/Chicago", "Pacific/Kiritimati"])
@pytest.mark.parametrize(
    ("at_ms", "day"),
    [
        (-(2**62), "1970-01-01"),
        (-1, "1970-01-01"),
        (0, "1970-01-01"),
        (7_258_118_399_999, "2199-12-31"),
        (253_402_300_799_999, "2199-12-31"),
        (2**63 - 1, "2199-12-31"),
    ],
)
def test_clock_that_is_far_out_writes_the_nearest_instant(zone: str, at_ms: int, day: str) -> None:
    """What a tablet writes never breaks the bounds, so the others can take it."""
    moment = moment_in(zone, at_ms)

    assert moment.day == day
    assert is_time(moment.at_ms, moment.offset_min)
