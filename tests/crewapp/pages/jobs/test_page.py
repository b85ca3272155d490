"""Jobs: the books of the tablet, new ones, plan files, the demo, a broken book."""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from models.entries.kind_names import SURFACE
from tests.crewapp.conftest import plan_text
from tests.crewapp.pages.frame_hand import AppHand, put_book

if TYPE_CHECKING:
    from tests.uidriver import UI

FT_NM = 304_800_000


@pytest.fixture
def hand(ui: UI, tmp_path: Path) -> Iterator[AppHand]:
    """The app on a tablet without a job: the shelf is in front."""
    opened = AppHand(ui, tmp_path / "home").start()
    yield opened
    opened.close()


def books(hand: AppHand) -> list[str]:
    """Return the files on the shelf."""
    return sorted(path.name for path in hand.app.tablet.books.glob("*.book"))


def put_plan(hand: AppHand, text: str) -> None:
    """Copy a plan file into the inbox, and look at the plan files."""
    inbox = hand.app.tablet.folder / "inbox"
    inbox.mkdir(exist_ok=True)
    (inbox / "plan.json").write_text(text, encoding="utf-8")
    hand.page.refresh()
    hand.settle()
    hand.tap("Plan file")


def type_name(hand: AppHand, name: str) -> None:
    """Open the form and type the job's name."""
    hand.tap("New job")
    hand.ui.tap(hand.page.part.areas["name"])
    hand.ui.type(name)
    hand.settle()


def test_tablet_without_a_job_begins_at_the_shelf(hand: AppHand) -> None:
    """There is nothing on it, and three ways to a job."""
    assert hand.shell.front == "jobs"
    assert hand.page.head.place == "0 on this tablet"


def test_today_without_a_job_leads_to_one(hand: AppHand) -> None:
    """A look at Today before there is a job is no mistake: nothing is said to have failed."""
    hand.shell.go("today")
    hand.settle()

    assert hand.banner == ""
    assert (hand.page.head.title, hand.page.head.place) == ("No job open", "")
    hand.tap("Open or start a job")
    assert hand.shell.front == "jobs"


def test_slits_of_a_size_are_told_in_the_jobs_units(hand: AppHand) -> None:
    """Who measures in metres is not offered inches."""
    hand.tap("New job")
    hand.tap("metres")
    hand.tap("Next: its first surface")
    metric = hand.page.part.note.text
    hand.page.keep_new(unit_system="us")
    hand.page.fill()

    assert metric.startswith("Slits 400 mm apart, 25 mm by 230 mm")
    assert hand.page.part.note.text.startswith("Slits 16 in apart")


def test_job_is_started_with_its_first_surface(hand: AppHand) -> None:
    """A name, two sides on the pad, a tap: the book is open and its lines are planned."""
    type_name(hand, "North lawn")
    hand.tap("Next: its first surface")
    hand.tap("Length ...")
    hand.key("300")
    hand.tap("Width ...")
    hand.key("80")
    hand.tap("Start the job")
    job = hand.desk.job()
    surface = job.state.latest(SURFACE, "A")

    assert hand.shell.front == "today"
    assert books(hand) == ["north-lawn.book"]
    assert job.name == "North lawn"
    assert {line.length_nm for line in surface.lines if line.use == "sand_slit"} == {300 * FT_NM}  # type: ignore[union-attr]
    assert hand.page.next.text == "Say who writes"


def test_job_is_in_the_tablets_zone(hand: AppHand, monkeypatch: pytest.MonkeyPatch) -> None:
    """A job started on the tablet has its days where the tablet is."""
    monkeypatch.setenv("TZ", "America/Denver")
    type_name(hand, "High lawn")
    hand.tap("Next: its first surface")
    hand.tap("Start the job")

    assert hand.desk.job().state.job.zone == "America/Denver"  # type: ignore[union-attr]


def test_job_without_a_name_is_refused_in_a_sentence(hand: AppHand) -> None:
    """Nothing is made, and what was chosen stands."""
    hand.tap("New job")
    hand.tap("metres")
    hand.tap("Next: its first surface")
    hand.tap("Start the job")

    assert "its name is missing" in hand.banner
    assert books(hand) == []
    assert hand.page.new_job().unit_system == "metric"


