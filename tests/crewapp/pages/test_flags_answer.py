"""Every flag is read and answered on the Flags screen, and never vanishes."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest

from crewapp.commands.entries import Correct, Strike
from crewapp.kit.look.palette import Status
from tests.crewapp.pages.day_driver import DayDriver, cut_deep, cut_shallow, hands

if TYPE_CHECKING:
    from tests.uidriver import UI


@pytest.fixture
def driver(ui: UI, tmp_path: Path) -> Iterator[DayDriver]:
    """A finger on the app, the Day screen in front."""
    yield from hands(ui, tmp_path)


def row_of(driver: DayDriver, key: str) -> Any:
    """Return a flag's row as the list has it."""
    return next(row for row in driver.page.part.shown if row.key == key)


def test_worst_stands_first_with_shape_and_word(driver: DayDriver) -> None:
    """What stops the work is first; weight is told by shape and word."""
    stop, fix = cut_shallow(driver), cut_deep(driver)
    driver.on("flags")

    assert driver.page.part.shown[0].key == stop
    assert row_of(driver, stop).status == Status.OUT
    assert row_of(driver, stop).detail.startswith("STOP work")
    assert row_of(driver, fix).status == Status.CHECK
    assert row_of(driver, fix).detail.startswith("FIX today")


def test_flag_is_read_in_full(driver: DayDriver) -> None:
    """The finding, why it matters, what to do, the entries it rests on."""
    key = cut_shallow(driver)
    driver.on("flags", key=key)
    said = " ".join(driver.words())
    assert "Why:" in said
    assert "Do:" in said
    assert driver.page.view.card.row.said in said
    driver.tap("It rests on")

    assert any("depth ~7-7/8" in words for words in driver.words())


@pytest.mark.parametrize(
    ("word", "reason", "answer"),
    [
        ("Accept as is", "owner agreed", "accept"),
        ("Rework", "first thing tomorrow", "rework"),
        ("Waive", "plan was changed", "waive"),
    ],
)
def test_flag_is_answered(driver: DayDriver, word: str, reason: str, answer: str) -> None:
    """Answer, reason, done, ink: by whom and why is in the book; the flag stays."""
    key = cut_shallow(driver)
    figures = driver.on("flags", key=key).page.view.card.figures
    driver.taps(word, reason, word)

    body = driver.body("disposition")
    assert (body.flag, body.figures) == (key, figures)
    assert (body.answer, body.why) == (answer, reason)
    assert row_of(driver, key).status == Status.OK
    assert key in {row.key for row in driver.page.view.answered}


def test_answered_flag_cannot_be_answered_twice(driver: DayDriver) -> None:
    """It shows by whom and why, and has no keys to answer."""
    key = cut_shallow(driver)
    driver.on("flags", key=key).taps("Waive", "plan was changed", "Waive")
    driver.page.open_flag(key)
    driver.settle()

    assert any("waived by" in words and "plan was changed" in words for words in driver.words())
    assert "Accept as is" not in driver.words()


def test_lapsed_answer_is_shown(driver: DayDriver) -> None:
    """New readings change the figures: it stands open again, with what was answered before."""
    key = cut_shallow(driver)
    driver.on("flags", key=key).taps("Accept as is", "owner agreed", "Accept as is")
    probe = driver.entries("probe")[0]
    fields = {"depth_nm": 150_000_000, "depth_typed": "5.9"}
    driver.do(Correct(entry_id=probe.id, reason="misread", fields=fields))
    driver.on("flags", key=key)
    lapsed = driver.page.view.card.lapsed

    assert "owner agreed" in lapsed
    assert any("Answered before" in words for words in driver.words())
    assert "Accept as is" in driver.words()


def test_flag_leads_to_where_the_work_is(driver: DayDriver) -> None:
    """A shallow probe leads to its pass; something hit leads to the day."""
    key = cut_shallow(driver)
    driver.on("flags", key=key)

    assert driver.page.view.card.leads_to == "pass"
    assert dict(driver.page.view.card.arrive) == {"pass_id": "G7-01", "surface_id": "G7"}


def test_flag_that_cleared_meanwhile_is_told(driver: DayDriver) -> None:
    """The probe is struck on another page: nothing is answered."""
    key = cut_shallow(driver)
    driver.on("flags", key=key).taps("Rework", "doing it now")
    form = driver.page.filling.form
    probe = driver.entries("probe")[0]
    driver.do(Strike(entry_id=probe.id, reason="misread"))
    driver.page.ink_form(form, form.command({"why": "doing it now"}))
    driver.settle()

    assert "has cleared" in driver.banner
    assert driver.entries("disposition") == []


def test_no_flags_says_so(driver: DayDriver) -> None:
    """An empty list is told in words."""
    driver.on("flags")

    assert "Nothing stands open, nothing was answered." in driver.words()
