"""The whole story: the plan of the invented job, its three days, and how it ended."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from crewapp.demo import after, finishing, monday, tuesday, wednesday
from crewapp.demo.identity import steady_ids
from crewapp.demo.typist import Typist
from crewapp.handlers.plan.plan_entries import set_up_all
from crewapp.imports.plan.plan_file import read_plan
from crewapp.job.open_job import JobChanges, NewEntry, OpenJob
from crewapp.tablet.clock import SetClock
from crewapp.tablet.read_files import read_text
from models.book.store import Book
from models.checks.finding import Finding

DATA = Path(__file__).with_name("data")
PLAN = DATA / "plan.json"
LAYOUTS = DATA / "layouts.json"
STREAM = "0dfce830b0bf71d5f880e829b16a8a75"  # that of the demo's key, which everybody has
_IDS = "demo"  # what the ids of its entries are drawn from
ZONE = "America/Chicago"
PLANNED_ON = "2026-05-08"

Days = tuple[tuple[str, Callable[[Typist], None]], ...]

DAYS: Days = (
    (monday.DAY, monday.work),
    (tuesday.DAY, tuesday.work),
    (wednesday.DAY, wednesday.work),
)
"""The three days that the app opens on."""

REST: Days = (
    (finishing.THURSDAY, finishing.work_thursday),
    (finishing.FRIDAY, finishing.work_friday),
    (finishing.MONDAY, finishing.work_monday),
    (finishing.TUESDAY, finishing.work_tuesday),
    (after.RAIN_DAY, after.work_the_rain),
    (after.TEST_DAY, after.work_two_weeks_later),
)
"""The days to the job's end and the first rain after it, for the as-built."""


@dataclass(frozen=True, slots=True)
class WorkedDay:
    """Day of the story: its date, entries written, and findings that came up."""

    day: str
    entries: int
    raised: tuple[Finding, ...]


class WatchedJob(OpenJob):
    """A job that remembers every finding that came up, also those that were cured."""

    raised: dict[str, Finding]
    written: int

    def ink(self, *writings: NewEntry) -> JobChanges:
        """Ink as any job does, and note what came up."""
        changed = super().ink(*writings)
        self.written += len(changed.entries)
        for finding in changed.come:
            self.raised.setdefault(finding.key, finding)
        return changed


def layouts() -> list[dict[str, Any]]:
    """How the plan's lines were laid, kept so that the demo needs no geometry library."""
    told: list[dict[str, Any]] = json.loads(read_text(LAYOUTS, "The demo's layouts"))
    return told


@contextmanager
def demo_job(path: Path) -> Iterator[WatchedJob]:
    """Make the demo's book and plan the job in it; the book is let go at the end."""
    clock = SetClock(ZONE, 0)
    clock.set_to(PLANNED_ON, 15 * 60)
    plan = read_plan(PLAN, read_text(PLAN, "The demo's plan file"))
    book = Book.create(path, stream=STREAM)
    job = WatchedJob(book, clock, author="office", new_id=steady_ids(clock, _IDS))
    job.raised, job.written = {}, 0
    try:
        set_up_all(job, [*plan, *(("layout", fields) for fields in layouts())])
        yield job
    finally:
        job.close()


@contextmanager
def demo_to_its_end(job: WatchedJob, path: Path) -> Iterator[WatchedJob]:
    """Copy the demo's book, and open the copy to go on in."""
    job.book.backup(path)
    book = Book.open(path, stream=STREAM)
    ending = WatchedJob(book, job.clock, author=job.author, new_id=job.new_id)
    ending.raised, ending.written = {}, 0
    try:
        yield ending
    finally:
        ending.close()


def work_days(job: WatchedJob, days: Days = DAYS) -> Iterator[WorkedDay]:
    """Work the days in order; ``on_closed`` is called with each once it is closed."""
    assert isinstance(job.clock, SetClock)
    for day, work in days:
        job.raised, before = {}, job.written
        job.author = "Wren"
        work(Typist(job, job.clock, day))
        yield WorkedDay(day, job.written - before, tuple(job.raised.values()))
