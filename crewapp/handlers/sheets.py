"""Writing a day's sheets into a folder; nothing is inked by it."""

from __future__ import annotations

from pathlib import Path

from crewapp.job.open_job import OpenJob
from models.errors import CrewError

FORMATS = ("pdf", "xlsx", "csv")


class SheetNotMadeError(CrewError, OSError):
    """A sheet could not be put into its folder."""

    code = "sheets.not_made"
    sentence = (
        "The sheet of {day} was not written into {folder}: {why}. "
        "Free some room on the tablet, then make it again."
    )


def make_sheet(job: OpenJob, *, day: str, folder: str, format: str) -> Path:
    """Write one form of a day's sheet and return its file.

    Raises
    ------
    SheetNotMadeError
        If the folder can't be made or written into.
    """
    from sync.papers.day.day_files import SheetFormat, write_day_sheets

    try:
        forms = (SheetFormat(format),)
        return write_day_sheets(job.state, job.board, day, Path(folder), forms)[0]
    except OSError as fault:
        why = fault.strerror or str(fault)
        raise SheetNotMadeError(day=day, folder=folder, why=why) from fault
