"""Today: the one next thing, what stands, and where each leads."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest

from crewapp.tablet.settings import Settings, Tablet
from crewapp.words.dates import without_year
from tests.crewapp.pages.frame_driver import AppDriver, put_book

if TYPE_CHECKING:
    from tests.uidriver import UI


@pytest.fixture
def driver(ui: UI, tmp_path: Path) -> Iterator[AppDriver]:
    """The app with the small job open, and a name for what is written."""
    Tablet(tmp_path / "home").keep_settings(Settings(author="Ana"))
    opened = AppDriver(ui, tmp_path / "home", put_book(tmp_path)).start()
    yield opened
    opened.close()


@pytest.fixture
def gone_to(driver: AppDriver, monkeypatch: pytest.MonkeyPatch) -> list[tuple[str, dict[str, Any]]]:
    """Where the page led, instead of going there."""
    places: list[tuple[str, dict[str, Any]]] = []
    monkeypatch.setattr(driver.shell, "go", lambda name, **asked: places.append((name, asked)))
    return places


def test_next_thing_is_the_largest_target(driver: AppDriver) -> None:
    """It is black, at least 22 mm high, and larger than all else that can be touched."""
    from crewapp.kit.look.theme import to_mm
    from tests.tree_walk import touchables

    areas = {w: w.width * w.height for w in touchables(driver.page)}

    assert max(areas, key=lambda w: areas[w]) is driver.page.next
    assert to_mm(driver.page.next.height) >= 22
    assert driver.page.next.text == "Cut the next pass"
    assert (
        driver.page.next.note
        == f"Green seven: lines S01, S04; ticket to {without_year('2026-06-30')}"
    )


def test_next_thing_leads_to_its_page(
    driver: AppDriver, gone_to: list[tuple[str, dict[str, Any]]]
) -> None:
    """A cut leads to the Pass page."""
    driver.tap_on(driver.page.next)

    assert gone_to == [("pass", {})]


@pytest.mark.parametrize(
    ("tile", "place"),
    [
        ("Flags", ("flags", {})),
        ("Locate", ("day", {"part": "tickets"})),
        ("Laser", ("grade", {})),
        ("Sand", ("loads", {})),
    ],
)
def test_tile_leads_to_its_page(
    driver: AppDriver, gone_to: list[tuple[str, dict[str, Any]]], tile: str, place: Any
) -> None:
    """What stands there is put right there."""
    found = [w for w in driver.page.standing.keys if w.name == tile]
    driver.tap_on(found[0])

    assert gone_to == [place]


@pytest.mark.parametrize(
    ("row", "place"),
    [
        ("Green seven", ("pass", {"surface_id": "G7"})),
        ("Low side", ("grade", {"collector_id": "C1"})),
    ],
)
def test_ground_leads_to_its_own_page(
    driver: AppDriver,
    gone_to: list[tuple[str, dict[str, Any]]],
    row: str,
    place: tuple[str, dict[str, str]],
) -> None:
    """A surface leads to its passes, a collector to its grade."""
    driver.tap(row)

    assert gone_to == [place]


def test_who_writes_is_asked_first(ui: UI, tmp_path: Path) -> None:
    """A tablet without a name would write entries by nobody: the largest key leads to Settings."""
    driver = AppDriver(ui, tmp_path / "home", put_book(tmp_path)).start()
    assert driver.page.next.text == "Say who writes"
    driver.tap_on(driver.page.next)

    assert driver.shell.front == "settings"
    driver.close()


def test_jobs_and_settings_are_near(driver: AppDriver) -> None:
    """One tap and two away, and Today one tap back."""
    driver.tap("Jobs")
    assert driver.shell.front == "jobs"
    driver.tap("Settings")
    assert driver.shell.front == "settings"
    driver.tap("Today")

    assert driver.shell.front == "today"


def test_day_is_said_with_its_weekday(driver: AppDriver) -> None:
    """2026-05-11 is a Monday."""
    assert driver.page.head.place == "Mon May 11"


def test_first_frame_shows_what_was_known_last(driver: AppDriver, ui: UI, tmp_path: Path) -> None:
    """Before the book is open the page shows the last look at it, and says that it is opening."""
    driver.close()
    again = AppDriver(ui, tmp_path / "home")

    assert again.page.head.title == "Hollow green"
    assert again.page.head.place == "opening the book ..."
    assert again.page.next.text == "Cut the next pass"
    again.start()
    assert again.page.head.place == "Mon May 11"
    again.close()


def test_first_frame_shows_no_other_job(driver: AppDriver, ui: UI, tmp_path: Path) -> None:
    """What was last known of one book is never shown for another."""
    driver.close()
    again = AppDriver(ui, tmp_path / "home", put_book(tmp_path, "other"))

    assert again.page.head.title == "No job open"
    again.close()


@pytest.mark.parametrize(
    "rubbish", ["", "{", "[]", '{"face": 3}', '{"book": "x", "face": {"a": 1}}']
)
def test_rubbish_in_the_last_look_does_no_harm(ui: UI, tmp_path: Path, rubbish: str) -> None:
    """An unreadable last view is no fault, since it is a cache and no record."""
    (tmp_path / "home").mkdir()
    (tmp_path / "home" / "today.json").write_text(rubbish, encoding="utf-8")
    driver = AppDriver(ui, tmp_path / "home")

    assert driver.page.head.title == "No job open"
    driver.close()
