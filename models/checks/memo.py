"""Memo of answers that several checks share, valid until the next entry comes in."""

from __future__ import annotations

from collections.abc import Callable
from typing import TypeVar

from models.state.job_state import JobState

Answer = TypeVar("Answer")


def memoize(state: JobState, name: str, subject: str, work_out: Callable[[], Answer]) -> Answer:
    """Answer from the state's memo, worked out on first use after an entry."""
    key = (name, subject)
    if key not in state.memo:
        state.memo[key] = work_out()
    answer: Answer = state.memo[key]
    return answer
