"""Every flag is read and answered on the Flags screen, and never vanishes."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest

from crewapp.commands.entries import Correct, Strike
from crewapp.kit.look.palette import Status
from tests.crewapp.pages.day_hand import DayHand, cut_deep, cut_shallow, hands

if TYPE_CHECKING:
    from tests.uidriver import UI


@pytest.fixture
def hand(ui: UI, tmp_path: Path) -> Iterator[DayHand]:
    """A finger on the app, the Day screen in front."""
    yield from hands(ui, tmp_path)


def row_of(hand: DayHand, key: str) -> Any:
    """Return a flag's row as the list has it."""
    return next(row for row in hand.page.part.shown if row.key == key)


def test_worst_stands_first_with_shape_and_word(hand: DayHand) -> None:
    """What stops the work is first; weight is told by shape and word."""
    stop, fix = cut_shallow(hand), cut_deep(hand)
    hand.on("flags")

    assert hand.page.part.shown[0].key == stop
    assert row_of(hand, stop).status == Status.OUT
    assert row_of(hand, stop).detail.startswith("STOP work")
    assert row_of(hand, fix).status == Status.CHECK
    assert row_of(hand, fix).detail.startswith("FIX today")


def test_flag_is_read_in_full(hand: DayHand) -> None:
    """The finding, why it matters, what to do, the entries it rests on."""
    key = cut_shallow(hand)
    hand.on("flags", key=key)
    said = " ".join(hand.words())
    assert "Why:" in said
    assert "Do:" in said
    assert hand.page.told.card.row.said in said
    hand.tap("It rests on")

    assert any("depth ~7-7/8" in words for words in hand.words())


@pytest.mark.parametrize(
    ("word", "reason", "answer"),
    [
        ("Accept as is", "owner agreed", "accept"),
        ("Rework", "first thing tomorrow", "rework"),
        ("Waive", "plan was changed", "waive"),
    ],
)
def test_flag_is_answered(hand: DayHand, word: str, reason: str, answer: str) -> None:
    """Answer, reason, done, ink: by whom and why is in the book; the flag stays."""
    key = cut_shallow(hand)
    figures = hand.on("flags", key=key).page.told.card.figures
    hand.taps(word, reason, word)

    body = hand.body("disposition")
    assert (body.flag, body.figures) == (key, figures)
    assert (body.answer, body.why) == (answer, reason)
    assert row_of(hand, key).status == Status.OK
    assert key in {row.key for row in hand.page.told.answered}


def test_answered_flag_cannot_be_answered_twice(hand: DayHand) -> None:
    """It shows by whom and why, and has no keys to answer."""
    key = cut_shallow(hand)
    hand.on("flags", key=key).taps("Waive", "plan was changed", "Waive")
    hand.page.open_flag(key)
    hand.settle()

    assert any("waived by" in words and "plan was changed" in words for words in hand.words())
    assert "Accept as is" not in hand.words()


def test_lapsed_answer_is_shown(hand: DayHand) -> None:
    """New readings change the figures: it stands open again, with what was answered before."""
    key = cut_shallow(hand)
    hand.on("flags", key=key).taps("Accept as is", "owner agreed", "Accept as is")
    probe = hand.entries("probe")[0]
    fields = {"depth_nm": 150_000_000, "depth_typed": "5.9"}
    hand.do(Correct(entry_id=probe.id, reason="misread", fields=fields))
    hand.on("flags", key=key)
    lapsed = hand.page.told.card.lapsed

    assert "owner agreed" in lapsed
    assert any("Answered before" in words for words in hand.words())
    assert "Accept as is" in hand.words()


def test_flag_leads_to_where_the_work_is(hand: DayHand) -> None:
    """A shallow probe leads to its pass; something hit leads to the day."""
    key = cut_shallow(hand)
    hand.on("flags", key=key)

    assert hand.page.told.card.leads_to == "pass"
    assert dict(hand.page.told.card.arrive) == {"pass_id": "G7-01", "surface_id": "G7"}


def test_flag_that_cleared_meanwhile_is_told(hand: DayHand) -> None:
    """The probe is struck on another page: nothing is answered."""
    key = cut_shallow(hand)
    hand.on("flags", key=key).taps("Rework", "doing it now")
    form = hand.page.filling.form
    probe = hand.entries("probe")[0]
    hand.do(Strike(entry_id=probe.id, reason="misread"))
    hand.page.ink_form(form, form.command({"why": "doing it now"}))
    hand.settle()

    assert "has cleared" in hand.banner
    assert hand.entries("disposition") == []


def test_no_flags_says_so(hand: DayHand) -> None:
    """An empty list is told in words."""
    hand.on("flags")

    assert "Nothing stands open, nothing was answered." in hand.words()
