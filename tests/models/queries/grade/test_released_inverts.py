"""Inverts that a release rests on, counted by what their readings prove."""

from __future__ import annotations

from typing import Any

from models.queries.grade.released_inverts import ReleasedInverts, count_inverts
from models.state.job_state import JobState
from models.units.station import StationRange
from tests.models.checks.written_job import entries_of

FT = 304_800_000


def shot(station_ft: int, reading: str) -> dict[str, Any]:
    """An invert; on grade it reads 7 ft less a hundredth of the station, and 0.04 ft is let off."""
    fields = {"setup_id": "L1", "collector_id": "C1", "station_nm": f"{station_ft} ft"}
    return {"kind": "grade_shot", "fields": {**fields, "on": "invert", "reading_nm": reading}}


def test_a_release_tells_proven_from_read() -> None:
    """At 25 ft 0.04 ft off is within as read, since its level is good to 0.0068 ft; then out."""
    shots = [shot(0, "7 ft"), shot(10, "6.92 ft"), shot(25, "6.79 ft"), shot(50, "6.6 ft")]
    state = JobState(
        entries_of({"plan": ["us job", "BM1", "collector C1", "setup L1"], "entries": shots})
    )

    def within(low_ft: int, high_ft: int) -> ReleasedInverts:
        return count_inverts(state, "C1", StationRange.between(low_ft * FT, high_ft * FT))

    assert within(0, 50) == ReleasedInverts(2, 1, 1)
    assert within(0, 50).total == 4
    assert within(0, 25) == ReleasedInverts(2, 1, 0)
    assert within(26, 49) == ReleasedInverts()
    assert count_inverts(state, "C9", StationRange.between(0, FT)) == ReleasedInverts()
