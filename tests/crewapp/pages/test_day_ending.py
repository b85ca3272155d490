"""Striking, signing, closing by a hold, reopening with a reason, handing over."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from crewapp.commands.day import CloseDay, LogDelay, LogWeather
from crewapp.commands.flags import AnswerFlag
from crewapp.kit.input.list_rows import shorten
from tests.crewapp.conftest import DAY
from tests.crewapp.pages.day_driver import DayDriver, cut_deep, cut_shallow, hands, hit_stop

if TYPE_CHECKING:
    from tests.uidriver import UI


@pytest.fixture
def driver(ui: UI, tmp_path: Path) -> Iterator[DayDriver]:
    """A finger on the Day screen."""
    yield from hands(ui, tmp_path)


def test_entry_is_struck_with_a_reason(driver: DayDriver) -> None:
    """A struck entry stays in the list, crossed out, with its reason."""
    driver.do(LogDelay(cause="rain", lost_min=30))
    driver.taps("Written", "30 min lost: rain", "not so", "Strike it")

    assert driver.entries("delay") == []
    row = next(row for row in driver.page.view.written if row.kind == "delay")
    assert row.is_struck
    assert "not so" in row.detail


def test_hours_are_corrected(driver: DayDriver) -> None:
    """Who has hours already is struck or asked anew; the old figure stays readable."""
    driver.taps("Crew, machines", "Ben Madeup, laser and pipe", "8 h")
    driver.taps("Ben Madeup, laser and pipe", "wrong amount", "Correct it", "9 h")

    entry = driver.entries("hours")[0]
    assert entry.body.run_min == 540
    assert (len(entry.strikes), entry.reason) == (1, "wrong amount")


def test_delay_is_corrected_without_running(driver: DayDriver) -> None:
    """A delay put right is asked for anew; it does not start to run."""
    driver.do(LogDelay(cause="rain", lost_min=30))
    driver.taps("Written", "30 min lost: rain", "wrong amount", "Correct it", "breakdown", "1 h")

    assert [(e.body.cause, e.body.lost_min) for e in driver.entries("delay")] == [("breakdown", 60)]


def test_foreman_signs_the_record(driver: DayDriver) -> None:
    """Sign, foreman, name, a stroke, ink."""
    driver.taps("Sign", "a true record", "Ana Invented")
    driver.draw()
    driver.tap("Ink the signature")

    signature = driver.body("signature")
    assert (signature.role, signature.name) == ("foreman", "Ana Invented")
    assert (signature.meaning, signature.of_day) == ("true_record", DAY)
    assert len(signature.strokes) == 1
    assert len(signature.strokes[0]) >= 2


def test_owner_receives_without_agreeing(driver: DayDriver) -> None:
    """Received is not agreed; the owner's name is one tap."""
    driver.taps("Sign", "received", "Olga Invented")
    driver.draw()
    driver.tap("Ink the signature")

    assert driver.body("signature").meaning == "received"


def test_empty_signature_is_not_inked(driver: DayDriver) -> None:
    """Without a stroke the key does nothing."""
    driver.taps("Sign", "agreed", "Olga Invented", "Ink the signature")

    assert driver.entries("signature") == []


def test_day_is_closed_by_a_hold(driver: DayDriver) -> None:
    """Within ten taps: the list is seen first, a mere tap does nothing."""
    driver.tap("Close the day")
    assert "No hours of anybody yet" in driver.words()
    driver.tap("Hold to close the day")
    assert driver.entries("day_closed") == []
    driver.hold("Hold to close the day")

    assert driver.body("day_closed").of_day == DAY
    assert driver.job.state.is_closed(DAY)


def test_closed_day_says_what_it_was_closed_without(driver: DayDriver) -> None:
    """What was missing when the day was closed is not said to be there afterwards."""
    driver.tap("Close the day")
    missing = [row["title"] for row in driver.page.part.rows.view.data]
    driver.hold("Hold to close the day")
    said = driver.page.part.rows.empty.text

    assert missing
    assert said.startswith("Closed as it stood: ")
    assert all(title in said for title in missing if title)


