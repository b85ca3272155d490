"""Settings: each is kept, and shows at once."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from crewapp.commands.day import LogNote
from tests.crewapp.pages.frame_driver import AppDriver, put_book

if TYPE_CHECKING:
    from tests.uidriver import UI


@pytest.fixture
def driver(ui: UI, tmp_path: Path) -> Iterator[AppDriver]:
    """The app with its settings in front."""
    from kivy.metrics import Metrics

    from crewapp.words.translate import set_language

    dpi = Metrics.dpi
    opened = AppDriver(ui, tmp_path / "home", put_book(tmp_path)).start()
    opened.shell.go("settings")
    opened.settle()
    yield opened
    opened.close()
    Metrics.dpi = dpi
    set_language("en")


def test_language_rewords_everything(driver: AppDriver) -> None:
    """Page, tabs, strip and banner speak the language tapped, and so does the next start."""
    driver.page.do(LogNote(text="wet"))
    driver.settle()
    driver.shell.say_wait("a moment")
    driver.settle()
    driver.tap("Español")
    words = driver.words()

    assert "Ajustes" in words
    assert "Hoy" in words
    assert "Deshacer" in words
    assert not {"Settings", "Today", "Undo", "Seen"} & set(words)
    assert driver.app.tablet.settings().language == "es"


def test_hand_moves_the_tabs_at_once(driver: AppDriver) -> None:
    """One tap turns the page round, one turns it back."""
    driver.tap("left hand")
    assert driver.shell.tabs.center_x > driver.shell.center_x
    driver.tap("right hand")

    assert driver.shell.tabs.center_x < driver.shell.center_x
    assert not driver.app.tablet.settings().left_handed


def test_name_goes_into_the_next_entry(driver: AppDriver) -> None:
    """The author typed is the author inked; spaces at its ends are not."""
    driver.ui.tap(driver.page.author)
    driver.ui.type("Wren ")
    driver.page.do(LogNote(text="wet"))
    driver.settle()

    entries = driver.worker.job().state.entries.values()
    assert [entry.author for entry in entries if entry.kind == "note"] == ["Wren"]
    assert driver.page.author.text == "Wren "


def test_units_are_those_of_a_new_job(driver: AppDriver) -> None:
    """The units of the settings serve new jobs and change no job that is there."""
    driver.tap("metres")
    before = driver.worker.job().figures
    assert driver.app.tablet.settings().unit_system == "metric"
    driver.shell.go("jobs")
    driver.settle()

    assert driver.page.new_job().unit_system == "metric"
    assert driver.worker.job().figures == before


def test_bank_card_sets_the_millimetre(driver: AppDriver, ui: UI, tmp_path: Path) -> None:
    """Matched at half a millimetre less, every part is drawn that much smaller, and at a start."""
    from kivy.metrics import Metrics

    claimed = Metrics.dpi
    driver.tap("True size of the keys")
    driver.tap("\u2212")
    driver.tap("It matches")
    factor = driver.app.tablet.settings().screen_factor_permille
    assert factor == round(1000 * 85.1 / 85.6)
    assert Metrics.dpi == pytest.approx(claimed * 85.1 / 85.6)
    assert driver.shell.front == "settings"
    assert driver.page.gauge is None
    driver.close()
    Metrics.dpi = claimed
    again = AppDriver(ui, tmp_path / "home").start()

    assert Metrics.dpi == pytest.approx(claimed * factor / 1000)
    again.close()


def test_gauge_can_be_left(driver: AppDriver) -> None:
    """Back leads to the settings; leaving the page in any way does too."""
    driver.tap("True size of the keys")
    driver.tap("Back")
    assert driver.page.fields.parent is driver.page
    driver.tap("True size of the keys")
    driver.tap("Today")
    driver.shell.go("settings")

    assert driver.page.fields.parent is driver.page
    assert driver.app.tablet.settings().screen_factor_permille == 1000


def test_setting_that_cannot_be_kept_is_told(
    driver: AppDriver, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A full disk: the sentence says so, and the choice stays what it was."""

    def refuse(_: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("os.fsync", refuse)
    driver.tap("metres")

    assert "No space left" in driver.banner
    assert driver.page.units.chosen == "us"