def test_units_changed_ask_for_the_sides_anew(hand: AppHand) -> None:
    """300 feet don't become 300 metres."""
    hand.tap("New job")
    hand.page.keep_new(along="300 ft", across="80 ft")
    hand.tap("metres")

    assert (hand.page.new_job().along, hand.page.new_job().across) == ("", "")


def test_half_typed_form_survives_a_kill(hand: AppHand, ui: UI, tmp_path: Path) -> None:
    """Name, part and digits on the pad are there at the next start."""
    type_name(hand, "North lawn")
    hand.tap("Next: its first surface")
    hand.tap("Length ...")
    hand.ui.tap(hand.page.sheet.pad.touches["3"])
    hand.close()
    again = AppHand(ui, tmp_path / "home").start()

    assert again.page.sheet.pad.keypad.typed == "3"
    assert again.page.new_job().name == "North lawn"
    again.close()


def test_plan_file_makes_a_job(hand: AppHand) -> None:
    """A file in the inbox, one tap: the job is open with its surface and collector."""
    put_plan(hand, plan_text())
    hand.tap("plan.json")

    assert hand.desk.job().name == "Hollow green"
    assert hand.shell.front == "today"
    assert books(hand) == ["hollow-green.book"]


def test_bad_plan_file_tells_everything_wrong_and_makes_nothing(hand: AppHand) -> None:
    """Each fault is told with its place; the shelf stays as it was."""
    told = json.loads(plan_text())
    told["benchmark"][0]["elevation"] = "tall"
    told["surface"][0]["rectangle"]["along"] = "-3"
    put_plan(hand, json.dumps(told))
    hand.tap("plan.json")

    assert "tall" in hand.banner
    assert "along" in hand.banner
    assert books(hand) == []


def test_empty_inbox_says_where_to_put_a_plan(
    hand: AppHand, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    """The folder is named; a file put there is found by a look."""
    monkeypatch.setenv("HOME", str(tmp_path))
    hand.tap("Plan file")
    assert "~/home/inbox" in " ".join(hand.words())
    (tmp_path / "home" / "inbox" / "plan.json").write_text(plan_text(), encoding="utf-8")
    hand.tap("Look again")

    assert "plan.json" in hand.words()


def test_demo_is_made_and_opened(hand: AppHand) -> None:
    """One tap works the three invented days; a second opens the same book."""
    hand.tap("Demo")
    assert hand.desk.job().state.days.keys() >= {"2026-05-11", "2026-05-12", "2026-05-13"}
    count = hand.desk.job().book.count()
    hand.shell.go("jobs")
    hand.settle()
    hand.tap("Demo")

    assert hand.desk.job().book.count() == count
    assert books(hand) == ["larkfield-demo.book"]
    assert hand.banner == ""


def test_book_is_opened_by_a_tap(hand: AppHand) -> None:
    """Every book stands there by its job's name; the one opened is the last at the next start."""
    path = put_book(hand.app.tablet.books)
    hand.page.refresh()
    hand.settle()
    hand.tap("Hollow green")

    assert hand.shell.front == "today"
    assert hand.app.tablet.settings().last_book == str(path)


@pytest.mark.parametrize("at_percent", [2, 60])
def test_broken_book_gives_a_copy_of_what_still_holds(hand: AppHand, at_percent: int) -> None:
    """Broken at its head or in its middle: told, copied by a tap, and not changed."""
    path = put_book(hand.app.tablet.books)
    data = bytearray(path.read_bytes())
    at = len(data) * at_percent // 100
    data[at : at + 3000] = b"\xff" * min(3000, len(data) - at)
    path.write_bytes(data)
    hand.shell.open_book(path)
    hand.settle()
    assert "damaged" in hand.banner
    hand.tap("Seen")
    row = next(book for book in hand.page.told.books if book.path == str(path))
    assert row.can_salvage
    hand.page.book_picked(str(path))
    hand.settle()

    assert path.read_bytes() == data
    assert books(hand) == ["small-salvaged.book", "small.book"]
    assert hand.desk.job().book.path.name == "small-salvaged.book"
