"""Opening the window: quietly, watched until its first frame, and stopped by Ctrl-C.

Nothing of Kivy is imported with this module: most commands never need it.
"""

from __future__ import annotations

import logging
import os
import re
import signal
import sys
import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from types import FrameType
from typing import Any

from crewapp.device.display import NoDisplayError
from crewapp.device.interrupts import was_interrupted

FIRST_FRAME_S = 20.0
"""How long the first frame may take from the start of Kivy, in seconds."""
BAD_INPUT = 2


class FirstFrame:
    """Ends the program with a sentence if no frame comes in time; for a ``with``.

    ``leave`` is what is to be let go of first.
    """

    def __init__(self, driver: str) -> None:
        self.driver = driver
        self.leave: Callable[[], None] = lambda: None
        self._timer = threading.Timer(FIRST_FRAME_S, self._give_up)
        self._timer.daemon = True

    def __enter__(self) -> FirstFrame:
        self._timer.start()
        return self

    def __exit__(self, *_: object) -> None:
        self.end_wait()

    def end_wait(self) -> None:
        """Note that a frame is on the glass, or that none is wanted any more."""
        self._timer.cancel()

    def _give_up(self) -> None:
        by = f"the video driver {self.driver}" if self.driver else "the video driver"
        why = f"nothing was drawn within {FIRST_FRAME_S:g} s by {by}"
        print(f"crewapp: {NoDisplayError(why=why)}", file=sys.stderr, flush=True)
        self.leave()
        os._exit(BAD_INPUT)  # the thread that draws answers nobody


class CtrlC:
    """Lets Ctrl-C end the app in its own time; the ``with`` then ends in KeyboardInterrupt.

    Raised from within Kivy's compiled parts the interrupt would be printed and forgotten.
    One that came before, and was lost, counts too.
    A second Ctrl-C ends the process at once: what is written is written whole.
    """

    def __init__(self) -> None:
        self.is_pressed = was_interrupted()
        self._stop: Callable[[], None] = lambda: None

    def __enter__(self) -> CtrlC:
        self._before = signal.signal(signal.SIGINT, self._press)
        return self

    def _press(self, _number: int, _frame: FrameType | None) -> None:
        signal.signal(signal.SIGINT, signal.SIG_DFL)
        self.is_pressed = True
        self._stop()

    def stop_with(self, stop: Callable[[], None]) -> None:
        """Set what ends the app; if Ctrl-C came before, it ends here.

        Raises
        ------
        KeyboardInterrupt
            If Ctrl-C came already.
        """
        self._stop = stop
        if self.is_pressed:
            raise KeyboardInterrupt

    def __exit__(self, *_: object) -> None:
        signal.signal(signal.SIGINT, self._before)
        if self.is_pressed:
            raise KeyboardInterrupt


def open_window(driver: str) -> Any:
    """Open Kivy's one window; ``driver`` is SDL's, "" for the one it chooses.

    Raises
    ------
    NoDisplayError
        If none came, with what the driver said.
    """
    if driver:
        os.environ["SDL_VIDEODRIVER"] = driver
    with _kept_from_the_screen() as said:
        settle_kivy()
        window = _kivy_window()
    if window is None:
        raise NoDisplayError(why=_why_none(driver, said))
    return window


def _kivy_window() -> Any:
    try:
        from kivy.core.window import Window
    except SystemExit:  # how Kivy leaves where OpenGL is too old
        return None
    return Window


def settle_kivy() -> None:
    """Set what Kivy must know before any part of it is imported."""
    os.environ.setdefault("KIVY_NO_ARGS", "1")
    os.environ.setdefault("KIVY_NO_FILELOG", "1")
    os.environ.setdefault("KIVY_LOG_MODE", "PYTHON")
    # The other windows end the process by themselves, the other clipboards look for programs
    # that may be missing.
    os.environ.setdefault("KIVY_WINDOW", "sdl2")
    os.environ.setdefault("KIVY_CLIPBOARD", "sdl2")
    import kivy
    from kivy.config import Config

    # What X11 pastes with the middle button, which is no finger here: sought through programs that
    # may be missing, and said at length.
    kivy.kivy_options["cutbuffer"] = ()
    logging.getLogger("kivy").addFilter(_is_not_of_cutbuffer)

    # Multisampling costs a fifth of the start and halves the frame rate; the
    # interrupt clock hands a worker's answer over within a tenth of a millisecond.
    Config.set("graphics", "multisamples", "0")
    Config.set("graphics", "maxfps", "60")
    Config.set("kivy", "kivy_clock", "interrupt")
    Config.set("kivy", "exit_on_escape", "0")
    # No button of a mouse plays a second finger; and where a system makes a mouse of a finger
    # that is on the glass, the finger alone counts.
    Config.set("input", "mouse", "mouse,disable_multitouch,disable_on_activity")


def _is_not_of_cutbuffer(record: logging.LogRecord) -> bool:
    return not str(record.msg).startswith("Cutbuffer:")


class _Kept(logging.Handler):
    """Keeps what is logged."""

    def __init__(self) -> None:
        super().__init__()
        self.said: list[str] = []

    def emit(self, record: logging.LogRecord) -> None:
        """Keep one message of the log."""
        self.said.append(record.getMessage())


@contextmanager
def _kept_from_the_screen() -> Iterator[list[str]]:
    """Keep what Kivy says while it starts: its pages on a missing window help nobody."""
    log, kept = logging.getLogger("kivy"), _Kept()
    log.addHandler(kept)
    try:
        yield kept.said
    finally:
        log.removeHandler(kept)


def _why_none(driver: str, said: list[str]) -> str:
    named = driver or os.environ.get("SDL_VIDEODRIVER", "")
    by = f"the video driver {named} opened none" if named else "no video driver opened one"
    told = re.search(r"^sdl2 - \w+: (?:b['\"])?(.*?)['\"]?$", "\n".join(said), re.MULTILINE)
    return f"{by} ({told[1]})" if told else by
