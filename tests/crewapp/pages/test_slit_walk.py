"""Every part of the Pass and Loads pages keeps to the rules of the hand, on every tablet."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest

from crewapp.tablet.settings import Settings, Tablet
from tests.crewapp.pages.look_round import HOLDS, LookRound
from tests.crewapp.pages.slit_driver import FOOT_NM, INCH_NM, SlitDriver, put_slit_book
from tests.kivy_env import profile_named

if TYPE_CHECKING:
    from tests.uidriver import UI


@pytest.fixture(params=HOLDS, ids=lambda hold: "-".join(str(part) for part in hold))
def driver(
    ui: UI, tmp_path: Path, request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch
) -> Iterator[SlitDriver]:
    """The app on a tablet held one way, in one language."""
    from crewapp.words.translate import set_language

    monkeypatch.setenv("HOME", str(tmp_path))
    name, is_turned, language = request.param
    ui.hold(profile_named(name, is_turned))
    home = tmp_path / "home"
    Tablet(home).keep_settings(Settings(author="Ana", language=language))
    opened = SlitDriver(ui, home, put_slit_book(home / "books"))
    yield opened
    opened.close()
    set_language("en")


class Walk(LookRound):
    """Goes from part to part of these pages."""

    driver: SlitDriver

    def part(self, name: str, **kept: Any) -> None:
        """Look at a part."""
        self.driver.page.turn_to(name, **kept)
        self.look(name)

    def pads(self, *fields: str) -> None:
        """Look at the pad of each field."""
        for field in fields:
            self.driver.page.ask(field)
            self.look(field)
            self.driver.page._close_pad()

    def do(self, act: Callable[[], Any], where: str) -> None:
        """Do something; look with the flag it raises, and again when that is seen."""
        act()
        self.look(f"{where}, flag up")
        self.driver.shell._drop_banner()
        self.look(where)


def test_pass_in_hand_fits_the_hand(driver: SlitDriver) -> None:
    """The field's pass from its lines to the list of its readings, with flags up and without."""
    walk, page = Walk(driver), driver.page
    walk.look("cut")
    walk.part("lines")
    walk.part("more")
    for name in ("surface", "use", "machine", "pass"):
        walk.part("choose", choosing=name)
    page.turn_to("cut")
    walk.pads("length", "shift")
    walk.do(lambda: page.cut(40 * FOOT_NM, "40"), "first probe")
    walk.do(lambda: page.part.take(9 * INCH_NM, "9"), "probe")
    walk.do(lambda: page.part.take(15 * INCH_NM // 2, "7-1/2"), "probe out")
    walk.pads("depth", "width", "along")
    walk.part("place")
    walk.part("hub")
    walk.part("written")
    probe = next(row for row in page.card.written if row.kind == "probe")
    walk.part("strike", strike_id=probe.entry_id)
    page.part.strike.reason = "misread"
    walk.look("strike with a reason")

    assert walk.found == []


def test_filling_fits_the_hand(driver: SlitDriver) -> None:
    """Sand, pipe, turf and water of a green's piped slit."""
    walk, page = Walk(driver), driver.page
    page.choose(surface_id="G7", use="piped_slit")
    walk.look("green")
    walk.do(page.part._main, "green, strip lifted")
    walk.do(lambda: page.cut(8 * FOOT_NM, "8"), "green, probe")
    while page.place_now() is not None:
        page.part.take(9 * INCH_NM, "9")
        driver.settle()
    walk.look("all probed")
    walk.part("pipe")
    walk.part("sand")
    walk.do(lambda: page.part._load(10, "dry"), "sand placed")
    walk.pads("sand_volume", "sand_weight", "hopper")
    walk.part("finish")
    walk.pads("sod")
    walk.do(lambda: page.finish_turf("put_back", FOOT_NM // 8, "1.5"), "put back")
    walk.part("hub")

    assert walk.found == []


def test_loads_fit_the_hand(driver: SlitDriver) -> None:
    """Loads in and out, the lists, and striking one."""
    driver.shell.go("loads")
    driver.settle()
    walk, page = Walk(driver), driver.page
    walk.look("home")
    page.start_delivery("sand")
    walk.look("ticket")
    page._close_pad()
    walk.look("delivery")
    page.take_ticket("48213")
    walk.look("weight")
    page._close_pad()
    walk.look("delivery with a ticket")
    walk.do(lambda: page.deliver("8", "dry", mass_ug=8 * 10**12), "sand in")
    walk.do(lambda: page.load_hopper(10, "dry"), "hopper out")
    walk.pads("spoil", "hopper")
    walk.part("balance")
    walk.part("coils")
    walk.part("today")
    walk.part("strike", strike_id=page.view.today[0].entry_id)

    assert walk.found == []
