"""The list of tablets through the app's commands, and a restored tablet that goes on."""

from __future__ import annotations

import shutil
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from crewapp.commands.day import CloseDay, LogNote
from crewapp.commands.tablets import AddTablet, RevokeTablet
from crewapp.handlers.exchange import exchange_job
from crewapp.handlers.tablets import (
    NotOnListError,
    TabletListError,
    job_members,
)
from crewapp.job.dispatch import do
from crewapp.job.open_job import OpenJob
from crewapp.tablet.clock import SetClock
from crewapp.tablet.settings import Tablet
from models.entries.kind_names import NOTE
from models.entries.tablet_code import code_of
from sync.exchange.request import ExchangeRequest
from tests.crewapp.conftest import plan_text
from tests.sync.exchange.crew import MemoryStore

TERMS = ExchangeRequest(where="memory")
Start = Callable[[Tablet, Path], OpenJob]


@pytest.fixture
def start(clock: SetClock) -> Iterator[Start]:
    """Open a book at a tablet; what was opened is closed afterwards."""
    opened: list[OpenJob] = []

    def at(tablet: Tablet, path: Path) -> OpenJob:
        path.parent.mkdir(parents=True, exist_ok=True)
        opened.append(OpenJob.open(path, clock, "foreman", tablet.stream()))
        return opened[-1]

    yield at
    for one in opened:
        one.close()


@pytest.fixture
def founder(tmp_path: Path, start: Start) -> tuple[Tablet, OpenJob]:
    """A tablet with the small job."""
    from crewapp.handlers.plan.plan_entries import set_up_all
    from crewapp.imports.plan.plan_file import read_plan

    tablet = Tablet(tmp_path / "one")
    job = start(tablet, tablet.books / "small.book")
    set_up_all(job, read_plan(Path("small.json"), plan_text()))
    return tablet, job


def test_tablet_is_added_and_taken_off(founder: tuple[Tablet, OpenJob]) -> None:
    """By the code it shows; what makes no sense is told."""
    _, job = founder
    code = code_of("cd" * 16)
    do(job, AddTablet(code=f" {code.lower()} ", name=" cab "))
    assert job_members(job).tablets[code].name == "cab"
    with pytest.raises(TabletListError, match="is on it"):
        do(job, AddTablet(code=code))
    do(job, RevokeTablet(code=code, why="in the ditch"))
    with pytest.raises(TabletListError, match="is not on it"):
        do(job, RevokeTablet(code=code))
    do(job, AddTablet(code=code))

    assert job_members(job).may_write("cd" * 16)


def test_restored_tablet_goes_on_by_itself(
    founder: tuple[Tablet, OpenJob], tmp_path: Path, start: Start
) -> None:
    """Put back on new hardware it writes a new stream, vouched for by its old key."""
    tablet, job = founder
    store = MemoryStore()
    exchange_job(job, tablet, store, TERMS)
    do(job, LogNote(text="not sent"))
    job.close()
    shutil.copytree(tablet.folder, tmp_path / "two")
    new = Tablet(tmp_path / "two")
    again = start(new, new.books / "small.book")
    do(again, LogNote(text="from the new one"))
    report = exchange_job(again, new, store, TERMS)

    assert new.stream() != tablet.stream()
    assert report.is_complete
    assert job_members(again).may_write(new.stream())
    assert report.sealed_rows == 3  # what was not sent, its introduction, and the new note


def test_copied_disk_is_noticed_at_the_exchange(
    founder: tuple[Tablet, OpenJob], tmp_path: Path, start: Start
) -> None:
    """With its anchor copied too, only the store can tell; then the stream changes at once."""
    tablet, job = founder
    store = MemoryStore()
    exchange_job(job, tablet, store, TERMS)
    job.close()
    shutil.copytree(tablet.folder, tmp_path / "saved")
    shutil.copytree(tablet.anchor.parent, tmp_path / "saved.anchor")
    job = start(tablet, tablet.books / "small.book")
    do(job, LogNote(text="first life"))
    exchange_job(job, tablet, store, TERMS)
    job.close()
    clone = Tablet(tmp_path / "saved")
    assert clone.stream() == tablet.stream()
    other = start(clone, clone.books / "small.book")
    do(other, LogNote(text="second life"))
    report = exchange_job(other, clone, store, TERMS)
    do(other, LogNote(text="after"))

    assert report.was_identity_used
    assert report.is_complete
    assert clone.stream() != tablet.stream()
    last = max(other.book.rows(), key=lambda row: row.lc)
    assert last.stream == clone.stream()
    texts = [entry.body.text for entry in other.state.current(NOTE)]
    assert {"first life", "second life", "after"} <= set(texts)


def test_entries_of_others_come_into_the_state(
    founder: tuple[Tablet, OpenJob], tmp_path: Path, start: Start
) -> None:
    """What the second tablet logged is there without opening the book anew."""
    tablet, job = founder
    second = Tablet(tmp_path / "two")
    do(job, AddTablet(code=code_of(second.stream())))
    store = MemoryStore()
    exchange_job(job, tablet, store, TERMS)
    (second.books).mkdir(parents=True)
    job.book.backup(second.books / "small.book")
    other = start(second, second.books / "small.book")
    do(other, LogNote(text="by the second"))
    exchange_job(other, second, store, TERMS)
    before = len(job.state.current(NOTE))
    report = exchange_job(job, tablet, store, TERMS)

    assert report.new_rows == 1
    assert len(job.state.current(NOTE)) == before + 1


def test_tablet_that_is_not_on_the_list_can_not_change_it(
    founder: tuple[Tablet, OpenJob], tmp_path: Path, start: Start
) -> None:
    """It would look to itself as if it were, and to nobody else."""
    tablet, job = founder
    second = Tablet(tmp_path / "two")
    second.books.mkdir(parents=True)
    job.book.backup(second.books / "small.book")
    other = start(second, second.books / "small.book")
    before = other.book.count()
    with pytest.raises(NotOnListError, match="is not on it"):
        do(other, AddTablet(code=code_of(second.stream())))
    with pytest.raises(NotOnListError, match="is not on it"):
        do(other, RevokeTablet(code=code_of(tablet.stream())))

    assert other.book.count() == before


def test_tablet_does_not_take_itself_off(founder: tuple[Tablet, OpenJob]) -> None:
    """All that it wrote afterwards would be set aside everywhere, and it could not undo it."""
    tablet, job = founder
    with pytest.raises(TabletListError, match="is this one"):
        do(job, RevokeTablet(code=code_of(tablet.stream())))

    assert job_members(job).may_write(tablet.stream())


def test_list_can_be_changed_on_a_closed_day(founder: tuple[Tablet, OpenJob]) -> None:
    """Who may write is no work of the day: the day stays closed and its sheet proven."""
    from models.state.check_code import check_code

    _, job = founder
    day = job.clock.now().day
    do(job, LogNote(text="last word"))
    before = check_code(job.state, day)
    do(job, CloseDay(day=day))
    do(job, AddTablet(code=code_of("cd" * 16)))

    assert job.state.is_closed(day)
    assert check_code(job.state, day) == before
