"""The check code of a day: the same for the same entries, another for any other."""

from __future__ import annotations

import hashlib
import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from models.entries.envelope import AnyEntry
from models.state.check_code import check_code, code_of, read_code
from models.state.job_state import JobState
from tests.models.checks.any_job import jobs
from tests.models.checks.written_job import FIRST_DAY, Written, written_entries

NOTES: list[Written] = [{"kind": "note", "fields": {"text": text}} for text in ("a", "b", "c")]
CLOSED: Written = {
    "kind": "day_closed",
    "fields": {"of_day": FIRST_DAY, "open_flags": 0, "check_code": ""},
}


def code(*written: Written) -> str:
    """Code of the first day after what was written."""
    return check_code(JobState(written_entries(written)), FIRST_DAY)


def test_code_is_a_hundred_bits_of_the_digest() -> None:
    """Worked out anew in another way: hash of hashes, five bits a letter."""
    entries = list(written_entries(NOTES))
    digest = hashlib.sha256(b"".join(hashlib.sha256(e.raw).digest() for e in entries)).digest()
    bits = "".join(f"{byte:08b}" for byte in digest)[:100]
    letters = [
        "0123456789ABCDEFGHJKMNPQRSTVWXYZ"[int(bits[i : i + 5], 2)] for i in range(0, 100, 5)
    ]

    assert code(*NOTES).replace("-", "") == "".join(letters)


@settings(max_examples=60, deadline=None)
@given(entries=jobs(), data=st.data())
def test_code_does_not_depend_on_arrival(entries: list[AnyEntry], data: st.DataObject) -> None:
    """However the entries of a day came in, its code is the same."""
    other = data.draw(st.permutations(entries))

    assert check_code(JobState(other), FIRST_DAY) == check_code(JobState(entries), FIRST_DAY)


def test_code_has_a_form_that_can_be_read_out() -> None:
    """Five groups of four, without letters that look like figures."""
    assert re.fullmatch(r"([0-9A-HJKMNP-TV-Z]{4}-){4}[0-9A-HJKMNP-TV-Z]{4}", code(*NOTES))


@pytest.mark.parametrize(
    "other",
    [
        NOTES[:2],
        [NOTES[1], NOTES[0], NOTES[2]],
        [*NOTES, {"kind": "struck", "fields": {"why": "slip"}, "strikes": ["e000001"]}],
        [*NOTES[:2], {**NOTES[2], "author": "somebody else"}],
    ],
)
def test_any_other_entries_have_another_code(other: list[Written]) -> None:
    """A missing, moved, struck or altered entry shows in the code."""
    assert code(*other) != code(*NOTES)


def test_acts_after_the_sheet_leave_the_code_alone() -> None:
    """Signing and closing come after the sheet is printed and don't change what it proves."""
    assert code(*NOTES, CLOSED) == code(*NOTES)


def test_other_days_leave_the_code_alone() -> None:
    """A day's code is that of its own entries."""
    assert code(*NOTES, {**NOTES[0], "day": "2026-05-05"}) == code(*NOTES)


def test_empty_day_has_a_code() -> None:
    """A day with nothing in it can be proven too."""
    assert check_code(JobState(), FIRST_DAY) == code_of([])


@pytest.mark.parametrize(
    "typed",
    ["a2kn-k6tg-2bc6-q9ng-xj82", "A2KNK6TG2BC6Q9NGXJ82", " A2KN K6TG 2BC6 Q9NG XJ82 "],
)
def test_code_is_read_however_typed(typed: str) -> None:
    """Small letters, other groups and blanks make no difference."""
    assert read_code(typed) == "A2KN-K6TG-2BC6-Q9NG-XJ82"


def test_letters_that_look_like_figures_are_read_as_figures() -> None:
    """O is 0, I and L are 1: those letters are in no code."""
    assert read_code("OIL0-oil1") == "0110-0111"
