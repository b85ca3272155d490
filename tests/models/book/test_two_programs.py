"""Two programs on one book: one writes, the other reads and says why."""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from models.book.errors import BookReadOnlyError
from models.book.row import Draft
from models.book.store import Book

Open = Callable[..., Book]


@pytest.fixture
def start_other(path: Path) -> Iterator[Callable[[], subprocess.Popen[str]]]:
    """Start another program on the book of the test; it ends with the test."""
    started: list[subprocess.Popen[str]] = []

    def start() -> subprocess.Popen[str]:
        command = [sys.executable, str(Path(__file__).with_name("holder.py")), str(path)]
        started.append(
            subprocess.Popen(
                command,
                stdin=subprocess.PIPE,
                stdout=subprocess.PIPE,
                text=True,
                env={"PYTHONPATH": str(Path(__file__).parents[3])},
            )
        )
        return started[-1]

    yield start
    for program in started:
        program.kill()
        program.communicate()


def hear(program: subprocess.Popen[str]) -> str:
    """Return the next line that the other program says."""
    assert program.stdout is not None
    return program.stdout.readline().strip()


def ask_count(program: subprocess.Popen[str]) -> int:
    """Ask the other program how many entries it sees."""
    assert program.stdin is not None
    program.stdin.write("count\n")
    program.stdin.flush()
    return int(hear(program))


def test_second_program_reads_and_says_why(
    book: Book, draft: Callable[..., Draft], start_other: Callable[[], subprocess.Popen[str]]
) -> None:
    """While we hold the book another program sees each entry and may write none."""
    other = start_other()

    assert "another window or program" in hear(other)
    assert ask_count(other) == 0
    book.commit_all([draft()])
    assert ask_count(other) == 1


def test_we_read_while_another_writes_and_write_when_it_was_killed(
    open_book: Open,
    draft: Callable[..., Draft],
    start_other: Callable[[], subprocess.Popen[str]],
) -> None:
    """The lock goes with the program that held it, however that ended."""
    open_book().close()
    other = start_other()
    assert hear(other) == "may write"

    second = open_book()
    assert second.read_only_reason is not None
    with pytest.raises(BookReadOnlyError, match="another window or program"):
        second.commit_all([draft()])
    second.close()
    other.kill()
    other.wait()

    third = open_book()
    assert third.read_only_reason is None
    assert third.commit_all([draft()])[0].seq == 1


def test_same_program_twice_is_two_programs(open_book: Open, draft: Callable[..., Draft]) -> None:
    """A second window of one process gets no second pen, and the first keeps its own."""
    first, second = open_book(), open_book()

    assert second.read_only_reason is not None
    second.close()
    assert open_book().read_only_reason is not None
    assert first.commit_all([draft()])[0].seq == 1


def test_reading_leaves_the_file_as_it_is(
    open_book: Open, path: Path, draft: Callable[..., Draft]
) -> None:
    """Opening to read changes no byte, needs no stream, and does not stop a writer."""
    open_book().commit_all([draft()])
    open_book().close()
    before = path.read_bytes()

    with Book.open(path, read_only=True) as reader, Book.open(path) as second:
        assert reader.count() == second.count() == 1
        assert reader.verify().is_sound
        assert "opened to be read" in str(reader.read_only_reason)
        assert reader.refresh_views({}) is False
    assert path.read_bytes() == before
