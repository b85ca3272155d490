"""Remembers that Ctrl-C came: a library may catch it and raise an error of its own in its place."""

from __future__ import annotations

import signal
import sys
import threading
from collections.abc import Callable
from types import FrameType

_met: list[int] = []
_before: list[Callable[[sys.UnraisableHookArgs], object]] = []
"""What told of errors that nobody could be given, before this did; the last one counts."""


def remember_interrupts() -> None:
    """Let Ctrl-C raise as Python lets it, and keep that it came.

    The library of the entries' bodies, stopped while it builds one, raises an error of its own
    that does not name what caused it.
    """
    _met.clear()
    if sys.unraisablehook is not _tell_all_but_ctrl_c:
        _before.append(sys.unraisablehook)
        sys.unraisablehook = _tell_all_but_ctrl_c
    is_main = threading.current_thread() is threading.main_thread()
    if is_main and signal.getsignal(signal.SIGINT) is signal.default_int_handler:
        signal.signal(signal.SIGINT, _interrupted)


def was_interrupted() -> bool:
    """Whether Ctrl-C came since the program was begun."""
    return bool(_met)


def _interrupted(number: int, _frame: FrameType | None) -> None:
    _met.append(number)
    raise KeyboardInterrupt


def _tell_all_but_ctrl_c(lost: sys.UnraisableHookArgs) -> None:
    """Print an error that reached nobody, as Python does; a Ctrl-C is remembered instead."""
    if not isinstance(lost.exc_value, KeyboardInterrupt):
        _before[-1](lost)
