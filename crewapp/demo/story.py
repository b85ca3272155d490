"""The whole story: the plan of the invented job, then its three days."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

from crewapp.actions.planning import set_up_all
from crewapp.clock import SetClock
from crewapp.commands.files import read_text
from crewapp.demo import monday, tuesday, wednesday
from crewapp.demo.hand import Hand
from crewapp.demo.identity import steady_ids
from crewapp.open_job import Changed, OpenJob, Writing
from crewapp.paper.plan_file import read_plan
from models.book.store import Book
from models.checks.finding import Finding

PLAN = Path(__file__).resolve().parents[2] / "fixtures" / "demo" / "plan.json"
STREAM = "demo"
ZONE = "America/Chicago"
PLANNED_ON = "2026-05-08"

DAYS: tuple[tuple[str, Callable[[Hand], None]], ...] = (
    (monday.DAY, monday.work),
    (tuesday.DAY, tuesday.work),
    (wednesday.DAY, wednesday.work),
)


@dataclass(frozen=True, slots=True)
class WorkedDay:
    """One day of the story: its date, entries written, and what was found as it went."""

    day: str
    entries: int
    raised: tuple[Finding, ...]


class _WatchedJob(OpenJob):
    """A job that remembers every finding that came up, also those that were cured."""

    raised: dict[str, Finding]
    written: int

    def ink(self, *writings: Writing) -> Changed:
        changed = super().ink(*writings)
        self.written += len(changed.entries)
        for finding in changed.come:
            self.raised.setdefault(finding.key, finding)
        return changed


@contextmanager
def demo_job(path: Path) -> Iterator[_WatchedJob]:
    """Make the demo's book and plan the job in it; the book is let go at the end."""
    clock = SetClock(ZONE, 0)
    clock.put(PLANNED_ON, 15 * 60)
    plan = read_plan(PLAN, read_text(PLAN, "The demo's plan file"))
    book = Book.create(path, stream=STREAM)
    job = _WatchedJob(book, clock, author="office", new_id=steady_ids(clock, STREAM))
    job.raised, job.written = {}, 0
    try:
        set_up_all(job, plan)
        yield job
    finally:
        job.close()


def work_days(job: _WatchedJob) -> Iterator[WorkedDay]:
    """Work the days one by one; each is told when it is closed."""
    assert isinstance(job.clock, SetClock)
    for day, work in DAYS:
        job.raised, before = {}, job.written
        job.author = "Wren"
        work(Hand(job, job.clock, day))
        yield WorkedDay(day, job.written - before, tuple(job.raised.values()))
