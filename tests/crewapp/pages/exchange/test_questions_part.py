"""What an exchange meets under real touches: less than last time, a cut, strangers, a server."""

from __future__ import annotations

import threading
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from crewapp.commands.tablets import AddTablet
from crewapp.handlers.tablets import job_members
from crewapp.job.dispatch import do
from crewapp.pages.exchange.questions_part import fingerprint_groups
from models.state.indexes import PASSES_ON
from sync.stores.errors import HostUnknownError
from sync.stores.folder import FolderStore
from tests.crewapp.pages.sync_driver import Crew, SyncDriver, cut_line, found_job

if TYPE_CHECKING:
    from tests.uidriver import UI

JARGON = ("segment", "stream", "hash", "sha256")


@pytest.fixture
def crew(tmp_path: Path) -> Crew:
    """The first tablet with the job, exchanged once with a stick."""
    (tmp_path / "stick").mkdir()
    found_job(tmp_path / "first")
    crew = Crew(tmp_path, tmp_path / "stick")
    crew.exchange("first")
    return crew


@pytest.fixture
def driver(ui: UI, crew: Crew) -> Iterator[SyncDriver]:
    """The Exchange page of the first tablet; what others do comes before."""
    opened: list[SyncDriver] = []

    def take() -> SyncDriver:
        (book,) = crew.tablet("first").books.glob("*.book")
        opened.append(SyncDriver(ui, crew.root / "first", crew.folder, book))
        return opened[-1]

    yield take()
    opened[-1].close()


def files_of(crew: Crew) -> list[Path]:
    """Return the files on the stick."""
    return sorted(path for path in crew.folder.rglob("*") if path.is_file())


def test_less_than_last_time_is_asked_and_not_done(driver: SyncDriver, crew: Crew) -> None:
    """Two keys: the first does nothing, the second sends again what the stick lost."""
    driver.exchange()
    lost = files_of(crew)[0]
    lost.unlink()
    driver.exchange()
    assert driver.page.part_name() == "less"
    assert "fewer than last time" in driver.text()
    driver.tap("Do nothing, look first")
    assert not lost.exists()
    driver.exchange()
    driver.tap("Less is right: exchange")
    driver.arrived()

    assert lost.exists()
    assert driver.page.part_name() == "home"


def test_stick_pulled_out_is_a_sentence_and_again_goes_on(driver: SyncDriver, crew: Crew) -> None:
    """Nothing is lost: what was not sent waits, and goes with the next tap."""
    driver.cut("S01")
    driver.shell.go("sync")
    driver.settle()
    away = crew.folder.rename(crew.root / "away")
    driver.exchange()
    assert "Not exchanged" in driver.words()
    assert "its folder is not there" in driver.text()
    assert driver.facts()["Waiting to go"] == "1 entry"
    away.rename(crew.folder)
    driver.exchange()

    assert driver.facts()["Waiting to go"] == "0 entries"
    assert driver.facts()["Last exchanged"].startswith("today ")


def test_crew_inks_while_an_exchange_runs_and_stops_it(
    driver: SyncDriver, crew: Crew, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A slow stick holds up nobody: a pass is inked meanwhile, and the same key stops."""
    at_work, go_on = threading.Event(), threading.Event()
    listing = FolderStore.list

    def slow(store: FolderStore, folder: str) -> object:
        at_work.set()
        assert go_on.wait(20)
        return listing(store, folder)

    monkeypatch.setattr(FolderStore, "list", slow)
    driver.tap("Exchange now")
    assert at_work.wait(20)
    driver.cut("S02")
    assert driver.worker.job().state.current(PASSES_ON, "G7")
    driver.shell.go("sync")
    driver.settle()
    assert "Looking at what is there" in driver.words()
    driver.tap("Stop")
    go_on.set()
    driver.arrived()

    assert "Stopped" in driver.words()
    assert driver.facts()["Waiting to go"] == "1 entry"


def test_strangers_entries_stay_out_with_a_reason(driver: SyncDriver, crew: Crew) -> None:
    """A tablet that nobody added: kept, told in plain words, in the book once it is added."""
    code = crew.join("second")
    crew.exchange("second", cut_line("S03"))
    driver.exchange()
    driver.tap("Not let in")
    assert f"{code}: entries 1 to 1" in driver.words()
    assert "is not on this job's list" in driver.text()
    assert not [word for word in JARGON if word in driver.text().lower()]
    assert not driver.worker.job().state.current(PASSES_ON, "G7")
    driver.do(AddTablet(code=code, name="second crew"))
    driver.shell.go("sync", part="home")
    driver.settle()
    driver.exchange()

    assert driver.banner == "1 entry came: from second crew"
    assert driver.worker.job().state.current(PASSES_ON, "G7")


def test_tablet_is_taken_off_by_a_hold_with_a_reason(driver: SyncDriver, crew: Crew) -> None:
    """No reason, no hold; then it may write no more, and the list says why."""
    code = crew.join("second")
    driver.do(AddTablet(code=code, name="second crew"))
    driver.shell.go("sync", part="tablets")
    driver.settle()
    (row,) = [one for one in driver.page.view.tablets if one.code == code]
    driver.page.tablets.pick(row.code)
    driver.settle()
    assert driver.page.part.hold.disabled
    driver.tap("stolen")
    driver.hold("Hold to take it off")
    tablet = job_members(driver.worker.job()).tablets[code]

    assert (tablet.is_revoked, tablet.why) == (True, "stolen")
    assert "second crew: taken off: stolen" in driver.words()


def test_code_with_a_slip_is_refused_at_once(driver: SyncDriver, crew: Crew) -> None:
    """Two letters swapped: a sentence where they are typed; put right, it is taken."""
    code = crew.join("second").replace("-", "")
    at = next(at for at in range(15) if code[at] != code[at + 1])
    slip = code[:at] + code[at + 1] + code[at] + code[at + 2 :]
    driver.taps("Tablets", "Add a tablet")
    sheet = driver.page.tablets.sheet
    for letter in slip[:-1]:
        sheet._take(sheet.typed.add_letter(letter))
    driver.ui.tap(sheet.keys[slip[-1]])
    assert "two are swapped" in sheet.hint.text
    for _ in range(16 - at):
        sheet._take(sheet.typed.drop_letter())
    driver.type_code(code[at:])

    assert driver.page.part_name() == "named"
    do(driver.worker.job(), AddTablet(code=driver.page.tablets.code))


def test_unknown_server_shows_its_fingerprint_and_is_asked_once(
    driver: SyncDriver, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Accepted, it is written down for this tablet, and the exchange goes on by itself."""
    known = driver.shell.tablet.folder / "known_hosts"
    line = "office ssh-ed25519 AAAA"
    listing = FolderStore.list

    def meets(store: FolderStore, folder: str) -> object:
        if known.exists():
            return listing(store, folder)
        raise HostUnknownError(
            host="office", kind="ssh-ed25519", fingerprint="SHA256:abcdefgh", path=known, line=line
        )

    monkeypatch.setattr(FolderStore, "list", meets)
    driver.exchange()
    assert {"office", fingerprint_groups("SHA256:abcdefgh")} <= set(driver.words())
    driver.tap("It is the same: accept")
    driver.arrived()

    assert known.read_text(encoding="ascii") == f"{line}\n"
    assert driver.page.part_name() == "home"
