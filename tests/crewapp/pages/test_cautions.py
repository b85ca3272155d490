"""Cautions stand where the hand is: every tablet, held either way, in both languages."""

from __future__ import annotations

import itertools
import json
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest

from crewapp.tablet.settings import Settings, Tablet
from crewapp.words.translate import say
from tests.crewapp.conftest import plan_text
from tests.crewapp.pages.frame_driver import put_book
from tests.crewapp.pages.grade_driver import GradeDriver, put_job, set_up_level
from tests.crewapp.pages.look_round import HOLDS
from tests.crewapp.pages.slit_driver import SlitDriver
from tests.crewapp.pages.test_go_ahead import deep, flat, without_ticket
from tests.in_full import IN_FULL
from tests.kivy_env import profile_named
from tests.tree_walk import box_of, faults

if TYPE_CHECKING:
    from crewapp.job.open_job import OpenJob
    from tests.uidriver import UI

GRADE_WORK: dict[str, tuple[Callable[[OpenJob], None], ...]] = {
    "no ticket": (set_up_level, without_ticket),
    "deep": (set_up_level, deep),
    "fine": (set_up_level, flat(0), flat(10)),
}


def held_with(*states: str) -> pytest.MarkDecorator:
    """Every way of holding a tablet, with the states of the work in turn.

    So every pair of tablet, way, language and state is met; all of them where tests run in full.
    """
    turns = list(zip(HOLDS, itertools.cycle(states), strict=False))
    cases = list(itertools.product(HOLDS, states)) if IN_FULL else turns
    ids = ["-".join(str(part) for part in (*hold, state or "none")) for hold, state in cases]
    return pytest.mark.parametrize(("held", "state"), cases, ids=ids, indirect=["held"])


@pytest.fixture
def held(ui: UI, request: pytest.FixtureRequest) -> Iterator[str]:
    """A tablet held one way, in one language; gives the language."""
    from crewapp.words.translate import set_language

    name, is_turned, language = request.param
    ui.hold(profile_named(name, is_turned))
    set_language(language)
    yield language
    set_language("en")


def wrong(driver: Any, where: str, words: str) -> list[str]:
    """What is wrong with the glass, and whether its caution is there, whole, with these words."""
    driver.settle()
    caution = driver.shell.caution
    found = [f"{where}: {fault}" for fault in faults(driver.shell)]
    if caution.words.text != say(words) or caution.words.is_cut or box_of(caution) is None:
        found.append(f"{where}: caution is {caution.words.text!r}")
    return found


PASS = "Stop the blades before clearing them. Keep people clear. Dig by hand at marks."
LOADS = "Sand dust harms lungs: wet it, wear a mask. Stay clear of reversing trucks."
TODAY = "Heat: water, shade, rest. Dig only inside the marks. Local codes come first."
PIPE = "Never enter a basin (bad air) or an unprotected trench. Don't stare at the laser."
COVER = "Bad air kills: never enter a basin or manhole. Nobody in an unprotected trench."
LASER = "Laser: never stare into the beam; set it above or below eye height."
ESTIMATE = "An estimate: a licensed engineer designs drainage. Local codes come first."


@held_with("", "2026-05-13", "2026-06-13")
def test_pass_loads_plan_and_today(ui: UI, tmp_path: Path, held: str, state: str) -> None:
    """With no ticket, one that ends and a good one: all is whole, the caution is there."""
    ticket = {"ticket": "LK-26-0417", "valid_from": "2026-05-01", "expires_on": state}
    green = json.loads(plan_text())["surface"][0]
    field = {
        **green,
        "surface_id": "F2",
        "name": "Lower sports field, south end",
        "use": "field",
        "rectangle": {"along": "40 ft", "across": "8 ft"},
    }
    home = tmp_path / "home"
    Tablet(home).keep_settings(Settings(author="Ana", language=held))
    tickets = [ticket] if state else None
    book = put_book(home / "books", locate_ticket=tickets, surface=[field, green])
    driver = SlitDriver(ui, home, book)
    found = wrong(driver, "pass", PASS)
    if not state:
        driver.page.turn_to("anyway")
        found += wrong(driver, "pass, anyway", PASS)
    for page, words in (("loads", LOADS), ("today", TODAY)):
        driver.shell.go(page)
        found += wrong(driver, page, words)
    for part in ("plan", "takeoff", "gates"):
        driver.shell.go("plan").turn_to(part)
        found += wrong(driver, f"plan, {part}", ESTIMATE)

    assert found == []
    driver.close()


@held_with(*GRADE_WORK)
def test_grade(ui: UI, tmp_path: Path, held: str, state: str) -> None:
    """Before a ticket, over a deep trench and when all is well: each part has its own danger."""
    driver = GradeDriver(ui, tmp_path, put_job(tmp_path))
    for work in GRADE_WORK[state]:
        work(driver.job)
    driver.page.refresh()
    driver.settle()
    driver.shell._drop_banner()
    found = wrong(driver, "pipe", PIPE)
    for part, words in (("cover", COVER), ("setup", LASER), ("shots", PIPE)):
        driver.page.turn_to(part)
        found += wrong(driver, part, words)
    if state != "fine":
        driver.page.turn_to("anyway")
        found += wrong(driver, "anyway", COVER)
    if state == "deep":
        driver.page.controllers["cover"].protect(driver.page.view.grade.trench)
        found += wrong(driver, "protection", PIPE)

    assert found == []
    driver.close()


@pytest.mark.parametrize("is_turned", [False, True], ids=["wide", "high"])
def test_caution_stays_beside_undo_and_a_flag(ui: UI, tmp_path: Path, is_turned: bool) -> None:
    """Neither the undo strip nor a banner takes its place, on the smallest tablet."""
    ui.hold(profile_named("8in", is_turned))
    home = tmp_path / "home"
    Tablet(home).keep_settings(Settings(author="Ana"))
    driver = SlitDriver(ui, home, put_book(home / "books"))
    driver.shell.strip.text = "Inked 14:05: depth 8-1/2 in at 12.5 ft on line S13"
    driver.shell._set_shown(driver.shell.strip, True)
    driver.settle()

    assert wrong(driver, "pass", PASS) == []
    driver.close()


def test_caution_stands_over_a_pad_on_a_wide_tablet(ui: UI, tmp_path: Path) -> None:
    """While a length is typed the blades are still there."""
    ui.hold(profile_named("8in", False))
    home = tmp_path / "home"
    Tablet(home).keep_settings(Settings(author="Ana"))
    driver = SlitDriver(ui, home, put_book(home / "books"))
    driver.page.choose(surface_id="G7", use="piped_slit")
    driver.settle()
    driver.page.ask("length")
    driver.settle()

    assert driver.page.sheet is not None
    assert driver.shell.children[0] is driver.shell.caution
    assert faults(driver.shell.caution) == []
    driver.close()
