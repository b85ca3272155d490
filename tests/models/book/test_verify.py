"""Checking a whole book: altered rows, broken chains, gaps, forks, missing guards."""

from __future__ import annotations

import sqlite3
from collections.abc import Callable
from contextlib import closing
from dataclasses import replace
from pathlib import Path

import pytest

from models.book.row import GENESIS, Draft, Row, make_row
from models.book.store import Book
from models.book.verify import Fork, Gap, verify_rows

Make = Callable[..., Draft]


@pytest.fixture
def rows(book: Book, draft: Make) -> list[Row]:
    """Return the five rows of a book that was closed again."""
    written = book.commit_all([draft() for _ in range(5)])
    book.close()
    return written


def tamper(path: Path, statement: str, *values: object) -> None:
    """Change a file as somebody who means to: with its guards taken off and put back."""
    with closing(sqlite3.connect(path)) as file:
        guards = file.execute(
            "SELECT name, sql FROM sqlite_master WHERE type = 'trigger'"
        ).fetchall()
        for name, _ in guards:
            file.execute(f"DROP TRIGGER {name}")
        file.execute(statement, values)
        for _, made in guards:
            file.execute(made)
        file.commit()


def test_whole_book_is_sound(rows: list[Row], open_book: Callable[..., Book]) -> None:
    """Nothing is found in a book that is as it was written."""
    report = open_book().verify()

    assert report.is_sound
    assert report.count == 5
    assert report.heads == {rows[-1].stream: (5, rows[-1].hash)}
    assert (report.faults, report.forks, report.gaps, report.unproven) == ((), (), (), ())


@pytest.mark.parametrize(
    ("change", "what"),
    [
        ("author = 'x'", "author"),
        ("day = '2026-06-01', lc = 9", "lc, day"),
        ("strikes = '[\"x\"]'", "strikes"),
        ("strikes = 'no list'", "strikes"),
        ("reason = CAST(x'ff' AS TEXT)", "reason"),
        ("raw = replace(raw, 'depth', 'width')", "bytes"),
        ("raw = CAST(replace(CAST(raw AS TEXT), 'Rhea', 'Theo') AS BLOB), author = 'Theo'", "hash"),
        ("raw = CAST(raw AS TEXT) || ' '", "bytes"),
        ("hash = zeroblob(32)", "hash"),
        ("at_ms = 0.5", "at_ms"),
    ],
)
def test_altered_row_is_named_and_no_other(
    path: Path, rows: list[Row], open_book: Callable[..., Book], change: str, what: str
) -> None:
    """Whatever part of a row was altered, that row alone is accused."""
    tamper(path, f"UPDATE entry SET {change} WHERE id = ?", rows[2].id)

    report = open_book().verify()

    assert [(fault.id, fault.seq) for fault in report.faults] == [(rows[2].id, 3)]
    assert what in report.faults[0].what
    assert not report.is_sound


def test_numbers_that_are_none_stop_nothing(
    path: Path, rows: list[Row], open_book: Callable[..., Book], draft: Make
) -> None:
    """Damage put a text where a number was: that row is named, and writing goes on."""
    tamper(path, "UPDATE entry SET seq = 'x', lc = x'01' WHERE id = ?", rows[4].id)
    book = open_book()

    assert [(fault.id, fault.what) for fault in book.verify().faults] == [
        (rows[4].id, "its seq, lc differ from its bytes")
    ]
    assert [row.id for row in book.rows()] == [row.id for row in rows]
    assert book.commit_all([draft()])[0].lc == 5


def test_removed_rows_are_a_gap(
    path: Path, rows: list[Row], open_book: Callable[..., Book]
) -> None:
    """Missing numbers are told, and the entry behind them is kept without proof."""
    tamper(path, "DELETE FROM entry WHERE seq IN (?, ?)", 2, 3)

    report = open_book().verify()

    assert report.gaps == (Gap(rows[0].stream, 2, 3),)
    assert report.unproven == (rows[3].id,)
    assert report.faults == ()
    assert not report.is_sound


def test_missing_guard_is_a_fault_of_structure(
    path: Path, rows: list[Row], open_book: Callable[..., Book]
) -> None:
    """A file that has lost what refuses changes is no longer sound."""
    with closing(sqlite3.connect(path)) as file:
        file.execute("DROP TRIGGER entry_no_delete")

    report = open_book().verify()

    assert report.structure == ("the guard entry_no_delete is missing from the file",)
    assert not report.is_sound


def test_fork_is_kept_and_shown(book: Book, draft: Make) -> None:
    """A restored tablet gave numbers 2 and 3 again: both branches stand, both are proved."""
    one, two, three = book.commit_all([draft(), draft(), draft()])
    two_b = make_row(draft(), one.stream, 2, 2, one.hash)
    three_b = make_row(draft(), one.stream, 3, 9, two_b.hash)

    assert book.import_rows([two_b, three_b]) == 2
    report = book.verify()

    assert report.is_sound
    assert {(fork.seq, frozenset(fork.ids)) for fork in report.forks} == {
        (2, frozenset((two.id, two_b.id))),
        (3, frozenset((three.id, three_b.id))),
    }
    assert isinstance(report.forks[0], Fork)
    assert report.heads[one.stream] == (3, three_b.hash)
    assert book.heads() == report.heads
    assert book.commit_all([draft()])[0].seq == 4
    assert book.verify().is_sound


def test_stream_that_starts_late_or_from_elsewhere(draft: Make) -> None:
    """A first entry chained to something else than nothing is found, also in a second stream."""
    good = make_row(draft(), "aa", 1, 1, GENESIS)
    wrong = make_row(draft(), "bb", 1, 1, good.hash)
    late = make_row(draft(), "cc", 4, 4, GENESIS)

    report = verify_rows([good, wrong, late])

    assert [fault.id for fault in report.faults] == [wrong.id]
    assert report.gaps == (Gap("cc", 1, 3),)
    assert report.unproven == (late.id,)


def test_exchanged_rows_break_the_chain(draft: Make) -> None:
    """Two sound rows that changed places do not follow from each other."""
    first = make_row(draft(), "aa", 1, 1, GENESIS)
    other = make_row(replace(draft(), author="Tomas"), "aa", 1, 1, GENESIS)
    second = make_row(draft(), "aa", 2, 2, first.hash)

    assert verify_rows([first, second]).is_sound
    assert [fault.id for fault in verify_rows([other, second]).faults] == [second.id]
