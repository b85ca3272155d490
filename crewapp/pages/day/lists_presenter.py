"""The lists of the day: entries written, locate tickets, signatures, days worked."""

from __future__ import annotations

from datetime import date

from crewapp.job.open_job import OpenJob
from crewapp.kit.input.list_rows import DayRow
from crewapp.kit.look.palette import Status
from crewapp.pages.day.view import EntryRow
from crewapp.pages.lines.entry_line import entry_line
from crewapp.pages.lines.undo_presenter import local_time
from crewapp.words.dates import day_and_time, full_day
from crewapp.words.translate import say, translate_later
from models.entries.bodies.job import LocateTicket
from models.entries.envelope import AnyEntry
from models.entries.kind_names import LOCATE_TICKET
from models.state.check_code import check_code
from models.state.indexes import SIGNED

MEANINGS = {
    "true_record": translate_later("true record"),
    "received": translate_later("received"),
    "agreed": translate_later("agreed"),
}
_STANDS = frozenset({"struck", "day_closed", "day_reopened", "signature"})


def day_entry_rows(job: OpenJob, day: str) -> tuple[EntryRow, ...]:
    """Return every entry of the day but bare strikes, newest first; struck ones say why."""
    entries = [entry for entry in job.state.days.get(day, ()) if entry.kind != "struck"]
    return tuple(_written(job, entry) for entry in reversed(entries))


def _written(job: OpenJob, entry: AnyEntry) -> EntryRow:
    is_struck = job.state.is_struck(entry.id)
    detail = f"{local_time(entry)}  {entry.author}".strip()
    if is_struck:
        detail = f"{detail}  {say('struck: {why}', why=_why(job, entry))}"
    can_strike = not is_struck and entry.body is not None and entry.kind not in _STANDS
    return EntryRow(
        entry.id, entry.kind, entry_line(entry, job.figures), detail, is_struck, can_strike
    )


def _why(job: OpenJob, entry: AnyEntry) -> str:
    strikers = (job.state.entries.get(by) for by in job.state.struck_by[entry.id])
    return "; ".join(dict.fromkeys(one.reason for one in strikers if one is not None))


def tickets_of(job: OpenJob, today: str) -> tuple[DayRow, ...]:
    """Locate tickets, the one that lasts longest first."""
    found = [job.state.latest(LOCATE_TICKET, name) for name in job.state.every_name(LOCATE_TICKET)]
    tickets = [one for one in found if isinstance(one, LocateTicket)]
    tickets.sort(key=lambda one: one.expires_on, reverse=True)
    return tuple(_ticket(job, one, today) for one in tickets)


def _ticket(job: OpenJob, ticket: LocateTicket, today: str) -> DayRow:
    left = (date.fromisoformat(ticket.expires_on) - date.fromisoformat(today)).days
    status, figure = Status.OK, say("{days:day|days}", days=left)
    if left < 0:
        status, figure = Status.OUT, say("run out")
    elif ticket.valid_from > today:
        status, figure = Status.CHECK, say("not yet good")
    elif left <= 2:
        status = Status.CHECK
    covers = ", ".join(ticket.surfaces) or ticket.covers or say("whole site")
    first, last = (
        full_day(day, job.figures.is_us) for day in (ticket.valid_from, ticket.expires_on)
    )
    dates = f"{first} - {last}: {covers}"
    return DayRow(ticket.ticket, ticket.ticket, dates, figure, status)


def signatures_of(job: OpenJob, day: str) -> tuple[DayRow, ...]:
    """Signatures for a day; one given over other entries than stand now needs a look."""
    code = check_code(job.state, day)
    rows = []
    for entry in job.state.current(SIGNED, day):
        body = entry.body
        is_current = body.check_code == code
        meaning = say(MEANINGS[body.meaning])
        detail = day_and_time(entry.day, local_time(entry), job.figures.is_us)
        if not is_current:
            detail = say("{at}, before later entries", at=detail)
        status = Status.OK if is_current else Status.CHECK
        rows.append(DayRow(body.role, f"{body.name}: {meaning}", detail, "", status))
    return tuple(rows)


def days_of(job: OpenJob, today: str) -> tuple[DayRow, ...]:
    """Days of the book, newest first, and whether each is closed."""
    days = sorted({*job.state.days, today}, reverse=True)
    return tuple(_day(job, day, today) for day in days)


def _day(job: OpenJob, day: str, today: str) -> DayRow:
    count = sum(entry.kind != "struck" for entry in job.state.days.get(day, ()))
    is_closed = job.state.is_closed(day)
    figure = say("closed") if is_closed else say("open")
    detail = say("today, {count:entry|entries}", count=count) if day == today else ""
    return DayRow(
        day,
        full_day(day, job.figures.is_us),
        detail or say("{count:entry|entries}", count=count),
        figure,
        Status.OK if is_closed else Status.NOT_MEASURED,
    )
