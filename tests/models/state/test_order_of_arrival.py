"""Order of arrival never shows: the same entries fold to the same state in any order."""

from __future__ import annotations

import json
import random
from typing import Any

from models.entries.envelope import AnyEntry
from models.state.job_state import JobState
from tests.models.checks.written_job import CASES, entries_of


def seen(entries: list[AnyEntry]) -> dict[str, Any]:
    """All that a state shows, lists in their order."""
    state = JobState(entries)
    return {
        "indexes": {k: [one.id for one in v] for k, v in state.indexes.items() if v},
        "names": {name: list(_sorted_names(state, name)) for name in state.names},
        "struck": state.struck_by,
        "totals": {key: amount for key, amount in state.totals.items() if amount},
        "streams": dict(state.streams),
        "days": {day: [one.id for one in found] for day, found in state.days.items()},
        "in_order": [one.id for one in state.entries_in_order()],
    }


def _sorted_names(state: JobState, index: str) -> list[str]:
    """Names of an index as readers get them, those without a current entry too."""
    state.every_name(_Named(index))  # type: ignore[arg-type]
    return list(state.names[index])


class _Named:
    """An index by its name alone."""

    def __init__(self, name: str) -> None:
        self.name = name


def test_names_strikers_and_lists_are_those_of_the_book_in_any_order() -> None:
    """Every case of every check, in two other orders of arrival, folds to the same state."""
    chance = random.Random(7)
    orders = 0
    for path in sorted(CASES.glob("*.json")):
        if path.name.startswith("_"):
            continue
        for case in json.loads(path.read_text("utf-8")):
            entries = entries_of(case)
            as_written = seen(entries)
            for _ in range(1):
                mixed = chance.sample(entries, len(entries))
                assert seen(mixed) == as_written, (path.stem, case["name"])
                orders += mixed != entries
            assert seen(entries[::-1]) == as_written, (path.stem, case["name"])
    assert orders > 400
