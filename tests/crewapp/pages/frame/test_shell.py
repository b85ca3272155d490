"""The shell: opening books, the strips round the page, and what happens when things go wrong."""

from __future__ import annotations

import threading
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest

from crewapp.commands.day import LogNote
from crewapp.commands.loads import TakeDelivery
from crewapp.commands.passes import LogPass, PlaceSand
from crewapp.tablet.settings import Settings, Tablet
from models.book.store import Book
from models.entries.envelope import AnyEntry
from tests.crewapp.conftest import DAY
from tests.crewapp.pages.frame_driver import AppDriver, put_book

if TYPE_CHECKING:
    from tests.uidriver import UI

Start = Callable[..., AppDriver]


@pytest.fixture
def start(ui: UI, tmp_path: Path) -> Iterator[Start]:
    """Start the app on a tablet's folder, as often as a test wants."""
    open_now: list[AppDriver] = []

    def begin(book: Path | None = None) -> AppDriver:
        for driver in open_now:
            driver.close()
        open_now[:] = [AppDriver(ui, tmp_path / "home", book).start()]
        return open_now[0]

    yield begin
    for driver in open_now:
        driver.close()


def note(driver: AppDriver, text: str = "wet corner") -> None:
    """Ink a note, as a page would."""
    driver.page.do(LogNote(text=text))
    driver.settle()


def standing(driver: AppDriver, kind: str) -> list[AnyEntry]:
    """Return what stands of a kind in the open book."""
    state = driver.worker.job().state
    return [e for e in state.entries.values() if e.kind == kind and not state.is_struck(e.id)]


def test_undo_takes_back_the_last_tap(start: Start, tmp_path: Path) -> None:
    """The strip says what was inked; one tap strikes it, and the strip goes."""
    driver = start(put_book(tmp_path))
    note(driver)
    assert "wet corner" in driver.shell.strip.text
    driver.tap("Undo")

    assert standing(driver, "note") == []
    assert driver.shell.strip.parent is None


def test_strip_stays_until_the_next_entry(start: Start, tmp_path: Path) -> None:
    """No timer, and no change of page, takes the way back; only the next entry does."""
    driver = start(put_book(tmp_path))
    note(driver)
    driver.shell.go("jobs")
    driver.ui.wait(0.5)
    assert "wet corner" in driver.shell.strip.text
    note(driver, "dry again")
    driver.tap("Undo")

    assert [entry.body.text for entry in standing(driver, "note")] == ["wet corner"]  # type: ignore[union-attr]


def test_flag_raised_is_shown_at_once(start: Start, tmp_path: Path) -> None:
    """A delivery without a ticket: the fault and its cure stand on the page until they are seen."""
    driver = start(put_book(tmp_path))
    driver.shell.do(TakeDelivery(material_id="sand", volume_pl=10**16, ticket=""), lambda _: None)
    driver.settle()
    shown = driver.banner
    assert "ticket" in shown
    assert driver.shell.open_flags == 1
    driver.ui.wait(0.3)
    assert driver.banner == shown
    driver.tap("Seen")

    assert driver.banner == ""


def test_flag_goes_with_what_raised_it_and_where_all_flags_stand(
    start: Start, tmp_path: Path
) -> None:
    """An undo takes its flag off the page; the Flags page has it once, not twice."""
    driver = start(put_book(tmp_path))
    for leave in (lambda: driver.tap("Undo"), lambda: driver.shell.go("flags")):
        driver.shell.do(
            TakeDelivery(material_id="sand", volume_pl=10**16, ticket=""), lambda _: None
        )
        driver.settle()
        assert "no ticket number" in driver.banner
        leave()
        driver.settle()
        assert driver.banner == ""


def test_flag_that_is_cured_leaves_the_page(start: Start, tmp_path: Path) -> None:
    """Sand placed before any came in is told; once its load is logged, the page says no more."""
    driver = start(put_book(tmp_path))
    driver.shell.do(
        LogPass(surface_id="G7", line_ids=("S01",), length_nm=10**10, length_typed="10 m"),
        lambda _: None,
    )
    driver.settle()
    driver.shell.do(
        PlaceSand(
            surface_id="G7", pass_id="G7-01", material_id="sand", volume_pl=10**14, moisture="dry"
        ),
        lambda _: None,
    )
    driver.settle()
    assert "delivered" in driver.banner
    driver.shell.do(TakeDelivery(material_id="sand", volume_pl=10**15, ticket="T1"), lambda _: None)
    driver.settle()

    assert driver.banner == ""


def test_second_window_reads_only_and_says_so(start: Start, tmp_path: Path) -> None:
    """A book open elsewhere: a strip that stays, a refusal in a sentence, and nothing lost."""
    path = put_book(tmp_path)
    with Book.open(path, stream="another") as other:
        before = other.count()
        driver = start(path)
        assert "another window" in driver.banner
        driver.tap("Seen")
        driver.page.keep_draft(note="wet corner")
        note(driver)

        assert "Nothing was written" in driver.banner
        assert driver.shell.notice.parent is driver.shell
        assert other.count() == before
        assert driver.page.draft["note"] == "wet corner"


