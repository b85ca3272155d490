"""The log of a recorded program, read back: what was done in its folder, in order."""

from __future__ import annotations

import struct
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

_HEAD = struct.Struct("<BiqII")

CREATING, EMPTYING = 1, 2
"""Bits of the place of an opened file."""


@dataclass(frozen=True, slots=True)
class Deed:
    """One thing that the program did; which fields count depends on ``what``.

    O opened a file, D a folder, C closed, W wrote, T cut to a size, S synced, E failed to
    sync, R renamed, L linked, U removed a name, M made a folder, V removed one,
    A acknowledged, X did something that the replayer has no rule for.
    """

    what: str
    fd: int = -1
    place: int = 0
    first: bytes = b""
    second: bytes = b""

    @property
    def name(self) -> str:
        """What it was done to, as a path below the folder; or the words told."""
        return self.first.decode()

    @property
    def new_name(self) -> str:
        """Where a renamed or linked file went."""
        return self.second.decode()


def read_log(log: Path) -> list[Deed]:
    """Return everything that a log holds."""
    return list(_parse(log.read_bytes()))


def _parse(data: bytes) -> Iterator[Deed]:
    at = 0
    while at < len(data):
        what, fd, place, first, second = _HEAD.unpack_from(data, at)
        at += _HEAD.size
        middle, end = at + first, at + first + second
        yield Deed(chr(what), fd, place, data[at:middle], data[middle:end])
        at = end
