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
from tests.crewapp.pages.frame_hand import AppHand, put_book

if TYPE_CHECKING:
    from tests.uidriver import UI

Start = Callable[..., AppHand]


@pytest.fixture
def start(ui: UI, tmp_path: Path) -> Iterator[Start]:
    """Start the app on a tablet's folder, as often as a test wants."""
    open_now: list[AppHand] = []

    def begin(book: Path | None = None) -> AppHand:
        for hand in open_now:
            hand.close()
        open_now[:] = [AppHand(ui, tmp_path / "home", book).start()]
        return open_now[0]

    yield begin
    for hand in open_now:
        hand.close()


def note(hand: AppHand, text: str = "wet corner") -> None:
    """Ink a note, as a page would."""
    hand.page.do(LogNote(text=text))
    hand.settle()


def standing(hand: AppHand, kind: str) -> list[AnyEntry]:
    """Return what stands of a kind in the open book."""
    state = hand.desk.job().state
    return [e for e in state.entries.values() if e.kind == kind and not state.is_struck(e.id)]


def test_undo_takes_back_the_last_tap(start: Start, tmp_path: Path) -> None:
    """The strip says what was inked; one tap strikes it, and the strip goes."""
    hand = start(put_book(tmp_path))
    note(hand)
    assert "wet corner" in hand.shell.strip.text
    hand.tap("Undo")

    assert standing(hand, "note") == []
    assert hand.shell.strip.parent is None


def test_strip_stays_until_the_next_entry(start: Start, tmp_path: Path) -> None:
    """No timer, and no change of page, takes the way back; only the next entry does."""
    hand = start(put_book(tmp_path))
    note(hand)
    hand.shell.go("jobs")
    hand.ui.wait(0.5)
    assert "wet corner" in hand.shell.strip.text
    note(hand, "dry again")
    hand.tap("Undo")

    assert [entry.body.text for entry in standing(hand, "note")] == ["wet corner"]  # type: ignore[union-attr]


def test_flag_raised_is_shown_at_once(start: Start, tmp_path: Path) -> None:
    """A delivery without a ticket: the fault and its cure stand on the page until they are seen."""
    hand = start(put_book(tmp_path))
    hand.shell.do(TakeDelivery(material_id="sand", volume_pl=10**16, ticket=""), lambda _: None)
    hand.settle()
    shown = hand.banner
    assert "ticket" in shown
    assert hand.shell.open_flags == 1
    hand.ui.wait(0.3)
    assert hand.banner == shown
    hand.tap("Seen")

    assert hand.banner == ""


def test_flag_goes_with_what_raised_it_and_where_all_flags_stand(
    start: Start, tmp_path: Path
) -> None:
    """An undo takes its flag off the page; the Flags page has it once, not twice."""
    hand = start(put_book(tmp_path))
    for leave in (lambda: hand.tap("Undo"), lambda: hand.shell.go("flags")):
        hand.shell.do(TakeDelivery(material_id="sand", volume_pl=10**16, ticket=""), lambda _: None)
        hand.settle()
        assert "no ticket number" in hand.banner
        leave()
        hand.settle()
        assert hand.banner == ""


def test_flag_that_is_cured_leaves_the_page(start: Start, tmp_path: Path) -> None:
    """Sand placed before any came in is told; once its load is logged, the page says no more."""
    hand = start(put_book(tmp_path))
    hand.shell.do(
        LogPass(surface_id="G7", line_ids=("S01",), length_nm=10**10, length_typed="10 m"),
        lambda _: None,
    )
    hand.settle()
    hand.shell.do(
        PlaceSand(
            surface_id="G7", pass_id="G7-01", material_id="sand", volume_pl=10**14, moisture="dry"
        ),
        lambda _: None,
    )
    hand.settle()
    assert "delivered" in hand.banner
    hand.shell.do(TakeDelivery(material_id="sand", volume_pl=10**15, ticket="T1"), lambda _: None)
    hand.settle()

    assert hand.banner == ""


def test_second_window_reads_only_and_says_so(start: Start, tmp_path: Path) -> None:
    """A book open elsewhere: a strip that stays, a refusal in a sentence, and nothing lost."""
    path = put_book(tmp_path)
    with Book.open(path, stream="another") as other:
        before = other.count()
        hand = start(path)
        assert "another window" in hand.banner
        hand.tap("Seen")
        hand.page.keep_draft(note="wet corner")
        note(hand)

        assert "Nothing was written" in hand.banner
        assert hand.shell.notice.parent is hand.shell
        assert other.count() == before
        assert hand.page.draft["note"] == "wet corner"


def test_strip_of_a_read_only_book_goes_with_it(start: Start, tmp_path: Path) -> None:
    """The next book, which may be written, has no such strip."""
    path = put_book(tmp_path)
    with Book.open(path, stream="another"):
        hand = start(path)
        hand.shell.open_book(put_book(tmp_path, "other"))
        hand.settle()

        assert hand.shell.notice.parent is None
        assert hand.banner == ""


