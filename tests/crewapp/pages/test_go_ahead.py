"""Before the act: no ticket is no cut, no protection is no entering, by real touches."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest

from crewapp.commands.entries import Strike
from crewapp.job.dispatch import do
from crewapp.kit.look.palette import Status
from crewapp.tablet.settings import Settings, Tablet
from models.entries.kind_names import (
    GO_AHEAD,
    GRADE_SHOT,
    LAYER_CHECK,
    LOCATE_TICKET,
    TRENCH_PROTECTION,
)
from tests.crewapp.pages.frame_driver import put_book
from tests.crewapp.pages.grade_driver import FT_NM, Begin, GradeDriver, put_job, set_up_level, shoot
from tests.crewapp.pages.slit_driver import SlitDriver
from tests.kivy_env import profile_named

if TYPE_CHECKING:
    from tests.uidriver import UI

HOLD = "Hold to go on without"
TICKET = {"ticket": "T-1", "valid_from": "2026-05-01", "expires_on": "2026-06-30"}


LEAST_PROFILE_MM = 25.0
"""Below this the drawing leaves out its strips: tried."""


def begin_with(ui: UI, tmp_path: Path, tickets: list[dict[str, Any]] | None) -> SlitDriver:
    """Open the app on the Pass page of the small job, with these locate tickets or none."""
    home = tmp_path / "home"
    Tablet(home).keep_settings(Settings(author="Ana"))
    return SlitDriver(ui, home, put_book(home / "books", locate_ticket=tickets))


@pytest.fixture
def bare(ui: UI, tmp_path: Path) -> Iterator[SlitDriver]:
    """A job without any locate ticket."""
    driver = begin_with(ui, tmp_path, None)
    yield driver
    driver.close()


def hold(driver: Any, text: str, seconds: float = 0.9) -> None:
    """Hold what bears these words."""
    from crewapp.kit.keys.touchable import Touchable

    (widget,) = [w for w in driver.shell.walk() if isinstance(w, Touchable) and w.text == text]
    driver.ui.hold_down(widget, seconds)
    driver.settle()


def test_no_ticket_no_cut(bare: SlitDriver) -> None:
    """The cut's keys are not there: what is missing and the one key that mends it are."""
    words = bare.words()

    assert "Do not cut yet" in words
    assert "No locate ticket covers Green seven." in words
    assert "Cut: type the length" not in words
    assert "Turf lifted" not in words
    assert bare.page.pad_question("length") is None


def test_the_key_leads_to_where_a_ticket_is_entered_and_the_cut_comes_back(
    bare: SlitDriver,
) -> None:
    """Number, first and last day, ground: then the Pass page says good to cut."""
    bare.tap("Add the ticket")
    assert bare.shell.front == "day"
    if bare.page.sheet is None:
        bare.page.filling.ask_figure()
        bare.settle()
    bare.keys("4", "2", "enter")
    bare.tap("today")
    bare.tap_on(bare.bearers("in 14 days")[0] if "in 14 days" in bare.words() else last_day(bare))
    bare.tap("the whole site")
    bare.tap("Done")
    bare.tap("Ink it")
    bare.shell.go("pass")
    bare.settle()

    assert bare.written("locate_ticket")[-1].ticket == "42"
    assert bare.page.view.ahead.status == Status.OK
    assert "Good to cut" in bare.words()


def last_day(driver: SlitDriver) -> Any:
    """The last chip offered for the last day of a ticket."""
    from crewapp.kit.keys.touchable import Touchable

    chips = [w for w in driver.page.part.keys.walk() if isinstance(w, Touchable) and w.text]
    return chips[-1]


def test_going_on_anyway_wants_a_reason_and_a_long_press(bare: SlitDriver) -> None:
    """Without a reason the key is dead; let go early nothing happens; then the reason is inked."""
    bare.tap("Go on anyway")
    hold(bare, HOLD)
    assert bare.written("go_ahead") == []

    bare.tap("locator is here")
    hold(bare, HOLD, 0.3)
    assert bare.written("go_ahead") == []

    hold(bare, HOLD)
    (given,) = bare.written("go_ahead")
    assert (given.place, given.missing, given.reason) == ("G7", "locate_ticket", "locator is here")
    assert bare.page.part_name() == "cut"
    assert "Ticket missing" in bare.words()
    assert "locator is here" in bare.words()


def test_the_flag_stays_after_going_on(bare: SlitDriver) -> None:
    """The reason lets the pass be cut; what is missing is flagged as ever."""
    bare.tap("Go on anyway")
    bare.tap("locator is here")
    hold(bare, HOLD)
    bare.page.cut(30 * FT_NM, "30")
    bare.settle()

    assert bare.written("pass")
    assert bare.worker.job().board.findings_about("locate_ticket_missing", "2026-05-11/G7")


