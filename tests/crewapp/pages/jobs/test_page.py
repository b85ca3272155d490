"""Jobs: the books of the tablet, new ones, plan files, the demo, a broken book."""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from models.entries.kind_names import SURFACE
from tests.crewapp.conftest import plan_text
from tests.crewapp.pages.frame_driver import AppDriver, put_book

if TYPE_CHECKING:
    from tests.uidriver import UI

FT_NM = 304_800_000


@pytest.fixture
def driver(ui: UI, tmp_path: Path) -> Iterator[AppDriver]:
    """The app on a tablet without a job: the library is in front."""
    opened = AppDriver(ui, tmp_path / "home").start()
    yield opened
    opened.close()


def books(driver: AppDriver) -> list[str]:
    """Return the files on the library."""
    return sorted(path.name for path in driver.app.tablet.books.glob("*.book"))


def put_plan(driver: AppDriver, text: str) -> None:
    """Copy a plan file into the inbox, and look at the plan files."""
    inbox = driver.app.tablet.folder / "inbox"
    inbox.mkdir(exist_ok=True)
    (inbox / "plan.json").write_text(text, encoding="utf-8")
    driver.page.refresh()
    driver.settle()
    driver.tap("Plan file")


def type_name(driver: AppDriver, name: str) -> None:
    """Open the form and type the job's name."""
    driver.tap("New job")
    driver.ui.tap(driver.page.part.areas["name"])
    driver.ui.type(name)
    driver.settle()


def test_tablet_without_a_job_begins_at_the_shelf(driver: AppDriver) -> None:
    """There is nothing on it, and three ways to a job."""
    assert driver.shell.front == "jobs"
    assert driver.page.head.place == "0 on this tablet"


def test_today_without_a_job_leads_to_one(driver: AppDriver) -> None:
    """A look at Today before there is a job is no mistake: nothing is said to have failed."""
    driver.shell.go("today")
    driver.settle()

    assert driver.banner == ""
    assert (driver.page.head.title, driver.page.head.place) == ("No job open", "")
    driver.tap("Open or start a job")
    assert driver.shell.front == "jobs"


def test_slits_of_a_size_are_told_in_the_jobs_units(driver: AppDriver) -> None:
    """Who measures in metres is not offered inches."""
    driver.tap("New job")
    driver.tap("metres")
    driver.tap("Next: its first surface")
    metric = driver.page.part.note.text
    driver.page.keep_new(unit_system="us")
    driver.page.fill()

    assert metric.startswith("Slits 400 mm apart, 25 mm by 230 mm")
    assert driver.page.part.note.text.startswith("Slits 16 in apart")


def test_job_is_started_with_its_first_surface(driver: AppDriver) -> None:
    """A name, two sides on the pad, a tap: the book is open and its lines are planned."""
    type_name(driver, "North lawn")
    driver.tap("Next: its first surface")
    driver.tap("Length ...")
    driver.key("300")
    driver.tap("Width ...")
    driver.key("80")
    driver.tap("Start the job")
    job = driver.worker.job()
    surface = job.state.latest(SURFACE, "A")

    assert driver.shell.front == "today"
    assert books(driver) == ["north-lawn.book"]
    assert job.name == "North lawn"
    assert {line.length_nm for line in surface.lines if line.use == "sand_slit"} == {300 * FT_NM}  # type: ignore[union-attr]
    assert driver.page.next.text == "Say who writes"


def test_job_is_in_the_tablets_zone(driver: AppDriver, monkeypatch: pytest.MonkeyPatch) -> None:
    """A job started on the tablet has its days where the tablet is."""
    monkeypatch.setenv("TZ", "America/Denver")
    type_name(driver, "High lawn")
    driver.tap("Next: its first surface")
    driver.tap("Start the job")

    assert driver.worker.job().state.job.zone == "America/Denver"  # type: ignore[union-attr]


def test_job_without_a_name_is_refused_in_a_sentence(driver: AppDriver) -> None:
    """Nothing is made, and what was chosen stands."""
    driver.tap("New job")
    driver.tap("metres")
    driver.tap("Next: its first surface")
    driver.tap("Start the job")

    assert "its name is missing" in driver.banner
    assert books(driver) == []
    assert driver.page.new_job().unit_system == "metric"


