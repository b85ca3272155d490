"""Rescue of a damaged book: its readable entries in a new book, and a report on the rest."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from models.book.carving import carve_rows
from models.book.store import Book
from models.book.verify import Fault, Gap, verify_rows


@dataclass(frozen=True, slots=True)
class Rescue:
    """Result of a rescue: the entries in the new book, and those that were lost."""

    rescued: int
    unproven: tuple[str, ...]  # kept, but the entry before is lost, so nothing proves them
    refused: tuple[Fault, ...]  # read, but not what was once written
    missing: tuple[Gap, ...]  # numbers of which nothing could be read


def rescue_book(path: Path, out: Path) -> Rescue:
    """Write every readable entry of a damaged book into a new book at ``out``.

    The broken file is only read.

    Raises
    ------
    BookExistsError
        If ``out`` is there already.
    """
    rows = carve_rows(path)
    report = verify_rows(rows)
    refused = {fault.id for fault in report.faults}
    kept = [row for row in rows if row.id not in refused]
    with Book.create(out, stream="salvage") as book:
        book.import_rows(kept)
    return Rescue(len(kept), report.unproven, report.faults, verify_rows(kept).gaps)
