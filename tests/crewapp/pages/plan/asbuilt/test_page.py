"""The As-built page under real touches: profile, quantities, the package with its progress."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from crewapp.commands.passes import LogPass
from tests.crewapp.pages.frame_driver import put_book
from tests.crewapp.pages.plan_driver import PlanDriver

if TYPE_CHECKING:
    from tests.uidriver import UI

FT_NM = 304_800_000


@pytest.fixture
def driver(ui: UI, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[PlanDriver]:
    """The As-built page of the small job."""
    monkeypatch.setenv("HOME", str(tmp_path))
    monkeypatch.setenv("KIVY_CLIPBOARD", "sdl2")
    home = tmp_path / "home"
    opened = PlanDriver(ui, home, put_book(home / "books"), "built")
    yield opened
    opened.close()


def test_placed_stands_against_planned(driver: PlanDriver) -> None:
    """What was cut, what was planned, and by how much they differ."""
    driver.do(LogPass(surface_id="G7", line_ids=("S01",), length_nm=30 * FT_NM, length_typed="30"))
    driver.shell._drop_banner()
    driver.tap("Placed")
    row = next(one for one in driver.page.view.built.quantities if one.title == "Sand slits")

    assert (row.figure, row.detail) == ("30 ft", "planned 180 ft, 150 ft less than planned")


def test_profile_is_drawn_in_two_strips(driver: PlanDriver) -> None:
    """The same drawing as on paper, for the collector of the job."""
    driver.tap("Profile")
    chart = driver.page.part.strips.layout

    assert chart is not None
    words = [getattr(item, "text", "") for item in chart(150.0, 80.0).items]
    assert any(text.startswith("Profile") for text in words)
    assert "C1  Low side" in driver.text()


def test_package_is_written_and_says_where(driver: PlanDriver) -> None:
    """One tap: the files, how many, their code, and the folder to copy."""
    told: list[str] = []
    driver.tap("Package")
    driver.page.part.path.bind(said=lambda _, text: told.append(text))
    driver.tap("Package out")
    for _ in range(6):
        driver.settle()
    folder = driver.page.part.maker.folder

    assert (folder / "asbuilt.dxf").exists()
    assert any(text.startswith("Written 1 of ") for text in told)
    assert told[-1].endswith(f"files in {folder}")
    assert driver.page.part.copy.copied == str(folder)
    driver.tap("Copy")
    assert driver.page.part.copy.note == "copied"


def test_package_can_be_stopped(driver: PlanDriver) -> None:
    """Between two files: a sentence, and the key makes it anew."""
    driver.tap("Package")
    maker = driver.page.part.maker
    tell = maker._tell

    def tell_and_stop(name: str, place: int, count: int) -> None:
        tell(name, place, count)
        maker.stop()

    maker._tell = tell_and_stop
    driver.tap("Package out")
    for _ in range(4):
        driver.settle()

    assert "was stopped after 2 files" in driver.banner
    assert not maker.is_busy
    assert maker.made is None
    assert driver.bearers("Package out")


def test_collector_on_the_plan_tells_of_itself(driver: PlanDriver) -> None:
    """Its design, its shots, its pipe; the plan's keys lead on to the Plan page."""
    driver.page.pick_line("collector:C1")
    driver.settle()
    figures = {row.title: row.figure for row in driver.page.view.life}

    assert (figures["Design"], figures["Inverts shot"]) == ("1.00 %", "0")
    driver.tap("Plan")
    assert driver.shell.front == "plan"
