"""``crewapp handover make``: a job in one file, for a stick, a share sheet or an e-mail."""

from __future__ import annotations

import argparse
import json
import sys

from crewapp.cli.books import BookMissingError
from crewapp.cli.days import read_day
from crewapp.cli.example import Example
from crewapp.cli.exchange.exchange_text import Progress
from crewapp.cli.printing.json_answer import fault_facts
from crewapp.tablet.settings import Tablet
from crewapp.words.translate import translate_later
from models.book.store import Book
from models.counted import CountedNoun
from sync.handover.errors import HandoverEmptyError
from sync.handover.maker import Handover, make_handover

EXAMPLES = (
    Example(
        "crewapp handover make larkfield.book --out larkfield.crew",
        translate_later("The whole job in one file, for a stick or an e-mail"),
    ),
    Example(
        "crewapp handover make larkfield.book --day 2026-05-12 --out day.crew",
        translate_later("What led up to the end of a day"),
    ),
)


def run(args: argparse.Namespace) -> int:
    """Make the file; exit 1 if an entry could not go into it."""
    if args.day is not None:
        read_day(args.day)
    if not args.book.exists():
        raise BookMissingError(path=args.book)
    progress = Progress(args.json)
    try:
        with Book.open(args.book, read_only=True) as book:
            made = make_handover(
                book,
                Tablet.of_user().keys,
                args.out,
                day=args.day or "",
                with_photos=not args.no_photos,
                on_step=progress,
            )
    except HandoverEmptyError as fault:
        return _tell_empty(fault, args.json)
    finally:
        progress.end()
    _tell(made, args.json)
    return 1 if made.notes else 0


def _tell_empty(fault: HandoverEmptyError, as_json: bool) -> int:
    if as_json:
        told = fault_facts(fault, fault.code, str(fault), 1)
        print(json.dumps({**told, "file": None, "entries": 0}, ensure_ascii=False))
    else:
        print(f"crewapp: {fault}", file=sys.stderr)
    return 1


def _tell(made: Handover, as_json: bool) -> None:
    if as_json:
        told = {"file": str(made.path), "segments": made.segments, "photos": made.photos}
        told |= {"entries": made.entries, "bytes": made.size}
        print(json.dumps({**told, "notes": list(made.notes)}))
        return
    print(
        f"{made.path}: {CountedNoun(made.entries):entry|entries} in "
        f"{CountedNoun(made.segments):segment|segments} and "
        f"{CountedNoun(made.photos):photo|photos}, {made.size} bytes"
    )
    for note in made.notes:
        print(f"  note: {note}")
