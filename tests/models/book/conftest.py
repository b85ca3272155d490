"""A book to write in, and drafts to write: all of it invented."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from uuid6 import uuid7

from models.book.file import engine
from models.book.row import Draft
from models.book.store import Book
from tests.models.book.failing_driver import Faults

STREAM = "5f" * 16
RESERVE_BYTES = 200_000


@pytest.fixture
def draft() -> Callable[..., Draft]:
    """Make a draft of a probe; what the test cares about is passed by name."""

    def make(**facts: Any) -> Draft:
        usual = {
            "id": str(uuid7()),
            "kind": "probe",
            "v": 1,
            "body": {"line_id": "L07", "depth_nm": 228_600_000, "depth_typed": "9"},
            "at_ms": 1_780_000_000_000,
            "offset_min": -300,
            "zone": "America/Chicago",
            "author": "Rhea",
            "job": "job-1",
            "day": "2026-05-28",
        }
        return Draft(**{**usual, **facts})

    return make


@pytest.fixture
def path(tmp_path: Path) -> Path:
    """Where the book of the test lies."""
    return tmp_path / "green.book"


@pytest.fixture
def open_book(path: Path) -> Iterator[Callable[..., Book]]:
    """Open the book of the test, made at first; whatever was opened is closed afterwards."""
    opened: list[Book] = []

    def make(**options: Any) -> Book:
        if not path.exists():
            Book.create(path, stream=STREAM, reserve_bytes=RESERVE_BYTES).close()
        usual = {"stream": STREAM, "reserve_bytes": RESERVE_BYTES}
        opened.append(Book.open(path, **{**usual, **options}))
        return opened[-1]

    yield make
    for book in opened:
        book.close()


@pytest.fixture
def book(open_book: Callable[..., Book]) -> Book:
    """Return a new, empty book, open to write."""
    return open_book()


@pytest.fixture
def faults(monkeypatch: pytest.MonkeyPatch) -> Faults:
    """Put faults under every connection that is opened from now on."""
    planned = Faults()
    monkeypatch.setattr(engine, "Driver", planned.under(engine.Driver))
    return planned
