"""Known SSH servers: those somebody accepted, on this tablet or for this user."""

from __future__ import annotations

import os
from pathlib import Path
from typing import Final, NoReturn

import paramiko

from sync.stores.errors import HostChangedError, HostUnknownError

FILE: Final = "known_hosts"


class KnownHosts(paramiko.MissingHostKeyPolicy):  # type: ignore[misc]  # it ships no types
    """Stops a connection to a server of which no key was accepted."""

    def __init__(self, home: Path) -> None:
        self.path = home / FILE

    def load_into(self, client: paramiko.SSHClient) -> None:
        """Give a client the keys that were accepted, so that it asks the server for those."""
        for path in (Path.home() / ".ssh" / FILE, self.path):
            if path.is_file():
                client.load_host_keys(str(path))

    def missing_host_key(
        self, client: paramiko.SSHClient, hostname: str, key: paramiko.PKey
    ) -> NoReturn:
        """Refuse a server of which nothing is known.

        Raises
        ------
        HostUnknownError
            Always; the line on its context would accept the server.
        """
        raise HostUnknownError(
            host=hostname,
            kind=key.get_name(),
            fingerprint=key.fingerprint,
            path=self.path,
            line=f"{hostname} {key.get_name()} {key.get_base64()}",
        )

    def host_changed(self, error: paramiko.BadHostKeyException) -> HostChangedError:
        """Return what to say of a server that shows another key than the accepted one."""
        return HostChangedError(
            host=error.hostname,
            kind=error.key.get_name(),
            fingerprint=error.key.fingerprint,
            known=error.expected_key.fingerprint,
            path=self.path,
        )


def accept_host(unknown: HostUnknownError) -> None:
    """Take a server as known from now on; for whoever has compared the fingerprint."""
    path = Path(str(unknown.context["path"]))
    handle = os.open(path, os.O_WRONLY | os.O_CREAT | os.O_APPEND, 0o600)
    with os.fdopen(handle, "a", encoding="ascii") as out:
        out.write(f"{unknown.context['line']}\n")
        out.flush()
        os.fsync(out.fileno())