def test_strip_of_a_read_only_book_goes_with_it(start: Start, tmp_path: Path) -> None:
    """The next book, which may be written, has no such strip."""
    path = put_book(tmp_path)
    with Book.open(path, stream="another"):
        driver = start(path)
        driver.shell.open_book(put_book(tmp_path, "other"))
        driver.settle()

        assert driver.shell.notice.parent is None
        assert driver.banner == ""


def test_book_that_cannot_be_opened_leaves_the_open_one(start: Start, tmp_path: Path) -> None:
    """The Jobs page shows why, and what was open still is."""
    driver = start(put_book(tmp_path))
    (tmp_path / "no.book").write_text("no book at all", encoding="utf-8")
    driver.shell.open_book(tmp_path / "no.book")
    driver.settle()

    assert driver.shell.front == "jobs"
    assert "Cannot open" in driver.banner
    assert driver.worker.job().book.path == tmp_path / "small.book"


def test_book_that_is_gone_leads_to_jobs(start: Start, tmp_path: Path) -> None:
    """The last book was taken away: the app says so instead of making an empty one."""
    driver = start(tmp_path / "gone.book")

    assert driver.shell.front == "jobs"
    assert "gone.book" in driver.banner
    assert not (tmp_path / "gone.book").exists()


def test_back_key_leads_to_today(start: Start, tmp_path: Path) -> None:
    """Android's back key, and Escape, never close the app."""
    from kivy.core.window import Window

    driver = start(put_book(tmp_path))
    driver.shell.go("settings")

    assert Window.dispatch("on_keyboard", 27, 0, None, [])
    assert driver.shell.front == "today"


def test_full_disk_is_told_and_stops_nothing(
    start: Start, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A draft that can't be kept is told once; the page goes on."""
    driver = start(put_book(tmp_path))

    def refuse(_: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("os.fsync", refuse)
    driver.page.keep_draft(typed="8")
    driver.settle()
    assert "No space left" in driver.banner
    driver.tap("Seen")
    driver.page.keep_draft(typed="8-1/2")

    assert driver.banner == ""
    assert driver.page.draft["typed"] == "8-1/2"


def test_failure_goes_when_it_is_done_after_all(start: Start, tmp_path: Path) -> None:
    """The sentence of a failure must not stand over an entry that was inked since."""
    driver = start(put_book(tmp_path))
    note(driver, "")
    assert driver.banner.startswith("Not done")
    note(driver)

    assert driver.banner == ""


def test_draft_survives_a_kill(start: Start, tmp_path: Path) -> None:
    """What was half-typed is there at the next start; nothing had to be saved."""
    path = put_book(tmp_path)
    driver = start(path)
    driver.page.keep_draft(typed="8-1")
    again = start(path)

    assert again.page.draft == {"typed": "8-1"}


def test_face_from_another_thread_is_refused(start: Start, tmp_path: Path) -> None:
    """A worker can't put a view on a page: it must hand it over."""
    driver, met = start(put_book(tmp_path)), list[str]()

    def meddle() -> None:
        try:
            driver.page._take(object())
        except RuntimeError as fault:
            met.append(str(fault))

    thread = threading.Thread(target=meddle, name="meddler")
    thread.start()
    thread.join()

    assert "'meddler' tried" in met[0]


def test_unexpected_fault_is_a_sentence(start: Start, tmp_path: Path) -> None:
    """A fault in the program is told; what was inked before it stands."""
    driver = start(put_book(tmp_path))

    def fail() -> Any:
        raise ZeroDivisionError("division by zero")

    driver.worker.run(fail, lambda _: None, driver.shell.say_failed)
    driver.settle()

    assert "ZeroDivisionError" in driver.banner
    assert "what you typed is kept" in driver.banner


def test_left_hand_moves_the_tabs(start: Start, tmp_path: Path) -> None:
    """With the left hand on the tabs' side they stand at the right edge."""
    Tablet(tmp_path / "home").keep_settings(Settings(left_handed=True))
    driver = start(put_book(tmp_path))

    assert driver.shell.tabs.center_x > driver.shell.center_x
    assert driver.page.right <= driver.shell.tabs.x + 1


def test_entry_of_the_day_follows_the_jobs_zone(start: Start, tmp_path: Path) -> None:
    """Eleven in the evening in Chicago is the next day in London; the entry stays on its day."""
    driver = start(put_book(tmp_path))
    driver.clock.set_to(DAY, 23 * 60)
    note(driver)

    assert standing(driver, "note")[0].day == DAY


def test_page_without_a_tab_keeps_today_in_reach(ui: UI, start: Start, tmp_path: Path) -> None:
    """On the smallest tablet the tabs have two pages; from Settings, Today is one tap away."""
    from tests.kivy_env import PROFILES

    ui.hold(PROFILES["8in"])
    driver = start(put_book(tmp_path))
    driver.shell.go("flags")
    driver.settle()
    driver.shell.go("settings")
    driver.settle()
    driver.tap("Today")

    assert driver.shell.front == "today"
