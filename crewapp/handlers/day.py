"""What the foreman does with the day: hours, weather, delays, answers, closing."""

from __future__ import annotations

from typing import Any

from crewapp.handlers.entries import write
from crewapp.job.open_job import Changed, OpenJob
from crewapp.words.dates import full_day
from models.checks.finding import Severity
from models.checks.finding_text import sentence
from models.checks.flag_board import Flag
from models.errors import CrewError
from models.state.check_code import check_code
from models.units import show_duration

DAY_MIN = 24 * 60
Strokes = tuple[tuple[tuple[int, int], ...], ...]


class DayHasStopsError(CrewError, ValueError):
    """A day was to be closed with flags open that stop the work."""

    code = "day.has_stops"
    sentence = (
        "{day} was not closed: "
        "{count:flag that stops the work stands|flags that stop the work stand} "
        "open, first: {first} "
        "Answer them on the Flags page, then close the day."
    )


class SignatureEmptyError(CrewError, ValueError):
    """A signature was to be kept that has no pen strokes."""

    code = "day.signature_empty"
    sentence = "Nothing was written: the signature box of {name} is empty. Sign with a finger."


class HoursTooManyError(CrewError, ValueError):
    """Hours were to be logged that no day has."""

    code = "day.hours_too_many"
    sentence = (
        "Nothing was written: {hours} of {who} are more than one day has. 0 to 24 h would be "
        "accepted, run, idle and down taken together."
    )


class NotClosedError(CrewError, ValueError):
    """A day was to be reopened that is not closed."""

    code = "day.not_closed"
    sentence = "{day} was not reopened: it is not closed. Write on it as it is."


def log_hours(
    job: OpenJob,
    *,
    of: str,
    who: str,
    run_min: int,
    idle_min: int = 0,
    down_min: int = 0,
    note: str = "",
) -> Changed:
    """Log the hours of a person or a machine.

    Raises
    ------
    HoursTooManyError
        If they come to more than a day has; nothing is written.
    """
    if run_min + idle_min + down_min > DAY_MIN:
        hours = show_duration(run_min + idle_min + down_min)
        raise HoursTooManyError(who=who, hours=hours)
    return write(
        job,
        "hours",
        of=of,
        who=who,
        run_min=run_min,
        idle_min=idle_min,
        down_min=down_min,
        note=note,
    )


def log_weather(job: OpenJob, *, sky: str, ground: str, **fields: Any) -> Changed:
    """Log weather and ground as they are now."""
    return write(job, "weather", sky=sky, ground=ground, **fields)


def log_delay(
    job: OpenJob, *, cause: str, lost_min: int, start_min: int | None = None, note: str = ""
) -> Changed:
    """Log time lost and why."""
    return write(job, "delay", cause=cause, lost_min=lost_min, start_min=start_min, note=note)


def end_delay(job: OpenJob, *, cause: str, since_ms: int, start_min: int | None = None) -> Changed:
    """Log a delay that ends now and began at ``since_ms``, or at ``start_min`` of the day.

    A minute that was begun counts whole.
    """
    moment = job.clock.now()
    now_min = moment.at_ms // 60_000 + moment.offset_min
    if start_min is None:
        lost_min = max(-((since_ms - moment.at_ms) // 60_000), 1)
        start_min = (since_ms // 60_000 + moment.offset_min) % DAY_MIN
    else:
        lost_min = (now_min - start_min) % DAY_MIN
    return log_delay(job, cause=cause, lost_min=lost_min, start_min=start_min)


def log_utility(job: OpenJob, *, event: str, what: str, where: str, **fields: Any) -> Changed:
    """Log something found in the ground, or hit."""
    return write(job, "utility", event=event, what=what, where=where, **fields)


def log_note(job: OpenJob, *, text: str, needs_owner: bool = False) -> Changed:
    """Log a note; one that needs the owner stands at the top of the sheet."""
    return write(job, "note", text=text, needs_owner=needs_owner)


def log_photo(
    job: OpenJob, *, sha256: str, suffix: str = "jpg", caption: str = "", where: str = ""
) -> Changed:
    """Log a photo that is kept as a file named by its content."""
    return write(job, "photo", sha256=sha256, suffix=suffix, caption=caption, where=where)


def plan_tomorrow(job: OpenJob, **fields: Any) -> Changed:
    """Log what tomorrow needs."""
    return write(job, "tomorrow", **fields)


def answer_flag(job: OpenJob, flag: Flag, *, answer: str, why: str) -> Changed:
    """Answer a flag: accept as is, rework, or waive; it then shows as answered."""
    finding = flag.finding
    return write(
        job,
        "disposition",
        flag=finding.key,
        figures=finding.figures,
        said=sentence(finding, job.figures),
        answer=answer,
        why=why,
    )


def sign_day(
    job: OpenJob, *, day: str, role: str, name: str, meaning: str, strokes: Strokes
) -> Changed:
    """Keep a signature as drawn, over the entries of a day as they stand."""
    if not any(strokes):
        raise SignatureEmptyError(name=name or role)
    return write(
        job,
        "signature",
        day=day,
        of_day=day,
        role=role,
        name=name,
        meaning=meaning,
        strokes=strokes,
        check_code=check_code(job.state, day),
    )


def close_day(job: OpenJob, day: str) -> Changed:
    """Close a day over its entries as they stand.

    Raises
    ------
    DayHasStopsError
        If a flag that stops the work is open; nothing is written.
    """
    flags = [flag for flag in job.board.open_flags() if flag.finding.day <= day]
    stops = [flag for flag in flags if flag.severity is Severity.STOP]
    if stops:
        first = sentence(stops[0].finding, job.figures)
        raise DayHasStopsError(day=full_day(day, job.figures.is_us), count=len(stops), first=first)
    return write(
        job,
        "day_closed",
        day=day,
        of_day=day,
        open_flags=len(flags),
        check_code=check_code(job.state, day),
    )


def reopen_day(job: OpenJob, day: str, why: str) -> Changed:
    """Take up a closed day again; its sheet gets a new revision."""
    if not job.state.is_closed(day):
        raise NotClosedError(day=full_day(day, job.figures.is_us))
    return write(job, "day_reopened", day=day, of_day=day, why=why)
