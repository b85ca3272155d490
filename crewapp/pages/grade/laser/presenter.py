"""Reads the lasers of a job: how each stands today, and what was written of it."""

from __future__ import annotations

from crewapp.job.open_job import OpenJob
from crewapp.kit.look.palette import Status
from crewapp.pages.grade.laser.peg_form import error_words
from crewapp.pages.grade.laser.view import EVENT_WORDS, SORT_WORDS, LaserCard, LaserView, PipeAdvice
from crewapp.words.dates import full_day
from crewapp.words.translate import say
from models.entries.bodies.instruments import Instrument, InstrumentEvent
from models.entries.envelope import AnyEntry
from models.entries.kind_names import INSTRUMENT, INSTRUMENT_EVENT
from models.queries.levelling.peg_tests import (
    Doubt,
    JudgedTest,
    find_instrument,
    laser_today,
    limit_of,
    peg_tests_of,
    read_day,
)

MOST_TOLD = 40


def laser_view(job: OpenJob) -> LaserView:
    """Read every laser and level of the job."""
    return LaserView(job.figures, laser_cards(job), job.clock.now().day)


def laser_cards(job: OpenJob) -> tuple[LaserCard, ...]:
    """The lasers of a job in the order that they came."""
    found = []
    for name in job.state.every_name(INSTRUMENT):
        instrument = find_instrument(job.state, name)
        if instrument is not None:
            found.append(_card(job, instrument))
    return tuple(found)


def _card(job: OpenJob, instrument: Instrument) -> LaserCard:
    name = instrument.instrument_id
    test, doubt = laser_today(job.state, name, job.clock.now().day)
    limit = limit_of(instrument)
    return LaserCard(
        instrument_id=name,
        sort=say(SORT_WORDS[instrument.what]),
        status=Status.CHECK if doubt else Status.OK,
        standing=_standing(job, test, doubt),
        doubt=doubt.value if doubt else "",
        limit=limit,
        told=_told(job, instrument),
    )


def _standing(job: OpenJob, test: JudgedTest | None, doubt: Doubt | None) -> str:
    """The peg test in a few words, for a key."""
    if doubt is None and test is not None:
        return say("passed {ago}", ago=_ago(job, test.entry.day))
    if doubt is Doubt.NEVER:
        return say("wanted: no test yet")
    if doubt is Doubt.DROPPED:
        return say("wanted: dropped")
    if doubt is Doubt.FAILED:
        return say("failed: adjust it")
    return say("wanted: too long ago")


def _ago(job: OpenJob, day: str) -> str:
    then, today = read_day(day), read_day(job.clock.now().day)
    days = (today - then).days if then and today else 0
    return say("today") if days == 0 else say("{count:day|days} ago", count=days)


def _told(job: OpenJob, instrument: Instrument) -> tuple[PipeAdvice, ...]:
    """What was written of a laser, newest first, what its maker says last."""
    name = instrument.instrument_id
    written: list[tuple[AnyEntry, PipeAdvice]] = [
        (one.entry, _test(job, one)) for one in peg_tests_of(job.state, name)
    ]
    written += [
        (entry, _event(job, entry, entry.body))
        for entry in job.state.current(INSTRUMENT_EVENT, name)
    ]
    written.sort(key=lambda one: (one[0].day, job.state.place_of(one[0])), reverse=True)
    return (*(told for _, told in written[:MOST_TOLD]), *_stated(job, instrument))


def _test(job: OpenJob, test: JudgedTest) -> PipeAdvice:
    return PipeAdvice(
        say("Peg test, {day}", day=full_day(test.entry.day, job.figures.is_us)),
        error_words(test.error, test.limit, job.figures),
        Status.OK if test.is_good else Status.OUT,
    )


def _event(job: OpenJob, entry: AnyEntry, event: InstrumentEvent) -> PipeAdvice:
    day = full_day(entry.day, job.figures.is_us)
    title = say("{what}, {day}", what=say(EVENT_WORDS[event.what]), day=day)
    return PipeAdvice(title, event.note, Status.CHECK if event.what == "dropped" else "")


def _stated(job: OpenJob, instrument: Instrument) -> list[PipeAdvice]:
    """What the instrument is, as it was written down."""
    limit = job.figures.sight_error(limit_of(instrument))
    holds = say(
        "A peg test may show {limit}, and holds {days:day|days}.",
        limit=limit,
        days=instrument.peg_every_days,
    )
    parts = [instrument.serial]
    if instrument.plane_asec10 is not None:
        seconds = f"{instrument.plane_asec10 / 10:g}"
        parts.append(say("{seconds} arc seconds", seconds=seconds))
    if instrument.calibrated_on:
        day = full_day(instrument.calibrated_on, job.figures.is_us)
        parts.append(say("calibrated {day}", day=day))
    about = ", ".join(part for part in parts if part)
    return [PipeAdvice(say(SORT_WORDS[instrument.what]), about), PipeAdvice(holds)]
