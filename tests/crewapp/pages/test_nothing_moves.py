"""Nothing that a finger aims at moves when the undo strip or a banner comes."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest

from crewapp.kit.look.palette import Status
from crewapp.tablet.settings import Settings, Tablet
from tests.crewapp.pages.slit_driver import SlitDriver, put_slit_book
from tests.kivy_env import profile_named

if TYPE_CHECKING:
    from tests.uidriver import UI

LONG = "Pass G7-01, line S01 at 1.0 ft: 7-7/8 in deep, at least 8-1/2 in is wanted."


@pytest.fixture(params=[False, True], ids=["wide", "high"])
def driver(ui: UI, tmp_path: Path, request: pytest.FixtureRequest) -> Iterator[SlitDriver]:
    """The smallest tablet, held both ways."""
    ui.hold(profile_named("8in", request.param))
    home = tmp_path / "home"
    Tablet(home).keep_settings(Settings(author="Ana"))
    opened = SlitDriver(ui, home, put_slit_book(home / "books"))
    yield opened
    opened.close()


def targets(driver: SlitDriver) -> dict[int, tuple[Any, ...]]:
    """Where each thing to touch on the page and among the tabs stands."""
    from crewapp.kit.keys.touchable import Touchable

    walked = [*driver.page.walk(restrict=True), *driver.shell.tabs.walk(restrict=True)]
    found = [w for w in walked if isinstance(w, Touchable)]
    return {id(w): (w.text, *map(round, (*w.to_window(*w.pos), *w.size))) for w in found}


def show_both(driver: SlitDriver) -> None:
    """Let the strip and a banner come, as after a probe that is out."""
    driver.shell.strip.text = "Inked 14:05: a probe"
    driver.shell._set_shown(driver.shell.strip, True)
    driver.shell.show_finding(LONG, "Cut the line again to its design depth.", Status.OUT)
    driver.settle()


@pytest.mark.parametrize("part", ["cut", "probe", "sand"])
def test_no_target_moves_for_strip_or_banner(driver: SlitDriver, part: str) -> None:
    """Chips, keys and tabs stay where they were, all of them, and those of length are there."""
    driver.page.turn_to("cut")
    driver.settle()
    assert driver.bearers("40.0")
    if part != "cut":
        driver.cut()
        driver.open_part(part)
    driver.shell._set_shown(driver.shell.strip, False)
    driver.shell._drop_banner()
    driver.settle()
    before = targets(driver)

    show_both(driver)

    assert targets(driver) == before
    driver.tap("Seen")
    assert targets(driver) == before


def test_touch_on_a_banner_reaches_nothing_under_it(driver: SlitDriver) -> None:
    """A finger on its way to what a banner now covers writes nothing and goes nowhere."""
    driver.cut()
    driver.open_part("probe")
    show_both(driver)
    where, front = driver.page.part.where, driver.page.part

    driver.tap_on(where)

    assert driver.page.part is front
    assert driver.banner.startswith(LONG)
