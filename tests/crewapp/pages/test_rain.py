"""The rain lock: a drop does nothing, a hand does anything in two taps."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from crewapp.commands.day import LogNote
from crewapp.kit.input.rain_lock import ARMED_MS, OPPOSITE, RainLock
from tests.crewapp.pages.frame_driver import AppDriver, put_book

if TYPE_CHECKING:
    from tests.uidriver import UI


@pytest.fixture
def driver(ui: UI, tmp_path: Path) -> Iterator[AppDriver]:
    """The app locked, with a note just inked."""
    opened = AppDriver(ui, tmp_path / "home", put_book(tmp_path)).start()
    opened.page.do(LogNote(text="wet corner"))
    opened.settle()
    opened.tap_on(opened.page.keys["rain"])
    yield opened
    opened.close()


def two(driver: AppDriver, name: str) -> None:
    """Tap a key of the lock, then the one across from it."""
    for key in (name, OPPOSITE[name]):
        driver.tap_on(driver.shell.rain.keys[key])


def notes_standing(driver: AppDriver) -> int:
    """Return how many notes stand."""
    state = driver.worker.job().state
    return sum(e.kind == "note" and not state.is_struck(e.id) for e in state.entries.values())


def test_single_taps_do_nothing(driver: AppDriver) -> None:
    """Every key alone, again and again, leaves the lock on and the entry standing."""
    for name in OPPOSITE:
        for _ in range(3):
            driver.tap_on(driver.shell.rain.keys[name])
        driver.tap_on(driver.shell.rain.keys[name])

    assert driver.shell.rain is not None
    assert driver.shell.front == "today"
    assert notes_standing(driver) == 1


def test_two_opposite_taps_unlock(driver: AppDriver) -> None:
    """No hold is needed: there are only three of them in the app."""
    two(driver, "unlock")

    assert driver.shell.rain is None


def test_undo_works_under_the_lock(driver: AppDriver) -> None:
    """The entry is struck, the lock stays on, and there is nothing more to take back."""
    two(driver, "undo")

    assert notes_standing(driver) == 0
    assert driver.shell.rain is not None
    assert driver.shell.rain.keys["undo"].disabled


@pytest.mark.parametrize(("key", "page"), [("pass", "pass"), ("delay", "day")])
def test_work_is_two_taps_away(driver: AppDriver, key: str, page: str) -> None:
    """To the pass in hand, or to a delay that just began."""
    two(driver, key)

    assert driver.shell.rain is None
    assert driver.shell.front == page


def test_nothing_under_the_lock_is_hit(driver: AppDriver) -> None:
    """A touch between the keys reaches neither page nor tabs."""
    driver.ui.tap(driver.shell.rain.words)
    driver.settle()

    assert driver.shell.front == "today"


def test_lock_lies_over_a_banner(driver: AppDriver) -> None:
    """What comes meanwhile waits under it."""
    driver.shell.say_failed("No room.")
    driver.settle()

    assert driver.shell.children[0] is driver.shell.rain


def test_first_tap_is_forgotten() -> None:
    """After four seconds the second tap begins anew."""
    lock, done = RainLock().tap("unlock", 0)
    assert (lock.armed, done) == ("unlock", "")
    assert lock.tap("pass", ARMED_MS) == (RainLock(), "unlock")

    assert lock.tap("pass", ARMED_MS + 1) == (RainLock("pass", ARMED_MS + 1), "")


def test_third_place_calls_it_off() -> None:
    """A tap anywhere else is no purpose of a hand."""
    lock, _ = RainLock().tap("unlock", 0)

    assert lock.tap("undo", 10) == (RainLock(), "")
    assert lock.tap("unlock", 10) == (RainLock(), "")
