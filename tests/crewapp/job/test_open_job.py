"""A job in hand: opened, written through, found again, readable by others."""

from __future__ import annotations

import sqlite3
from pathlib import Path

import pytest

from crewapp.commands.day import LogNote
from crewapp.commands.passes import LogPass, LogProbe
from crewapp.handlers.plan.plan_entries import set_up
from crewapp.job.dispatch import do
from crewapp.job.open_job import NewEntry, OpenJob
from crewapp.tablet.clock import SetClock
from models.book.errors import BookReadOnlyError, NotABookError
from models.checks.flag_board import FlagBoard
from models.entries.bodies.day import Note
from models.units import UnitSystem
from models.units.job_units import Figures

FT = 304_800_000


def open_at(path: Path, clock: SetClock, stream: str = "tablet-a") -> OpenJob:
    """Open or make a book."""
    return OpenJob.open(path, clock, "foreman", stream)


def test_book_is_made_when_there_is_none(tmp_path: Path, clock: SetClock) -> None:
    """A new job has the name of its file until it has one of its own."""
    job = open_at(tmp_path / "north.book", clock)

    assert (job.name, job.state.job, job.figures) == ("north", None, Figures())
    set_up(job, "job", job_id="n", name="North course", unit_system="metric")
    assert (job.name, job.figures.system) == ("North course", UnitSystem.METRIC)
    job.close()


def test_first_entry_carries_the_job_it_names(tmp_path: Path, clock: SetClock) -> None:
    """Entries carry the job's short name from the job entry itself on."""
    job = open_at(tmp_path / "north.book", clock)
    early = do(job, LogNote(text="before the plan")).entries[0]
    named = set_up(job, "job", job_id="n-26", name="North").entries[0]
    later = do(job, LogNote(text="after it")).entries[0]
    job.close()

    assert [early.job, named.job, later.job] == ["north", "n-26", "n-26"]


def test_job_opened_again_stands_as_it_was_left(job: OpenJob, clock: SetClock) -> None:
    """State and flags are made of the book alone."""
    do(job, LogPass(surface_id="G7", line_ids=("S01",), length_nm=30 * FT, length_typed="30"))
    do(job, LogProbe(pass_id="G7-01", line_id="S01", along_nm=0, depth_nm=1, depth_typed="x"))
    before = {finding.key: finding for finding in job.board.findings()}
    job.close()

    again = open_at(job.book.path, clock)

    assert {finding.key: finding for finding in again.board.findings()} == before
    assert before
    assert list(again.state.entries) == list(job.state.entries)
    again.close()


def test_board_kept_in_step_is_the_board_made_anew(job: OpenJob) -> None:
    """Entry by entry, the flags come out as if everything were looked at again."""
    do(job, LogPass(surface_id="G7", line_ids=("S01",), length_nm=40 * FT, length_typed="40"))
    do(job, LogPass(surface_id="G7", line_ids=("S01",), length_nm=30 * FT, length_typed="30"))

    found = {finding.key: finding for finding in job.board.findings()}
    anew = {finding.key: finding for finding in FlagBoard(job.state).findings()}
    assert found == anew


def test_changed_names_the_kinds_it_touched(job: OpenJob) -> None:
    """A screen can ask whether a change concerns it."""
    changed = job.ink(NewEntry(Note(text="a")), NewEntry(Note(text="b")))

    assert changed.kinds == {"note"}
    assert [entry.seq for entry in changed.entries] == [
        changed.entries[0].seq,
        changed.entries[0].seq + 1,
    ]


def test_an_entry_that_never_fitted_does_not_keep_the_book_shut(
    job: OpenJob, clock: SetClock
) -> None:
    """Taken in unread from a later version, it is told of as not read once its kind is known."""
    moment = clock.now()
    job.book.commit(
        id="x1", kind="note", v=1, body={"no_such_field": 1}, at_ms=moment.at_ms,
        offset_min=moment.offset_min, zone=moment.zone, author="Ann", job="small", day=moment.day,
    )  # fmt: skip
    job.close()

    again = open_at(job.book.path, clock)
    do(again, LogNote(text="work goes on"))

    assert again.state.entries["x1"].body is None
    told = [one for one in again.board.findings() if one.check == "entry_not_read"]
    assert [one.subject for one in told] == [moment.day]
    again.close()


def test_any_sql_tool_can_read_the_book(job: OpenJob) -> None:
    """A view per kind shows what stands, named as the entry's fields are."""
    do(job, LogPass(surface_id="G7", line_ids=("S01",), length_nm=30 * FT, length_typed="30"))
    job.close()

    with sqlite3.connect(f"file:{job.book.path}?mode=ro", uri=True) as file:
        rows = file.execute("SELECT pass_id, length_nm FROM pass").fetchall()
    file.close()
    assert rows == [("G7-01", 30 * FT)]


def test_second_window_reads_only(job: OpenJob, clock: SetClock) -> None:
    """One book has one writer; who comes second may look."""
    second = open_at(job.book.path, clock, stream="tablet-b")

    assert second.book.read_only_reason
    with pytest.raises(BookReadOnlyError):
        do(second, LogNote(text="from the other window"))
    second.close()


def test_file_that_is_no_book_is_left_alone(tmp_path: Path, clock: SetClock) -> None:
    """A file of another kind is named, not overwritten."""
    path = tmp_path / "letter.book"
    path.write_text("dear sir")

    with pytest.raises(NotABookError):
        open_at(path, clock)
    assert path.read_text() == "dear sir"
