"""Books of the small job, planned for the day: each written once in a run, then copied."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory

from crewapp.demo.identity import steady_ids
from crewapp.handlers.plan.plan_entries import set_up_all
from crewapp.imports.plan.plan_file import read_plan
from crewapp.job.open_job import OpenJob
from crewapp.tablet.clock import SetClock
from models.book.errors import BookExistsError
from models.book.store import Book
from tests.crewapp.conftest import DAY

ZONE = "America/Chicago"
STREAM = "tablet-a"


def put_planned_book(path: Path, plan: str, ids: str) -> Path:
    """Put a book with a plan (the text of its file) at a path, where there is none yet.

    Its clock and its ids are steady, so that a copy is byte for byte what would be written anew.
    """
    if path.exists():
        raise BookExistsError(path=path)
    for name, data in _write(path.name, plan, ids).items():
        path.with_name(name).write_bytes(data)
    return path


@cache
def _write(name: str, plan: str, ids: str) -> dict[str, bytes]:
    """Write a book with a plan; return it and what lies beside it, by name."""
    with TemporaryDirectory() as folder:
        clock = SetClock(ZONE, 0)
        clock.set_to(DAY, 8 * 60)
        book = Book.create(Path(folder) / name, stream=STREAM, reserve_bytes=4096)
        job = OpenJob(book, clock, author="foreman", new_id=steady_ids(clock, ids))
        set_up_all(job, read_plan(Path("small.json"), plan))
        job.close()
        return {path.name: path.read_bytes() for path in Path(folder).iterdir()}
