"""ticket_twice: a ticket that was logged twice for the same material."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator

from models.checks.finding import Check, Finding, Severity, make_finding
from models.entries.bodies.loads import Delivery
from models.entries.envelope import AnyEntry
from models.state.indexes import TICKET_IN
from models.state.job_state import JobState


def ticket_of_entry(state: JobState, entry: AnyEntry) -> Iterable[str]:
    """Ticket that a delivery names, as subject."""
    body = entry.body
    return (body.ticket,) if isinstance(body, Delivery) and body.ticket else ()


def examine(state: JobState, ticket: str) -> Iterator[Finding]:
    """Group the deliveries of a ticket; coils of different names may share one."""
    loads: dict[tuple[str, str], list[AnyEntry]] = defaultdict(list)
    for entry in state.current(TICKET_IN, ticket):
        loads[(entry.body.material_id, entry.body.coil_id)].append(entry)
    for (material_id, coil_id), entries in loads.items():
        if len(entries) > 1:
            yield make_finding(
                "ticket_twice",
                ticket,
                entries,
                f"{material_id}/{coil_id}" if coil_id else material_id,
                ticket=ticket,
                material_id=material_id,
                times=len(entries),
            )


CHECK = Check(
    id="ticket_twice",
    severity=Severity.FIX,
    problem="The same ticket is logged twice.",
    why="One load counts twice: the stock looks larger than the heap, and the next truck is "
    "called in too late.",
    cure="Compare with the paper. Strike the one that is a repeat, or correct the number that "
    "was misread.",
    message="Ticket {ticket} for {material_id} is logged {times} times.",
    watches={"delivery": ticket_of_entry},
    subjects=lambda state: state.every_name(TICKET_IN),
    examine=examine,
)
