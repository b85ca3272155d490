"""Contract of every store, and the names it takes: three verbs and no trust.

A store may be a stick, a share or a server that anyone can write to. It may show a file
late or half, forget one, or put other bytes under a name. So nothing here promises more
than that bytes were handed over or handed out: the reader checks their hash.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Final, Protocol

from sync.stores.errors import BadNameError

LONGEST_NAME: Final = 200
LONGEST_PART: Final = 143  # what encrypted file systems leave of the usual 255
DEEPEST: Final = 6

_PART = re.compile(r"[a-z0-9][a-z0-9._-]*")
_RESERVED = re.compile(r"(?:con|prn|aux|nul|com[0-9]|lpt[0-9])(?:\..*)?")


@dataclass(frozen=True, slots=True)
class ListedFile:
    """A file as a store lists it: a name that ``read`` takes, and how many bytes it shows now."""

    name: str
    size: int


class Store(Protocol):
    """A place for files that are written once and never changed or taken away.

    Names are relative to the store's root, with forward slashes, and pass ``check_name``.
    Every verb may raise StoreUnreachableError (try again later) and StoreRefusedError
    (somebody must do something first); both are StoreErrors, as are all others here.
    """

    def list(self, folder: str) -> list[ListedFile]:
        """Return the files below a folder, however deep, by name; "" is the whole store.

        A folder that is not there is empty. Left out: names that ``check_name`` would refuse
        (so also what is still being written), and links.

        Raises
        ------
        BadNameError
            If the folder is no name that a store takes.
        """

    def read(self, name: str, limit: int) -> bytes:
        """Return the bytes of a file, of which there may be at most ``limit``.

        Raises
        ------
        NotInStoreError
            If no such file is there, or is not there yet.
        TooLargeError
            If it holds more than ``limit`` bytes; no more than that are kept in memory.
        BadNameError
            If it is no name that a store takes.
        """

    def write(self, name: str, data: bytes) -> None:
        """Put a file into the store; the same bytes again change nothing.

        Raises
        ------
        NameTakenError
            If other bytes stand under that name, which are left as they are.
        BadNameError
            If it is no name that a store takes.
        """


def check_name(name: str) -> str:
    """Return a name as it is if every store can hold it: small letters, digits, ``. _ -``.

    Small letters alone, so that no two names differ by case only on a stick that folds case.

    Raises
    ------
    BadNameError
        If a part of it is empty, hidden, reserved by some system, or holds anything else.
    """
    parts = name.split("/")
    if len(name) > LONGEST_NAME or len(parts) > DEEPEST:
        raise BadNameError(name=printable(name), why="it is too long or too deep")
    for part in parts:
        if len(part) > LONGEST_PART or not _PART.fullmatch(part) or part.endswith("."):
            raise BadNameError(name=printable(name), why=f"{printable(part)} is no name of a file")
        if _RESERVED.fullmatch(part):
            raise BadNameError(name=printable(name), why=f"{part} is reserved on some systems")
    return name


def check_folder(folder: str) -> str:
    """Return the name of a folder as it is if it is one; "" is the root.

    Raises
    ------
    BadNameError
        If it is neither empty nor a name that a store takes.
    """
    return check_name(folder) if folder else ""


def is_name(name: str) -> bool:
    """Tell whether a store would take a name."""
    try:
        check_name(name)
    except BadNameError:
        return False
    return True


def printable(text: str) -> str:
    """Return a text from outside made fit for a sentence: short, nothing unprintable."""
    return repr(text if len(text) <= 60 else f"{text[:57]}...")
