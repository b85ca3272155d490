"""Clocks: which day an instant makes, where, and by whose offset."""

from __future__ import annotations

import time

import pytest

from crewapp.clock import SetClock, TabletClock, moment_in

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
    clock.put("2026-05-11", 7 * 60 + 30)

    assert clock.now().at_ms == MIDNIGHT_UTC + (12 * 60 + 30) * 60_000
    assert clock.now() == clock.now()
    clock.pass_seconds(90)
    assert clock.now().at_ms == MIDNIGHT_UTC + (12 * 60 + 30) * 60_000 + 90_000


def test_tablet_clock_is_the_tablets_own(monkeypatch: pytest.MonkeyPatch) -> None:
    """The tablet's clock tells the time of the system in the job's zone."""
    monkeypatch.setattr(time, "time_ns", lambda: MIDNIGHT_UTC * 1_000_000 + 999_999)

    assert TabletClock("America/Chicago").now() == moment_in("America/Chicago", MIDNIGHT_UTC)
