"""The way to a store over SFTP: any machine that one can log in to by SSH."""

from __future__ import annotations

import contextlib
import logging
import stat
from collections.abc import Iterator
from pathlib import Path
from typing import Any, Final

import paramiko
from fsspec.implementations.sftp import SFTPFileSystem
from paramiko.sftp import CMD_EXTENDED

from sync.stores.address import StoreAddress
from sync.stores.contract import ListedFile
from sync.stores.errors import StoreError, StoreRefusedError, StoreUnreachableError
from sync.stores.fault_text import connection_error_text, system_store_error
from sync.stores.partial_files import temporary
from sync.stores.secrets import Secret, require_private
from sync.stores.server_store import walk_folders
from sync.stores.ssh_hosts import KnownHosts

KEY_FILE: Final = "store-key"

logging.getLogger("paramiko").addHandler(logging.NullHandler())  # what it says, we say


class _Files(SFTPFileSystem):  # type: ignore[misc]  # fsspec ships no types
    """fsspec's SFTP with hosts that must be known and answers that must come in time."""

    def _connect(self) -> None:
        patience_s, hosts = self.ssh_kwargs.pop("patience_s"), self.ssh_kwargs.pop("hosts")
        self.client = paramiko.SSHClient()
        hosts.load_into(self.client)
        self.client.set_missing_host_key_policy(hosts)
        names = ("timeout", "banner_timeout", "auth_timeout", "channel_timeout")
        try:
            self.client.connect(self.host, **self.ssh_kwargs, **dict.fromkeys(names, patience_s))
            self.ftp = self.client.open_sftp()
            self.ftp.get_channel().settimeout(patience_s)
        except BaseException:
            self.client.close()
            raise


class SftpClient:
    """Uploads under another name, made durable where the server can, then renames.

    A plain SFTP rename refuses a name that is taken, so it cannot overwrite; OpenSSH's
    renaming that replaces is used for pieces alone.
    """

    def __init__(
        self, where: StoreAddress, home: Path, secret: Secret | None, patience_s: float
    ) -> None:
        self.where = str(where)
        self._lead = f"{where.path}/" if where.path else ""
        self._hosts = KnownHosts(home)
        self._key = home / KEY_FILE
        self._login: dict[str, Any] = {
            "host": where.host,
            "port": where.port or paramiko.config.SSH_PORT,
            "username": where.user,
            "password": secret.password if secret else None,
            "hosts": self._hosts,
            "patience_s": patience_s,
        }
        self._files: _Files | None = None
        self._made: set[str] = set()

    def walk(self, folder: str) -> Iterator[ListedFile]:
        """Yield the files below a folder; links are left out."""
        return walk_folders(self._entries, folder)

    def fetch(self, name: str, most: int) -> bytes | None:
        """Return the first bytes of a plain file; None if there is none."""
        size = self.size(name)
        if size is None:
            return None
        with contextlib.suppress(FileNotFoundError), self._open().open(self._at(name)) as file:
            file.prefetch(min(size, most))  # else each 32 KiB waits for the one before
            return bytes(file.read(most))
        return None

    def size(self, name: str) -> int | None:
        """Return how many bytes a plain file has; None if there is none."""
        try:
            met = self._open().ftp.lstat(self._at(name))
        except FileNotFoundError:
            return None
        return met.st_size if stat.S_ISREG(met.st_mode) else None

    def put(self, name: str, data: bytes, replaces: bool) -> None:
        """Upload a file beside its name and rename it, once its size is right."""
        files, place = self._open(), self._at(name)
        self._make_folders(place)
        fresh, is_named = temporary(place), False
        try:
            with files.open(fresh, "wbx") as out:
                out.set_pipelined(True)
                out.write(data)
                out.flush()
                self._sync(out)
            if files.ftp.lstat(fresh).st_size == len(data):  # else it never gets the name
                is_named = self._rename(fresh, place, replaces)
        finally:
            if not is_named:
                with contextlib.suppress(OSError, EOFError, paramiko.SSHException):
                    files.ftp.remove(fresh)

    def store_error(self, act: str, error: Exception) -> StoreError:
        """Return what to say of an error of the connection or of the server."""
        if isinstance(error, paramiko.BadHostKeyException):
            return self._hosts.host_changed(error)
        if isinstance(error, paramiko.AuthenticationException):
            why, remedy = (
                "it does not let this user in",
                f"See to the key ({self._key}) or password",
            )
            return StoreRefusedError(where=self.where, act=act, why=why, remedy=remedy)
        lost = connection_error_text(error) or self._why_down(error)
        if lost:
            return StoreUnreachableError(where=self.where, why=lost)
        return system_store_error(
            self.where, act, error if isinstance(error, OSError) else OSError()
        )

    def disconnect(self) -> None:
        """Let go of the connection."""
        if self._files is not None:
            self._files.client.close()
        self._files = None
        self._made.clear()

    def _why_down(self, error: Exception) -> str:
        """Return why the connection is down, if it is; the error may say nothing of it."""
        if isinstance(error, paramiko.ssh_exception.NoValidConnectionsError):
            return "nothing answers there"
        transport = self._files.client.get_transport() if self._files is not None else None
        if transport is None or not transport.is_active():
            return "the connection broke off, or no SSH server answers there"
        return ""

    def _open(self) -> _Files:
        """Return the connection, made at first need."""
        if self._files is None:
            login = dict(self._login)
            if self._key.exists():
                require_private(self._key)
                login["key_filename"] = str(self._key)
            self._files = _Files(**login, skip_instance_cache=True)
        return self._files

    def _at(self, name: str) -> str:
        """Return the path on the server of a name; without a root it starts at the login's."""
        return f"{self._lead}{name}" or "."

    def _entries(self, folder: str) -> list[tuple[str, int | None]]:
        """Return what a folder holds, None for the size of a folder."""
        try:
            met = self._open().ls(self._at(folder), detail=True)
        except (FileNotFoundError, NotADirectoryError):
            return []
        found = [(one["name"].rpartition("/")[2], one["type"], one["size"]) for one in met]
        return [
            (n, None if kind == "directory" else size) for n, kind, size in found if kind != "link"
        ]

    def _make_folders(self, place: str) -> None:
        """Make what is missing of the way to a path."""
        parts = place.split("/")[:-1]
        for depth in range(1, len(parts) + 1):
            folder = "/".join(parts[:depth])
            if not folder or folder in self._made:
                continue
            try:
                self._open().ftp.mkdir(folder)
            except OSError:  # servers say no more than "failure" when it is there
                if not stat.S_ISDIR(self._open().ftp.stat(folder).st_mode):
                    raise
            self._made.add(folder)

    def _sync(self, file: Any) -> None:
        """Ask the server to make a file durable; those that can't say so and are forgiven."""
        with contextlib.suppress(OSError):
            file.sftp._request(CMD_EXTENDED, "fsync@openssh.com", file.handle)

    def _rename(self, fresh: str, place: str, replaces: bool) -> bool:
        """Rename a file and tell whether it was; a name that was taken meanwhile stays as it is."""
        files = self._open()
        if replaces:
            files.mv(fresh, place)
            return True
        try:
            files.ftp.rename(fresh, place)
        except OSError:  # servers say no more than "failure" when the name is taken
            files.ftp.lstat(place)
            return False
        return True
