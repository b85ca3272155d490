"""Sand that passes take which share a line, worked out by hand."""

from __future__ import annotations

import pytest

from models.entries.keys import line_key
from models.ledger.sand_due import sand_due
from models.state.indexes import CUTS_OF
from models.state.job_state import JobState
from tests.models.checks.written_job import entries_of

M3_PL = 10**15
"""Picolitres in a cubic metre."""


def due_m3(*lengths: str) -> list[float]:
    """Sand due to passes along S01, 40 m of 25 x 200 mm, each of a length, cut in turn."""
    cuts = [
        {
            "kind": "pass",
            "fields": {
                "pass_id": f"F1-{number:02}",
                "surface_id": "F1",
                "line_ids": ["S01"],
                "length_nm": length,
                "machine_id": "T2",
            },
        }
        for number, length in enumerate(lengths, 1)
    ]
    state = JobState(
        entries_of({"plan": ["metric job", "field F1", "sand and pipe"], "entries": cuts})
    )
    due = [sand_due(state, entry) for entry in state.current(CUTS_OF, line_key("F1", "S01"))]
    return [one.high_pl / M3_PL if one is not None else 0.0 for one in due]


@pytest.mark.parametrize(
    ("lengths", "volumes_m3"),
    [
        (("40 m",), [0.2]),
        (("25 m", "15 m"), [0.125, 0.075]),
        (("10 m", "10 m", "20 m"), [0.05, 0.05, 0.1]),
        (("40 m", "40 m"), [0.2, 0.0]),
    ],
    ids=["one", "two", "three", "cut again"],
)
def test_each_pass_takes_the_sand_of_its_own_part(
    lengths: tuple[str, ...], volumes_m3: list[float]
) -> None:
    """By hand: 25 x 200 mm is 0.005 m3 a metre; cutting open ground again asks for none."""
    assert due_m3(*lengths) == pytest.approx(volumes_m3, abs=1e-9)
