"""Actions of the day: hours, weather, answers, signing, closing, reopening."""

from __future__ import annotations

from typing import Any

import pytest

from crewapp.commands.command import Command
from crewapp.commands.day import (
    CloseDay,
    LogDelay,
    LogHours,
    LogNote,
    LogPhoto,
    LogUtility,
    LogWeather,
    PlanTomorrow,
    ReopenDay,
    SignDay,
)
from crewapp.commands.passes import LogPass, LogProbe
from crewapp.handlers.day import (
    DayHasStopsError,
    NotClosedError,
    SignatureEmptyError,
)
from crewapp.handlers.flags import answer_to
from crewapp.job.dispatch import do
from crewapp.job.open_job import OpenJob
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
    do(job, LogPass(surface_id="G7", line_ids=("S01",), length_nm=30 * FT, length_typed="30"))
    do(
        job,
        LogProbe(
            pass_id="G7-01", line_id="S01", along_nm=FT, depth_nm=200_000_000, depth_typed="7.9"
        ),
    )
    return next(f for f in job.board.open_flags() if f.finding.check == "depth_shallow")


@pytest.mark.parametrize(
    ("kind", "act", "fields"),
    [
        ("hours", LogHours, {"of": "person", "who": "Ana", "run_min": 480, "idle_min": 10}),
        ("weather", LogWeather, {"sky": "rain", "ground": "wet", "rain_nm": 9}),
        ("delay", LogDelay, {"cause": "rain", "lost_min": 30, "start_min": 400}),
        ("utility", LogUtility, {"event": "found", "what": "wire", "where": "at S03"}),
        ("note", LogNote, {"text": "gate locked", "needs_owner": True}),
        ("photo", LogPhoto, {"sha256": "ab" * 32, "suffix": "png", "caption": "looking east"}),
        ("tomorrow", PlanTomorrow, {"work": "piped slits", "sand_ug": 5}),
    ],
)
def test_day_entry_holds_what_was_given(
    job: OpenJob, kind: str, act: type[Command], fields: dict[str, Any]
) -> None:
    """Each action of the day writes one entry of its kind with its fields."""
    entry = do(job, act(**fields)).entries[0]

    assert entry.kind == kind
    assert {name: getattr(entry.body, name) for name in fields} == fields


@pytest.mark.parametrize(
    ("act", "fields", "says"),
    [
        (LogHours, {"of": "dog", "who": "Rex", "run_min": 1}, "of of this hours"),
        (LogHours, {"of": "person", "who": "Ana", "run_min": -1}, "run_min"),
        (LogHours, {"of": "person", "who": "Ana", "run_min": 30, "idle_min": -1}, "idle_min"),
        (LogWeather, {"sky": "green", "ground": "dry"}, "sky"),
        (LogDelay, {"cause": "", "lost_min": 5}, "cause"),
        (LogUtility, {"event": "lost", "what": "x", "where": "y"}, "event"),
        (LogNote, {"text": ""}, "text"),
        (LogNote, {"text": "x" * 4001}, "text"),
        (LogPhoto, {"sha256": "../etc"}, "sha256"),
        (PlanTomorrow, {"sand_ug": -4}, "sand_ug"),
    ],
)
def test_day_entry_refuses_what_does_not_fit(
    job: OpenJob, act: type[Command], fields: dict[str, Any], says: str
) -> None:
    """A field that doesn't fit is named in the sentence, and nothing is written."""
    before = job.book.count()
    with pytest.raises(EntryRefusedError, match=says):
        do(job, act(**fields))

    assert job.book.count() == before


def test_answered_flag_shows_as_answered(job: OpenJob) -> None:
    """An answer says who decided what and why, and the flag stays on the list."""
    flag = cut_shallow(job)

    do(job, answer_to(flag, answer="rework", why="cut again tomorrow"))

    shown = next(one for one in job.board.flags() if one.finding.key == flag.finding.key)
    assert shown.answer is not None
    body = shown.answer.body
    assert isinstance(body, Disposition)
    assert body.said.startswith("Pass G7-01, line S01")


