"""A PostgreSQL of the tests' own: a cluster in a folder that goes with it, on loopback alone."""

from __future__ import annotations

import contextlib
import itertools
import os
import pwd
import shutil
import signal
import subprocess
import time
from collections.abc import Iterator
from pathlib import Path

import psycopg

from tests.sync.stores.servers.process import free_port, server_folder

USER = "crew"
SLOWEST_START_S = 60
_numbers = itertools.count(1)


class Postgres:
    """A running server; it is never root, since PostgreSQL refuses to be."""

    def __init__(self, folder: Path) -> None:
        self.data = folder / "data"
        self.log = folder / "log"
        self.port = free_port()
        self._running: subprocess.Popen[bytes] | None = None
        self._user = "postgres" if os.geteuid() == 0 else None
        if self._user is not None:
            known = pwd.getpwnam(self._user)
            os.chown(folder, known.pw_uid, known.pw_gid)

    def make(self) -> None:
        """Make the cluster; texts sort by language in it, so that ours must not rely on that."""
        sorts = ["--locale-provider=icu", "--icu-locale=en", "--locale=C.UTF-8"]
        words = [program("initdb"), "-D", str(self.data), "-E", "UTF8", "-A", "trust", "-U", USER]
        words += ["--no-sync"]
        subprocess.run(
            [*words, *sorts],
            check=True,
            capture_output=True,
            cwd="/",
            user=self._user,
            group=self._user,
        )

    def start(self) -> None:
        """Start it and wait until it answers; its writes are synced, as an office's are."""
        told = {"port": self.port, "listen_addresses": "127.0.0.1", "fsync": "on"}
        told |= {"unix_socket_directories": "", "max_connections": 20}
        words = [program("postgres"), "-D", str(self.data)]
        for name, value in told.items():
            words += ["-c", f"{name}={value}"]
        with self.log.open("ab") as log:
            self._running = subprocess.Popen(
                words,
                stdout=log,
                stderr=log,
                cwd="/",
                start_new_session=True,
                user=self._user,
                group=self._user,
            )
        late = time.monotonic() + SLOWEST_START_S
        while not self._answers():
            if self._running.poll() is not None or time.monotonic() > late:
                raise RuntimeError(f"PostgreSQL does not start: {self.log.read_text()}")
            time.sleep(0.05)

    def stop(self, how: signal.Signals = signal.SIGINT) -> None:
        """Stop it; SIGQUIT is its "immediate": it drops everything where it stands."""
        if self._running is not None:
            self._running.send_signal(how)
            self._running.wait(SLOWEST_START_S)
            self._running = None

    def new_database(self) -> str:
        """Make an empty place for one test; return its URL. A schema is made much faster."""
        name = f"office{next(_numbers)}"
        with psycopg.connect(self.url("postgres"), autocommit=True) as connection:
            connection.execute(f"CREATE SCHEMA {name}".encode())
        return self.url(f"postgres?options=-csearch_path%3D{name}")

    def url(self, name: str) -> str:
        """The URL of a database."""
        return f"postgresql://{USER}@127.0.0.1:{self.port}/{name}"

    def _answers(self) -> bool:
        with contextlib.suppress(psycopg.Error):
            psycopg.connect(self.url("postgres"), connect_timeout=2).close()
            return True
        return False


def program(name: str) -> str:
    """Return the path of one of its programs; Debian keeps each version in a folder of its own."""
    found = sorted(Path("/usr/lib/postgresql").glob(f"*/bin/{name}"))
    path = str(found[-1]) if found else shutil.which(name)
    if path is None:
        raise RuntimeError("PostgreSQL is not installed: bash .setup/install test")
    return path


@contextlib.contextmanager
def postgres() -> Iterator[Postgres]:
    """Make a cluster, run it, and take it away whatever happens."""
    with server_folder() as folder:
        server = Postgres(folder)
        server.make()
        server.start()
        try:
            yield server
        finally:
            server.stop(signal.SIGQUIT)  # its folder goes too: nothing need be put in order
