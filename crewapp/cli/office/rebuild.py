"""``crewapp office rebuild``: throw the ready figures away and work them out anew."""

from __future__ import annotations

import argparse
import json

from crewapp.cli.example import Example
from crewapp.cli.exchange.exchange_text import Progress
from crewapp.cli.office.opening import bring_up_to_date
from crewapp.words.translate import translate_later
from models.counted import CountedNoun
from sync.office.database import Office
from sync.office.figure_tables import drop_index

EXAMPLES = (
    Example(
        "crewapp office rebuild",
        translate_later("All ready figures, worked out anew from the entries"),
    ),
)


def run(args: argparse.Namespace) -> int:
    """Do it; nothing of the entries changes."""
    progress = Progress(args.json)
    with Office.open(args.db) as office:
        drop_index(office)
        try:
            made = bring_up_to_date(office, progress)
        finally:
            progress.end()
        entries = sum(job.entries for job in office.jobs())
    if args.json:
        print(json.dumps({"jobs": made, "entries": entries}))
    else:
        print(
            f"The figures of {CountedNoun(made):job|jobs} were "
            f"worked out anew from {CountedNoun(entries):entry|entries}."
        )
    return 0
