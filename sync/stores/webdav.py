"""The way to a store over WebDAV: what many web hosts and cloud boxes speak."""

from __future__ import annotations

import contextlib
from collections.abc import Iterator
from http import HTTPStatus
from typing import Any, Final
from urllib.parse import quote

import httpx
from webdav4.client import (
    BadGatewayError,
    ClientError,
    HTTPError,
    InsufficientStorage,
    ResourceAlreadyExists,
    ResourceNotFound,
)
from webdav4.fsspec import WebdavFileSystem
from webdav4.multistatus import DAVProperties

from sync.stores.address import StoreAddress
from sync.stores.contract import ListedFile
from sync.stores.errors import StoreError, StoreRefusedError, StoreUnreachableError
from sync.stores.fault_text import (
    ASK,
    certificate_store_error,
    connection_error_text,
    error_chain,
    http_store_error,
    system_store_error,
)
from sync.stores.partial_files import temporary
from sync.stores.secrets import Secret
from sync.stores.server_store import walk_folders

MOST_TOLD: Final = 64 * 1024 * 1024  # bytes of one answer that is no file; a list has 100,000 names
CHUNK: Final = 64 * 1024
NO_RENAMING: Final = {
    HTTPStatus.METHOD_NOT_ALLOWED,
    HTTPStatus.NOT_IMPLEMENTED,
    HTTPStatus.BAD_GATEWAY,
}


class WebdavClient:
    """Uploads under another name, then moves, which must not overwrite unless we say so.

    An answer to a condition is not relied on: some servers ignore If-None-Match on an upload
    and say that all went well. Where a server can't move, the upload goes straight to its
    name; what a cut leaves there is a piece of the file and gives way to the whole.
    """

    def __init__(self, where: StoreAddress, secret: Secret | None, patience_s: float) -> None:
        self.where = str(where)
        at = f"[{where.host}]" if ":" in where.host else where.host
        at = f"{at}:{where.port}" if where.port else at
        scheme = {"dav": "http", "davs": "https"}[where.scheme]
        self._address = f"{scheme}://{at}{quote(where.path)}"
        self._settings: dict[str, Any] = {
            "auth": (secret.user or where.user, secret.password) if secret else None,
            "timeout": httpx.Timeout(patience_s),
            "headers": {"Accept-Encoding": "identity"},  # nothing unpacks to more than was sent
            "event_hooks": {"response": [_bound]},
        }
        self._files: WebdavFileSystem | None = None
        self._made: set[str] = set()

    def walk(self, folder: str) -> Iterator[ListedFile]:
        """Yield the files below a folder, listed folder by folder."""
        return walk_folders(self._entries, folder)

    def fetch(self, name: str, most: int) -> bytes | None:
        """Return the first bytes of a file; None if there is none."""
        if self.size(name) is None:
            return None
        client, found = self._open().client, bytearray()
        with client.http.stream("GET", client.join_url(name)) as answer:
            if answer.status_code == HTTPStatus.NOT_FOUND:
                return None
            answer.raise_for_status()
            for chunk in answer.iter_bytes(CHUNK):
                found += chunk
                if len(found) >= most:
                    break
        return bytes(found[:most])

    def size(self, name: str) -> int | None:
        """Return how many bytes a file has; None if there is none."""
        told = self._properties(name)
        return None if told is None or told.collection else int(told.content_length or 0)

    def put(self, name: str, data: bytes, replaces: bool) -> None:
        """Upload a file beside its name and move it, once its size is right."""
        files = self._open()
        self._make_folders(name)
        fresh, is_named = temporary(name), False
        try:
            files.pipe_file(fresh, data)
            if self.size(fresh) == len(data):  # else it never gets the name
                is_named = self._move(fresh, name, data, replaces)
        finally:
            if not is_named:
                with contextlib.suppress(httpx.HTTPError, ClientError):
                    files.client.remove(fresh)

    def store_error(self, act: str, error: Exception) -> StoreError:
        """Return what to say of an error of the connection or of the server."""
        untrusted = certificate_store_error(self.where, act, error)
        if untrusted is not None:
            return untrusted
        status = _status_of(error)
        if status:
            return http_store_error(self.where, act, status)
        lost = _why_lost(error)
        if lost:
            return StoreUnreachableError(where=self.where, why=lost)
        if isinstance(error, OSError):
            return system_store_error(self.where, act, error)
        why = "it answers what no WebDAV server would"
        return StoreRefusedError(where=self.where, act=act, why=why, remedy=ASK)

    def disconnect(self) -> None:
        """Let go of the connection."""
        if self._files is not None:
            self._files.client.http.close()
        self._files = None
        self._made.clear()

    def _open(self) -> WebdavFileSystem:
        """Return the file system, made at first need; never one that fsspec kept."""
        if self._files is None:
            self._files = WebdavFileSystem(
                self._address, **self._settings, retry=False, skip_instance_cache=True
            )
        return self._files

    def _properties(self, name: str) -> DAVProperties | None:
        """Return what the server says of one thing; None if it is not there.

        Only the thing itself is asked after: without a depth that means all that is below,
        which some servers refuse to tell of a folder.
        """
        client = self._open().client
        try:
            met = client.propfind(name, headers={"Depth": "0"})
        except ResourceNotFound:
            return None
        return met.get_response_for_path(client.base_url.path, name).properties

    def _entries(self, folder: str) -> list[tuple[str, int | None]]:
        """Return what a folder holds, None for the size of a folder."""
        try:
            met = self._open().ls(folder, detail=True)
        except (FileNotFoundError, NotADirectoryError):
            return []
        return [
            (
                str(one["name"]).rstrip("/").rpartition("/")[2],
                None if one["type"] == "directory" else int(one["size"] or 0),
            )
            for one in met
            if isinstance(one, dict)
        ]

    def _make_folders(self, name: str) -> None:
        """Make what is missing of the way to a name, the store's own folder included."""
        parts = name.split("/")[:-1]
        for depth in range(len(parts) + 1):
            folder = "/".join(parts[:depth])
            if folder in self._made:
                continue
            try:
                self._open().client.mkdir(folder)
            except ClientError:  # whoever makes it at the same moment is told anything but that
                told = self._properties(folder)
                if told is None or not told.collection:
                    raise
            self._made.add(folder)

    def _move(self, fresh: str, name: str, data: bytes, replaces: bool) -> bool:
        """Give a file its name and tell whether that took the temporary one away.

        A server may stumble when two tablets give the same name at the same moment: where the
        name has its bytes by then all is well, and else it is asked again, once.
        """
        for is_last in (False, True):
            try:
                self._open().client.move(fresh, name, overwrite=replaces)
                return True
            except ResourceAlreadyExists:
                return False
            except (HTTPError, BadGatewayError) as error:
                status = _status_of(error)
                if status in NO_RENAMING:
                    self._open().pipe_file(name, data)
                    return False
                if self.size(name) == len(data):
                    return False
                if is_last or status != HTTPStatus.INTERNAL_SERVER_ERROR:
                    raise
        return False


