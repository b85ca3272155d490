"""How a finding is written out: days in words, nobody without a name, figures told apart."""

from __future__ import annotations

from typing import Any

import pytest

from models.checks.finding import Finding
from models.checks.finding_text import sentence
from models.units.job_units import figures_of

US = figures_of("us", "us_100ft")
METRIC = figures_of("metric", "metric_1000m")
MM = 1_000_000


def finding(check: str, **facts: Any) -> Finding:
    """A finding with facts alone."""
    return Finding(check, "x", facts=facts)


def test_depth_just_short_of_its_limit_does_not_look_equal_to_it() -> None:
    """219.7 mm of 220 mm: one more digit, for the depth and not for the limit."""
    shallow = finding(
        "depth_shallow",
        pass_id="G1-3",
        line_id="S07",
        along_nm=3_000 * MM,
        depth_nm=219_700_000,
        least_nm=220 * MM,
        design_nm=230 * MM,
    )

    assert sentence(shallow, METRIC).startswith(
        "Pass G1-3, line S07 at 3.00 m: 219.7 mm deep, at least 220 mm is wanted"
    )


@pytest.mark.parametrize(
    ("check", "facts"),
    [
        ("clock_moved_back", {"author": "", "at": "?", "after": "?"}),
        ("entry_in_the_future", {"author": "", "at": "?", "count": 2}),
        ("struck_twice", {"author": "", "other": "", "kind": "probe", "count": 2}),
    ],
)
def test_entry_without_an_author_is_by_a_person_not_named(check: str, facts: Any) -> None:
    """No sentence has a hole where the name would be."""
    said = sentence(finding(check, **facts), US)

    assert "by a person not named" in said
    assert "  " not in said


def test_days_are_said_in_words_with_their_time() -> None:
    """A person reads a weekday; a machine may ask for the date as it was kept."""
    moved = finding(
        "clock_moved_back", author="Ana", at="2026-05-12 10:00", after="2026-05-12 10:03"
    )

    assert sentence(moved, US) == (
        "An entry by Ana is dated Tue May 12, 2026 10:00, though the same tablet wrote at "
        "Tue May 12, 2026 10:03 before it."
    )
    assert "dated Tue 12 May 2026 10:00," in sentence(moved, METRIC)
    assert "dated 2026-05-12 10:00," in sentence(moved, US, shown_day=str)


def test_word_that_looks_like_a_day_stays_a_word() -> None:
    """A ticket named like a date is a name."""
    late = finding(
        "locate_ticket_about_to_expire",
        ticket="2026-05-12",
        expires_on="2026-05-20",
        day="2026-05-18",
    )

    assert sentence(late, US) == (
        "Locate ticket 2026-05-12 ends on Wed May 20, 2026, and ground was opened on "
        "Mon May 18, 2026."
    )
