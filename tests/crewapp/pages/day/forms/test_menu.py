"""The keys of a day: all of them today, only its ending when it is past or closed."""

from __future__ import annotations

from dataclasses import replace

import pytest

from crewapp.kit.input.list_rows import DayRow
from crewapp.kit.look.palette import Status
from crewapp.pages.day.forms.menu import day_words, menu_keys
from crewapp.pages.day.view import DayView, Worker
from crewapp.pages.flags.view import FlagRow

FACE = DayView(
    has_job=True,
    day="2026-05-11",
    today="2026-05-11",
    workers=(Worker("person", "Ana", "Ana", "8 h", "x"), Worker("person", "Ben", "Ben")),
    counts={"delay": 2},
)
ENDING = ["written", "sheet", "sign", "close"]


def leads(view: DayView) -> list[str]:
    """Return where the keys lead."""
    return [key.leads_to for key in menu_keys(view)]


def test_today_has_every_key_once() -> None:
    """What is logged comes first, the ending last."""
    found = leads(FACE)

    assert found[-4:] == ENDING
    assert len(found) == len(set(found)) == 12


def test_other_day_has_only_its_ending() -> None:
    """Nothing can be logged for a day that is past or closed; a closed one goes into a file."""
    assert leads(replace(FACE, day="2026-05-10")) == [*ENDING, "days"]
    assert leads(replace(FACE, is_closed=True)) == [*ENDING, "one_file", "days"]


def test_keys_say_what_stands() -> None:
    """Counts, hours, and a delay that runs."""
    notes = {key.leads_to: key.note for key in menu_keys(FACE, "runs 20 min")}

    assert (notes["delay"], notes["hours"], notes["note"]) == ("runs 20 min", "1 of 2", "none")
    assert {key.leads_to: key.note for key in menu_keys(FACE)}["delay"] == "2"


def test_day_is_named_with_what_it_is() -> None:
    """Today is just its date; a past or closed one says so."""
    assert day_words(FACE) == "Mon May 11, 2026"
    assert day_words(replace(FACE, is_closed=True)) == "Mon May 11, 2026, closed"
    assert day_words(replace(FACE, day="2026-05-10")) == "Sun May 10, 2026 (past)"


@pytest.mark.parametrize(
    ("severity", "word", "status"),
    [
        ("stop", "STOP work", Status.OUT),
        ("fix", "FIX today", Status.CHECK),
        ("note", "NOTE", Status.NOT_MEASURED),
    ],
)
def test_flag_is_told_by_shape_and_word(severity: str, word: str, status: Status) -> None:
    """No two weights share a shape or a word."""
    row = FlagRow("k", severity, "Too shallow.", "2026-05-11").to_row()

    assert row == DayRow("k", "Too shallow.", f"{word}  2026-05-11", "", status)


def test_answered_flag_shows_its_answer() -> None:
    """It stays in the list, told apart by its shape and by whom."""
    row = FlagRow("k", "stop", "Too shallow.", "2026-05-11", answer="waived by Ana").to_row()

    assert (row.detail, row.status) == ("waived by Ana", Status.OK)


def test_lapsed_answer_is_told() -> None:
    """A flag whose figures changed since its answer says so in its row."""
    row = FlagRow("k", "stop", "Too shallow.", "2026-05-11", lapsed="waived by Ana").to_row()

    assert row.detail == "STOP work  2026-05-11, answer lapsed"
    assert row.status == Status.OUT
