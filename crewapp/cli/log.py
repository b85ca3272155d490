"""``crewapp log``: field notes typed up from paper, written all or nothing."""

from __future__ import annotations

import argparse
import json

from crewapp.cli.books import book_to_write
from crewapp.cli.example import Example
from crewapp.imports.notes.notes import read_notes
from crewapp.tablet.read_files import read_text
from crewapp.words.translate import translate_later
from models.checks.finding_text import sentence
from models.counted import CountedNoun

EXAMPLES = (
    Example(
        "crewapp log larkfield.book papers/notes.csv",
        translate_later("A day typed up from paper, all of it or none"),
    ),
)


def run(args: argparse.Namespace) -> int:
    """Write the notes; say what was written and what it raised."""
    text = read_text(args.entries, "A CSV of field notes (see `crewapp columns`)")
    with book_to_write(args.book, args.author) as job:
        writings = read_notes(args.entries, text, job, again=args.again)
        changed = job.ink(*writings)
        raised = [sentence(finding, job.figures) for finding in changed.come]
    if args.json:
        print(json.dumps({"written": len(changed.entries), "raised": raised}, ensure_ascii=False))
    else:
        print(f"{CountedNoun(len(changed.entries)):entry|entries} inked.")
        for line in raised:
            print(f"  flag: {line}")
    return 0
