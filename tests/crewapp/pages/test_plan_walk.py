"""Every part of the Plan and As-built pages keeps to the rules of the hand, on every tablet."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest

from crewapp.tablet.settings import Settings, Tablet
from tests.crewapp.pages.frame_driver import put_book
from tests.crewapp.pages.look_round import HOLDS, LookRound
from tests.crewapp.pages.plan_driver import PlanDriver
from tests.kivy_env import profile_named

if TYPE_CHECKING:
    from tests.uidriver import UI

SHAPES: list[dict[str, Any]] = [
    {"along": "300", "across": "120", "bearing": "15"},
    {"shape": "offsets", "rows": [{"station": "0", "left": "10", "right": "12"}]},
    {"shape": "file", "source": "a-long-name-of-a-drawing.dxf"},
]
TERMS = {"spacing": "16", "width": "1", "depth": "9", "bearing": "15"}


@pytest.fixture(params=HOLDS, ids=lambda hold: "-".join(str(part) for part in hold))
def driver(
    ui: UI, tmp_path: Path, request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch
) -> Iterator[PlanDriver]:
    """The Plan page on a tablet held one way, in one language."""
    from crewapp.words.translate import set_language

    monkeypatch.setenv("HOME", str(tmp_path))
    name, is_turned, language = request.param
    ui.hold(profile_named(name, is_turned))
    home = tmp_path / "home"
    Tablet(home).keep_settings(Settings(author="Wren", language=language))
    opened = PlanDriver(ui, home, put_book(home / "books"))
    yield opened
    opened.close()
    set_language("en")


class Walk(LookRound):
    """Goes from part to part of these pages."""

    driver: PlanDriver

    def parts(self, *names: str) -> None:
        """Look at parts."""
        for name in names:
            self.driver.page.turn_to(name)
            self.look(name)

    def choose(self, *names: str) -> None:
        """Look at lists to choose from."""
        for name in names:
            self.driver.page.choose(name)
            self.look(name)


def walk_plan(walk: Walk) -> None:
    """The plan with a line tapped, laying, comparing, the take-off, the gates."""
    page = walk.driver.page
    walk.look("plan")
    page.pick_line("S03")
    walk.look("a line")
    walk.parts("terms", "bearings", "drives", "takeoff", "gates", "rain")
    page.turn_to("item", item="slits cut")
    walk.look("item")
    page.turn_to("item", item="told")
    walk.look("what it rests on")
    walk.choose("plan:surface", "terms:use", "terms:first")
    page.turn_to("terms")
    page.ask("terms:spacing")
    walk.look("pad")
    page._close_pad()


def walk_new_surface(walk: Walk) -> None:
    """Its tiles in every shape, its stations, its name, and its lines."""
    page = walk.driver.page
    page.shape.begin("field")
    walk.look("shape")
    for shape in SHAPES:
        page.shape.keep(**shape)
        page.turn_to("shape")
        walk.look(f"shape {shape}")
    walk.parts("name", "offsets")
    page.shape.keep(shape="rectangle")
    page.terms.keep(**TERMS)
    walk.parts("terms")


def walk_as_built(walk: Walk) -> None:
    """The plan, a collector tapped, the profile, quantities, the package."""
    walk.driver.shell.go("built")
    walk.driver.settle()
    walk.look("built")
    walk.driver.page.pick_line("collector:C1")
    walk.look("collector")
    walk.parts("profile", "quantities", "package")
    walk.driver.page.part._say("Written 12 of 34: csv/released.csv")
    walk.look("writing")


def walk_plan_file(walk: Walk) -> None:
    """The question on the Jobs page."""
    walk.driver.shell.go("jobs")
    walk.driver.settle()
    walk.driver.page.turn_to("plan_for", plan="stage-two.json")
    walk.driver.page.refresh()
    walk.look("plan_for")


def test_pages_fit_the_hand(driver: PlanDriver) -> None:
    """Nothing is too small, too near, cut off or off the glass, on any part."""
    walk = Walk(driver)
    for part in (walk_plan, walk_new_surface, walk_as_built, walk_plan_file):
        part(walk)

    assert walk.found == []
