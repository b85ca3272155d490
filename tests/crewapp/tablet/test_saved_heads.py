"""Entries taken away from the end of a book are missed by the tablet that wrote them."""

from __future__ import annotations

import json
import sqlite3
from collections.abc import Callable
from pathlib import Path

import pytest

from crewapp.cli.main import main
from crewapp.commands.day import LogNote
from crewapp.job.dispatch import do
from crewapp.job.open_job import OpenJob
from crewapp.pages.frame.open_book_result import OpenBookResult
from crewapp.pages.frame.worker import JobWorker
from crewapp.tablet.clock import SetClock
from crewapp.tablet.saved_heads import SavedHeads, missing_entries
from crewapp.tablet.settings import Tablet
from models.book.store import Book

STREAM = "5f" * 16


@pytest.fixture
def tablet(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Tablet:
    """A tablet that commands take for their own."""
    monkeypatch.setenv("CREWAPP_HOME", str(tmp_path / "home"))
    return Tablet.of_user()


def write(path: Path, tablet: Tablet, count: int) -> str:
    """Write notes into a book as the app would; return what it told at the opening."""
    clock = SetClock("America/Chicago", 0)
    clock.set_to("2026-05-11", 480)
    job = OpenJob.open(path, clock, "Ana", STREAM)
    told = job.keep_heads(tablet.heads)
    for number in range(count):
        do(job, LogNote(text=f"note {number}"))
    job.close()
    return told


def cut_off(path: Path, count: int) -> None:
    """Take the newest entries away, as a hand with any SQL tool can."""
    file = sqlite3.connect(path)
    file.execute("DROP TRIGGER entry_no_delete")
    newest = "SELECT id FROM entry ORDER BY lc DESC LIMIT ?"
    file.execute(f"DELETE FROM entry WHERE id IN ({newest})", (count,))
    file.execute(
        "CREATE TRIGGER entry_no_delete BEFORE DELETE ON entry "
        "BEGIN SELECT RAISE(ABORT, 'entries are never deleted'); END"
    )
    file.commit()
    file.close()


def missing(path: Path, tablet: Tablet) -> list[str]:
    """What the tablet misses in a book."""
    with Book.open(path, read_only=True) as book:
        return [str(one) for one in missing_entries(book, SavedHeads(tablet.heads))]


def test_whole_book_lacks_nothing(tmp_path: Path, tablet: Tablet) -> None:
    """Every opening finds what the one before left, whatever was written."""
    path = tmp_path / "a.book"
    assert [write(path, tablet, count) for count in (3, 0, 2)] == ["", "", ""]
    assert missing(path, tablet) == []


@pytest.mark.parametrize(("gone", "met"), [(1, "ends at number 2"), (3, "has none of them")])
def test_entries_taken_from_the_end_are_missed(
    tmp_path: Path, tablet: Tablet, gone: int, met: str
) -> None:
    """One or all: told at the opening, and again until they are back, though more is written."""
    path = tmp_path / "a.book"
    write(path, tablet, 3)
    cut_off(path, gone)

    (told,) = missing(path, tablet)
    assert met in told
    assert "wrote up to number 3" in told
    assert met in write(path, tablet, 0)
    write(path, tablet, 3)
    assert "another entry of that number" in missing(path, tablet)[0]


def test_other_book_at_another_place_is_not_mistaken(tmp_path: Path, tablet: Tablet) -> None:
    """Each book has its own head, also where one stream wrote both."""
    write(tmp_path / "a.book", tablet, 3)
    write(tmp_path / "b.book", tablet, 1)

    assert missing(tmp_path / "a.book", tablet) == missing(tmp_path / "b.book", tablet) == []


@pytest.mark.parametrize(
    "spoil",
    [lambda data: b"", lambda data: data[:40], lambda data: data.replace(b"0", b"1", 1)],
    ids=["empty", "cut short", "changed"],
)
def test_head_half_written_says_nothing(
    tmp_path: Path, tablet: Tablet, spoil: Callable[[bytes], bytes]
) -> None:
    """A power cut in the middle of it raises no alarm."""
    path = tmp_path / "a.book"
    write(path, tablet, 2)
    cut_off(path, 1)
    (head,) = tablet.heads.iterdir()
    head.write_bytes(spoil(head.read_bytes()))

    assert missing(path, tablet) == []


def test_verify_on_this_tablet_tells_and_exits_with_one(
    tmp_path: Path, tablet: Tablet, capsys: pytest.CaptureFixture[str]
) -> None:
    """The chain is sound, and still it says what is gone."""
    path = tmp_path / "a.book"
    write(path, tablet, 3)
    assert main(["verify", str(path)]) == 0
    cut_off(path, 1)
    capsys.readouterr()

    assert main(["verify", str(path), "--json"]) == 1
    told = json.loads(capsys.readouterr().out)
    assert told["sound"] is True
    assert "Entries are missing at the end of a.book" in told["missing"][0]


def test_app_tells_at_the_opening(tmp_path: Path, tablet: Tablet) -> None:
    """What the worker hands to the shell says it."""
    path = tmp_path / "a.book"
    write(path, tablet, 2)
    cut_off(path, 1)
    worker, answers = JobWorker(lambda answer: answer()), list[OpenBookResult]()
    worker.heads = tablet.heads
    worker.open(path, "Ana", lambda: STREAM, answers.append, pytest.fail)
    worker.close()

    assert "Entries are missing" in answers[0].missing
