"""Real servers for tests: each on loopback, on a port of its own, in a folder that goes with it."""

from __future__ import annotations

import contextlib
import os
import shutil
import signal
import socket
import subprocess
import tempfile
import time
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from pathlib import Path

SLOWEST_START_S = 30


def free_port() -> int:
    """Return a port that nothing listens on."""
    with socket.socket() as asked:
        asked.bind(("127.0.0.1", 0))
        return int(asked.getsockname()[1])


@contextlib.contextmanager
def server_folder() -> Iterator[Path]:
    """A folder that a server may enter which gives up being root; pytest's own let none in."""
    folder = Path(tempfile.mkdtemp(prefix="crewapp-server-"))
    folder.chmod(0o755)
    try:
        yield folder
    finally:
        shutil.rmtree(folder, ignore_errors=True)


@dataclass
class Server:
    """A program that listens on a port; it can be taken away and brought back."""

    command: Sequence[str]
    port: int
    log: Path
    env: dict[str, str] = field(default_factory=dict)
    _running: subprocess.Popen[bytes] | None = None

    def start(self) -> None:
        """Start the program and wait until it listens."""
        self.launch()
        self.wait()

    def launch(self) -> None:
        """Start the program."""
        with self.log.open("ab") as log:
            self._running = subprocess.Popen(
                self.command,
                stdin=subprocess.DEVNULL,
                stdout=log,
                stderr=log,
                env=os.environ | self.env,
                start_new_session=True,
            )

    def wait(self) -> None:
        """Wait until it listens."""
        late = time.monotonic() + SLOWEST_START_S
        while not self._listens():
            if self._running is None or self._running.poll() is not None or time.monotonic() > late:
                raise RuntimeError(f"{self.command[0]} does not start: {self.log.read_text()}")
            time.sleep(0.02)

    def kill(self) -> None:
        """End it and all that it started at once, as a cut of its power would."""
        if self._running is not None:
            self.signal(signal.SIGKILL)
            self._running.wait()
            self._running = None

    def signal(self, number: signal.Signals) -> None:
        """Send a signal to it and to all that it started."""
        assert self._running is not None
        for pid in [self._running.pid, *descendants(self._running.pid)]:
            with contextlib.suppress(ProcessLookupError):
                os.kill(pid, number)

    def _listens(self) -> bool:
        """Tell whether something answers on the port."""
        with contextlib.suppress(OSError), socket.create_connection(("127.0.0.1", self.port), 1):
            return True
        return False


def descendants(pid: int) -> list[int]:
    """Return the processes that a process started, and those that they started."""
    parents = {}
    for path in Path("/proc").glob("[0-9]*/stat"):
        with contextlib.suppress(OSError):
            told = path.read_text("utf-8", "replace")
            parents[int(told.split()[0])] = int(told.rpartition(")")[2].split()[1])
    found = [pid]
    for one in found:
        found += [child for child, parent in parents.items() if parent == one]
    return found[1:]


@contextlib.contextmanager
def running(*servers: Server) -> Iterator[None]:
    """Run servers for as long as they are wanted, and end them whatever happens."""
    try:
        for server in servers:
            server.launch()
        for server in servers:
            server.wait()
        yield
    finally:
        for server in reversed(servers):
            server.kill()
