"""The Exchange page under real touches, with a real folder; both books are read back."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from crewapp.tablet.settings import Tablet
from models.state.indexes import PASSES_ON
from tests.crewapp.pages.sync_driver import SyncDriver, found_job, rows_of

if TYPE_CHECKING:
    from tests.uidriver import UI

Take = Callable[[str], SyncDriver]


@pytest.fixture
def store(tmp_path: Path) -> Path:
    """A stick."""
    folder = tmp_path / "stick"
    folder.mkdir()
    return folder


@pytest.fixture
def take(ui: UI, tmp_path: Path, store: Path) -> Iterator[Take]:
    """Take a tablet in hand, by the name of its home; the first has the job."""
    held: list[SyncDriver] = []
    found_job(tmp_path / "first")

    def in_hand(name: str) -> SyncDriver:
        if held:
            held.pop().put_down()
        books = sorted((tmp_path / name / "books").glob("*.book"))
        held.append(SyncDriver(ui, tmp_path / name, store, books[0] if books else None))
        return held[-1]

    yield in_hand
    held.pop().put_down()


def book_of(tmp_path: Path, name: str) -> Path:
    """Return the one book of a tablet."""
    (path,) = (tmp_path / name / "books").glob("*.book")
    return path


def add_second(take: Take) -> None:
    """The first tablet sends the job; the second joins it; the first adds its code."""
    take("first").exchange()
    driver = take("second")
    code = driver.page.view.own_code
    driver.taps("Look for jobs")
    driver.arrived()
    driver.taps("hollow green")
    driver.arrived()
    driver = take("first")
    driver.taps("Tablets", "Add a tablet")
    driver.type_code(code)
    driver.taps("second crew", "Let it write to this job", "Back")
    driver.exchange()


def test_two_tablets_end_with_the_same_book(take: Take, tmp_path: Path) -> None:
    """Joined, added, worked on both: after an exchange each has what the other wrote."""
    add_second(take)
    driver = take("second")
    driver.exchange()
    driver.cut("S01")
    driver.shell.go("sync")
    driver.settle()
    assert driver.facts()["Waiting to go"] == "1 entry"
    driver.exchange()
    driver = take("first").exchange()

    assert driver.banner == "1 entry came: from second crew"
    assert driver.worker.job().state.current(PASSES_ON, "G7")
    driver.put_down()
    assert rows_of(book_of(tmp_path, "first")) == rows_of(book_of(tmp_path, "second"))
    assert Tablet(tmp_path / "first").stream() != Tablet(tmp_path / "second").stream()
