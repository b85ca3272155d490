"""``crewapp plan import``: make or change a book's plan from a plan file or a drawing."""

from __future__ import annotations

import argparse
import json
from pathlib import Path

from crewapp.cli.books import book_to_write
from crewapp.cli.example import Example
from crewapp.cli.plan.layout_text import audit_facts, audit_lines
from crewapp.commands.plan.plan_entries import AddPlan
from crewapp.handlers.plan.plan_entries import NAMED_BY
from crewapp.imports.plan.add_plan import need_job
from crewapp.imports.plan.plan_file import read_plan
from crewapp.job.dispatch import do
from crewapp.job.open_job import JobChanges
from crewapp.tablet.read_files import read_text
from crewapp.words.translate import translate_later
from models.counted import CountedNoun
from models.state.indexes import subject_of

EXAMPLES = (
    Example(
        "crewapp plan import my.book papers/plan.json",
        translate_later("A new job from a plan file"),
    ),
    Example(
        "crewapp plan import my.book papers/g9.csv --surface G9 --name G9 --use green",
        translate_later("An outline that was taped, for a new surface"),
    ),
)


def run(args: argparse.Namespace) -> int:
    """Read the file whole, then write it whole."""
    if args.surface or args.collector or args.brought_as != "outline" or _is_drawing(args.file):
        # Only a drawing needs the library for geometry.
        from crewapp.cli.plan.outline import bring_drawing

        return bring_drawing(args)
    if not args.book.exists():  # a plan that names no job is told before a book is made
        need_job(args.file, read_plan(args.file, read_text(args.file, "A plan file in JSON")))
    with book_to_write(args.book, args.author, make=True) as job:
        changed = do(job, AddPlan(path=str(args.file)))
        parts = _parts(changed)
        lines, facts = list(audit_lines(job, parts)), audit_facts(job, parts)
    if args.json:
        kinds = [entry.kind for entry in changed.entries]
        print(json.dumps({"written": len(kinds), "kinds": kinds, **facts}, ensure_ascii=False))
        return 0
    print(f"{CountedNoun(len(changed.entries)):plan entry|plan entries} inked into {args.book}.")
    for line in lines:
        print(line)
    return 0


def _parts(changed: JobChanges) -> set[tuple[str, str]]:
    """Parts of the plan that were written, by kind and name."""
    return {
        (entry.kind, subject_of(entry.body))
        for entry in changed.entries
        if entry.body is not None and NAMED_BY.get(entry.kind)
    }


def _is_drawing(path: Path) -> bool:
    """Whether a file's name says that it is no plan file."""
    return path.suffix.lower() in {".geojson", ".dxf", ".csv", ".txt"}
