"""``crewapp plan``: make or change a book's plan from a plan file."""

from __future__ import annotations

import argparse
from pathlib import Path

from crewapp.actions.planning import set_up_all
from crewapp.commands.books import book_to_write
from crewapp.commands.files import read_text
from crewapp.open_job import OpenJob
from crewapp.paper.plan_file import Plan, read_plan
from crewapp.paper.problems import PaperError, Problem


def run(args: argparse.Namespace) -> int:
    """Read the plan whole, then write it whole."""
    text = read_text(args.file, "A plan file in JSON")
    if not args.book.exists():
        _need_job(args.file, read_plan(args.file, text))  # before a book is made
    with book_to_write(args.book, args.author, make=True) as job:
        plan = read_plan(args.file, text, job.figures)
        _need_same_job(args.file, plan, job)
        changed = set_up_all(job, plan)
    print(f"{len(changed.entries)} plan entries inked into {args.book}.")
    return 0


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
