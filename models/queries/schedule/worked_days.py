"""Days of a job that were worked: a single rule for the forecast, the sheets and the office."""

from __future__ import annotations

from models.entries.envelope import AnyEntry
from models.state.job_state import JobState

WORK_KINDS = frozenset(
    {"pass", "probe", "pipe_laid", "sand_placed", "turf_strip", "grade_shot", "layer_check"}
    | {"spoil", "repair", "sand_top_up"}
)
"""Kinds of entry that are work on the ground; crew hours alone are a day without work."""


def is_worked(state: JobState, day: str) -> bool:
    """Whether work on the ground is logged for a day (YYYY-MM-DD) and in force."""
    return any(is_work(state, entry) for entry in state.days.get(day, ()))


def is_work(state: JobState, entry: AnyEntry) -> bool:
    """Whether an entry is work on the ground and in force."""
    return entry.kind in WORK_KINDS and entry.body is not None and not state.is_struck(entry.id)


def worked_days(state: JobState, until: str = "9999-12-31") -> list[str]:
    """Days worked up to a day, that day included, oldest first."""
    return sorted(day for day in state.days if day <= until and is_worked(state, day))
