"""A small invented job in a new book, for tests that write through the commands."""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path

import pytest

from crewapp.demo.identity import steady_ids
from crewapp.handlers.plan.plan_entries import set_up_all
from crewapp.imports.plan.plan_file import read_plan
from crewapp.job.open_job import OpenJob
from crewapp.tablet.clock import SetClock
from models.book.store import Book

DAY = "2026-05-11"
FIXTURES = Path(__file__).parents[2] / "fixtures"


def plan_text() -> str:
    """Return the plan of the small job: a green with six slits, a collector, a benchmark."""
    return (FIXTURES / "plans" / "small.json").read_text(encoding="utf-8")


def put_plan(folder: Path, **changed: object) -> Path:
    """Write the small plan into a folder, with some of its lists changed or left out."""
    told = {**json.loads(plan_text()), **changed}
    path = folder / "plan.json"
    path.write_text(json.dumps({k: v for k, v in told.items() if v is not None}), encoding="utf-8")
    return path


@pytest.fixture
def clock() -> SetClock:
    """A clock at eight in the morning of the first day, in Chicago."""
    clock = SetClock("America/Chicago", 0)
    clock.set_to(DAY, 8 * 60)
    return clock


@pytest.fixture
def job(tmp_path: Path, clock: SetClock) -> Iterator[OpenJob]:
    """The small job, planned, with nothing done yet."""
    book = Book.create(tmp_path / "small.book", stream="tablet-a", reserve_bytes=4096)
    opened = OpenJob(book, clock, author="foreman", new_id=steady_ids(clock, "tests"))
    set_up_all(opened, read_plan(Path("small.json"), plan_text()))
    yield opened
    opened.close()