def test_units_changed_ask_for_the_sides_anew(driver: AppDriver) -> None:
    """300 feet don't become 300 metres."""
    driver.tap("New job")
    driver.page.keep_new(along="300 ft", across="80 ft")
    driver.tap("metres")

    assert (driver.page.new_job().along, driver.page.new_job().across) == ("", "")


def test_half_typed_form_survives_a_kill(driver: AppDriver, ui: UI, tmp_path: Path) -> None:
    """Name, part and digits on the pad are there at the next start."""
    type_name(driver, "North lawn")
    driver.tap("Next: its first surface")
    driver.tap("Length ...")
    driver.ui.tap(driver.page.sheet.pad.touches["3"])
    driver.close()
    again = AppDriver(ui, tmp_path / "home").start()

    assert again.page.sheet.pad.keypad.typed == "3"
    assert again.page.new_job().name == "North lawn"
    again.close()


def test_plan_file_makes_a_job(driver: AppDriver) -> None:
    """A file in the inbox, one tap: the job is open with its surface and collector."""
    put_plan(driver, plan_text())
    driver.tap("plan.json")

    assert driver.worker.job().name == "Hollow green"
    assert driver.shell.front == "today"
    assert books(driver) == ["hollow-green.book"]


def test_bad_plan_file_tells_everything_wrong_and_makes_nothing(driver: AppDriver) -> None:
    """Each fault is told with its place; the library stays as it was."""
    told = json.loads(plan_text())
    told["benchmark"][0]["elevation"] = "tall"
    told["surface"][0]["rectangle"]["along"] = "-3"
    put_plan(driver, json.dumps(told))
    driver.tap("plan.json")

    assert "tall" in driver.banner
    assert "along" in driver.banner
    assert books(driver) == []


def test_empty_inbox_says_where_to_put_a_plan(
    driver: AppDriver, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    """The folder is named; a file put there is found by a look."""
    monkeypatch.setenv("HOME", str(tmp_path))
    driver.tap("Plan file")
    assert "~/home/inbox" in " ".join(driver.words())
    (tmp_path / "home" / "inbox" / "plan.json").write_text(plan_text(), encoding="utf-8")
    driver.tap("Look again")

    assert "plan.json" in driver.words()


def test_demo_is_made_and_opened(driver: AppDriver) -> None:
    """One tap works the three invented days; a second opens the same book."""
    driver.tap("Demo")
    assert driver.worker.job().state.days.keys() >= {"2026-05-11", "2026-05-12", "2026-05-13"}
    count = driver.worker.job().book.count()
    driver.shell.go("jobs")
    driver.settle()
    driver.tap("Demo")

    assert driver.worker.job().book.count() == count
    assert books(driver) == ["larkfield-demo.book"]
    assert driver.banner == ""


def test_book_is_opened_by_a_tap(driver: AppDriver) -> None:
    """Every book stands there by its job's name; the one opened is the last at the next start."""
    path = put_book(driver.app.tablet.books)
    driver.page.refresh()
    driver.settle()
    driver.tap("Hollow green")

    assert driver.shell.front == "today"
    assert driver.app.tablet.settings().last_book == str(path)


@pytest.mark.parametrize("at_percent", [2, 60])
def test_broken_book_gives_a_copy_of_what_still_holds(driver: AppDriver, at_percent: int) -> None:
    """Broken at its head or in its middle: told, copied by a tap, and not changed."""
    path = put_book(driver.app.tablet.books)
    data = bytearray(path.read_bytes())
    at = len(data) * at_percent // 100
    data[at : at + 3000] = b"\xff" * min(3000, len(data) - at)
    path.write_bytes(data)
    driver.shell.open_book(path)
    driver.settle()
    assert "damaged" in driver.banner
    driver.tap("Seen")
    row = next(book for book in driver.page.view.books if book.path == str(path))
    assert row.can_salvage
    driver.page.pick_book(str(path))
    driver.settle()

    assert path.read_bytes() == data
    assert books(driver) == ["small-salvaged.book", "small.book"]
    assert driver.worker.job().book.path.name == "small-salvaged.book"
