"""Where to exchange, one file handed over, and a tablet that came back from a backup."""

from __future__ import annotations

import shutil
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from crewapp.commands.day import CloseDay
from crewapp.tablet.settings import Tablet
from models.entries.tablet_code import code_of
from models.state.indexes import PASSES_ON
from sync.stores.address import parse_store_address
from sync.stores.secrets import find_secret
from tests.crewapp.conftest import DAY
from tests.crewapp.pages.sync_driver import Crew, SyncDriver, cut_line, found_job, rows_of

if TYPE_CHECKING:
    from tests.uidriver import UI

Take = Callable[..., SyncDriver]


@pytest.fixture
def crew(tmp_path: Path) -> Crew:
    """The first tablet has the job; there is a stick, and nothing was exchanged."""
    (tmp_path / "stick").mkdir()
    found_job(tmp_path / "first")
    return Crew(tmp_path, tmp_path / "stick")


@pytest.fixture
def take(ui: UI, crew: Crew, monkeypatch: pytest.MonkeyPatch) -> Iterator[Take]:
    """Take a tablet in hand by its home; with a store set or without."""
    monkeypatch.setenv("KIVY_CLIPBOARD", "sdl2")
    held: list[SyncDriver] = []

    def in_hand(name: str, store: Path | None = None) -> SyncDriver:
        if held:
            held.pop().close()
        books = sorted(crew.tablet(name).books.glob("*.book"))
        held.append(SyncDriver(ui, crew.root / name, store, books[0] if books else None))
        return held[-1]

    yield in_hand
    held.pop().close()


def test_stick_is_typed_once(take: Take, crew: Crew) -> None:
    """Choose the kind, type the folder, keep it: the next tap exchanges."""
    driver = take("first")
    driver.taps("Say where to", "Folder, stick or share", "...", "Type the folder")
    driver.ui.tap(driver.page.part.area)
    driver.ui.type(str(crew.folder))
    driver.settle()
    driver.taps("Done", "Exchange there from now on")
    driver.exchange()

    assert driver.app.tablet.settings().store == str(crew.folder)
    assert [path for path in crew.folder.rglob("*.seg") if path.stat().st_size]
    assert driver.facts()["Waiting to go"] == "0 entries"


def test_password_is_kept_apart_and_never_shown(take: Take) -> None:
    """It stands in no draft, no setting and on no tile; only its owner can read its file."""
    driver = take("first")
    driver.taps("Say where to", "SFTP server")
    page = driver.page
    for field, text in (("host", "office.example"), ("user", "crew"), ("password", "turf7")):
        page.turn_to("field", store_field=field)
        driver.settle()
        page.part.area.text = text
        driver.tap("Done")
    assert "turf7" not in driver.text()
    driver.tap("Exchange there from now on")
    tablet = driver.app.tablet
    where = parse_store_address(tablet.settings().store)
    kept = [p for p in tablet.folder.rglob("*") if p.is_file() and b"turf7" in p.read_bytes()]

    assert str(where) == "sftp://crew@office.example"
    assert [path.name for path in kept] == ["store-passwords.json"]
    secret = find_secret(where, tablet.folder)
    assert secret is not None
    assert secret.user == "crew"


def test_job_goes_over_in_one_file(take: Take, crew: Crew) -> None:
    """Made on one tablet, taken in on another as a new job; then once more into that job."""
    driver = take("first")
    driver.taps("Hand over", "Make the file")
    driver.arrived()
    (made,) = (crew.root / "first" / "handover").glob("*.crew")
    assert driver.page.part.copy.copied == str(made.parent)
    inbox = crew.root / "second" / "inbox"
    inbox.mkdir(parents=True)
    shutil.copy(made, inbox / "job.crew")
    driver = take("second")
    driver.taps("Back", "Plan file", "job.crew")
    driver.arrived()
    assert driver.worker.job().name == "Hollow green"
    driver.shell.go("sync", part="take")
    driver.settle()
    driver.tap("job.crew")
    driver.arrived()

    first, second = (next(crew.tablet(name).books.glob("*.book")) for name in ("first", "second"))
    assert rows_of(first) == rows_of(second)
    count = len(rows_of(first))
    assert f"Entries in the file: {count}. All of them were here already." in driver.words()


def test_a_copied_book_makes_no_empty_file(take: Take, crew: Crew) -> None:
    """A book brought over by hand, its keys elsewhere: no file, and what to do is said."""
    (book,) = crew.tablet("first").books.glob("*.book")
    copied = crew.tablet("second").books / book.name
    copied.parent.mkdir(parents=True, exist_ok=True)
    shutil.copy(book, copied)
    driver = take("second")
    driver.taps("Hand over", "Make the file")
    driver.arrived()

    assert "never signed here" in driver.text()
    assert not list((crew.root / "second" / "handover").glob("*.crew"))


def test_strangers_file_is_refused_in_a_sentence(take: Take, crew: Crew) -> None:
    """What is no hand-over does nothing, as a new job or into the open one."""
    inbox = crew.root / "first" / "inbox"
    inbox.mkdir(parents=True)
    (inbox / "odd.crew").write_bytes(b"PK\x05\x06 and nothing good")
    driver = take("first")
    before = rows_of(next(crew.tablet("first").books.glob("*.book")))
    driver.taps("Hand over", "Take a file in", "odd.crew")
    driver.arrived()
    assert "Cannot open odd.crew as a hand-over" in driver.text()
    driver.shell.go("jobs")
    driver.settle()
    driver.taps("Plan file", "odd.crew", "Make a new job of it")
    driver.arrived()

    assert "Cannot open odd.crew as a hand-over" in driver.text()
    assert len(list(crew.tablet("first").books.glob("*.book"))) == 1
    assert rows_of(next(crew.tablet("first").books.glob("*.book"))) == before


def test_restored_tablet_says_that_it_has_a_new_code(take: Take, crew: Crew) -> None:
    """Put back from a backup: told plainly, nothing lost, on the list again by itself."""
    crew.exchange("first", cut_line("S01"))
    old = code_of(crew.tablet("first").stream())
    shutil.copytree(crew.root / "first", crew.root / "again")  # without its anchor
    crew.exchange("first", cut_line("S02"))
    driver = take("again", crew.folder)
    own = driver.page.view.own_code
    assert own != old
    assert driver.banner.startswith("This tablet has a new code: ")
    assert own in driver.banner
    driver.tap("Seen")
    assert driver.page.view.is_renewed
    driver.exchange()

    assert {row.code for row in driver.page.view.tablets if not row.is_off} == {old, own}
    assert len(driver.worker.job().state.current(PASSES_ON, "G7")) == 2
    assert Tablet(crew.root / "again").take_renewal() == ""


def test_job_is_not_joined_twice(take: Take, crew: Crew) -> None:
    """A job of the store that is here already says so, and no second book is made."""
    crew.exchange("first")
    driver = take("first", crew.folder)
    driver.taps("Join a job", "Look for jobs")
    driver.arrived()
    driver.tap("hollow green")

    assert "It is on this tablet already" in driver.banner
    assert len(list(crew.tablet("first").books.glob("*.book"))) == 1


def test_closed_day_is_handed_over_in_one_file(take: Take, crew: Crew) -> None:
    """From the Day page: all that leads up to that day, and where it lies."""
    driver = take("first")
    driver.do(CloseDay(day=DAY))
    driver.shell.go("day", part="menu")
    driver.settle()
    driver.taps("One file", "Make the file")
    driver.arrived()
    (made,) = (crew.root / "first" / "handover").glob("*.crew")

    assert made.name == f"hollow-green-{DAY}.crew"
    assert "The file is made" in driver.words()
