"""locate_ticket_about_to_expire: the ticket ends within two days of the last digging."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date

from models.checks.finding import Check, Finding, Severity, make_finding
from models.checks.safety.locate_cover import newest_tickets
from models.entries.bodies.job import LocateTicket
from models.entries.envelope import AnyEntry
from models.entries.kind_names import LOCATE_TICKET
from models.state.indexes import DUG_AT
from models.state.job_state import JobState

DAYS_AHEAD = 2
"""Common practice, no source: most marking services ask for two working days' notice."""


def _every_ticket(state: JobState) -> Iterable[str]:
    return state.every_name(LOCATE_TICKET)


def _touched(state: JobState, entry: AnyEntry) -> Iterable[str]:
    """Every ticket, and the one that an entry names: it may be struck by now."""
    own = entry.body.ticket if isinstance(entry.body, LocateTicket) else ""
    return {*_every_ticket(state), own} - {""}


def _last_dig(state: JobState) -> str:
    return max((name.partition("/")[0] for name in state.every_name(DUG_AT)), default="")


def _days_between(first: str, last: str) -> int | None:
    try:
        return (date.fromisoformat(last) - date.fromisoformat(first)).days
    except ValueError:
        return None  # no day of the calendar: nothing can be said


def _is_renewed(state: JobState, ticket: LocateTicket) -> bool:
    """Whether another ticket for the same ground lasts longer."""
    return any(
        other.body.expires_on > ticket.expires_on
        and (not other.body.surfaces or set(ticket.surfaces) <= set(other.body.surfaces))
        and bool(ticket.surfaces or not other.body.surfaces)
        for other in newest_tickets(state)
    )


def _examine(state: JobState, subject: str) -> Iterator[Finding]:
    filed = state.current(LOCATE_TICKET, subject)
    ticket = filed[-1].body if filed else None
    last_dig = _last_dig(state)
    if ticket is None or not last_dig or _is_renewed(state, ticket):
        return
    left = _days_between(last_dig, ticket.expires_on)
    if left is not None and 0 <= left <= DAYS_AHEAD and ticket.valid_from <= last_dig:
        yield make_finding(
            CHECK.id,
            subject,
            filed[-1:],
            ticket=ticket.ticket,
            expires_on=ticket.expires_on,
            day=last_dig,
        )


CHECK = Check(
    id="locate_ticket_about_to_expire",
    severity=Severity.NOTE,
    problem="A locate ticket is about to expire while digging goes on.",
    why="A renewal takes its days, and the crew stands still when the ticket runs out first.",
    cure="Ask for the renewal today.",
    message="Locate ticket {ticket} ends on {expires_on}, and ground was opened on {day}.",
    watches=dict.fromkeys(("pass", "pipe_laid", "grade_shot", "locate_ticket"), _touched),
    subjects=_every_ticket,
    examine=_examine,
)
