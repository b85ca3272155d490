"""The words of ``crewapp office``."""

from __future__ import annotations

import argparse
from pathlib import Path

Commands = argparse._SubParsersAction  # the type that argparse gives to what takes subcommands

DB_HELP = "a file, or postgresql+psycopg://USER@HOST/NAME (default: office.db)"


def add_office(commands: Commands[argparse.ArgumentParser]) -> None:
    """Add what brings all jobs together and reads them together."""
    office = commands.add_parser("office", help="all jobs in one database: take, report, print")
    works = office.add_subparsers(dest="work", metavar="WORK", required=True)
    _add_take(works)
    jobs = _add(works, "jobs", "list the jobs that the office holds")
    jobs.set_defaults(module="office_jobs")
    _add_report(works)
    sheet = _add(works, "sheet", "print a day's sheet of any job, as its tablet prints it")
    sheet.set_defaults(module="office_sheet")
    sheet.add_argument("--job", required=True, help="key of the job, or how it begins")
    sheet.add_argument("--day", default=None, help="YYYY-MM-DD; the last day worked if left out")
    sheet.add_argument("--out", type=Path, default=Path("out"), help="folder for the files")
    rebuild = _add(works, "rebuild", "throw the ready figures away and work them out anew")
    rebuild.set_defaults(module="office_rebuild")


def _add_take(works: Commands[argparse.ArgumentParser]) -> None:
    take = _add(works, "take", "take jobs in from a store, from books or hand-over files")
    take.set_defaults(module="office_take")
    take.add_argument(
        "--store", default="", metavar="WHERE", help="folder, sftp://, davs://, s3://"
    )
    take.add_argument(
        "--files",
        type=Path,
        nargs="+",
        default=[],
        metavar="PATH",
        help="books, hand-overs, folders",
    )
    take.add_argument(
        "--job", action="append", default=[], metavar="KEY", help="only this job of the store"
    )
    take.add_argument("--allow-less", action="store_true", help="the store may show less")
    take.add_argument(
        "--over-gaps", action="store_true", help="take in what follows missing entries"
    )


def _add_report(works: Commands[argparse.ArgumentParser]) -> None:
    report = _add(works, "report", "production, sand and open flags over all jobs")
    report.set_defaults(module="office_report")
    report.add_argument("--from", dest="since", default=None, metavar="DAY", help="first day")
    report.add_argument("--to", dest="until", default=None, metavar="DAY", help="last day")
    report.add_argument("--by", choices=["job", "crew", "week"], default="job", help="a line each")
    report.add_argument(
        "--units", choices=["us", "metric"], default="", help="if not the jobs' own"
    )
    report.add_argument("--html", type=Path, default=None, metavar="FILE", help="write a page, too")


def _add(works: Commands[argparse.ArgumentParser], name: str, does: str) -> argparse.ArgumentParser:
    parser = works.add_parser(name, help=does)
    parser.add_argument("--db", default="office.db", metavar="URL", help=DB_HELP)
    parser.add_argument("--json", action="store_true", help="print JSON")
    return parser
