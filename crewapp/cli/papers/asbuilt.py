"""``crewapp asbuilt``: the record of a job as built, as PDF, workbook, drawing and data files."""

from __future__ import annotations

import argparse
import json
import sys
from contextlib import suppress

from crewapp.cli.books import book_to_read
from crewapp.cli.example import Example
from crewapp.handlers.asbuilt import AsBuiltResult, Progress, ignore_progress, make_as_built
from crewapp.words.translate import translate_later
from models.counted import CountedNoun

EXAMPLES = (
    Example(
        "crewapp asbuilt larkfield-finished.book --out record --paper tabloid",
        translate_later("The record for the owner on tabloid paper, into a new folder"),
    ),
)


_UNSOUND = (
    "{book} is not as it was written, so this record proves nothing. "
    "`crewapp verify {book}` says what is wrong; make it from a copy that is whole."
)


def run(args: argparse.Namespace) -> int:
    """Write the package; exit 1 while flags that stop the work are open, or the book is unsound."""
    with book_to_read(args.book) as job:
        made = make_as_built(
            job,
            folder=str(args.out),
            paper=args.paper or "",
            scale=args.scale or "",
            told=ignore_progress if args.json else _progress(),
        )
        is_sound = job.book.verify().is_sound
    if args.json:
        print(json.dumps(_facts(made, is_sound), ensure_ascii=False))
    else:
        _print(args, made)
    if not is_sound:
        print(_UNSOUND.format(book=args.book), file=sys.stderr)
    return 0 if is_sound and not made.open_stops else 1


def _progress() -> Progress:
    """A line for each file as it is put in place."""

    def told(name: str, place: int, count: int) -> None:
        with suppress(BrokenPipeError):
            print(f"  {place} of {count}  {name}", flush=True)

    return told


def _facts(made: AsBuiltResult, is_sound: bool) -> dict[str, object]:
    return {
        "files": [str(path) for path in made.files],
        "left_out": [{"file": name, "sentence": why} for name, why in made.left_out],
        "check_code": made.check_code,
        "open_flags": made.open_flags,
        "open_stops": made.open_stops,
        "book_is_sound": is_sound,
    }


def _print(args: argparse.Namespace, made: AsBuiltResult) -> None:
    print(
        f"As built, in {args.out}: {CountedNoun(len(made.files)):file|files}, "
        f"check code {made.check_code}."
    )
    for name, why in made.left_out:
        print(f"  without {name}: {why}")
    if made.open_flags:
        stops = f", {made.open_stops} of them stop the work" if made.open_stops else ""
        print(f"Flags that stand open: {made.open_flags}{stops}. They stand in it, unanswered.")
    print(f"Prove it later with: crewapp verify {args.book} --code {made.check_code}")