def test_tab_of_the_page_in_front_goes_a_step_back(driver: DayDriver) -> None:
    """Who taps Day within a part of Day comes to its menu."""
    driver.tap("Close the day")
    assert driver.page.part_name() == "close"
    driver.shell.tabs.dispatch("on_pick", "day")
    driver.settle()

    assert driver.page.part_name() == "menu"
    driver.shell.tabs.dispatch("on_pick", "day")
    assert (driver.shell.front, driver.page.part_name()) == ("day", "menu")


def test_flag_that_stops_keeps_the_day_open(driver: DayDriver) -> None:
    """The key is dead and says why; a tap on the flag leads to it."""
    key = hit_stop(driver)
    driver.tap("Close the day")
    assert driver.page.part.close.disabled
    driver.hold("Hold to close the day")
    assert driver.entries("day_closed") == []
    assert any("that stop the work: 1" in words for words in driver.words())
    row = next(row for row in driver.page.view.open_flags if row.key == key)
    driver.tap(shorten(row.title, 56))

    assert (driver.shell.front, driver.page.draft["key"]) == ("flags", key)


def test_open_flags_are_counted_in_the_closing(driver: DayDriver) -> None:
    """A flag that does not stop the work stays open on the sheet."""
    key = cut_shallow(driver)
    cut_deep(driver)
    figures = next(f.finding.figures for f in driver.job.board.flags() if f.finding.key == key)
    driver.do(AnswerFlag(key=key, figures=figures, answer="rework", why="doing it"))
    left = len(driver.job.board.open_flags())
    driver.tap("Close the day")
    driver.hold("Hold to close the day")

    assert driver.body("day_closed").open_flags == left
    assert left > 0


def test_closed_day_is_reopened_with_a_reason(driver: DayDriver) -> None:
    """No reason, no reopening."""
    driver.do(CloseDay(day=DAY))
    driver.on("day")
    driver.taps("Closed: hand over", "Reopen the day", "ticket came late", "Reopen the day")

    assert driver.body("day_reopened").why == "ticket came late"
    assert not driver.job.state.is_closed(DAY)


def test_sheet_is_handed_over(driver: DayDriver) -> None:
    """A hold writes the three files and says where they are."""
    driver.do(CloseDay(day=DAY))
    driver.on("day")
    driver.tap("Closed: hand over")
    driver.hold("Hold to hand over")
    for _ in range(4):
        driver.settle()

    folder = Path(driver.shell.tablet.folder) / "sheets"
    assert sorted(path.suffix for path in folder.iterdir()) == [".csv", ".pdf", ".xlsx"]
    assert "3 files in" in driver.page.part.told.text


def test_sheet_can_be_read_and_made(driver: DayDriver) -> None:
    """Its facts stand on the screen in the order of its bands; the files are one tap."""
    driver.do(LogWeather(sky="rain", ground="wet"))
    driver.tap("Day sheet")
    bands = [row.key.partition(":")[0] for row in driver.page.view.sheet]
    assert bands == sorted(
        bands,
        key=[
            "standing",
            "needs",
            "figures",
            "quantities",
            "quality",
            "flags",
            "crew",
            "rest",
            "signed",
        ].index,
    )
    driver.tap("Make the files")
    driver.settle()

    assert any("3 files in" in words for words in driver.words())


def test_sheet_that_cannot_be_written_is_told(driver: DayDriver) -> None:
    """A file stands where the folder should be: a sentence, and the key works again."""
    (Path(driver.shell.tablet.folder) / "sheets").write_text("in the way")
    driver.tap("Day sheet")
    driver.tap("Make the files")
    driver.settle()

    assert "was not written" in driver.banner
    assert not driver.page.part.maker.is_busy


def test_day_forgotten_is_closed_later(driver: DayDriver) -> None:
    """Yesterday is found among the days; only what may still be done there is shown."""
    driver.do(LogDelay(cause="rain", lost_min=30))
    driver.clock.pass_seconds(24 * 3600)
    driver.on("day")
    driver.taps("Written", "Other days", "Mon May 11, 2026")
    assert "Delay" not in driver.words()
    driver.tap("Close the day")
    driver.hold("Hold to close the day")

    assert driver.job.state.is_closed(DAY)
