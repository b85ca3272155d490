"""Files to publish: invented, made again from their number, named by the hash of their bytes."""

from __future__ import annotations

import hashlib
import random
from pathlib import PurePosixPath

FOLDER = "job-7"


def parcel(number: int) -> tuple[str, bytes]:
    """Return the name and the bytes of a file, some within one sector, some over many."""
    dice = random.Random(number)
    data = dice.randbytes(dice.choice((40, 700, 5_000, 30_000)))
    return f"{FOLDER}/{number:04}-{hashlib.sha256(data).hexdigest()}.seg", data


def is_as_named(name: str, data: bytes) -> bool:
    """Tell whether bytes are those that a name promises."""
    return PurePosixPath(name).stem.split("-")[-1] == hashlib.sha256(data).hexdigest()
