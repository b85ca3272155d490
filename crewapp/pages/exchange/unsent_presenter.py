"""Reads how many entries are unsent, and when the last exchange was, without the store."""

from __future__ import annotations

from datetime import date

from crewapp.job.open_job import OpenJob
from crewapp.words.dates import day_and_time
from crewapp.words.translate import say
from models.entries.tablet_code import code_of
from models.units.times import NO_TIME, local_moment
from sync.exchange.exchange_log import ExchangeLog, StoreListing
from sync.exchange.job_folder import JobFolder
from sync.exchange.photos import wanted_photos


def unsent_line(job: OpenJob, where: str) -> str:
    """Say in one line how many entries wait, and when last exchanged."""
    seen = ExchangeLog.read(JobFolder.of_book(job.book.path).log).stores.get(where, StoreListing())
    now, count = job.clock.now(), unsent_entries(job, where)
    last = past_time_text(seen.at_ms, now.offset_min, now.day, job.figures.is_us)
    waiting = (
        say("{count:entry waits|entries wait}", count=count) if count else say("nothing waits")
    )
    if not last:
        return say("Exchange: {waiting}, never exchanged.", waiting=waiting)
    return say("Exchange: {waiting}, last {time}.", waiting=waiting, time=last)


def unsent_entries(job: OpenJob, where: str) -> int:
    """Count the entries that the store was not seen to hold: of this tablet, or passed on."""
    place = JobFolder.of_book(job.book.path)
    log = ExchangeLog.read(place.log)
    seen = log.stores.get(where, StoreListing())
    known = {*seen.names, *seen.sent}
    known |= {one.name for one in log.rejected_segments() if one.is_final}  # those stay here
    names = place.names()
    kept = sum(name.count for name in names if str(name) not in known)
    sealed: dict[str, int] = {}
    for name in names:
        sealed[name.stream] = max(sealed.get(name.stream, 0), name.last)
    heads = {stream: seq for stream, (seq, _) in job.book.heads().items() if code_of(stream)}
    return kept + sum(max(0, seq - sealed.get(stream, 0)) for stream, seq in heads.items())


def unsent_pictures(job: OpenJob, where: str) -> int:
    """Count the photos of the book that are here and were not seen in the store."""
    place = JobFolder.of_book(job.book.path)
    seen = ExchangeLog.read(place.log).stores.get(where, StoreListing())
    known = {*seen.names, *seen.sent}
    return sum(
        digest not in known and (place.photos / f"{digest}.{suffix}").is_file()
        for digest, suffix in wanted_photos(job.book).items()
    )


def past_time_text(at_ms: int, offset_min: int, today: str, is_us: bool = True) -> str:
    """Write a past time: ``today 17:10``, ``yesterday 17:10``, or its day; "" for never."""
    if not at_ms:
        return ""
    moment = local_moment(at_ms, offset_min)
    if moment is None:
        return NO_TIME
    clock, days = moment.strftime("%H:%M"), (date.fromisoformat(today) - moment.date()).days
    if days == 0:
        return say("today {time}", time=clock)
    if days == 1:
        return say("yesterday {time}", time=clock)
    return day_and_time(moment.date().isoformat(), clock, is_us)
