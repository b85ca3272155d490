"""``crewapp office sheet``: a day's sheet of any job, the same bytes as its tablet's."""

from __future__ import annotations

import argparse
import json

from crewapp.cli.days import find_day, read_day
from crewapp.cli.example import Example
from crewapp.cli.papers.sheet import SheetNotWrittenError
from crewapp.tablet.clock import TabletClock
from crewapp.words.translate import translate_later
from sync.office.database import Office
from sync.office.job_copy import load_job_copy

EXAMPLES = (
    Example(
        "crewapp office sheet --job larkfield --day 2026-05-13",
        translate_later("A day sheet of any job, as its tablet prints it"),
    ),
)


def run(args: argparse.Namespace) -> int:
    """Write the sheet; say where it is and its check code.

    Raises
    ------
    SheetNotWrittenError
        If the folder can't be made or written into.
    """
    if args.day is not None:
        read_day(args.day)
    with Office.open(args.db) as office:
        job = load_job_copy(office, args.job, TabletClock().now().at_ms)
    day = find_day(job.state, args.day)
    try:
        files, code = job.print_day(day, args.out)
    except OSError as fault:
        why = fault.strerror or str(fault)
        raise SheetNotWrittenError(day=day, folder=args.out, why=why) from fault
    if args.json:
        told = {"job": job.job.key, "day": day, "files": [str(path) for path in files]}
        print(json.dumps({**told, "check_code": code}, ensure_ascii=False))
        return 0
    print(f"Sheet of {job.job.key}, {day}, check code {code}:")
    for path in files:
        print(f"  {path}")
    return 0
