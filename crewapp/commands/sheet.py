"""``crewapp sheet``: a day's production sheet as PDF, XLSX and CSV."""

from __future__ import annotations

import argparse
import json
from pathlib import Path

from crewapp.commands.books import book_to_read
from crewapp.commands.days import find_day, read_day
from crewapp.open_job import OpenJob
from models.check_code import check_code
from models.errors import CrewError


class SheetNotWrittenError(CrewError, OSError):
    """A sheet could not be put where it was to go."""

    code = "commands.sheet_not_written"
    sentence = (
        "The sheet of {day} was not written into {folder}: {why}. "
        "A folder that can be written into would be accepted."
    )


def run(args: argparse.Namespace) -> int:
    """Write the sheet; say where it is and by which code it can be proven."""
    if args.day is not None:
        read_day(args.day)
    with book_to_read(args.book) as job:
        day = find_day(job.state, args.day)
        files = write_sheets(job, day, args.out)
        code = check_code(job.state, day)
    if args.json:
        told = {"day": day, "files": [str(path) for path in files], "check_code": code}
        print(json.dumps(told, ensure_ascii=False))
        return 0
    print(f"Sheet of {day}, check code {code}:")
    for path in files:
        print(f"  {path}")
    print(f"Prove it later with: crewapp verify {args.book} --day {day} --code {code}")
    return 0


def write_sheets(job: OpenJob, day: str, folder: Path) -> list[Path]:
    """Write every form of a day's sheet into a folder.

    Raises
    ------
    SheetNotWrittenError
        If the folder can't be made or written into.
    """
    # Only now: looking at a book should not pay for the libraries that print.
    from sync.sheets.day_sheet import write_day_sheets

    try:
        folder.mkdir(parents=True, exist_ok=True)
        return list(write_day_sheets(job.state, job.board, day, folder))
    except OSError as fault:
        why = fault.strerror or str(fault)
        raise SheetNotWrittenError(day=day, folder=folder, why=why) from fault
