"""``crewapp plan stakeout``: the morning's sheet of passes, offsets, cuts and rod readings."""

from __future__ import annotations

import argparse
import json
from pathlib import Path
from typing import Any

from crewapp.cli.books import book_to_read
from crewapp.cli.example import Example
from crewapp.job.open_job import OpenJob
from crewapp.words.translate import translate_later
from models.counted import CountedNoun
from models.entries.bodies.surfaces import Collector
from models.entries.body import Body
from models.entries.index import EntryKind
from models.entries.kind_names import COLLECTOR, SETUP, SURFACE
from models.errors import CrewError
from sync.papers.stakeout.facts import PadQuestion, StakeoutSheet, gather_stakeout

EXAMPLES = (
    Example(
        "crewapp plan stakeout larkfield.book --setup L3 --out morning",
        translate_later("The morning's sheet, with rods for the laser on L3"),
    ),
)


_MOST_STATIONS = 5_000


class UnknownNameError(CrewError, LookupError):
    """A surface or a setup was named that the book does not have."""

    code = "commands.unknown_name"
    sentence = "Nothing was written: this book has no {what} {name}. It has: {known}."


class SpacingError(CrewError, ValueError):
    """The distance between stations makes no cut sheet."""

    code = "commands.station_spacing"
    sentence = (
        "Nothing was written: stations every {every} {why}. "
        "A distance such as 10 ft or 5 m would be accepted."
    )


class StakeoutNotWrittenError(CrewError, OSError):
    """The sheet could not be put where it was to go."""

    code = "commands.stakeout_not_written"
    sentence = (
        "The stake-out was not written into {folder}: {why}. "
        "A folder that can be written into would be accepted."
    )


def run(args: argparse.Namespace) -> int:
    """Write the sheet, and tell what is on it; the book stays as it is."""
    # Only now: looking at a book should not pay for the libraries that print.
    from sync.papers.stakeout.stakeout_files import write_stakeout_sheets

    with book_to_read(args.book) as job:
        asked = _asked(job, args)
        try:
            files = write_stakeout_sheets(job.state, asked, args.out)
        except OSError as fault:
            why = fault.strerror or str(fault)
            raise StakeoutNotWrittenError(folder=args.out, why=why) from fault
        told = _told(gather_stakeout(job.state, asked), files)
    if args.json:
        print(json.dumps(told, ensure_ascii=False))
        return 0
    print(f"{told['job']}: stake-out")
    for surface in told["surfaces"]:
        print(f"  {surface['name']}: {CountedNoun(surface['passes_left']):pass|passes} to drive")
    for path in files:
        print(f"  {path}")
    return 0


def _asked(job: OpenJob, args: argparse.Namespace) -> PadQuestion:
    every_nm = job.figures.read_length(args.every) if args.every else 0
    if args.every and every_nm <= 0:
        raise SpacingError(every=args.every, why="lie on one another")
    lengths = [one.design.length_nm for one in _collectors(job)]
    if every_nm and max(lengths, default=0) // every_nm > _MOST_STATIONS:
        raise SpacingError(every=args.every, why=f"would be more than {_MOST_STATIONS}")
    _need(job, SURFACE, args.surface)
    _need(job, SETUP, args.setup)
    return PadQuestion(args.surface, every_nm, args.setup, args.all)


def _collectors(job: OpenJob) -> list[Collector]:
    found = (job.state.latest(COLLECTOR, name) for name in job.state.every_name(COLLECTOR))
    return [collector for collector in found if collector is not None]


def _need(job: OpenJob, kind: EntryKind[Body], name: str) -> None:
    known = job.state.every_name(kind)
    if name and name not in known:
        raise UnknownNameError(what=kind.name, name=name[:40], known=", ".join(known) or "none yet")


def _told(sheet: StakeoutSheet, files: list[Path]) -> dict[str, Any]:
    return {
        "job": sheet.job,
        "surfaces": [
            {"name": one.name, "passes_left": one.n_left, "baselines": list(one.baselines)}
            for one in sheet.surfaces
        ],
        "tables": [
            {
                "name": table.name,
                "columns": [field.header for field in table.fields],
                "rows": [[item.value for item in row.items] for row in table.rows],
            }
            for table in sheet.tables
        ],
        "files": [str(path) for path in files],
    }
