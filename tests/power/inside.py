"""What a watched program says to the recorder that was loaded into it."""

from __future__ import annotations

import ctypes
import errno


class Recorder:
    """The recorder of this process; it can be had only where it was loaded."""

    def __init__(self) -> None:
        self._library = ctypes.CDLL(None)
        self._library.power_met.restype = ctypes.c_long

    def tell(self, text: str) -> None:
        """Acknowledge something: from here on it has to outlast a power cut."""
        self._library.power_tell(text.encode())

    def plan_fault(self, what: str, nth: int, error: str, lasts: bool) -> None:
        """Let the nth "write", "short", "sync" or "name" from now on fail, once or from then on."""
        code = getattr(errno, error)
        self._library.power_fault(what.encode(), ctypes.c_long(nth), code, int(lasts))

    def end_faults(self) -> None:
        """Let everything succeed again."""
        self._library.power_fault(b"", ctypes.c_long(0), 0, 0)

    @property
    def met(self) -> int:
        """How many calls of the kind planned came by since the plan."""
        return int(self._library.power_met())
