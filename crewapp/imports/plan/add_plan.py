"""A plan file read into a job that is open: what it names is planned anew, the rest stays."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

from crewapp.commands.plan.plan_entries import AddPlan
from crewapp.handlers.plan.plan_entries import set_up_all
from crewapp.imports.plan.plan_file import Plan, read_plan
from crewapp.imports.problems import PaperError, Problem
from crewapp.job.dispatch import handles
from crewapp.job.open_job import JobChanges, OpenJob
from crewapp.tablet.read_files import read_text
from models.entries.bodies.surfaces import Collector, Surface
from models.entries.envelope import build_body
from models.entries.kind_names import COLLECTOR, SURFACE
from models.queries.layout.worked_lines import are_stations_turned, moved_lines


@handles(AddPlan)
def add_plan(job: OpenJob, command: AddPlan) -> JobChanges:
    """Write a plan file into the open job, all or nothing.

    Raises
    ------
    PaperError
        If anything in it can't be read, it is another job's, or lines or stations with work
        at them would lie elsewhere; nothing is written.
    """
    file = Path(command.path)
    text = read_text(file, "A plan file in JSON")
    plan = read_plan(file, text, job.figures, job.state, lambda plan: plan_conflicts(job, plan))
    return set_up_all(job, plan)


def plan_conflicts(job: OpenJob, plan: Plan) -> Iterator[Problem]:
    """Return faults of a plan for a book: another job, lines or stations with work at them."""
    yield from _other_job(plan, job)
    for kind, fields in plan:
        if kind == "surface":
            yield from _moved(job, fields)
        elif kind == "collector":
            yield from _turned(job, fields)


def need_job(path: Path, plan: Plan) -> None:
    """Refuse a plan of a new book that names no job."""
    problems = list(_no_job(plan))
    if problems:
        raise PaperError(path, problems)


def _no_job(plan: Plan) -> Iterator[Problem]:
    if not any(kind == "job" for kind, _ in plan):
        why = "plans a new book, but has no job"
        yield Problem(0, "job", "", why, "a job with its job_id and name")


def _other_job(plan: Plan, job: OpenJob) -> Iterator[Problem]:
    """Another job's plan: a book holds one job, and its short name never changes."""
    if job.state.job is None:
        yield from _no_job(plan)
        return
    own = job.state.job.job_id
    for kind, fields in plan:
        if kind == "job" and fields["job_id"] != own:
            why = "is another job than the one in this book"
            yield Problem(0, "job, job_id", fields["job_id"], why, own)


def _moved(job: OpenJob, fields: dict[str, Any]) -> Iterator[Problem]:
    """Worked lines that a surface would have elsewhere."""
    old, new = job.state.latest(SURFACE, fields["surface_id"]), build_body("surface", fields)
    if isinstance(old, Surface) and isinstance(new, Surface):
        why = "would lie elsewhere or nowhere, and work was written for it"
        forms = "the line where it was; or strike the work first, if it was a mistake"
        for name in moved_lines(job.state, old, new):
            yield Problem(0, f"surface ({old.surface_id}), lines", name, why, forms)


def _turned(job: OpenJob, fields: dict[str, Any]) -> Iterator[Problem]:
    """A worked collector whose stations would count from elsewhere."""
    old = job.state.latest(COLLECTOR, fields["collector_id"])
    new = build_body("collector", fields)
    if not isinstance(old, Collector) or not isinstance(new, Collector):
        return
    if are_stations_turned(job.state, old, new):
        place, design = f"collector ({old.collector_id}), design", old.design
        why = "would count its stations from elsewhere, and work was written by them"
        first = job.figures.station(design.start_nm)
        forms = f"stations from the {design.stationed_from}, beginning at {first}, as before"
        yield Problem(0, place, old.collector_id, why, forms)
