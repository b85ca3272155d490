"""The worker: one worker, answers by delivery, nothing heavy on the caller's side."""

from __future__ import annotations

import json
import threading
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest

from crewapp.commands.command import Command
from crewapp.commands.day import LogNote
from crewapp.pages.frame.open_book_result import OpenBookResult
from crewapp.pages.frame.worker import JobWorker
from crewapp.tablet.clock import SetClock
from models.book.store import Book
from tests.crewapp.conftest import DAY
from tests.crewapp.pages.frame_driver import put_book

STREAM = "tablet-a"


class Counter:
    """A worker whose answers wait until they are taken, as the drawing thread would."""

    def __init__(self, clock: SetClock | None) -> None:
        self.waiting: list[Callable[[], None]] = []
        self.said: list[Any] = []
        self.worker = JobWorker(self.waiting.append, clock)

    def take(self) -> list[Any]:
        """Let the worker finish, hand its answers over, and return what was said."""
        self.worker.wait()
        while self.waiting:
            self.waiting.pop(0)()
            self.worker.wait()
        said, self.said = self.said, []
        return said

    def open(self, path: Path) -> list[Any]:
        """Open a book; return what was said."""
        self.worker.open(path, "foreman", lambda: STREAM, self.said.append, self.said.append)
        return self.take()

    def do(self, command: Command) -> list[Any]:
        """Carry a command out; return what was said."""
        self.worker.do(command, self.said.append, self.said.append)
        return self.take()


@pytest.fixture
def counter(clock: SetClock) -> Iterator[Counter]:
    """A worker with nothing on it, its clock set."""
    made = Counter(clock)
    yield made
    made.worker.close()


def test_work_runs_away_from_the_caller(counter: Counter) -> None:
    """One thread for everything, in the order it was sent; nothing is said before delivery."""
    seen: list[str] = []
    for _ in range(3):
        counter.worker.run(
            lambda: seen.append(threading.current_thread().name),
            lambda _: counter.said.append("done"),
            lambda _: None,
        )
    counter.worker.wait()
    assert counter.said == []

    assert counter.take() == ["done"] * 3
    assert len(set(seen)) == 1
    assert seen[0] != threading.current_thread().name


def test_nothing_can_be_asked_without_a_book(counter: Counter) -> None:
    """A sentence, and no traceback."""
    assert counter.do(LogNote(text="wet"))[0].startswith("No book is open.")


def test_action_is_told_to_those_who_listen(counter: Counter, tmp_path: Path) -> None:
    """After the page that asked for it, and only if something was inked."""
    counter.open(put_book(tmp_path))
    heard: list[Any] = []
    counter.worker.listen(heard.append)
    changed = counter.do(LogNote(text="wet"))[0]
    counter.do(LogNote(text=""))

    assert heard == [changed]


def test_undo_takes_back_once(counter: Counter, tmp_path: Path) -> None:
    """A second tap finds nothing to take back."""
    counter.open(put_book(tmp_path))
    counter.do(LogNote(text="wet"))
    for _ in range(2):
        counter.worker.undo(counter.said.append, counter.said.append)
    first, second = counter.take()

    assert [entry.kind for entry in first.entries] == ["struck"]
    assert second is None


def test_book_that_cannot_be_opened_changes_nothing(counter: Counter, tmp_path: Path) -> None:
    """The open one stays open, writable, and can be opened again."""
    path = put_book(tmp_path)
    counter.open(path)
    (tmp_path / "no.book").write_bytes(b"no book")
    said = counter.open(tmp_path / "no.book")[0]
    assert "Cannot open" in said
    assert counter.do(LogNote(text="wet"))[0].entries

    assert counter.open(path) == [OpenBookResult("Hollow green")]


def test_book_held_elsewhere_is_opened_to_be_read(counter: Counter, tmp_path: Path) -> None:
    """The answer carries the reason; a command is refused with it."""
    path = put_book(tmp_path)
    with Book.open(path, stream="other"):
        told = counter.open(path)[0]

        assert "another window" in told.read_only_reason
        assert "another window" in counter.do(LogNote(text="wet"))[0]


def test_clock_follows_the_jobs_zone(tmp_path: Path) -> None:
    """Without a clock of its own the worker takes the tablet's, in the zone of the job."""
    counter = Counter(None)
    counter.open(put_book(tmp_path))
    zone = counter.worker.job().clock.now().zone
    counter.worker.close()

    assert zone == "America/Chicago"


def test_new_author_signs_what_comes_after(counter: Counter, tmp_path: Path) -> None:
    """The name is changed between two entries, not before the first is inked."""
    counter.open(put_book(tmp_path))
    counter.worker.do(LogNote(text="one"), counter.said.append, counter.said.append)
    counter.worker.set_author("Wren")
    counter.worker.do(LogNote(text="two"), counter.said.append, counter.said.append)

    assert [changed.entries[0].author for changed in counter.take()] == ["foreman", "Wren"]


def test_what_was_sent_is_finished_before_closing(clock: SetClock, tmp_path: Path) -> None:
    """Closing waits for the worker; closing twice is no error."""
    path = put_book(tmp_path)
    counter = Counter(clock)
    counter.open(path)
    counter.worker.do(LogNote(text="last"), counter.said.append, counter.said.append)
    counter.worker.close()
    counter.worker.close()
    counter.worker.do(LogNote(text="too late"), counter.said.append, counter.said.append)

    with Book.open(path, read_only=True) as book:
        row = book.newest("note")
    assert row is not None
    assert row.day == DAY
    assert json.loads(row.raw)["body"]["text"] == "last"
