"""Says aloud what stands where on the glass, to whoever asks on the standard input.

Run in the process that has the window: see ``tests/crewapp/real_window.py``.
"""

from __future__ import annotations

import json
import sys
import threading
from collections.abc import Callable
from typing import Any

from crewapp.device.opening import settle_kivy
from tests.crewapp.real_window import HIGH_PX, WIDE_PX

Answer = Callable[[str], Any]


def settle() -> None:
    """Set Kivy as ``crewapp`` does, and the window's size; before any part of it is imported."""
    settle_kivy()
    from kivy.config import Config

    Config.set("graphics", "width", str(WIDE_PX))
    Config.set("graphics", "height", str(HIGH_PX))


def tell(word: str, *facts: object) -> None:
    """Say something that happened."""
    print(word, *facts, flush=True)


def answer_to(answers: dict[str, Answer]) -> None:
    """Answer what is asked, one JSON line a question, on the thread that draws.

    Beside the ``answers`` given: "ends", how many presses have ended so far.
    """
    from kivy.clock import Clock
    from kivy.core.window import Window

    ends = list[str]()
    Window.bind(on_touch_up=lambda _, touch: ends.append(touch.id))
    answers = {"ends": lambda _: len(ends)} | answers

    def listen() -> None:
        for line in sys.stdin:
            word, text = json.loads(line)
            Clock.schedule_once(
                lambda _, word=word, text=text: tell("answer", json.dumps(answers[word](text))), 0
            )

    threading.Thread(target=listen, daemon=True).start()


def place_in(root: Any, text: str) -> tuple[int, int] | None:
    """Return where the middle of what bears a text lies, from the window's upper left.

    ``text`` is the words or the name on a key, the title of a row, or a widget's class.
    """
    from kivy.core.window import Window

    for one in root.walk():
        bears = (getattr(one, "text", ""), getattr(one, "name", ""), getattr(one, "title", ""))
        if text in (*(bears if _is_touched(one) else ()), type(one).__name__):
            x, y = one.to_window(*one.center)
            return int(x), int(Window.height - y)
    return None


def _is_touched(widget: Any) -> bool:
    from crewapp.kit.keys.touchable import Touchable

    return isinstance(widget, Touchable)
