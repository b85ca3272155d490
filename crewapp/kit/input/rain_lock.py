"""The rain lock: each of its four keys acts only with the key at the opposite corner after it."""

from __future__ import annotations

from dataclasses import dataclass

OPPOSITE = {"pass": "unlock", "unlock": "pass", "undo": "delay", "delay": "undo"}
"""Which key lies across the glass from which: a drop that runs down reaches no such pair."""
ARMED_MS = 4000


@dataclass(frozen=True, slots=True)
class RainLock:
    """``armed`` is the key tapped first, since ``at_ms``; empty while none is."""

    armed: str = ""
    at_ms: int = 0

    def tap(self, key: str, now_ms: int) -> tuple[RainLock, str]:
        """Tap a key: the lock after it, and the name of what is to be done, if anything."""
        is_fresh = bool(self.armed) and now_ms - self.at_ms <= ARMED_MS
        if is_fresh and key == OPPOSITE[self.armed]:
            return RainLock(), self.armed
        if is_fresh:
            return RainLock(), ""  # a third place: that was no finger with a purpose
        return RainLock(key, now_ms), ""
