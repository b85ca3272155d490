"""``crewapp handover take``: take in what somebody handed over, however it looks."""

from __future__ import annotations

import argparse
from contextlib import closing

from crewapp.cli.books import FolderMissingError, book_to_write
from crewapp.cli.example import Example
from crewapp.cli.exchange.exchange_text import Progress, print_report
from crewapp.cli.exchange.sync import terms_of
from crewapp.handlers.exchange import exchange_job
from crewapp.tablet.settings import Tablet
from crewapp.words.translate import translate_later
from sync.exchange.joining import holds_nothing
from sync.handover.file_store import HandoverStore
from sync.handover.taker import handover_request, require_job, take_new_handover

EXAMPLES = (
    Example(
        "crewapp handover take larkfield.crew --book taken.book",
        translate_later("A file somebody handed over, as a new book"),
    ),
)


def run(args: argparse.Namespace) -> int:
    """Take the file in; exit 1 if something of it was set aside."""
    tablet = Tablet.of_user()
    progress = Progress(args.json)
    terms = handover_request(args.file, terms_of(args, progress))
    if not args.book.parent.is_dir():
        raise FolderMissingError(path=args.book, folder=args.book.parent)
    try:
        if holds_nothing(args.book):
            report, book = take_new_handover(args.file, args.book, tablet.stream(), terms)
            book.close()
            return print_report(args.book, report, args.json)
        with (
            closing(HandoverStore(args.file)) as store,
            book_to_write(args.book, args.author) as job,
        ):
            held = require_job(args.file, store, job.book)
            report = exchange_job(job, tablet, store, terms)
            return print_report(args.book, report, args.json, held=held)
    finally:
        progress.end()
