"""Actions of the day: hours, weather, answers, signing, closing, reopening."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from crewapp.handlers.day import (
    DayHasStopsError,
    NotClosedError,
    SignatureEmptyError,
    answer_flag,
    close_day,
    log_delay,
    log_hours,
    log_note,
    log_photo,
    log_utility,
    log_weather,
    plan_tomorrow,
    reopen_day,
    sign_day,
)
from crewapp.handlers.passes import log_pass, log_probe
from crewapp.job.open_job import Changed, OpenJob
from crewapp.tablet.clock import SetClock
from models.checks.flag_board import Flag
from models.entries.bodies.day import DayClosed, Disposition, Signature
from models.entries.envelope import EntryRefusedError
from models.state.check_code import check_code
from models.state.indexes import SIGNED

DAY = "2026-05-11"
STROKES = (((0, 0), (500, 200)), ((500, 0), (0, 200)))
FT = 304_800_000


def cut_shallow(job: OpenJob) -> Flag:
    """Cut a line too shallow and return the flag of it."""
    log_pass(job, surface_id="G7", line_ids=("S01",), length_nm=30 * FT, length_typed="30")
    log_probe(
        job, pass_id="G7-01", line_id="S01", along_nm=FT, depth_nm=200_000_000, depth_typed="7.9"
    )
    return next(f for f in job.board.open_flags() if f.finding.check == "depth_shallow")


@pytest.mark.parametrize(
    ("kind", "act", "fields"),
    [
        ("hours", log_hours, {"of": "person", "who": "Ana", "run_min": 480, "idle_min": 10}),
        ("weather", log_weather, {"sky": "rain", "ground": "wet", "rain_nm": 9}),
        ("delay", log_delay, {"cause": "rain", "lost_min": 30, "start_min": 400}),
        ("utility", log_utility, {"event": "found", "what": "wire", "where": "at S03"}),
        ("note", log_note, {"text": "gate locked", "needs_owner": True}),
        ("photo", log_photo, {"sha256": "ab" * 32, "suffix": "png", "caption": "looking east"}),
        ("tomorrow", plan_tomorrow, {"work": "piped slits", "sand_ug": 5}),
    ],
)
def test_day_entry_holds_what_was_given(
    job: OpenJob, kind: str, act: Callable[..., Changed], fields: dict[str, Any]
) -> None:
    """Each action of the day writes one entry of its kind with its fields."""
    entry = act(job, **fields).entries[0]

    assert entry.kind == kind
    assert {name: getattr(entry.body, name) for name in fields} == fields


@pytest.mark.parametrize(
    ("act", "fields", "says"),
    [
        (log_hours, {"of": "dog", "who": "Rex", "run_min": 1}, "of of this hours"),
        (log_hours, {"of": "person", "who": "Ana", "run_min": -1}, "run_min"),
        (log_hours, {"of": "person", "who": "Ana", "run_min": 30, "idle_min": -1}, "idle_min"),
        (log_weather, {"sky": "green", "ground": "dry"}, "sky"),
        (log_delay, {"cause": "", "lost_min": 5}, "cause"),
        (log_utility, {"event": "lost", "what": "x", "where": "y"}, "event"),
        (log_note, {"text": ""}, "text"),
        (log_note, {"text": "x" * 4001}, "text"),
        (log_photo, {"sha256": "../etc"}, "sha256"),
        (plan_tomorrow, {"sand_ug": -4}, "sand_ug"),
    ],
)
def test_day_entry_refuses_what_does_not_fit(
    job: OpenJob, act: Callable[..., Changed], fields: dict[str, Any], says: str
) -> None:
    """A field that doesn't fit is named in the sentence, and nothing is written."""
    before = job.book.count()
    with pytest.raises(EntryRefusedError, match=says):
        act(job, **fields)

    assert job.book.count() == before


