"""``crewapp sheet``: a day's production sheet as PDF, XLSX and CSV."""

from __future__ import annotations

import argparse
import json
import sys
from pathlib import Path

from crewapp.cli.books import book_to_read
from crewapp.cli.days import find_day, read_day
from crewapp.cli.example import Example
from crewapp.job.open_job import OpenJob
from crewapp.words.translate import translate_later
from models.errors import CrewError
from models.state.check_code import check_code

EXAMPLES = (
    Example(
        "crewapp sheet larkfield.book --day 2026-05-13",
        translate_later("The sheet of a day as PDF, XLSX and CSV"),
    ),
)


_UNSOUND = (
    "{book} is not as it was written, so this sheet proves nothing. "
    "`crewapp verify {book}` says what is wrong; print from a copy that is whole."
)


class SheetNotWrittenError(CrewError, OSError):
    """A sheet could not be put where it was to go."""

    code = "commands.sheet_not_written"
    sentence = (
        "The sheet of {day} was not written into {folder}: {why}. "
        "A folder that can be written into would be accepted."
    )


def run(args: argparse.Namespace) -> int:
    """Write the sheet; say where it is and by which code it can be proven.

    A book that is not as it was written still prints, since somebody may need
    what is left of it; that is said, and the exit is 1.
    """
    if args.day is not None:
        read_day(args.day)
    with book_to_read(args.book) as job:
        day = find_day(job.state, args.day)
        files = write_sheets(job, day, args.out)
        code = check_code(job.state, day)
        is_sound = job.book.verify().is_sound
    if args.json:
        told = {"day": day, "files": [str(path) for path in files], "check_code": code}
        print(json.dumps({**told, "book_is_sound": is_sound}, ensure_ascii=False))
        return 0 if is_sound else 1
    print(f"Sheet of {day}, check code {code}:")
    for path in files:
        print(f"  {path}")
    print(f"Prove it later with: crewapp verify {args.book} --day {day} --code {code}")
    if not is_sound:
        print(_UNSOUND.format(book=args.book), file=sys.stderr)
    return 0 if is_sound else 1


def write_sheets(job: OpenJob, day: str, folder: Path) -> list[Path]:
    """Write every form of a day's sheet into a folder.

    Raises
    ------
    SheetNotWrittenError
        If the folder can't be made or written into.
    """
    # Only now: looking at a book should not pay for the libraries that print.
    from sync.papers.day.day_files import write_day_sheets

    try:
        return list(write_day_sheets(job.state, job.board, day, folder))
    except OSError as fault:
        why = fault.strerror or str(fault)
        raise SheetNotWrittenError(day=day, folder=folder, why=why) from fault
