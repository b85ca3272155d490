"""The office's database as commands open it, with its index fresh before anything is read."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from crewapp.cli.exchange.exchange_text import Progress
from crewapp.tablet.clock import TabletClock
from crewapp.tablet.settings import Tablet
from sync.office.database import Office
from sync.office.figure_tables import refresh_index


def intake_folder(office: Office) -> Path:
    """Folder in which what came from stores is kept for one database."""
    return Tablet.of_user().folder / "office" / office.address.digest


def bring_up_to_date(office: Office, progress: Progress) -> int:
    """Work out anew the figures of the jobs that got entries; return how many those were."""
    return refresh_index(
        office, TabletClock().now().at_ms, lambda key, done, total: progress("index", done, total)
    )


@contextmanager
def office_to_read(where: str, is_quiet: bool) -> Iterator[Office]:
    """Open the database with fresh figures.

    Raises
    ------
    sync.office.errors.OfficeError
        If it can't be opened or read.
    """
    progress = Progress(is_quiet)
    with Office.open(where) as office:
        try:
            bring_up_to_date(office, progress)
        finally:
            progress.end()
        yield office
