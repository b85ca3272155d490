"""What was half done is there again after a kill."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from tests.crewapp.conftest import DAY
from tests.crewapp.pages.day_hand import cut_shallow, open_day

if TYPE_CHECKING:
    from tests.uidriver import UI


def test_half_filled_form_survives(ui: UI, tmp_path: Path) -> None:
    """Sky was answered; after a kill the ground is asked for."""
    hand = open_day(ui, tmp_path)
    hand.taps("Weather, ground", "rain")
    hand.close()
    hand = open_day(ui, tmp_path)
    hand.taps("soft", "Ink it")
    sky = hand.body("weather").sky
    hand.close()

    assert sky == "rain"


def test_half_typed_figure_survives(ui: UI, tmp_path: Path) -> None:
    """7. was typed; after a kill the pad is up with it."""
    hand = open_day(ui, tmp_path)
    hand.taps("Crew, machines", "Ana Invented, foreman", "Number pad")
    for key in ("7", "."):
        ui.tap(hand.page.sheet.pad.touches[key])
    hand.close()
    hand = open_day(ui, tmp_path)
    hand.key("5")
    minutes = hand.body("hours").run_min
    hand.close()

    assert minutes == 450


def test_running_delay_survives(ui: UI, tmp_path: Path) -> None:
    """A tablet that dies in the rain still knows when the rain began."""
    hand = open_day(ui, tmp_path)
    hand.taps("Delay", "rain")
    hand.close()
    hand = open_day(ui, tmp_path)
    hand.clock.pass_seconds(40 * 60)
    hand.tap("Work goes on now")
    lost = hand.body("delay").lost_min
    hand.close()

    assert lost == 40


def test_half_a_signature_survives(ui: UI, tmp_path: Path) -> None:
    """A stroke was drawn; after a kill it is there to be inked."""
    hand = open_day(ui, tmp_path)
    hand.taps("Sign", "a true record", "Ana Invented")
    hand.draw()
    hand.close()
    hand = open_day(ui, tmp_path)
    hand.tap("Ink the signature")
    strokes = hand.body("signature").strokes
    hand.close()

    assert len(strokes) == 1


def test_half_an_answer_survives(ui: UI, tmp_path: Path) -> None:
    """A reason was typed for a flag; after a kill it is there to be inked."""
    hand = open_day(ui, tmp_path)
    key = cut_shallow(hand)
    hand.on("flags", key=key)
    hand.taps("Rework", "doing it now")
    hand.close()
    hand = open_day(ui, tmp_path)
    hand.on("flags")
    hand.tap("Rework")
    answer = hand.body("disposition")
    hand.close()

    assert (answer.flag, answer.why) == (key, "doing it now")


def test_draft_of_another_book_does_no_harm(ui: UI, tmp_path: Path) -> None:
    """A day, an entry and a form that this book doesn't have: today's own parts are shown."""
    hand = open_day(ui, tmp_path)
    parts = []
    for part in ("form", "strike"):
        hand.page.keep_draft(day="1999-01-01", form="hours/person/Nobody", striking="gone")
        hand.page.keep_draft(part=part)
        hand.on("day")
        parts.append(hand.page.part_name())
    day = hand.page.told.day
    hand.close()

    assert (parts, day) == (["menu", "written"], DAY)
