"""The frame's pages keep to the rules of hand and eye on every tablet, held either way."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from crewapp.kit.look.palette import Status
from crewapp.tablet.settings import Settings, Tablet
from crewapp.words.translate import say
from tests.crewapp.pages.frame_driver import AppDriver, put_book
from tests.crewapp.pages.look_round import HOLDS
from tests.kivy_env import profile_named
from tests.tree_walk import faults

if TYPE_CHECKING:
    from tests.uidriver import UI


def today(driver: AppDriver) -> None:
    """Today, with the book open."""


def jobs(driver: AppDriver) -> None:
    """The shelf."""
    driver.tap_on(driver.page.keys["jobs"])
    driver.page.turn_to(next(iter(driver.page.parts)))
    driver.settle()


def new_job(driver: AppDriver) -> None:
    """The form of a new job."""
    jobs(driver)
    driver.page.turn_to("new")
    driver.settle()


def ground(driver: AppDriver) -> None:
    """The first surface of a new job."""
    jobs(driver)
    driver.page.turn_to("ground")
    driver.settle()


def plans(driver: AppDriver) -> None:
    """Plan files, none there."""
    jobs(driver)
    driver.page.turn_to("plans")
    driver.settle()


def settings(driver: AppDriver) -> None:
    """The settings."""
    jobs(driver)
    driver.tap(say("Settings"))


def gauge(driver: AppDriver) -> None:
    """The bank card's outline."""
    settings(driver)
    driver.tap_on(driver.page.size_key)


def undo(driver: AppDriver) -> None:
    """Today with the undo strip and a flag."""
    driver.shell.strip.text = "Inked 14:05: depth 8-1/2 in at 12.5 ft on line S13"
    driver.shell._set_shown(driver.shell.strip, True)
    text = "Depth 8 in on line S13 at 12 ft; at least 8-1/2 in is wanted."
    driver.shell.show_finding("The slit is too shallow", text, Status.OUT)
    driver.settle()


def read_only(driver: AppDriver) -> None:
    """Today while another window has the book."""
    driver.shell._set_shown(driver.shell.strip, False)
    driver.shell._drop_banner()
    driver.shell._set_shown(driver.shell.notice, True)
    driver.settle()


def rain(driver: AppDriver) -> None:
    """The rain lock."""
    driver.tap_on(driver.page.keys["rain"])


PLACES = [today, jobs, new_job, ground, plans, settings, gauge, undo, read_only, rain]
"""In this order in one app; the lock comes last, since nothing is reached behind it."""


@pytest.fixture(params=HOLDS, ids=lambda hold: "-".join(str(part) for part in hold))
def driver(
    ui: UI, tmp_path: Path, request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch
) -> Iterator[AppDriver]:
    """The app on a tablet held one way, in one language."""
    from crewapp.words.translate import set_language

    monkeypatch.setenv("HOME", str(tmp_path))
    name, is_turned, language = request.param
    ui.hold(profile_named(name, is_turned))
    home = tmp_path / "home"
    Tablet(home).keep_settings(Settings(author="Wren", language=language))
    opened = AppDriver(ui, home, put_book(home / "books")).start()
    yield opened
    opened.close()
    set_language("en")


def test_pages_fit_the_hand(driver: AppDriver) -> None:
    """Nothing is too small, too near, cut off or off the glass, on any of these pages."""
    found = list[str]()
    for go in PLACES:
        driver.shell.go("today")
        driver.settle()
        go(driver)
        found += [f"{go.__name__}: {fault}" for fault in faults(driver.shell.rain or driver.shell)]

    assert found == []
