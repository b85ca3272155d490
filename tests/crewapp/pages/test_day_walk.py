"""Every part of the Day screen keeps to the rules of hand and eye, on every tablet, either way."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest

from crewapp.commands.day import CloseDay, LogHours, LogNote
from crewapp.commands.flags import AnswerFlag
from crewapp.words import translate as wording
from tests.crewapp.conftest import DAY
from tests.crewapp.pages.day_driver import DayDriver, cut_deep, cut_shallow, open_day
from tests.crewapp.pages.look_round import HOLDS
from tests.kivy_env import profile_named
from tests.tree_walk import faults

if TYPE_CHECKING:
    from tests.uidriver import UI

LONG = (
    "Gate locked until half past eight. The owner asked for the haul route to be moved off "
    "the new path and for the sand pile to be covered each night, which costs an hour."
)
HIT: dict[str, Any] = {"event": "hit", "warned": True, "what": "electric"}
WHERE = "Green seven. North edge, 12 ft from the flag post"
DATES: dict[str, Any] = {
    "from": {"value": 739_747, "text": "0511"},
    "until": {"value": 739_765, "text": "0529"},
}
NUMBER: dict[str, Any] = {"ticket": {"value": 1123456789012, "text": "123456789012"}}
Show = Callable[[DayDriver], None]


def part(name: str, **kept: Any) -> Show:
    """Return what brings a part to the front."""

    def show(driver: DayDriver) -> None:
        driver.page.turn_to(name, **kept)

    return show


def form(name: str, at: str = "", writing: bool = False, **answers: Any) -> Show:
    """Return what brings a form to the front with some answers given."""

    def show(driver: DayDriver) -> None:
        kept = {name: answers}
        driver.page.turn_to("form", form=name, answers=kept, at=at, writing=writing)

    return show


def strike(driver: DayDriver) -> None:
    """Strike the long note."""
    note = next(row for row in driver.page.view.written if row.kind == "note")
    driver.page.turn_to("strike", striking=note.entry_id, came_from="written")


def strip(driver: DayDriver) -> None:
    """The menu with the undo strip under it."""
    driver.page.turn_to("menu")
    driver.shell.do(LogNote(text=LONG), lambda changed: None)


SIGNING = {"meaning": "received", "role": "owner", "name": "Olga Invented"}
OPEN: dict[str, Show] = {
    "menu": part("menu"),
    "hours": part("hours"),
    "person": form("hours/person/Ben"),
    "machine": form("hours/machine/twin"),
    "machine summary": form("hours/machine/twin", run={"value": 510, "text": "8.5"}),
    "sky": form("weather"),
    "ground": form("weather", sky="rain"),
    "weather summary": form("weather", sky="rain", ground="standing_water"),
    "cause": form("delay"),
    "cause written": form("delay", at="cause", writing=True),
    "lost": form("delay", cause="waiting for a locate", since=0),
    "found or hit": form("utility"),
    "danger": form("utility", event="hit"),
    "what": form("utility", event="hit", warned=True),
    "where": form("utility", **HIT),
    "hit summary": form("utility", **HIT, where=WHERE),
    "note": form("note"),
    "note summary": form("note", text=LONG),
    "photo": form("photo"),
    "photo summary": form("photo", shows="pipe before cover"),
    "tomorrow": form("tomorrow"),
    "tomorrow summary": form("tomorrow", work="piped slits. Green seven"),
    "ticket from": form("ticket", **NUMBER),
    "ticket covers": form("ticket", at="surfaces", **NUMBER, **DATES),
    "ticket summary": form("ticket", **NUMBER, **DATES),
    "tickets": part("tickets"),
    "written": part("written"),
    "strike": strike,
    "sheet": part("sheet"),
    "sign": part("sign"),
    "who signs": form("sign/true_record"),
    "signature": part("pad", signing=SIGNING, strokes=[[[100, 300], [300, 700]]]),
    "close": part("close"),
    "days": part("days"),
    "strip": strip,
}
CLOSED: dict[str, Show] = {
    "menu": part("menu"),
    "hand over": part("close"),
    "reopen": form("reopen"),
    "sheet": part("sheet"),
    "written": part("written"),
}


@pytest.fixture(params=HOLDS, ids=str)
def driver(request: pytest.FixtureRequest, ui: UI, tmp_path: Path) -> Iterator[DayDriver]:
    """A day with something of everything, on one tablet held one way, in one language."""
    name, is_turned, language = request.param
    ui.hold(profile_named(name, is_turned))
    wording.set_language(language)
    made = open_day(ui, tmp_path, language)
    cut_shallow(made)
    cut_deep(made)
    made.do(LogHours(of="person", who="Ana", run_min=570, idle_min=0))
    made.do(LogNote(text=LONG, needs_owner=True))
    yield made
    made.close()
    wording.set_language("en")


def walk(driver: DayDriver, shows: dict[str, Show]) -> dict[str, list[str]]:
    """Return what is wrong with each part."""
    found = {}
    for name, show in shows.items():
        show(driver)
        driver.settle()
        wrong = faults(driver.shell)
        if wrong:
            found[name] = wrong
    return found


def test_every_part_keeps_the_rules(driver: DayDriver) -> None:
    """Sizes, gaps, letters, nothing cut off, nothing off the glass."""
    assert walk(driver, OPEN) == {}


def test_closed_day_keeps_the_rules(driver: DayDriver) -> None:
    """A closed day hands over, and may be reopened."""
    key = driver.job.board.open_flags()[0].finding
    driver.do(AnswerFlag(key=key.key, figures=key.figures, answer="rework", why="doing it"))
    driver.do(CloseDay(day=DAY))
    driver.on("day")

    assert walk(driver, CLOSED) == {}


def test_pads_keep_the_rules(driver: DayDriver) -> None:
    """The number pads of this screen, each over the whole glass."""
    found = {}
    for name, field in (("weather", "low"), ("delay", "began"), ("ticket", "ticket")):
        form(name)(driver)
        driver.settle()
        driver.page.ask(f"form:{field}")
        driver.settle()
        found[field] = faults(driver.page.sheet)
        driver.page._close_pad()
        driver.settle()

    assert found == {"low": [], "began": [], "ticket": []}
