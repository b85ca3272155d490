"""Every part of the After the rain screen keeps to the rules of hand and eye, either way."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest

from crewapp.commands.after_rain import LogInfiltration, LogRain, LogSurfaceCondition, RingLevel
from crewapp.commands.ties import AddPermanentPoint, TieEnd
from crewapp.words import translate as wording
from tests.crewapp.pages.day_driver import DayDriver, open_day
from tests.crewapp.pages.look_round import HOLDS
from tests.kivy_env import profile_named
from tests.tree_walk import faults

if TYPE_CHECKING:
    from tests.uidriver import UI

IN = 25_400_000
LONG = "plot of 20 ft by 20 ft in the south-east corner, beside the second sprinkler"
RING: dict[str, Any] = {"spot": LONG, "when": "after", "method": "double_ring"}
RING |= {"inner": {"value": 12 * IN, "text": "12"}}
RUN: list[dict[str, Any]] = [
    {"s": 0, "nm": 4 * IN, "text": "4", "up": None},
    {"s": 300, "nm": 3 * IN, "text": "3", "up": 4 * IN},
    {"s": 600, "nm": 3 * IN, "text": "3", "up": None},
]
DEPTH: dict[str, Any] = {"depth": {"value": 28 * 10**6, "text": "1.1"}}
RAIN: dict[str, Any] = {**DEPTH, "stopped": {"value": 335, "text": "0535"}}
GRAMS: dict[str, Any] = {
    f"um{um}": {"value": 152_500, "text": "152.5"}
    for um in (3350, 2000, 1000, 500, 250, 150, 53, 0)
}
Show = Callable[[DayDriver], None]


def part(name: str, **kept: Any) -> Show:
    """Return what brings a part to the front."""
    return lambda driver: driver.page.turn_to(name, **kept)


def form(name: str, at: str = "", **answers: Any) -> Show:
    """Return what brings a form to the front with some answers given."""
    return part("form", form=name, answers={name: answers}, at=at, writing=False)


SEEN = {"plot": LONG, "at": {"value": 430, "text": "0710"}}
SHOWS: dict[str, Show] = {
    "home": part("home", ring_began=0),
    "stopped": form("rain", **DEPTH),
    "rain summary": form("rain", **RAIN, began={"value": 1350, "text": "2230"}),
    "gauge": form("rain", at="gauge"),
    "look": part("looks", answers={"seen": SEEN}),
    "plot": form("seen", at="plot"),
    "rains": part("rains"),
    "ring spot": form("ring"),
    "ring summary": form("ring", **RING),
    "ring begins": part("ring", answers={"ring": RING}, ring_began=None, ring_readings=[]),
    "ring runs": part("ring", ring_began=1, ring_readings=RUN),
    "ring waits": part("ring", ring_pending=75_600),
    "top-up": form("top_up", sand="sand", by="mass", amount={"value": 10**11, "text": "220"}),
    "repair": form("repair", done="looked_at", place="surface/G7"),
    "ties": part("ties"),
    "point": form("point"),
    "tie": form("tie/collector_outlet/C1"),
    "line": form("tie/line", line="S01", end="line_end", point="PP1"),
    "sand": part("sand"),
    "box": form("box", material="sand"),
    "sieves": form("sieve", material="sand", **GRAMS),
    "sheets": part("sheets"),
}


@pytest.fixture(params=HOLDS, ids=str)
def driver(
    request: pytest.FixtureRequest, ui: UI, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> Iterator[DayDriver]:
    """A rain, a look, a ring test and two points, on one tablet held one way."""
    monkeypatch.setenv("HOME", str(tmp_path))  # folders are shown from there, as to a user
    name, is_turned, language = request.param
    ui.hold(profile_named(name, is_turned))
    wording.set_language(language)
    made = open_day(ui, tmp_path, language)
    now_ms = made.clock.at_ms
    made.do(LogRain(depth_nm=IN, began_ms=now_ms - 10**7, stopped_ms=now_ms - 10**6))
    made.do(LogSurfaceCondition(surface_id="G7", condition="clear", plot=LONG))
    levels = [RingLevel(after_s=one["s"], level_nm=one["nm"]) for one in RUN[:2]]
    made.do(
        LogInfiltration(
            surface_id="G7",
            when="before",
            method="single_ring",
            where=LONG,
            inner_nm=12 * IN,
            driven_nm=4 * IN,
            readings=levels,
        )
    )
    for where in ("brass pin in the step of the pump house, north side", "hydrant"):
        made.do(AddPermanentPoint(where=where))
    made.do(TieEnd(tied="other", what=LONG, point_id="PP1", distance_nm=400 * IN))
    made.on("after", part="home")
    yield made
    made.close()
    wording.set_language("en")


def faults_of_pads(driver: DayDriver) -> list[str]:
    """Return what is wrong with the pads of the ring and of the sieves."""
    found = []
    form("sieve", material="sand", um3350={"value": 0, "text": "0"})(driver)
    for field in ("form:um2000", "ring:level", "ring:up"):
        driver.page.keep_draft(ring_pending=4000)
        driver.page.ask(field)
        driver.settle()
        found += faults(driver.page.sheet)
        driver.page._close_pad()
        driver.settle()
    return found


def test_every_part_keeps_the_rules(driver: DayDriver) -> None:
    """Sizes, gaps, letters, nothing cut off, nothing off the glass; pads as well."""
    found = {}
    for name, show in SHOWS.items():
        show(driver)
        driver.settle()
        if wrong := faults(driver.shell):
            found[name] = wrong
    assert found == {}
    assert faults_of_pads(driver) == []
