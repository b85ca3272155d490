"""Without a display the app says so in a sentence and ends, instead of waiting unseen."""

from __future__ import annotations

import os
import socket
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

from crewapp.device.display import NoDisplayError, find_display
from tests.crewapp.real_window import HAS_SCREEN, NO_SCREEN, ROOT, x_screen

HELP = "Commands work without one: crewapp --help."


def run(home: Path, *words: str, **around: str) -> tuple[int, str]:
    """Run crewapp in bare surroundings; return its exit code and what it said on stderr."""
    env = {"PATH": os.environ["PATH"], "HOME": str(home), "PYTHONPATH": str(ROOT), **around}
    env |= {"CREWAPP_HOME": str(home / "crewapp"), "KIVY_HOME": str(home / "kivy")}
    done = subprocess.run(
        [sys.executable, *(words or ("-m", "crewapp"))],
        env=env,
        cwd=home,
        capture_output=True,
        text=True,
        timeout=120,
        check=False,
    )
    return done.returncode, done.stderr


@pytest.mark.parametrize(
    ("around", "why"),
    [
        ({}, "no display was found"),
        ({"DISPLAY": ":4711"}, "the display :4711 can't be reached (No such file or directory)"),
        ({"DISPLAY": "", "WAYLAND_DISPLAY": ""}, "no display was found"),
        (
            {"WAYLAND_DISPLAY": "wayland-9", "XDG_RUNTIME_DIR": "/nowhere"},
            "the display wayland-9 can't be reached (No such file or directory)",
        ),
        ({"SDL_VIDEODRIVER": "x11"}, "SDL_VIDEODRIVER asks for x11, and no DISPLAY is set"),
        (
            {"SDL_VIDEODRIVER": "slate"},
            "the video driver slate opened none (slate not available)",
        ),
    ],
)
def test_without_a_display_it_is_said(tmp_path: Path, around: dict[str, str], why: str) -> None:
    """One line, exit 2, and nothing was made."""
    told = (2, f"crewapp: Cannot open a window: {why}. {HELP}\n")
    assert run(tmp_path, **around) == told
    assert not (tmp_path / "crewapp").exists()


@pytest.mark.parametrize("word", ["--open", "--finished"])
def test_demo_to_be_opened_is_not_made_in_vain(tmp_path: Path, word: str) -> None:
    """The display is asked for before anything is made."""
    code, said = run(tmp_path, "-m", "crewapp", "demo", "--out", "d", word)
    assert (code, said.count("\n")) == (2, 1)
    assert not (tmp_path / "d").exists()


@pytest.fixture
def deaf() -> Iterator[str]:
    """A display that takes the call and never says a word."""
    with socket.create_server(("127.0.0.1", 0)) as server:
        port = server.getsockname()[1]
        yield f"127.0.0.1:{port - 6000}"


@pytest.mark.parametrize("driver", ["", "x11"])
def test_display_that_never_answers_is_not_waited_for(
    deaf: str, driver: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    """SDL would wait for it for ever, and hold every other thread."""
    monkeypatch.setattr("crewapp.device.display.ANSWER_S", 0.2)
    with pytest.raises(NoDisplayError, match="does not answer"):
        find_display({"DISPLAY": deaf, "SDL_VIDEODRIVER": driver}, "linux")


def test_first_frame_that_does_not_come_is_told(tmp_path: Path) -> None:
    """The window is there and nothing is drawn: the driver is named, exit 2."""
    script = (
        "import time; from crewapp.device import opening; from crewapp.cli import main as cli; "
        "opening.FIRST_FRAME_S = 3.0;"
        "import crewapp.app as a; from kivy.base import EventLoop;"
        "EventLoop.mainloop = lambda: time.sleep(60);"
        "close = a.JobWorker.close;"
        "a.JobWorker.close = lambda self: (close(self), print('closed', flush=True));"
        "cli.main([])"
    )
    code, said = run(tmp_path, "-c", script, SDL_VIDEODRIVER="offscreen", KIVY_NO_ARGS="1")
    assert code == 2
    told = "nothing was drawn within 3 s by the video driver offscreen"
    assert said.endswith(f"crewapp: Cannot open a window: {told}. {HELP}\n")


def test_driver_without_a_screen_is_taken_at_its_word() -> None:
    """Drivers that draw unseen are for tests: named, they are used."""
    for driver in ("offscreen", "dummy"):
        assert find_display({"SDL_VIDEODRIVER": driver}, "linux").driver == driver


@pytest.mark.parametrize(
    ("platform", "around"),
    [("win32", {}), ("darwin", {}), ("linux", {"ANDROID_ARGUMENT": "/data/app"})],
)
def test_other_systems_are_not_asked_for_a_display(platform: str, around: dict[str, str]) -> None:
    """Their windows have no DISPLAY; SDL chooses."""
    assert find_display(around, platform).driver == ""


@pytest.mark.skipif(not HAS_SCREEN, reason=NO_SCREEN)
def test_server_is_not_thrown_over_by_the_question() -> None:
    """An X server starts itself anew when its last caller leaves: it is held meanwhile."""
    with x_screen("-terminate") as (screen, name), find_display({"DISPLAY": name}, "linux") as one:
        assert one.driver == "x11"
        with pytest.raises(subprocess.TimeoutExpired):
            screen.wait(1.0)
