"""The words of ``crewapp plan takeoff``, ``plan gates``, ``sieve`` and ``progress``."""

from __future__ import annotations

import argparse
from pathlib import Path

Commands = argparse._SubParsersAction  # the type that argparse gives to what takes subcommands


def add_takeoff(works: Commands[argparse.ArgumentParser]) -> None:
    """Add the take-off of a plan, and the gates of its water."""
    takeoff = works.add_parser("takeoff", help="what the job takes, with its arithmetic")
    takeoff.set_defaults(module="takeoff")
    takeoff.add_argument("book", type=Path, help="book to look at; it is not changed")
    takeoff.add_argument(
        "--with",
        dest="changes",
        action="append",
        default=[],
        metavar="INPUT=FIGURE",
        help="change one input and see what moves, such as swell=30%%; may be given again",
    )
    takeoff.add_argument("--out", type=Path, default=None, help="folder for it as PDF and XLSX")
    takeoff.add_argument("--json", action="store_true", help="print JSON")
    gates = works.add_parser("gates", help="estimate the gates of the water of each surface")
    gates.set_defaults(module="gates")
    gates.add_argument("book", type=Path, help="book to look at; it is not changed")
    gates.add_argument("--surface", default=None, help="one surface; else all of them")
    gates.add_argument("--json", action="store_true", help="print JSON")


def add_sieve(commands: Commands[argparse.ArgumentParser]) -> None:
    """Add the sieve sheet of a material."""
    sieve = commands.add_parser("sieve", help="read a sieve sheet, judge it and keep it")
    sieve.add_argument("book", type=Path, help="book to write into")
    sieve.add_argument(
        "sheet",
        type=Path,
        help="CSV: sieve mm, sieve um or sieve no; retained g, retained %% or passing %%",
    )
    sieve.add_argument("--material", required=True, help="material of the job it is of")
    sieve.add_argument("--edition", default="", help="table it is held to, such as 'USGA 2004'")
    sieve.add_argument("--laboratory", default="", help="who sieved it, and the sheet's number")
    sieve.add_argument("--dry-run", action="store_true", help="judge it and write nothing")
    sieve.add_argument("--author", default="office", help="whose name the entry carries")
    sieve.add_argument("--json", action="store_true", help="print JSON")


def add_progress(commands: Commands[argparse.ArgumentParser]) -> None:
    """Add how the work goes by its record."""
    progress = commands.add_parser(
        "progress", help="rates, what is left, the finish as a range, sand to call in, tomorrow"
    )
    progress.add_argument("book", type=Path, help="book to look at; it is not changed")
    progress.add_argument("--day", default=None, help="YYYY-MM-DD; the last day worked if left out")
    progress.add_argument("--json", action="store_true", help="print JSON")
