"""Locate tickets and the places and days of digging that they cover."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from models.checks.finding import Subjects
from models.entries import id_fields
from models.entries.bodies.job import LocateTicket
from models.entries.envelope import AnyEntry, Entry
from models.entries.keys import DayPlace, day_place
from models.entries.kind_names import LOCATE_TICKET
from models.state.indexes import DUG_AT
from models.state.job_state import JobState


def digs_affected(state: JobState, entry: AnyEntry) -> Iterable[DayPlace]:
    """Days and places of digging whose checks an entry affects."""
    body = entry.body
    place = id_fields.surface_id_of(body) or id_fields.collector_id_of(body)
    return (day_place(entry.day, place),)


def every_dig(state: JobState, entry: AnyEntry | None = None) -> Iterable[DayPlace]:
    """Every day and place of digging; a new ticket can speak of all of them."""
    return state.every_name(DUG_AT)


DIGS: Mapping[str, Subjects] = {
    **dict.fromkeys(("pass", "pipe_laid", "grade_shot"), digs_affected),
    "locate_ticket": every_dig,
}
"""What digging and its tickets rest on."""


def newest_tickets(state: JobState) -> Iterator[Entry[LocateTicket]]:
    """The newest entry of each ticket."""
    for name in state.every_name(LOCATE_TICKET):
        yield state.current(LOCATE_TICKET, name)[-1]


def covers(ticket: LocateTicket, place: str) -> bool:
    """Whether a ticket is for a surface or collector; a ticket without a place is for the site."""
    return not ticket.surfaces or place in ticket.surfaces


def begun_by(state: JobState, day: str, place: str) -> list[LocateTicket]:
    """Tickets for a place whose first day had come by a day."""
    return [
        entry.body
        for entry in newest_tickets(state)
        if covers(entry.body, place) and entry.body.valid_from <= day
    ]
