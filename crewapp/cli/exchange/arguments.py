"""The words of ``crewapp sync``, ``handover`` and ``tablets``."""

from __future__ import annotations

import argparse
from pathlib import Path

Commands = argparse._SubParsersAction  # the type that argparse gives to what takes subcommands

PHOTOS = ("all", "small", "none")


def add_exchange(commands: Commands[argparse.ArgumentParser]) -> None:
    """Add what lets a job leave the tablet and come to others."""
    _add_sync(commands)
    _add_handover(commands)
    _add_tablets(commands)


def _add_sync(commands: Commands[argparse.ArgumentParser]) -> None:
    sync = commands.add_parser("sync", help="exchange a book with a store, both ways")
    sync.add_argument("book", type=Path, nargs="?", help="book to exchange; with --join, to make")
    sync.add_argument(
        "--store", required=True, metavar="WHERE", help="a folder, sftp://, davs:// or s3://"
    )
    sync.add_argument(
        "--join", default="", metavar="JOB", help="job of the store to make a book of"
    )
    sync.add_argument("--jobs", action="store_true", help="only list the jobs in the store")
    sync.add_argument("--allow-less", action="store_true", help="the store may show less")
    sync.add_argument(
        "--over-gaps", action="store_true", help="take in what follows missing entries"
    )
    sync.add_argument("--prove", action="store_true", help="read back all that was sent before too")
    _add_ways(sync)


def _add_handover(commands: Commands[argparse.ArgumentParser]) -> None:
    handover = commands.add_parser("handover", help="a job in one file, made or taken in")
    works = handover.add_subparsers(dest="work", metavar="WORK", required=True)
    make = works.add_parser("make", help="put a book's job into one new file")
    make.set_defaults(module="handover_make")
    make.add_argument("book", type=Path, help="book to hand over")
    make.add_argument("--out", type=Path, required=True, help="file to make, ending in .crew")
    make.add_argument("--day", default=None, help="YYYY-MM-DD; leave out what came after it")
    make.add_argument("--no-photos", action="store_true", help="leave the photos out")
    make.add_argument("--json", action="store_true", help="print JSON")
    take = works.add_parser("take", help="take a hand-over file in")
    take.set_defaults(module="handover_take")
    take.add_argument("file", type=Path, help="hand-over file, from anybody")
    take.add_argument("--book", type=Path, required=True, help="its book, or a new one to make")
    take.add_argument(
        "--over-gaps", action="store_true", help="take in what follows missing entries"
    )
    _add_ways(take)


def _add_tablets(commands: Commands[argparse.ArgumentParser]) -> None:
    tablets = commands.add_parser("tablets", help="show or change which tablets may write to a job")
    tablets.add_argument("book", type=Path, nargs="?", help="book; without one, this tablet's code")
    change = tablets.add_mutually_exclusive_group()
    change.add_argument("--add", metavar="CODE", help="code that the other tablet shows")
    change.add_argument("--revoke", metavar="CODE", help="code of a tablet to take off the list")
    tablets.add_argument("--name", default="", help="what the crew calls the tablet")
    tablets.add_argument("--why", default="", help="why it is taken off")
    tablets.add_argument("--author", default="office", help="whose name the entry carries")
    tablets.add_argument("--json", action="store_true", help="print JSON")


def _add_ways(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("--photos", choices=PHOTOS, default="all", help="which pictures travel")
    parser.add_argument("--author", default="office", help="whose name new entries carry")
    parser.add_argument("--json", action="store_true", help="print JSON")
