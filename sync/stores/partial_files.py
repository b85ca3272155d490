"""Partial files: how to distinguish a piece of ours from something else."""

from __future__ import annotations

import secrets
from typing import Final

TEMPORARY: Final = ".tmp-"
SMALL: Final = 64 * 1024
SECTOR: Final = 512  # what a disk writes whole or not at all


def is_piece_of(met: bytes, data: bytes) -> bool:
    """Tell whether a file holds our bytes and nothing else, apart from places left zero.

    So look a copy that was cut off and a file of which some sectors never reached the disk.
    Putting the whole in its place loses nothing; anything else under the name is left alone.
    """
    if len(met) > len(data):
        return False
    sectors = range(0, len(met), SECTOR)
    return all(
        data[at : at + SECTOR].startswith(met[at : at + SECTOR].rstrip(b"\0")) for at in sectors
    )


def temporary(path: str) -> str:
    """Return a name beside a path that no list shows, and that no other writer will use."""
    folder, slash, _ = path.rpartition("/")
    return f"{folder}{slash}{TEMPORARY}{secrets.token_hex(8)}"