def test_answer_needs_a_reason(job: OpenJob) -> None:
    """A flag is not answered without saying why."""
    with pytest.raises(EntryRefusedError, match="why of this disposition"):
        do(job, answer_to(cut_shallow(job), answer="waive", why=""))


def test_day_with_a_stop_does_not_close(job: OpenJob) -> None:
    """A flag that stops the work must be answered before the day closes over it."""
    flag = cut_shallow(job)
    with pytest.raises(DayHasStopsError, match=r"1 flag.* first: Pass G7-01"):
        do(job, CloseDay(day=DAY))

    do(job, answer_to(flag, answer="accept", why="owner agreed on site"))
    do(job, CloseDay(day=DAY))
    assert job.state.is_closed(DAY)


def test_closed_day_keeps_code_and_flags(job: OpenJob) -> None:
    """Closing says how many flags stood open and over which entries it closes."""
    do(job, LogNote(text="quiet day"))
    code = check_code(job.state, DAY)

    body = do(job, CloseDay(day=DAY)).entries[0].body

    assert isinstance(body, DayClosed)
    assert (body.of_day, body.check_code) == (DAY, code)


def test_signature_is_kept_as_drawn(job: OpenJob, clock: SetClock) -> None:
    """A signature belongs to the day it is for, with its strokes and the code it saw."""
    do(job, LogNote(text="quiet day"))
    clock.set_to("2026-05-12", 420)

    entry = do(
        job, SignDay(day=DAY, role="foreman", name="Ana", meaning="true_record", strokes=STROKES)
    ).entries[0]

    assert isinstance(entry.body, Signature)
    assert (entry.day, entry.body.strokes) == (DAY, STROKES)
    assert entry.body.check_code == check_code(job.state, DAY)


@pytest.mark.parametrize("strokes", [(), ((),), ((), ())])
def test_empty_signature_is_refused(job: OpenJob, strokes: Any) -> None:
    """An empty box is no signature."""
    with pytest.raises(SignatureEmptyError, match="signature box of Ana is empty"):
        do(job, SignDay(day=DAY, role="owner", name="Ana", meaning="received", strokes=strokes))


def test_closed_day_can_still_be_signed(job: OpenJob) -> None:
    """The owner may sign after the day is closed."""
    do(job, LogNote(text="quiet day"))
    do(job, CloseDay(day=DAY))

    do(job, SignDay(day=DAY, role="owner", name="Ilse", meaning="received", strokes=STROKES))

    assert [body.role for body in job.state.bodies(SIGNED, DAY)] == ["owner"]


def test_day_is_reopened_and_closed_again(job: OpenJob) -> None:
    """A reopened day takes entries, and closing it again closes over them."""
    do(job, LogNote(text="quiet day"))
    first = do(job, CloseDay(day=DAY)).entries[0].body
    do(job, ReopenDay(day=DAY, why="the rain was forgotten"))
    assert not job.state.is_closed(DAY)
    do(job, LogDelay(cause="rain", lost_min=20))

    second = do(job, CloseDay(day=DAY)).entries[0].body

    assert isinstance(first, DayClosed)
    assert isinstance(second, DayClosed)
    assert first.check_code != second.check_code
    assert job.state.is_closed(DAY)


def test_open_day_is_not_reopened(job: OpenJob) -> None:
    """Only a closed day can be reopened, and only with a reason."""
    with pytest.raises(NotClosedError, match="Mon May 11, 2026 was not reopened"):
        do(job, ReopenDay(day=DAY, why="why not"))
    do(job, CloseDay(day=DAY))
    with pytest.raises(EntryRefusedError, match="why of this day reopened"):
        do(job, ReopenDay(day=DAY, why=""))