def test_book_that_cannot_be_opened_leaves_the_open_one(start: Start, tmp_path: Path) -> None:
    """The Jobs page shows why, and what was open still is."""
    hand = start(put_book(tmp_path))
    (tmp_path / "no.book").write_text("no book at all", encoding="utf-8")
    hand.shell.open_book(tmp_path / "no.book")
    hand.settle()

    assert hand.shell.front == "jobs"
    assert "Cannot open" in hand.banner
    assert hand.desk.job().book.path == tmp_path / "small.book"


def test_book_that_is_gone_leads_to_jobs(start: Start, tmp_path: Path) -> None:
    """The last book was taken away: the app says so instead of making an empty one."""
    hand = start(tmp_path / "gone.book")

    assert hand.shell.front == "jobs"
    assert "gone.book" in hand.banner
    assert not (tmp_path / "gone.book").exists()


def test_back_key_leads_to_today(start: Start, tmp_path: Path) -> None:
    """Android's back key, and Escape, never close the app."""
    from kivy.core.window import Window

    hand = start(put_book(tmp_path))
    hand.shell.go("settings")

    assert Window.dispatch("on_keyboard", 27, 0, None, [])
    assert hand.shell.front == "today"


def test_full_disk_is_told_and_stops_nothing(
    start: Start, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A draft that can't be kept is told once; the page goes on."""
    hand = start(put_book(tmp_path))

    def refuse(_: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("os.fsync", refuse)
    hand.page.keep_draft(typed="8")
    hand.settle()
    assert "No space left" in hand.banner
    hand.tap("Seen")
    hand.page.keep_draft(typed="8-1/2")

    assert hand.banner == ""
    assert hand.page.draft["typed"] == "8-1/2"


def test_failure_goes_when_it_is_done_after_all(start: Start, tmp_path: Path) -> None:
    """The sentence of a failure must not stand over an entry that was inked since."""
    hand = start(put_book(tmp_path))
    note(hand, "")
    assert hand.banner.startswith("Not done")
    note(hand)

    assert hand.banner == ""


def test_draft_survives_a_kill(start: Start, tmp_path: Path) -> None:
    """What was half-typed is there at the next start; nothing had to be saved."""
    path = put_book(tmp_path)
    hand = start(path)
    hand.page.keep_draft(typed="8-1")
    again = start(path)

    assert again.page.draft == {"typed": "8-1"}


def test_face_from_another_thread_is_refused(start: Start, tmp_path: Path) -> None:
    """A worker can't put a face on a page: it must hand it over."""
    hand, met = start(put_book(tmp_path)), list[str]()

    def meddle() -> None:
        try:
            hand.page._take(object())
        except RuntimeError as fault:
            met.append(str(fault))

    thread = threading.Thread(target=meddle, name="meddler")
    thread.start()
    thread.join()

    assert "'meddler' tried" in met[0]


def test_unexpected_fault_is_a_sentence(start: Start, tmp_path: Path) -> None:
    """A fault in the program is told; what was inked before it stands."""
    hand = start(put_book(tmp_path))

    def fail() -> Any:
        raise ZeroDivisionError("division by zero")

    hand.desk.run(fail, lambda _: None, hand.shell.say_failed)
    hand.settle()

    assert "ZeroDivisionError" in hand.banner
    assert "what you typed is kept" in hand.banner


def test_left_hand_moves_the_tabs(start: Start, tmp_path: Path) -> None:
    """With the left hand on the tabs' side they stand at the right edge."""
    Tablet(tmp_path / "home").keep_settings(Settings(left_handed=True))
    hand = start(put_book(tmp_path))

    assert hand.shell.tabs.center_x > hand.shell.center_x
    assert hand.page.right <= hand.shell.tabs.x + 1


def test_entry_of_the_day_follows_the_jobs_zone(start: Start, tmp_path: Path) -> None:
    """Eleven in the evening in Chicago is the next day in London; the entry stays on its day."""
    hand = start(put_book(tmp_path))
    hand.clock.put(DAY, 23 * 60)
    note(hand)

    assert standing(hand, "note")[0].day == DAY


def test_page_without_a_tab_keeps_today_in_reach(ui: UI, start: Start, tmp_path: Path) -> None:
    """On the smallest tablet the tabs have two pages; from Settings, Today is one tap away."""
    from tests.kivy_env import PROFILES

    ui.hold(PROFILES["8in"])
    hand = start(put_book(tmp_path))
    hand.shell.go("flags")
    hand.settle()
    hand.shell.go("settings")
    hand.settle()
    hand.tap("Today")

    assert hand.shell.front == "today"
