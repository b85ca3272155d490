"""``crewapp sync``: exchange a book with a store, or join a job that is there."""

from __future__ import annotations

import argparse
import json
import sys
import time

from crewapp.cli.books import BookMissingError, FolderMissingError, book_to_write
from crewapp.cli.example import Example
from crewapp.cli.exchange.exchange_text import Progress, print_report
from crewapp.cli.printing.json_answer import fault_facts
from crewapp.handlers.exchange import exchange_job
from crewapp.tablet.settings import Tablet
from crewapp.words.translate import translate_later
from models.book.store import Book
from models.counted import CountedNoun
from models.entries.tablet_code import code_of
from models.errors import CrewError
from sync.exchange.errors import StoreHoldsLessError
from sync.exchange.exchange_log import known_job
from sync.exchange.job_key import is_job_key
from sync.exchange.joining import holds_nothing, join_book
from sync.exchange.listing import find_jobs
from sync.exchange.request import ExchangeReport, ExchangeRequest, PhotoChoice
from sync.exchange.thumbnails import find_thumbnailer
from sync.stores.contract import Store
from sync.stores.errors import StoreRefusedError, StoreUnreachableError
from sync.stores.opening import open_store

EXAMPLES = (
    Example(
        'mkdir -p store && crewapp sync larkfield.book --store "$PWD/store"',
        translate_later("What others wrote in, what you wrote out; a folder will do"),
    ),
    Example(
        'crewapp sync --jobs --store "$PWD/store"', translate_later("The jobs that lie in a store")
    ),
)


class NoBookToExchangeError(CrewError, ValueError):
    """A store was named and no book."""

    code = "commands.no_book_to_exchange"
    sentence = (
        "Nothing was exchanged: no book was named. The path of a book would be accepted, or "
        "--jobs to list the jobs in the store."
    )


class JoinError(CrewError, ValueError):
    """A job was to be joined in a way that can't be."""

    code = "commands.join"
    sentence = "No job was joined: {why}. {remedy}."


_NOT_LISTED = (
    "  this tablet is not on the job's list: what it sends waits until a tablet of the job "
    "adds it by its code {code}"
)


def run(args: argparse.Namespace) -> int:
    """Exchange; exit 1 if something was set aside, cut short, or the store shows less."""
    tablet = Tablet.of_user()
    try:
        with open_store(args.store, tablet.folder) as store:
            if args.jobs:
                return _list_jobs(store, args.json)
            report = _exchange(args, tablet, store)
            code = print_report(args.book, report, args.json)
            if not args.json and not _is_listed(report, tablet):
                print(_NOT_LISTED.format(code=code_of(tablet.stream())))
            return code
    except (StoreHoldsLessError, StoreUnreachableError, StoreRefusedError) as fault:
        if args.json:
            told = fault_facts(fault, fault.code, str(fault), 1)
            print(json.dumps({**told, "cut": str(fault), "is_whole": False}, ensure_ascii=False))
        else:
            print(f"crewapp: {fault}", file=sys.stderr)
        return 1


def _is_listed(report: ExchangeReport, tablet: Tablet) -> bool:
    """Whether what this tablet writes is taken by the others; unknown counts as yes."""
    members = report.members
    return members is None or members.may_write(tablet.stream())


def _exchange(args: argparse.Namespace, tablet: Tablet, store: Store) -> ExchangeReport:
    if args.book is None:
        raise NoBookToExchangeError()
    joined = _join(args, tablet, store) if args.join else None
    if not args.book.exists():
        raise BookMissingError(path=args.book)
    progress = Progress(args.json)
    with book_to_write(args.book, args.author) as job:
        try:
            report = exchange_job(job, tablet, store, terms_of(args, progress))
        finally:
            progress.end()
    if joined is not None:
        report.new_rows += joined.new_rows
        report.fetched += joined.fetched
    return report


def _join(args: argparse.Namespace, tablet: Tablet, store: Store) -> ExchangeReport | None:
    """Fill a new book, or one that a cut joining left empty; None if it has come further."""
    if not holds_nothing(args.book):
        with Book.open(args.book, read_only=True) as book:
            if known_job(book).key == args.join:
                return None
        raise JoinError(why=f"{args.book} holds another job", remedy="Name a new book")
    if not args.book.parent.is_dir():
        raise FolderMissingError(path=args.book, folder=args.book.parent)
    keys = [job.key for job in find_jobs(store)]
    if not is_job_key(args.join) or args.join not in keys:
        met = ", ".join(keys[:5]) or "none"
        raise JoinError(why=f"the store has no job {args.join[:60]!r}", remedy=f"It has: {met}")
    terms = ExchangeRequest(
        where=args.store,
        own_stream=tablet.stream(),
        ring=tablet.keys,
        sends=False,
        photos=PhotoChoice.NONE,
    )
    report, book = join_book(args.book, args.join, store, terms)
    book.close()
    return report


def terms_of(args: argparse.Namespace, progress: Progress) -> ExchangeRequest:
    """Return the terms that the words of a command give."""
    return ExchangeRequest(
        where=str(getattr(args, "store", "")),
        at_ms=time.time_ns() // 1_000_000,
        allow_less=bool(getattr(args, "allow_less", False)),
        over_gaps=args.over_gaps,
        proves_all=bool(getattr(args, "prove", False)),
        photos=PhotoChoice(args.photos),
        thumbnail=find_thumbnailer(),
        on_step=progress,
    )


def _list_jobs(store: Store, as_json: bool) -> int:
    jobs = find_jobs(store)
    if as_json:
        told = [{"job": one.key, "segments": one.segments, "bytes": one.size} for one in jobs]
        print(json.dumps({"jobs": told}))
        return 0
    for one in jobs:
        print(f"{one.key}: {CountedNoun(one.segments):segment|segments}, {one.size} bytes")
    if not jobs:
        print("The store holds no job.")
    return 0
