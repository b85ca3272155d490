"""Where the tablet is, by the zone's name; and a day as a crew says it."""

from __future__ import annotations

import pytest

from crewapp.tablet.time_zone import is_zone, tablet_zone, zone_of_offset
from crewapp.words.dates import full_day
from crewapp.words.translate import set_language


def test_zone_set_in_the_surroundings_counts(monkeypatch: pytest.MonkeyPatch) -> None:
    """A colon before the name is how some systems write it."""
    monkeypatch.setenv("TZ", ":Europe/Madrid")

    assert tablet_zone() == "Europe/Madrid"


def test_zone_is_always_one_that_is_known(monkeypatch: pytest.MonkeyPatch) -> None:
    """The tablet's zone is one that is known, whatever the environment says."""
    for told in ("", "nowhere", "../etc", "CST6CDT,M3.2.0"):
        monkeypatch.setenv("TZ", told)
        assert is_zone(tablet_zone())


@pytest.mark.parametrize(
    ("offset_min", "zone"),
    [(0, "UTC"), (-300, "Etc/GMT+5"), (120, "Etc/GMT-2"), (330, "UTC")],
)
def test_offset_gives_a_zone(offset_min: int, zone: str) -> None:
    """Names of that kind count westward: five hours behind is GMT+5."""
    assert zone_of_offset(offset_min) == zone
    assert is_zone(zone)


def test_day_is_said_with_its_weekday() -> None:
    """2026-05-13 was a Wednesday; Spanish puts the number first."""
    try:
        assert full_day("2026-05-13") == "Wed May 13, 2026"
        set_language("es")
        assert full_day("2026-05-13") == "mié 13 may 2026"
    finally:
        set_language("en")


def test_what_is_no_day_is_shown_as_it_is() -> None:
    """Nothing is made up."""
    assert full_day("someday") == "someday"
    assert full_day("") == ""