def test_a_reason_holds_for_its_day_alone(bare: SlitDriver) -> None:
    """Tomorrow the locator stands elsewhere: it is asked again."""
    bare.tap("Go on anyway")
    bare.tap("locator is here")
    hold(bare, HOLD)
    bare.clock.set_to("2026-05-12", 8 * 60)
    bare.page.refresh()
    bare.settle()

    assert bare.page.view.ahead.is_no


@pytest.mark.parametrize(
    ("last", "status", "text"),
    [
        ("2026-05-10", Status.OUT, "The locate ticket for Green seven ended Sun May 10, 2026."),
        ("2026-05-11", Status.CHECK, "last day: renew it"),
        ("2026-05-13", Status.CHECK, "ends Wed May 13: renew it"),
        ("2026-05-14", Status.OK, "ticket to Thu May 14"),
    ],
)
def test_pass_page_says_how_long_the_ticket_lasts(
    ui: UI, tmp_path: Path, last: str, status: Status, text: str
) -> None:
    """Over, on its last day, within the two days of the check, and beyond them."""
    driver = begin_with(ui, tmp_path, [{**TICKET, "expires_on": last}])

    assert text in driver.words()
    assert driver.page.view.ahead.status == status
    driver.close()


def test_a_ticket_for_other_ground_is_none_here(ui: UI, tmp_path: Path) -> None:
    """A ticket for the collector alone says nothing of the green."""
    driver = begin_with(ui, tmp_path, [{**TICKET, "surfaces": ["C1"]}])

    assert "Do not cut yet" in driver.words()
    driver.shell.go("today")
    driver.settle()
    assert driver.page.next.text == "Add the ticket"
    assert driver.page.next.note.startswith("Do not cut yet: no locate ticket covers Green seven")
    driver.close()


def test_today_asks_for_the_ticket_before_anything_else(bare: SlitDriver) -> None:
    """It is the largest key, and the tile is red; its way leads to the tickets."""
    bare.shell.go("today")
    bare.settle()
    tile = next(one for one in bare.page.standing.keys if one.name == "Locate")

    assert bare.page.next.text == "Add the ticket"
    assert tile.status == Status.OUT
    bare.tap_on(bare.page.next)
    assert (bare.shell.front, bare.page.part_name()) == ("day", "tickets")


def without_ticket(job: Any) -> None:
    """Strike the only ticket of the small job."""
    (ticket,) = job.state.current(LOCATE_TICKET, "T-1")
    do(job, Strike(entry_id=ticket.id, reason="never called in"))


def test_grade_says_do_not_dig_before_the_trench_is_opened(begin: Begin) -> None:
    """The main key adds the ticket; no floor is shot before, but the ground is."""
    driver = begin(set_up_level, without_ticket)
    assert driver.page.part.next.text == "Add the ticket"
    assert driver.page.part.ahead.name == "Do not dig yet"
    driver.page.ask("shot")
    driver.settle()
    assert driver.page.sheet is None
    assert driver.page.part_name() == "anyway"

    driver.page.keep_draft(on="ground")
    driver.page.turn_to("pipe")
    driver.page.ask("shot")
    driver.settle()
    assert driver.page.sheet is not None


def test_the_profile_stays_on_a_small_tablet_held_upright(ui: UI, tmp_path: Path) -> None:
    """Beside the warning; a laser that is in order gives way, one that is not keeps its words."""
    from crewapp.kit.look.theme import to_mm

    ui.hold(profile_named("8in", True))
    driver = GradeDriver(ui, tmp_path, put_job(tmp_path))
    set_up_level(driver.job)
    without_ticket(driver.job)
    driver.page.refresh()
    driver.settle()
    part = driver.page.part

    assert part.ahead.parent is not None
    assert to_mm(part.strips.height) >= LEAST_PROFILE_MM
    assert (part.proof.parent is None, part.is_doubted) == (True, False)
    part.is_doubted = True
    part.both.turn()
    assert part.proof.parent is not None
    driver.close()


def test_grade_goes_on_with_a_reason(begin: Begin) -> None:
    """Tile, reason, long press: the collector may be shot that day; the mark stays a triangle."""
    driver = begin(set_up_level, without_ticket)
    driver.ui.tap(driver.page.part.ahead)
    driver.settle()
    driver.tap("called in, marks stand")
    hold(driver, HOLD)

    (given,) = driver.bodies(GO_AHEAD)
    assert (given.place, given.missing) == ("C1", "locate_ticket")
    assert driver.page.part.ahead.status == Status.CHECK
    driver.tap("Shoot 0+00.0 invert")
    assert driver.page.sheet is not None


def deep(job: Any) -> None:
    """Ground shot at 99.92 ft, the invert at 95.00 ft: 4.92 ft, its floor 1-1/4 in lower."""
    shoot(job, 0, "1.08", "ground")
    shoot(job, 0, "6.00")


