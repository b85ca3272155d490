"""Checks for a display before Kivy is imported, which would wait for it for ever.

Without a display SDL draws into a window that nobody sees; a display that takes the call and
never answers stops the whole process, watchers and all. Both are found out here, in words.
"""

from __future__ import annotations

import os
import re
import socket
import struct
import sys
from collections.abc import Mapping
from contextlib import ExitStack, suppress
from pathlib import Path

from models.errors import CrewError

ANSWER_S = 10.0
"""How long a display may take to say its first byte."""

_X_HELLO = struct.pack("=cxHHHHxx", b"l" if sys.byteorder == "little" else b"B", 0, 0, 0, 0)
"""A greeting of X11 in a version that no server speaks: each answers at once and lets nobody in.

Source: X Window System Protocol, X11R7.7, chapter 8, Connection Setup; opcodes of Wayland below
from the Wayland protocol specification, wl_display.sync; both from memory, tried on Xvfb.
"""
_WAYLAND_HELLO = struct.pack("=III", 1, 12 << 16, 2)  # wl_display.sync: the answer is an event


class NoDisplayError(CrewError, OSError):
    """A window was to be opened where there is no display."""

    code = "display.none"
    sentence = "Cannot open a window: {why}. Commands work without one: crewapp --help."


class Display:
    """The display that a window is opened on; use it in a ``with`` until the window is there.

    Meanwhile it holds a line to the display: an X server whose last caller leaves starts
    itself anew, and would throw out the window that is just coming.
    """

    def __init__(self, driver: str) -> None:
        self.driver = driver  # as SDL names it; "" where SDL is to choose
        self._lines = ExitStack()

    def __enter__(self) -> Display:
        return self

    def __exit__(self, *_: object) -> None:
        self.let_go()

    def let_go(self) -> None:
        """Hang up: the window is there, or never will be."""
        self._lines.close()

    def hold(self, line: socket.socket) -> None:
        """Keep a line open until the window is there."""
        self._lines.callback(line.close)


def find_display(environ: Mapping[str, str] = os.environ, platform: str = "") -> Display:
    """Find what a window can be opened on, and which driver of SDL opens it.

    A driver that ``SDL_VIDEODRIVER`` names is taken at its word, but for one that needs a
    display that does not answer.

    Raises
    ------
    NoDisplayError
        If none is named, or none of those named answers.
    """
    named = environ.get("SDL_VIDEODRIVER", "")
    is_android = "ANDROID_ARGUMENT" in environ or "P4A_BOOTSTRAP" in environ
    if (platform or sys.platform) != "linux" or is_android:
        return Display(named)
    ways = {"x11": environ.get("DISPLAY", ""), "wayland": environ.get("WAYLAND_DISPLAY", "")}
    if named and named not in ways:
        return Display(named)
    wanted = {name: place for name, place in ways.items() if place and named in ("", name)}
    if not wanted and not named:
        raise NoDisplayError(why="no display was found")
    if not wanted:
        variable = {"x11": "DISPLAY", "wayland": "WAYLAND_DISPLAY"}[named]
        raise NoDisplayError(why=f"SDL_VIDEODRIVER asks for {named}, and no {variable} is set")
    display, refused = Display(""), list[str]()
    for name, place in wanted.items():
        try:
            _reach(display, name, place, environ)
            display.driver = ",".join(part for part in (display.driver, name) if part)
        except OSError as fault:
            refused.append(f"the display {place} can't be reached ({fault.strerror or fault})")
    if not display.driver:
        raise NoDisplayError(why=", ".join(refused))
    return display


def _reach(display: Display, name: str, place: str, environ: Mapping[str, str]) -> None:
    """Call a display and wait for its first byte; hold a second line to it."""
    homes = _x_homes(place) if name == "x11" else _wayland_homes(place, environ)
    if not homes:
        return  # a form that only the system's own library reads
    with ExitStack() as lines:
        held = lines.enter_context(_call(homes))
        line = lines.enter_context(_call(homes))
        line.sendall(_X_HELLO if name == "x11" else _WAYLAND_HELLO)
        try:
            is_there = bool(line.recv(1))
        except TimeoutError as fault:
            raise OSError("it does not answer") from fault
        if not is_there:
            raise OSError("it hung up")
        line.close()
        display.hold(held)
        lines.pop_all()


Home = tuple[str, int] | str


def _x_homes(place: str) -> list[Home]:
    """Return where the server of a display named as X does it listens."""
    found = re.fullmatch(r"(?:(?:tcp|inet6?|unix)/)?([^/]*):(\d+)(?:\.\d+)?", place)
    if found is None:
        return []
    host, number = found[1].strip("[]"), int(found[2])
    if host in ("", "unix") or place.startswith("unix/"):
        path = f"/tmp/.X11-unix/X{number}"
        return [f"\0{path}", path]
    return [(host, 6000 + number)] if number < 59536 else []


def _wayland_homes(place: str, environ: Mapping[str, str]) -> list[Home]:
    return [str(Path(environ.get("XDG_RUNTIME_DIR", "/")) / place)]


def _call(homes: list[Home]) -> socket.socket:
    """Connect to the first that is at home.

    Raises
    ------
    OSError
        As the last one refused.
    """
    for home in homes[:-1]:
        with suppress(OSError):
            return _connect(home)
    return _connect(homes[-1])


def _connect(home: Home) -> socket.socket:
    if not isinstance(home, str):
        return socket.create_connection(home, timeout=ANSWER_S)
    line = socket.socket(socket.AF_UNIX)
    line.settimeout(ANSWER_S)
    try:
        line.connect(home)
    except BaseException:
        line.close()
        raise
    return line
