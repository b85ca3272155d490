"""Which call fails, how, and for how long: all cases, and a fair choice of a few."""

from __future__ import annotations

import itertools
import random

Fault = tuple[str, int, str, bool]

WAYS = ("write", "short", "sync", "name")
ERRORS = ("EIO", "ENOSPC")


def choose_faults(count: int, farthest: int, seed: int) -> list[Fault]:
    """Return so many faults at the nth call up to the farthest, as many of each way as of others.

    "write" fails a write or a change of size; "short" lets half of a write through and fails
    the next; "sync" fails a sync; "name" fails to make, rename, link or remove a file. Each
    comes once, or stays until the storage is said to be well again.
    """
    nths = list(range(1, farthest + 1))
    random.Random(seed).shuffle(nths)
    cases = itertools.product(nths, ERRORS, (False, True), WAYS)
    return [(way, nth, error, lasts) for nth, error, lasts, way in itertools.islice(cases, count)]