def test_deep_trench_is_do_not_enter(begin: Begin) -> None:
    """5.02 ft by its floor, 4.92 ft by its invert: it says so, and its key notes protection."""
    driver = begin(set_up_level, deep)
    part = driver.page.part

    assert (part.ahead.name, part.ahead.status) == ("Do not enter", Status.OUT)
    assert part.ahead.detail == "5.02 ft deep at 0+00.0, nothing noted."
    assert part.next.text == "Note protection"
    driver.tap("Note protection")
    driver.tap("shored")
    driver.key("6")
    driver.tap("Ana")
    (noted,) = driver.bodies(TRENCH_PROTECTION)
    assert (noted.from_nm, noted.to_nm, noted.depth_nm) == (0, 10 * FT_NM, 6 * FT_NM)
    assert driver.page.part.next.text.startswith("Shoot")


def test_layers_and_shots_of_a_deep_trench_wait(begin: Begin) -> None:
    """Nobody lays bedding, and no rod goes down, before protection or a reason is inked."""
    driver = begin(set_up_level, deep)
    driver.tap("Cover")
    driver.tap("bedding")
    assert driver.page.sheet is None
    assert driver.page.part_name() == "anyway"
    assert driver.bodies(LAYER_CHECK) == []
    driver.tap("rod from above, nobody in it")
    hold(driver, HOLD)
    (given,) = driver.bodies(GO_AHEAD)
    assert (given.missing, given.reason) == ("trench_protection", "rod from above, nobody in it")
    assert driver.page.part.ahead.name == "Nobody enters"


def test_rod_pad_says_do_not_enter_first(begin: Begin) -> None:
    """The pad hides the page; its words begin with what has to wait."""
    driver = begin(set_up_level)
    driver.tap("Shoot 0+00.0 invert")
    shoot(driver.job, 0, "1.08", "ground")
    shoot(driver.job, 0, "6.00")
    driver.page.refresh()
    driver.settle()

    assert driver.page.sheet.pad.story.sentences[0].startswith("Do not enter: 5.02 ft deep")
    driver.key("605")
    assert driver.page.part_name() == "anyway"
    assert len(driver.bodies(GRADE_SHOT)) == 2


def test_protection_of_an_earlier_day_is_judged_again(begin: Begin) -> None:
    """29 CFR 1926.651(k)(1): a competent person inspects daily before the start of work."""
    driver = begin(set_up_level, deep)
    driver.tap("Note protection")
    driver.tap("shored")
    driver.key("6")
    driver.tap("Ana")
    driver.clock.set_to("2026-05-12", 8 * 60)
    driver.page.refresh()
    driver.settle()

    assert driver.page.part.ahead.status == Status.CHECK
    assert driver.page.part.ahead.name == "Judge the trench"


def test_release_is_not_the_black_key_while_something_is_missing(begin: Begin) -> None:
    """What is missing is the largest filled key; releasing is filled once nothing is."""
    from crewapp.kit.look.palette import ButtonKind

    driver = begin(set_up_level, *(flat(station) for station in (0, 10)))
    driver.tap("Cover")
    part = driver.page.part
    assert part.keys["release"].kind == ButtonKind.PLAIN
    filled = [w for w in part.walk() if getattr(w, "kind", "") == ButtonKind.PRIMARY]
    assert filled == [part.mend]
    assert part.mend.text.startswith("bedding: not checked")
    assert part.mend.width > part.keys["release"].width

    driver.ui.tap(part.mend)
    driver.settle()
    driver.key("1")
    assert driver.page.part.mend.text.startswith("pipe: not checked")
    driver.tap("pipe")
    driver.tap("tracer wire")
    driver.tap("signal traced end to end")
    assert driver.page.view.cover.missing == ()
    assert driver.page.part.keys["release"].kind == ButtonKind.PRIMARY
    assert driver.page.part.mend.parent is None


def flat(station_ft: int) -> Any:
    """An invert on grade at a station: 95.00 ft and a hundredth a foot, under a plane at 101."""
    return lambda job: shoot(job, station_ft, f"{6.0 - station_ft / 100:.2f}")


def test_missing_shots_lead_to_the_rod(begin: Begin) -> None:
    """Where only shots lack, the black key is about them and leads to shooting."""
    driver = begin(set_up_level, *(flat(station) for station in (0, 30)))
    driver.tap("Cover")
    driver.tap("bedding")
    driver.key("1")
    driver.tap("pipe")
    driver.tap("tracer wire")
    driver.tap("signal traced end to end")

    assert driver.page.part.mend.text == "no invert shot 0+00.0 to 0+30.0"
    driver.ui.tap(driver.page.part.mend)
    driver.settle()
    assert driver.page.part_name() == "pipe"