def test_answered_flag_shows_as_answered(job: OpenJob) -> None:
    """An answer says who decided what and why, and the flag stays on the list."""
    flag = cut_shallow(job)

    answer_flag(job, flag, answer="rework", why="cut again tomorrow")

    shown = next(one for one in job.board.flags() if one.finding.key == flag.finding.key)
    assert shown.answer is not None
    body = shown.answer.body
    assert isinstance(body, Disposition)
    assert body.said.startswith("Pass G7-01, line S01")


def test_answer_needs_a_reason(job: OpenJob) -> None:
    """A flag is not answered without saying why."""
    with pytest.raises(EntryRefusedError, match="why of this disposition"):
        answer_flag(job, cut_shallow(job), answer="waive", why="")


def test_day_with_a_stop_does_not_close(job: OpenJob) -> None:
    """A flag that stops the work must be answered before the day closes over it."""
    flag = cut_shallow(job)
    with pytest.raises(DayHasStopsError, match=r"1 flag.* first: Pass G7-01"):
        close_day(job, DAY)

    answer_flag(job, flag, answer="accept", why="owner agreed on site")
    close_day(job, DAY)
    assert job.state.is_closed(DAY)


def test_closed_day_keeps_code_and_flags(job: OpenJob) -> None:
    """Closing says how many flags stood open and over which entries it closes."""
    log_note(job, text="quiet day")
    code = check_code(job.state, DAY)

    body = close_day(job, DAY).entries[0].body

    assert isinstance(body, DayClosed)
    assert (body.of_day, body.check_code) == (DAY, code)


def test_signature_is_kept_as_drawn(job: OpenJob, clock: SetClock) -> None:
    """A signature belongs to the day it is for, with its strokes and the code it saw."""
    log_note(job, text="quiet day")
    clock.put("2026-05-12", 420)

    entry = sign_day(
        job, day=DAY, role="foreman", name="Ana", meaning="true_record", strokes=STROKES
    ).entries[0]

    assert isinstance(entry.body, Signature)
    assert (entry.day, entry.body.strokes) == (DAY, STROKES)
    assert entry.body.check_code == check_code(job.state, DAY)


@pytest.mark.parametrize("strokes", [(), ((),), ((), ())])
def test_empty_signature_is_refused(job: OpenJob, strokes: Any) -> None:
    """An empty box is no signature."""
    with pytest.raises(SignatureEmptyError, match="signature box of Ana is empty"):
        sign_day(job, day=DAY, role="owner", name="Ana", meaning="received", strokes=strokes)


def test_closed_day_can_still_be_signed(job: OpenJob) -> None:
    """The owner may sign after the day is closed."""
    log_note(job, text="quiet day")
    close_day(job, DAY)

    sign_day(job, day=DAY, role="owner", name="Ilse", meaning="received", strokes=STROKES)

    assert [body.role for body in job.state.bodies(SIGNED, DAY)] == ["owner"]


def test_day_is_reopened_and_closed_again(job: OpenJob) -> None:
    """A reopened day takes entries, and closing it again closes over them."""
    log_note(job, text="quiet day")
    first = close_day(job, DAY).entries[0].body
    reopen_day(job, DAY, "the rain was forgotten")
    assert not job.state.is_closed(DAY)
    log_delay(job, cause="rain", lost_min=20)

    second = close_day(job, DAY).entries[0].body

    assert isinstance(first, DayClosed)
    assert isinstance(second, DayClosed)
    assert first.check_code != second.check_code
    assert job.state.is_closed(DAY)


def test_open_day_is_not_reopened(job: OpenJob) -> None:
    """Only a closed day can be reopened, and only with a reason."""
    with pytest.raises(NotClosedError, match="Mon May 11, 2026 was not reopened"):
        reopen_day(job, DAY, "why not")
    close_day(job, DAY)
    with pytest.raises(EntryRefusedError, match="why of this day reopened"):
        reopen_day(job, DAY, "")
