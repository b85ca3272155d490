"""A program to be killed, for tests: a child of it writes entries and says each that holds.

Every line on its input starts a child. The child's number is told first, then the ids as
they are acknowledged, then "dead" when the child is gone.
"""

from __future__ import annotations

import os
import sys
from pathlib import Path
from typing import NoReturn

from uuid6 import uuid7

from models.book.row import Draft
from models.book.store import Book

STREAM = "5f" * 16


def say(text: str) -> None:
    """Write one line in one piece, so that parent and child cannot mix theirs."""
    os.write(1, f"{text}\n".encode())


def make_batch(size: int) -> list[Draft]:
    """Make drafts that share a job name, which begins with their number."""
    job = f"{size}-{uuid7()}"
    return [
        Draft(
            id=str(uuid7()),
            kind="probe",
            v=1,
            body={"line_id": "L07", "depth_nm": 228_600_000},
            at_ms=1_780_000_000_000,
            offset_min=-300,
            zone="America/Chicago",
            author="Rhea",
            job=job,
            day="2026-05-28",
        )
        for _ in range(size)
    ]


def ink_until_killed(path: Path) -> NoReturn:
    """Write single entries and batches of three, each batch under a job name of its own."""
    book = Book.open(path, stream=STREAM, reserve_bytes=10)
    size = 1
    while True:
        for row in book.commit_all(make_batch(size)):
            say(row.id)
        size = 4 - size


if __name__ == "__main__":
    for _ in sys.stdin:
        child = os.fork()
        if child == 0:
            say(f"pid {os.getpid()}")
            ink_until_killed(Path(sys.argv[1]))
        os.waitpid(child, 0)
        say("dead")
