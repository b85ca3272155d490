"""``crewapp office take``: all jobs of a store, or of files, into the office's database."""

from __future__ import annotations

import argparse
import json
import sys
from collections.abc import Iterator
from typing import Any

from crewapp.cli.example import Example
from crewapp.cli.exchange.exchange_text import Progress, rejected_lines
from crewapp.cli.office.opening import bring_up_to_date, intake_folder
from crewapp.tablet.clock import TabletClock
from crewapp.tablet.settings import Tablet
from crewapp.words.translate import translate_later
from models.counted import CountedNoun
from sync.exchange.request import ExchangeRequest
from sync.office.database import Office
from sync.office.errors import NothingToTakeError
from sync.office.intake import IntakeResult, take_files, take_store
from sync.stores.errors import StoreRefusedError, StoreUnreachableError
from sync.stores.opening import open_store

EXAMPLES = (
    Example(
        "crewapp office take --files larkfield.book",
        translate_later("A book into office.db, made if it is not there"),
    ),
)


def run(args: argparse.Namespace) -> int:
    """Take in; exit 1 if something was set aside, cut short, or the store does not answer."""
    if not args.store and not args.files:
        raise NothingToTakeError(why="nothing was named")
    progress = Progress(args.json)
    with Office.open(args.db, make=True) as office:
        try:
            taken = list(_take_told(args, office, progress))
            worked_out = bring_up_to_date(office, progress)
        finally:
            progress.end()
        entries = sum(job.entries for job in office.jobs())
    if args.json:
        told = {"jobs": [_facts(one) for one in taken], "figures_made": worked_out}
        print(json.dumps({**told, "entries": entries}, ensure_ascii=False))
    else:
        print(
            f"{office.address.text_without_password} now holds "
            f"{CountedNoun(entries):entry|entries}."
        )
    return 0 if all(one.is_complete for one in taken) else 1


def _take_told(
    args: argparse.Namespace, office: Office, progress: Progress
) -> Iterator[IntakeResult]:
    """Take, and tell each job when it is done; what a store refuses keeps nothing else out."""
    try:
        for one in _take(args, office, progress):
            progress.end()
            if not args.json:
                _print(one)
            yield one
    except (StoreUnreachableError, StoreRefusedError) as fault:
        progress.end()
        if not args.json:
            print(f"crewapp: {fault}", file=sys.stderr)
        yield IntakeResult(args.store, "", cut=str(fault))


def _take(args: argparse.Namespace, office: Office, progress: Progress) -> Iterator[IntakeResult]:
    keep = intake_folder(office)
    if args.files:
        yield from take_files(
            office, keep, args.files, lambda name, done, total: progress("files", done, total)
        )
    if args.store:
        terms = ExchangeRequest(
            where=args.store,
            at_ms=TabletClock().now().at_ms,
            allow_less=args.allow_less,
            over_gaps=args.over_gaps,
            on_step=progress,
        )
        with open_store(args.store, Tablet.of_user().folder) as store:
            yield from take_store(
                office, keep, store, terms, args.job, lambda key, done, total: _say(progress, key)
            )


def _say(progress: Progress, key: str) -> None:
    progress(f"job {key}", 0, 1)


def _facts(one: IntakeResult) -> dict[str, Any]:
    return {
        "source": one.source,
        "job": one.job,
        "new_entries": one.new_rows,
        "segments_in": one.segments,
        "set_aside": [
            {"name": aside.name, "code": aside.code, "sentence": aside.sentence}
            for aside in one.aside
        ],
        "notes": list(one.notes),
        "cut": one.cut,
        "is_whole": one.is_complete,
    }


def _print(one: IntakeResult) -> None:
    print(f"{one.job or one.source}: {CountedNoun(one.new_rows):new entry|new entries}")
    for line in rejected_lines(one.aside):
        print(line)
    for note in one.notes:
        print(f"  note: {note}")
    if one.cut:
        print(f"  cut short: {one.cut}")
