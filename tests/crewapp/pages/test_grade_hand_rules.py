"""Every part of the Grade screen obeys the rules of the hand on three tablets, both ways."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from tests.crewapp.pages.grade_driver import GradeDriver, put_job, set_up_level, shoot
from tests.crewapp.pages.look_round import HOLDS
from tests.kivy_env import PROFILES, profile_named

if TYPE_CHECKING:
    from tests.uidriver import UI

LASER = ("Laser",)
STEPS: dict[str, tuple[str, ...]] = {
    "pipe": (),
    "setup": LASER,
    "point": (*LASER, "rod stands on"),
    "plane": (*LASER, "plane"),
    "graded": (*LASER, "plane", "dialled grade"),
    "grade": (*LASER, "plane", "dialled grade", "dialled"),
    "instrument": (*LASER, "instrument"),
    "calibrated": (*LASER, "calibrated"),
    "check": (*LASER, "Check shot"),
    "check pad": (*LASER, "Check shot", "BM2 97.62"),
    "foresight pad": (*LASER, "Turning point"),
    "run": (*LASER, "Level run"),
    "collector": ("Line",),
    "shot pad": ("Shoot 0+30.0 invert",),
    "where": ("Shoot 0+30.0 invert", "0+30.0 invert"),
    "shots": ("Shots",),
    "told": ("Shots", "What the pipe asks for"),
    "strike": ("Shots", "0+20.0 invert"),
    "cover": ("Cover",),
    "layer": ("Cover", "surround"),
    "wire": ("Cover", "tracer wire"),
    "thickness pad": ("Cover", "bedding"),
    "protection": ("Cover", "trench safety"),
    "release": ("Cover", "release to cover"),
}


def spoken(step: str) -> str:
    """Return the words on a key in the language set."""
    from crewapp.words.translate import say

    shoot, _, where = step.rpartition("0+")
    if "0+" not in step:
        return say(step)
    station, _, what = where.partition(" ")
    place = say("{station} {what}", station=f"0+{station}", what=say(what))
    return say("Shoot {where}", where=place) if shoot else place


def open_with_work(ui: UI, folder: Path) -> GradeDriver:
    """Open the screen with a high shot, a backward reach, and something to take back."""
    driver = GradeDriver(ui, folder, put_job(folder))
    set_up_level(driver.job)
    for station_ft, reading in ((0, "6.00"), (10, "5.80"), (20, "5.87")):
        shoot(driver.job, station_ft, reading)
    driver.shell.strip.text = "Inked 09:00: 5.87 on invert at 0+20.0"
    driver.shell._set_shown(driver.shell.strip, True)
    driver.page.refresh()
    driver.settle()
    return driver


@pytest.mark.parametrize(("profile", "is_turned", "language"), HOLDS)
def test_every_part_obeys_the_hand(
    ui: UI, tmp_path: Path, profile: str, is_turned: bool, language: str
) -> None:
    """Nothing is too small, too near, cut off or hidden, with the undo strip showing."""
    from crewapp.words import translate as wording
    from tests.tree_walk import faults

    ui.hold(profile_named(profile, is_turned))
    wording.set_language(language)
    try:
        driver = open_with_work(ui, tmp_path)
        found = {}
        for name, steps in STEPS.items():
            driver.page.arrive(collector_id="C1")
            driver.page.refresh()
            driver.settle()
            for step in steps:
                driver.tap(spoken(step))
            found[name] = faults(driver.page.sheet or driver.shell)
            if driver.page.sheet:
                driver.page._close_pad()
        driver.worker.close()
    finally:
        wording.set_language("en")

    assert {name: told for name, told in found.items() if told} == {}


def test_rod_pad_obeys_the_hand_while_it_asks(ui: UI, tmp_path: Path) -> None:
    """The question and its answers take the place of what was told, on every tablet."""
    from tests.tree_walk import faults

    driver = open_with_work(ui, tmp_path)
    driver.page.ask("shot")
    driver.settle()
    driver.key("385")
    assert driver.page.sheet.pad.keypad.question is not None
    for profile in sorted(PROFILES):
        for is_turned in (False, True):
            ui.hold(profile_named(profile, is_turned))
            ui.pump(6)
            assert faults(driver.page.sheet) == [], (profile, is_turned)
    driver.worker.close()
