"""Layers and releases in the as-built record."""

from __future__ import annotations

from typing import Any

import pytest

from models.state.job_state import JobState
from models.units.job_units import figures_of
from sync.papers.asbuilt.records.covering import layer_record
from sync.papers.tables.record_table import MeasureCells
from tests.models.checks.written_job import entries_of

FT = 304_800_000


def shot(station_ft: int, reading: str) -> dict[str, Any]:
    """An invert; on grade it reads 7 ft less a hundredth of the station, and 0.04 ft is let off."""
    fields = {"setup_id": "L1", "collector_id": "C1", "station_nm": f"{station_ft} ft"}
    return {"kind": "grade_shot", "fields": {**fields, "on": "invert", "reading_nm": reading}}


@pytest.mark.parametrize(
    ("shots", "words"),
    [
        ((), "released to be covered by Ana, no invert shot"),
        ((shot(0, "7 ft"),), "released to be covered by Ana, of 1 invert 1 proven"),
        (
            (shot(0, "7 ft"), shot(25, "6.79 ft"), shot(50, "6.6 ft")),
            "released to be covered by Ana, of 3 inverts 1 proven, 1 OK as read, 1 out",
        ),
    ],
    ids=["none", "proven", "all three"],
)
def test_a_release_says_how_many_inverts_are_proven(
    shots: tuple[dict[str, Any], ...], words: str
) -> None:
    """Those that hold as read alone, and those that are out, are told apart from them."""
    hold = {"collector_id": "C1", "from_nm": 0, "to_nm": 50 * FT, "released_by": "Ana"}
    plan = ["us job", "BM1", "collector C1", "setup L1"]
    entries = [*shots, {"kind": "hold_point", "fields": hold}]
    record = layer_record(
        JobState(entries_of({"plan": plan, "entries": entries})),
        MeasureCells(figures_of("us", "us_100ft")),
    )
    texts = [cell.shown for row in record.rows for cell in row.items]

    assert words in texts
