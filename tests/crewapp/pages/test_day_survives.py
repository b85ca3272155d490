"""What was half done is there again after a kill."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from tests.crewapp.conftest import DAY
from tests.crewapp.pages.day_driver import cut_shallow, open_day

if TYPE_CHECKING:
    from tests.uidriver import UI


def test_half_filled_form_survives(ui: UI, tmp_path: Path) -> None:
    """Sky was answered; after a kill the ground is asked for."""
    driver = open_day(ui, tmp_path)
    driver.taps("Weather, ground", "rain")
    driver.close()
    driver = open_day(ui, tmp_path)
    driver.taps("soft", "Ink it")
    sky = driver.body("weather").sky
    driver.close()

    assert sky == "rain"


def test_half_typed_figure_survives(ui: UI, tmp_path: Path) -> None:
    """7. was typed; after a kill the pad is up with it."""
    driver = open_day(ui, tmp_path)
    driver.taps("Crew, machines", "Ana Invented, foreman", "Number pad")
    for key in ("7", "."):
        ui.tap(driver.page.sheet.pad.touches[key])
    driver.close()
    driver = open_day(ui, tmp_path)
    driver.key("5")
    minutes = driver.body("hours").run_min
    driver.close()

    assert minutes == 450


def test_running_delay_survives(ui: UI, tmp_path: Path) -> None:
    """A tablet that dies in the rain still knows when the rain began."""
    driver = open_day(ui, tmp_path)
    driver.taps("Delay", "rain")
    driver.close()
    driver = open_day(ui, tmp_path)
    driver.clock.pass_seconds(40 * 60)
    driver.tap("Work goes on now")
    lost = driver.body("delay").lost_min
    driver.close()

    assert lost == 40


def test_half_a_signature_survives(ui: UI, tmp_path: Path) -> None:
    """A stroke was drawn; after a kill it is there to be inked."""
    driver = open_day(ui, tmp_path)
    driver.taps("Sign", "a true record", "Ana Invented")
    driver.draw()
    driver.close()
    driver = open_day(ui, tmp_path)
    driver.tap("Ink the signature")
    strokes = driver.body("signature").strokes
    driver.close()

    assert len(strokes) == 1


def test_half_an_answer_survives(ui: UI, tmp_path: Path) -> None:
    """A reason was typed for a flag; after a kill it is there to be inked."""
    driver = open_day(ui, tmp_path)
    key = cut_shallow(driver)
    driver.on("flags", key=key)
    driver.taps("Rework", "doing it now")
    driver.close()
    driver = open_day(ui, tmp_path)
    driver.on("flags")
    driver.tap("Rework")
    answer = driver.body("disposition")
    driver.close()

    assert (answer.flag, answer.why) == (key, "doing it now")


def test_draft_of_another_book_does_no_harm(ui: UI, tmp_path: Path) -> None:
    """A day, an entry and a form that this book doesn't have: today's own parts are shown."""
    driver = open_day(ui, tmp_path)
    parts = []
    for part in ("form", "strike"):
        driver.page.keep_draft(day="1999-01-01", form="hours/person/Nobody", striking="gone")
        driver.page.keep_draft(part=part)
        driver.on("day")
        parts.append(driver.page.part_name())
    day = driver.page.view.day
    driver.close()

    assert (parts, day) == (["menu", "written"], DAY)