def _bound(response: httpx.Response) -> None:
    """Have an answer cut off where no honest one would go on; files are bounded by their reader."""
    if response.request.method != "GET" and isinstance(response.stream, httpx.SyncByteStream):
        response.stream = _Bounded(response.stream)


class _Bounded(httpx.SyncByteStream):
    """The bytes of an answer, up to a limit."""

    def __init__(self, stream: httpx.SyncByteStream) -> None:
        self._stream = stream

    def __iter__(self) -> Iterator[bytes]:
        seen = 0
        for chunk in self._stream:
            seen += len(chunk)
            if seen > MOST_TOLD:
                raise ValueError("too long an answer")
            yield chunk

    def close(self) -> None:
        self._stream.close()


def _status_of(error: Exception) -> int:
    """Return the status of an answer that an error stands for; 0 if it does for none."""
    if isinstance(error, httpx.HTTPStatusError):
        return error.response.status_code
    if isinstance(error, InsufficientStorage):
        return HTTPStatus.INSUFFICIENT_STORAGE
    if isinstance(error, BadGatewayError):
        return HTTPStatus.BAD_GATEWAY
    known = error if isinstance(error, HTTPError) else error.__cause__
    return int(known.status_code) if isinstance(known, HTTPError) else 0


def _why_lost(error: Exception) -> str:
    """Return why nothing came back, if that is what an error means; else nothing."""
    *_, root = error_chain(error)
    lost = connection_error_text(root)
    if not lost and isinstance(error, httpx.TimeoutException):
        lost = "no answer came in time"
    if not lost and isinstance(error, httpx.TransportError):
        lost = "the connection broke off"
    return lost
