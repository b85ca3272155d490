"""Ids of the demo's entries: time-ordered like any other, and the same on every run."""

from __future__ import annotations

import hashlib
import uuid
from collections.abc import Callable

from crewapp.tablet.clock import SetClock

_VERSION_7, _VARIANT = 7, 0b10


def steady_ids(clock: SetClock, name: str) -> Callable[[], str]:
    """Return a maker of ids that depend on the clock, a count and a name alone.

    The layout is that of UUID version 7: milliseconds, then twelve bits that
    count, then sixty-two that are otherwise random.
    """
    made = 0

    def next_id() -> str:
        nonlocal made
        made += 1
        digest = hashlib.sha256(f"{name}/{made}".encode()).digest()
        rest = int.from_bytes(digest[:8], "big") >> 2
        bits = clock.at_ms << 80 | _VERSION_7 << 76 | (made & 0xFFF) << 64 | _VARIANT << 62 | rest
        return str(uuid.UUID(int=bits))

    return next_id
