"""delivery_without_ticket: a load came in and no ticket number was logged."""

from __future__ import annotations

from collections.abc import Iterator

from models.checks.affected import entry_itself
from models.checks.finding import Check, Finding, Severity, make_finding
from models.entries.bodies.loads import Delivery
from models.entries.kind_names import DELIVERY
from models.state.job_state import JobState


def examine(state: JobState, entry_id: str) -> Iterator[Finding]:
    """Look for the ticket number of one delivery."""
    entry = state.entries.get(entry_id)
    body = entry.body if entry is not None else None
    if entry is None or not isinstance(body, Delivery) or state.is_struck(entry_id):
        return
    if not body.ticket.strip():
        yield make_finding(
            "delivery_without_ticket",
            entry_id,
            [entry],
            material_id=body.material_id,
            amount=body.amount_typed.strip() or "amount as logged",
            day=entry.day,
        )


def every_delivery(state: JobState) -> Iterator[str]:
    """Ids of every delivery of the job."""
    for material_id in state.every_name(DELIVERY):
        yield from (entry.id for entry in state.current(DELIVERY, material_id))


CHECK = Check(
    id="delivery_without_ticket",
    severity=Severity.FIX,
    problem="A delivery has no ticket number.",
    why="Without its ticket a load can be billed twice, and nobody can show later which sand "
    "or pipe it was.",
    cure="Get the ticket from the driver or the supplier, and correct the delivery.",
    message="{material_id} delivered on {day} ({amount}) has no ticket number.",
    watches={"delivery": entry_itself},
    subjects=every_delivery,
    examine=examine,
)
