"""A program to be killed, for tests: takes notes of several tablets in, a few at a time.

Called with the name of a database and a count; it says how far it is after every portion.
"""

from __future__ import annotations

import sys

from models.book.row import Row
from sync.office.database import Office
from tests.sync.office.written import KEY, draft, stream_of, written

TABLETS = 4
PORTION = 50


def take_all(where: str, count: int) -> None:
    """Take everything in; what is there already does no harm."""
    with Office.open(where, make=True) as office:
        source = office.source_of(KEY)
        for number in range(TABLETS):
            rows = tablet_notes(number, count)
            for start in range(0, count, PORTION):
                source.import_rows(rows[start : start + PORTION])
                print(number * count + start + PORTION, flush=True)


def tablet_notes(number: int, count: int) -> list[Row]:
    """Notes of one tablet, with ids that no other tablet gives."""
    first = number * count + 1
    return written([draft(n) for n in range(first, first + count)], stream_of(f"tablet {number}"))


if __name__ == "__main__":
    take_all(sys.argv[1], int(sys.argv[2]))
