"""Which days count as worked: for the forecast, the sheets and the office alike."""

from __future__ import annotations

from typing import Any

import pytest

from models.queries.schedule.worked_days import worked_days
from tests.models.planned_ground import state_of, written
from tests.models.queries.schedule.test_forecast import FIELD, MON, TUE, WED, at, cut


def test_days_of_hours_alone_are_lost() -> None:
    """A crew that stood about has lost a working day; a note or a plan makes no day worked."""
    stood = written("hours", TUE, of="person", who="Wren", run_min=480)
    found = at(WED, cut(1, MON, "S1"), stood, cut(2, WED, "S2"))

    assert (found.worked_days, found.lost_days) == (2, 1)


@pytest.mark.parametrize(
    ("kind", "fields", "is_work"),
    [
        ("probe", {"pass_id": "P", "line_id": "S1", "along_nm": 0, "depth_nm": 1}, True),
        ("sand_top_up", {"surface_id": "F1", "material_id": "sand", "volume_pl": 1}, True),
        ("repair", {"collector_id": "C1", "done": "flushed"}, True),
        ("spoil", {"volume_pl": 1, "to": "tip"}, True),
        ("note", {"text": "planned"}, False),
        ("hours", {"of": "person", "who": "Wren", "run_min": 480}, False),
        ("delivery", {"material_id": "sand", "volume_pl": 1}, False),
    ],
)
def test_what_makes_a_worked_day(kind: str, fields: dict[str, Any], is_work: bool) -> None:
    """Work on the ground does; what is only written down, or came, or stood, does not."""
    state = state_of(FIELD, cut(1, MON, "S1"), written(kind, TUE, **fields))

    assert worked_days(state) == [MON, *([TUE] if is_work else [])]
    assert worked_days(state, MON) == [MON]
