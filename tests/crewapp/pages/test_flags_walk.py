"""Every part of the Flags screen keeps to the rules of hand and eye, on every tablet."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from crewapp.commands.flags import AnswerFlag
from crewapp.words import translate as wording
from tests.crewapp.pages.day_driver import DayDriver, cut_deep, cut_shallow, hit_stop, open_day
from tests.crewapp.pages.look_round import HOLDS
from tests.kivy_env import profile_named
from tests.tree_walk import faults

if TYPE_CHECKING:
    from tests.uidriver import UI

WHY = (
    "Ground did not allow better, the owner saw it on Monday and will have it sanded again in fall"
)


@pytest.fixture(params=HOLDS, ids=str)
def driver(request: pytest.FixtureRequest, ui: UI, tmp_path: Path) -> Iterator[DayDriver]:
    """Flags of each weight, one of them answered, on one tablet held one way."""
    name, is_turned, language = request.param
    ui.hold(profile_named(name, is_turned))
    wording.set_language(language)
    made = open_day(ui, tmp_path, language)
    cut_shallow(made)
    key = cut_deep(made)
    hit_stop(made)
    made.on("flags", key=key)
    figures = made.page.view.card.figures
    made.do(AnswerFlag(key=key, figures=figures, answer="accept", why=WHY))
    yield made
    made.close()
    wording.set_language("en")


def test_list_keeps_the_rules(driver: DayDriver) -> None:
    """Open and answered flags, each with its sentence."""
    driver.page.turn_to("list")
    driver.settle()

    assert faults(driver.shell) == []


def test_every_flag_keeps_the_rules(driver: DayDriver) -> None:
    """Each flag in full, the entries it rests on, and the reason of each answer."""
    found = []
    for row in (*driver.page.view.open, *driver.page.view.answered):
        driver.page.open_flag(row.key)
        driver.settle()
        found += [f"{row.key}: {wrong}" for wrong in faults(driver.shell)]
        driver.page.turn_to("entries")
        driver.settle()
        found += [f"{row.key} rests on: {wrong}" for wrong in faults(driver.shell)]
    first = driver.page.view.open[0].key
    for answer in ("accept", "rework", "waive"):
        driver.page.open_flag(first)
        driver.settle()
        driver.page.filling.begin(f"{answer}/{first}")
        driver.settle()
        found += [f"{answer}: {wrong}" for wrong in faults(driver.shell)]

    assert found == []
