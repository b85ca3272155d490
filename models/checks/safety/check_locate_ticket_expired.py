"""locate_ticket_expired: digging after the last day of the locate ticket."""

from __future__ import annotations

from collections.abc import Iterator

from models.checks.finding import Check, Finding, Severity, make_finding
from models.checks.safety.locate_cover import DIGS, begun_by, every_dig
from models.entries.keys import DayPlace, day_names
from models.state.indexes import DUG_AT
from models.state.job_state import JobState


def _examine(state: JobState, subject: DayPlace) -> Iterator[Finding]:
    day, place = day_names(subject)
    digs = state.current(DUG_AT, subject)
    tickets = begun_by(state, day, place)
    if not digs or not tickets:
        return  # a place without a ticket is told as that
    last = max(tickets, key=lambda ticket: (ticket.expires_on, ticket.ticket))
    if day > last.expires_on:
        yield make_finding(
            CHECK.id,
            subject,
            digs[:1],
            ticket=last.ticket,
            expires_on=last.expires_on,
            where=place,
            day=day,
        )


CHECK = Check(
    id="locate_ticket_expired",
    severity=Severity.STOP,
    problem="Ground was opened after its locate ticket had expired.",
    why="Marks fade and are driven over, new lines go in, and after its last day the ticket "
    "answers for nothing.",
    cure="Stop digging. Have the ticket renewed and the marks checked before the next cut.",
    message="Ground was opened at {where} on {day}; locate ticket {ticket} ended on {expires_on}.",
    watches=DIGS,
    subjects=every_dig,
    examine=_examine,
)
