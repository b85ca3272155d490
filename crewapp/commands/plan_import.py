"""``crewapp plan import``: make or change a book's plan from a plan file or a drawing."""

from __future__ import annotations

import argparse
import json
from pathlib import Path

from crewapp.actions.planning import set_up_all
from crewapp.commands.books import book_to_write
from crewapp.commands.files import read_text
from crewapp.open_job import OpenJob
from crewapp.paper.plan_file import Plan, read_plan
from crewapp.paper.problems import PaperError, Problem
from models.entries.envelope import build_body
from models.entries.surface import Surface
from models.worked_lines import moved_lines


def run(args: argparse.Namespace) -> int:
    """Read the file whole, then write it whole."""
    if args.surface or args.collector or args.brought_as != "outline" or _is_drawing(args.file):
        # Only a drawing needs the library for geometry.
        from crewapp.commands.plan_outline import bring_drawing

        return bring_drawing(args)
    text = read_text(args.file, "A plan file in JSON")
    if not args.book.exists():
        _need_job(args.file, read_plan(args.file, text))  # before a book is made
    with book_to_write(args.book, args.author, make=True) as job:
        plan = read_plan(args.file, text, job.figures, job.state.latest)
        _need_same_job(args.file, plan, job)
        _need_worked_lines(args.file, plan, job)
        changed = set_up_all(job, plan)
    if args.json:
        kinds = [entry.kind for entry in changed.entries]
        print(json.dumps({"written": len(kinds), "kinds": kinds}))
    else:
        print(f"{len(changed.entries)} plan entries inked into {args.book}.")
    return 0


def _is_drawing(path: Path) -> bool:
    """Whether a file's name says that it is no plan file."""
    return path.suffix.lower() in {".geojson", ".dxf", ".csv", ".txt"}


def _need_job(path: Path, plan: Plan) -> None:
    if not any(kind == "job" for kind, _ in plan):
        why = "plans a new book, but has no job"
        raise PaperError(path, [Problem(0, "job", "", why, "a job with its job_id and name")])


def _need_same_job(path: Path, plan: Plan, job: OpenJob) -> None:
    """A book holds one job; its short name never changes."""
    if job.state.job is None:
        _need_job(path, plan)
        return
    own = job.state.job.job_id
    for kind, fields in plan:
        if kind == "job" and fields["job_id"] != own:
            why = "is another job than the one in this book"
            raise PaperError(path, [Problem(0, "job, job_id", fields["job_id"], why, own)])


def _need_worked_lines(path: Path, plan: Plan, job: OpenJob) -> None:
    """Lines that carry work stay where they are: what was written is read by their names."""
    problems = []
    for kind, fields in plan:
        old: Surface | None = (
            job.state.latest(kind, fields["surface_id"]) if kind == "surface" else None
        )
        new = build_body(kind, fields) if old is not None else None
        if old is None or not isinstance(new, Surface):
            continue
        moved = moved_lines(job.state, old, new)
        if moved:
            why = "would lie elsewhere or nowhere, and work was written for it"
            forms = "the line where it was; or strike the work first, if it was a mistake"
            place = f"surface ({old.surface_id}), lines"
            problems += [Problem(0, place, name, why, forms) for name in moved]
    if problems:
        raise PaperError(path, problems)
