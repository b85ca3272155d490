"""A plan file read into a job that is open: what it names is planned anew, the rest stays."""

from __future__ import annotations

from pathlib import Path

from crewapp.actions.planning import set_up_all
from crewapp.commands.files import read_text
from crewapp.open_job import Changed, OpenJob
from crewapp.paper.plan_file import Plan, read_plan
from crewapp.paper.problems import PaperError, Problem
from models.entries.envelope import build_body
from models.entries.surface import Surface
from models.worked_lines import moved_lines


def add_plan(job: OpenJob, path: str) -> Changed:
    """Write a plan file into the open job, all or nothing.

    Raises
    ------
    PaperError
        If anything in it can't be read, it is another job's, or lines with work on them
        would lie elsewhere; nothing is written.
    """
    file = Path(path)
    text = read_text(file, "A plan file in JSON")
    plan = read_plan(file, text, job.figures, job.state.latest)
    need_same_job(file, plan, job)
    need_worked_lines(file, plan, job)
    return set_up_all(job, plan)


def need_job(path: Path, plan: Plan) -> None:
    """Refuse a plan of a new book that names no job."""
    if not any(kind == "job" for kind, _ in plan):
        why = "plans a new book, but has no job"
        raise PaperError(path, [Problem(0, "job", "", why, "a job with its job_id and name")])


def need_same_job(path: Path, plan: Plan, job: OpenJob) -> None:
    """Refuse another job's plan: a book holds one job, and its short name never changes."""
    if job.state.job is None:
        need_job(path, plan)
        return
    own = job.state.job.job_id
    for kind, fields in plan:
        if kind == "job" and fields["job_id"] != own:
            why = "is another job than the one in this book"
            raise PaperError(path, [Problem(0, "job, job_id", fields["job_id"], why, own)])


def need_worked_lines(path: Path, plan: Plan, job: OpenJob) -> None:
    """Refuse to move lines that carry work: what was written is read by their names."""
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
