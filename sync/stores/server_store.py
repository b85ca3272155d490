"""The three verbs over any server: what is the same for all, and what none is trusted in."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Protocol, TypeVar

from sync.stores.contract import DEEPEST, ListedFile, check_folder, check_name, is_name
from sync.stores.errors import (
    NotInStoreError,
    NotStoredError,
    StoreError,
    StoreNameTakenError,
    StoreUnreachableError,
    TooLargeError,
)
from sync.stores.partial_files import SMALL, is_piece_of

T = TypeVar("T")


class ServerClient(Protocol):
    """How one kind of server is spoken to; every path is a name that was checked."""

    where: str

    def walk(self, folder: str) -> Iterator[ListedFile]:
        """Yield the files below a folder, whatever their names; nothing if it is not there."""

    def fetch(self, name: str, most: int) -> bytes | None:
        """Return the first bytes of a file, at most so many; None if it is not there."""

    def size(self, name: str) -> int | None:
        """Return how many bytes a file has; None if it is not there."""

    def put(self, name: str, data: bytes, replaces: bool) -> None:
        """Bring a file to a name, by way of another where the server can rename.

        What came to the name meanwhile stays unless ``replaces``, where the server can tell.
        """

    def store_error(self, act: str, error: Exception) -> StoreError:
        """Return what to say of an error that one of the others raised."""

    def disconnect(self) -> None:
        """Let go of the connection; the next call makes a new one."""


class ServerStore:
    """A store on a server, which may forget, lie, answer half or vanish.

    Whether a file arrived is never taken from the answer to the upload: its size is asked
    for afterwards, and a small one is read back whole. For a large one that would double the
    traffic, and its reader compares the hash in its name anyway.
    """

    def __init__(self, way: ServerClient) -> None:
        self._way = way
        self.where = way.where

    def list(self, folder: str) -> list[ListedFile]:
        """Return the files below a folder by name; see the protocol.

        Raises
        ------
        StoreError
            If the server is not there or does not let us read, or the folder is no name.
        """
        lead = f"{check_folder(folder)}/" if folder else ""
        found = self._doing("list its files", lambda: list(self._way.walk(folder)))
        mine = {f.name: f for f in found if f.name.startswith(lead) and is_name(f.name)}
        return [mine[name] for name in sorted(mine)]

    def read(self, name: str, limit: int) -> bytes:
        """Return the bytes of a file of at most ``limit``; see the protocol.

        Raises
        ------
        NotInStoreError
            If no such file is there, or not yet.
        TooLargeError
            If it holds more than ``limit`` bytes.
        StoreError
            If the server is not there or does not let us read, or the name is none.
        """
        check_name(name)
        data = self._doing(f"give {name}", lambda: self._way.fetch(name, limit + 1))
        if data is None:
            raise NotInStoreError(name=name, where=self.where)
        if len(data) > limit:
            raise TooLargeError(name=name, where=self.where, limit=limit)
        return data

    def write(self, name: str, data: bytes) -> None:
        """Put a file onto the server; see the protocol.

        A file under that name that holds a piece of the bytes and nothing else, as an upload
        that was cut off does, gives way to the whole.

        Raises
        ------
        StoreNameTakenError
            If something else has the name.
        NotStoredError
            If the server took the file and does not show it, or shows something else.
        StoreError
            If the server is not there or does not let us write, or the name is none.
        """
        self._doing(f"take {check_name(name)}", lambda: self._write(name, data))

    def close(self) -> None:
        """Let go of the server."""
        self._way.disconnect()

    def _write(self, name: str, data: bytes) -> None:
        """Put a file where none is or only a piece of it, and look at what became of it."""
        met = self._way.fetch(name, len(data) + 1)
        if met == data:
            return
        if met is not None and not is_piece_of(met, data):
            raise StoreNameTakenError(name=name, where=self.where, taken=name)
        self._way.put(name, data, replaces=met is not None)
        if len(data) <= SMALL:
            is_kept = self._way.fetch(name, len(data) + 1) == data
        else:
            is_kept = self._way.size(name) == len(data)
        if not is_kept:
            raise NotStoredError(name=name, where=self.where, size=len(data))

    def _doing(self, act: str, call: Callable[[], T]) -> T:
        """Return what a call gives; what it raises becomes a sentence.

        Any exception is taken: the libraries meet answers that no honest server would give,
        and then raise whatever comes of it. The chain is cut since it may hold a password.
        """
        try:
            return call()
        except StoreUnreachableError:
            self._way.disconnect()
            raise
        except StoreError:
            raise
        except Exception as error:
            fault = self._way.store_error(act, error)
            self._way.disconnect()
            raise fault from None


def walk_folders(
    entries: Callable[[str], list[tuple[str, int | None]]], folder: str
) -> Iterator[ListedFile]:
    """Yield the files below a folder of a server that lists one folder at a time.

    ``entries`` gives the bare names in a folder with their sizes, None for a folder. What has
    no name that a store takes is not gone into, nor what lies deeper than any such name.
    """
    for bare, size in entries(folder):
        name = f"{folder}/{bare}" if folder else bare
        if not is_name(name):
            continue
        if size is not None:
            yield ListedFile(name, size)
        elif name.count("/") < DEEPEST - 1:
            yield from walk_folders(entries, name)
