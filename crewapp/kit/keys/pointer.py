"""Pointers that count as a finger: a touch, a pen, the left button of a mouse.

Kivy hands on more than fingers. A pointer that only hovers is in its list of
touches for as long as it is over the window; a notch of the wheel is a touch
that comes and goes; the right and the middle button are touches that leave a
red dot and stay. What is to be told apart is told apart here, for every part.
"""

from __future__ import annotations

from typing import Any

from kivy.base import EventLoop

_NO_FINGER = frozenset({"right", "middle", "mouse4", "mouse5"})


def fingers_down(but_not: Any = None) -> int:
    """Count the fingers on the glass, ``but_not`` the touch that a part was hit by.

    All presses of a mouse are one finger: a release that the system kept to
    itself, as when another window comes to the front, would else count for ever.
    """
    down = [one for one in EventLoop.touches if one.is_touch and one.time_end < 0]
    down = [one for one in down if one is not but_not and not one.is_mouse_scrolling]
    fingers = [one for one in down if not _is_mouse(one)]
    is_mouse_own = but_not is not None and _is_mouse(but_not)
    has_mouse = len(fingers) < len(down) and not is_mouse_own
    return len(fingers) + has_mouse


def wheel_turned(touch: Any) -> int:
    """Return 1 for a notch of the wheel away from the person, -1 for one towards them, else 0."""
    if not touch.is_mouse_scrolling:
        return 0
    return {"scrolldown": 1, "scrollup": -1}.get(touch.button, 0)


class FingersOnly:
    """Takes away what other buttons than the left one do, before any part of the app sees it."""

    def process(self, events: list[tuple[str, Any]]) -> list[tuple[str, Any]]:
        """Return the events that are a finger's, a hovering pointer's or the wheel's."""
        return [(kind, one) for kind, one in events if not _is_other_button(one)]


def take_fingers_only() -> None:
    """Let nothing but fingers and the wheel through from now on; once is enough."""
    if not any(isinstance(one, FingersOnly) for one in EventLoop.postproc_modules):
        EventLoop.add_postproc_module(FingersOnly())


def _is_mouse(touch: Any) -> bool:
    return "button" in touch.profile


def _is_other_button(touch: Any) -> bool:
    return _is_mouse(touch) and touch.button in _NO_FINGER
