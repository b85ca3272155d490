"""Runs the steps of a document in one shell, in an empty folder, as a reader would."""

from __future__ import annotations

import contextlib
import os
import shutil
import signal
import subprocess
import sys
import threading
import time
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

from tests.readme.collecting import Step

MARK = "@@ step"
PATIENCE_S = 1800
KEPT = ("LANG", "LC_ALL", "TMPDIR", "USER", "LOGNAME", "TZ")
"""Of the surroundings of the tests; they hold settings of windows that nobody sees."""


@dataclass(frozen=True, slots=True)
class Ran:
    """What a step printed, both streams as on a terminal, and its exit code."""

    step: Step
    printed: str
    code: int


class ShellEndedError(AssertionError):
    """The shell ended before the last step: a step failed that everything after it needs."""


def run_steps(steps: Sequence[Step], folder: Path, home: Path, env: dict[str, str]) -> list[Ran]:
    """Run all steps in one bash and tell each apart.

    Raises
    ------
    ShellEndedError
        If a block did not succeed, or the shell ended.
    """
    script = folder.with_name("typed.sh")
    script.write_text("\n".join(_script(steps)), "utf-8")
    told = folder.with_name("printed.txt")
    path = f"{Path(sys.executable).parent}{os.pathsep}{os.environ['PATH']}"
    kept = {name: os.environ[name] for name in KEPT if name in os.environ}
    around = kept | env | {"PATH": path, "HOME": str(home)}
    with told.open("wb") as out:  # not a pipe: a server that goes on would keep it open
        shell = subprocess.Popen(
            ["bash", str(script)],
            cwd=folder,
            env=around,
            stdin=subprocess.DEVNULL,
            stdout=out,
            stderr=subprocess.STDOUT,
            start_new_session=True,
        )
        with contextlib.suppress(subprocess.TimeoutExpired):  # what was not run is told below
            shell.wait(PATIENCE_S)
        with contextlib.suppress(ProcessLookupError):
            os.killpg(shell.pid, signal.SIGKILL)
        shell.wait()
    return _told(steps, told.read_text("utf-8", "replace"))


def _script(steps: Sequence[Step]) -> Iterator[str]:
    """A script that types the steps, each followed by a line that tells its end."""
    yield "set -e"
    for number, step in enumerate(steps):
        if step.is_whole:
            yield f"{step.typed}\nprintf '\\n{MARK} {number} 0\\n'"
        else:
            yield f"code_=0; {{\n{step.typed}\n}} || code_=$?"
            yield f'printf "\\n{MARK} {number} $code_\\n"'


def _told(steps: Sequence[Step], printed: str) -> list[Ran]:
    """Part what was printed by the marks."""
    found: list[Ran] = []
    rest = printed
    for number, step in enumerate(steps):
        part, mark, rest = rest.partition(f"\n{MARK} {number} ")
        if not mark:
            raise ShellEndedError(f"line {step.line} did not end well:\n{step.typed}\n{part}")
        code, _, rest = rest.partition("\n")
        found.append(Ran(step, part, int(code)))
    return found


@contextlib.contextmanager
def screen_with_a_hand() -> Iterator[tuple[str, list[int]]]:
    """A screen of its own, on which every window that comes up is seen and then ended.

    Gives the name of the screen, and a list of the programs that were ended so.
    """
    read, write = os.pipe()
    command = [shutil.which("Xvfb") or "Xvfb", "-displayfd", str(write)]
    command += ["-screen", "0", "1280x800x24", "-nolisten", "tcp"]
    with subprocess.Popen(command, pass_fds=[write], stderr=subprocess.DEVNULL) as server:
        os.close(write)
        with os.fdopen(read) as told:
            display = f":{told.readline().strip()}"
        done = threading.Event()
        ended: list[int] = []
        hand = threading.Thread(target=_end_windows, args=(display, done, ended))
        hand.start()
        try:
            yield display, ended
        finally:
            done.set()
            hand.join()
            server.terminate()


def _end_windows(display: str, done: threading.Event, ended: list[int]) -> None:
    """Look for windows of programs; once one is shown, end its program."""
    around = os.environ | {"DISPLAY": display}
    while not done.wait(0.5):
        search = ["xdotool", "search", "--onlyvisible", "--class", "."]
        found = subprocess.run(search, env=around, capture_output=True, text=True, check=False)
        for window in found.stdout.split():
            asked = ["xdotool", "getwindowpid", window]
            told = subprocess.run(asked, env=around, capture_output=True, text=True, check=False)
            time.sleep(1.0)  # the app draws and opens its book
            if told.stdout.strip().isdigit() and int(told.stdout) not in ended:
                ended.append(int(told.stdout))
                with contextlib.suppress(ProcessLookupError):
                    os.kill(ended[-1], signal.SIGTERM)
