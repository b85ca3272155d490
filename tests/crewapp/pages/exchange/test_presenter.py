"""What stands between this tablet and the others, in the words of a crew."""

from __future__ import annotations

from pathlib import Path

import pytest

from crewapp.pages.exchange.presenter import entry_senders, handover_files
from crewapp.pages.exchange.rejected_presenter import OTHER, WHYS, rejected_rows
from crewapp.pages.exchange.unsent_presenter import past_time_text
from crewapp.pages.exchange.view import STEPS, share_done
from models.entries.tablet_code import code_of
from sync.exchange.errors import (
    ClashError,
    EarlierJobError,
    ForkGapError,
    GapError,
    RevokedTabletError,
    TooManyPendingError,
    UnknownTabletError,
)
from sync.exchange.exchange_log import RejectedSegment
from sync.exchange.progress import STEPS as STEP_NAMES
from sync.stores.errors import NotInStoreError

STREAM = "3d5c0e1f" * 4
JARGON = ("segment", "stream", "hash", "chain", "ledger", "blob")


def aside(first: int, last: int, code: str) -> RejectedSegment:
    """One set aside as the exchange notes it."""
    return RejectedSegment(f"{STREAM}-{first}-{last}-{'0' * 64}.seg", code, "told by the exchange")


def test_entries_of_one_tablet_and_reason_are_one_row() -> None:
    """Their numbers are put together; a name goes before a code."""
    told = [aside(1, 3, "exchange.gap"), aside(4, 9, "exchange.gap"), aside(1, 2, "segment.forged")]
    rows = rejected_rows(told, {code_of(STREAM): "second crew"})

    assert [row.title for row in rows] == [
        "second crew: entries 1 to 9",
        "second crew: entries 1 to 2",
    ]
    assert [(row.is_waiting, row.is_gap) for row in rows] == [(True, True), (False, False)]


@pytest.mark.parametrize("code", [*WHYS, "segment.entry"])
def test_reasons_speak_as_a_crew_does(code: str) -> None:
    """Each reason is a sentence without a word of the machine."""
    (row,) = rejected_rows([aside(1, 3, code)], {})

    assert row.why == WHYS.get(code, OTHER)
    assert row.title.startswith(code_of(STREAM))
    assert not [word for word in JARGON if word in row.why.lower()]


def test_what_the_job_or_the_store_keeps_out_is_not_called_malformed() -> None:
    """Each reason outside of the segment itself has words of its own."""
    kept_out = {
        *(one.code for one in (UnknownTabletError, RevokedTabletError, GapError, ForkGapError)),
        *(one.code for one in (ClashError, EarlierJobError, TooManyPendingError, NotInStoreError)),
    }

    assert kept_out <= set(WHYS)


@pytest.mark.parametrize(
    ("hours_ago", "words"),
    [(1, "today 09:00"), (17, "yesterday 17:00"), (24 * 3 + 1, "Fri May 8, 2026 09:00")],
)
def test_time_of_the_last_exchange_is_said_as_a_crew_does(hours_ago: int, words: str) -> None:
    """By the job's own clock: ten in the morning of Monday 11 May 2026, five hours behind UTC."""
    now_ms = 1_778_511_600_000  # 2026-05-11 15:00 UTC, from the calendar

    assert past_time_text(now_ms - hours_ago * 3_600_000, -300, "2026-05-11") == words
    assert past_time_text(0, -300, "2026-05-11") == ""


def test_who_brought_most_is_named_first() -> None:
    """By name, or by code where nobody gave one; who brought nothing is not named."""
    other = "77" * 16
    told = entry_senders({STREAM: 4}, {STREAM: 5, other: 9}, {code_of(STREAM): "second crew"})

    assert told == [code_of(other), "second crew"]


def test_only_handed_over_files_are_listed(tmp_path: Path) -> None:
    """By the ending of the name; a folder is none."""
    (tmp_path / "b.crew").touch()
    (tmp_path / "plan.json").touch()
    (tmp_path / "a.crew").mkdir()

    assert handover_files(tmp_path) == ("b.crew",)


def test_share_done_never_goes_back() -> None:
    """Over all the steps of an exchange in their order."""
    shares = [share_done(step, done, 4) for step in STEP_NAMES for done in range(5)]

    assert tuple(STEPS) == STEP_NAMES
    assert shares == sorted(shares)
    assert shares[-1] == 1.0
