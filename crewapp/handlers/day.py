"""Handlers of the day: hours, weather, delays, answers, closing."""

from __future__ import annotations

from crewapp.commands.day import (
    CloseDay,
    EndDelay,
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
from crewapp.handlers.entries import write
from crewapp.job.dispatch import handles
from crewapp.job.open_job import JobChanges, OpenJob
from crewapp.words.dates import full_day
from models.checks.finding import Severity
from models.checks.finding_text import sentence
from models.entries.bodies.collector_work import UtilityMet
from models.entries.bodies.day import (
    DayClosed,
    DayReopened,
    Delay,
    Hours,
    Note,
    Photo,
    Signature,
    Tomorrow,
    Weather,
)
from models.errors import CrewError
from models.state.check_code import check_code
from models.units import show_duration

DAY_MIN = 24 * 60


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


@handles(LogHours)
def log_hours(job: OpenJob, command: LogHours) -> JobChanges:
    """Log the hours of a person or a machine.

    Raises
    ------
    HoursTooManyError
        If they come to more than a day has; nothing is written.
    """
    if command.run_min + command.idle_min + command.down_min > DAY_MIN:
        hours = show_duration(command.run_min + command.idle_min + command.down_min)
        raise HoursTooManyError(who=command.who, hours=hours)
    return write(
        job,
        Hours(
            of=command.of,
            who=command.who,
            run_min=command.run_min,
            idle_min=command.idle_min,
            down_min=command.down_min,
            note=command.note,
        ),
    )


@handles(LogWeather)
def log_weather(job: OpenJob, command: LogWeather) -> JobChanges:
    """Log weather and ground as they are now."""
    return write(
        job,
        Weather(
            sky=command.sky,
            ground=command.ground,
            low_tenths_c=command.low_tenths_c,
            high_tenths_c=command.high_tenths_c,
            temperature_typed=command.temperature_typed,
            rain_nm=command.rain_nm,
            rain_typed=command.rain_typed,
            wind=command.wind,
        ),
    )


@handles(LogDelay)
def log_delay(job: OpenJob, command: LogDelay) -> JobChanges:
    """Log time lost and why."""
    return write(
        job,
        Delay(
            cause=command.cause,
            lost_min=command.lost_min,
            start_min=command.start_min,
            note=command.note,
        ),
    )


@handles(EndDelay)
def end_delay(job: OpenJob, command: EndDelay) -> JobChanges:
    """Log a delay that ends now and began at ``since_ms``, or at ``start_min`` of the day.

    A minute that was begun counts whole.
    """
    start_min = command.start_min
    moment = job.clock.now()
    now_min = moment.at_ms // 60_000 + moment.offset_min
    if start_min is None:
        lost_min = max(-((command.since_ms - moment.at_ms) // 60_000), 1)
        start_min = (command.since_ms // 60_000 + moment.offset_min) % DAY_MIN
    else:
        lost_min = (now_min - start_min) % DAY_MIN
    return log_delay(job, LogDelay(cause=command.cause, lost_min=lost_min, start_min=start_min))


@handles(LogUtility)
def log_utility(job: OpenJob, command: LogUtility) -> JobChanges:
    """Log a pipe, a cable or a stone met in the ground, whole or hit."""
    return write(
        job,
        UtilityMet(
            event=command.event,
            what=command.what,
            where=command.where,
            x_nm=command.x_nm,
            y_nm=command.y_nm,
            depth_nm=command.depth_nm,
            depth_typed=command.depth_typed,
            action=command.action,
            placed_by=command.placed_by,
            lat_ndeg=command.lat_ndeg,
            lon_ndeg=command.lon_ndeg,
            placed_sd_nm=command.placed_sd_nm,
        ),
    )


@handles(LogNote)
def log_note(job: OpenJob, command: LogNote) -> JobChanges:
    """Log a note; one that needs the owner stands at the top of the sheet."""
    return write(job, Note(text=command.text, needs_owner=command.needs_owner))


@handles(LogPhoto)
def log_photo(job: OpenJob, command: LogPhoto) -> JobChanges:
    """Log a photo that is kept as a file named by its content."""
    return write(
        job,
        Photo(
            sha256=command.sha256,
            suffix=command.suffix,
            caption=command.caption,
            where=command.where,
        ),
    )


@handles(PlanTomorrow)
def plan_tomorrow(job: OpenJob, command: PlanTomorrow) -> JobChanges:
    """Log what tomorrow needs."""
    return write(
        job,
        Tomorrow(
            work=command.work,
            must_be_clear=command.must_be_clear,
            sand_ug=command.sand_ug,
            sand_typed=command.sand_typed,
        ),
    )


@handles(SignDay)
def sign_day(job: OpenJob, command: SignDay) -> JobChanges:
    """Keep a signature as drawn, over the entries of a day as they stand."""
    if not any(command.strokes):
        raise SignatureEmptyError(name=command.name or command.role)
    return write(
        job,
        Signature(
            of_day=command.day,
            role=command.role,
            name=command.name,
            meaning=command.meaning,
            strokes=command.strokes,
            check_code=check_code(job.state, command.day),
        ),
        day=command.day,
    )


@handles(CloseDay)
def close_day(job: OpenJob, command: CloseDay) -> JobChanges:
    """Close a day over its entries as they stand.

    Raises
    ------
    DayHasStopsError
        If a flag that stops the work is open; nothing is written.
    """
    flags = [flag for flag in job.board.open_flags() if flag.finding.day <= command.day]
    stops = [flag for flag in flags if flag.severity is Severity.STOP]
    if stops:
        first = sentence(stops[0].finding, job.figures)
        raise DayHasStopsError(
            day=full_day(command.day, job.figures.is_us), count=len(stops), first=first
        )
    return write(
        job,
        DayClosed(
            of_day=command.day,
            open_flags=len(flags),
            check_code=check_code(job.state, command.day),
        ),
        day=command.day,
    )


@handles(ReopenDay)
def reopen_day(job: OpenJob, command: ReopenDay) -> JobChanges:
    """Take up a closed day again; its sheet gets a new revision."""
    if not job.state.is_closed(command.day):
        raise NotClosedError(day=full_day(command.day, job.figures.is_us))
    return write(job, DayReopened(of_day=command.day, why=command.why), day=command.day)
