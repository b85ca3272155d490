"""How to tell a file that is only a piece of ours from one that is something else."""

from __future__ import annotations

import secrets
from typing import Final

TEMPORARY: Final = ".tmp-"
SMALL: Final = 64 * 1024


def is_piece_of(met: bytes, data: bytes) -> bool:
    """Tell whether all that a file holds is the start of our bytes, or nothing but zeros after it.

    So look a copy that was cut off and a file whose end never reached the disk. Putting the
    whole in its place loses nothing; anything else under the name is left alone.
    """
    if len(met) > len(data):
        return False
    return data.startswith(met) or data.startswith(met.rstrip(b"\0"))


def temporary(path: str) -> str:
    """Return a name beside a path that no list shows, and that no other writer will use."""
    folder, slash, _ = path.rpartition("/")
    return f"{folder}{slash}{TEMPORARY}{secrets.token_hex(8)}"
