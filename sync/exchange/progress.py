"""Steps of an exchange: reports progress, and offers the places where it can be cancelled."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Final

STEPS: Final = ("list", "fetch", "seal", "open", "merge", "send", "thumbs", "photos")
"""Every step by name, in the order they come."""

OnStep = Callable[[str, int, int], None]


class CancelledError(Exception):
    """The exchange was cancelled; this is caught within it."""


@dataclass(frozen=True, slots=True)
class ProgressReporter:
    """Calls ``on_step(step, done, total)`` and asks ``is_cancelled`` before each piece of work."""

    on_step: OnStep | None = None
    is_cancelled: Callable[[], bool] | None = None

    def next_step(self, step: str, done: int, total: int) -> None:
        """Go on to the next piece of work.

        Raises
        ------
        CancelledError
            If it was told to stop.
        """
        if self.is_cancelled is not None and self.is_cancelled():
            raise CancelledError
        if self.on_step is not None:
            self.on_step(step, done, total)
