"""more_placed_than_delivered: more sand is logged as placed than came in."""

from __future__ import annotations

from collections.abc import Iterator

from models.checks.affected import material_of_entry
from models.checks.finding import Check, Finding, Severity, make_finding
from models.queries.materials.sand_balance import total_pl
from models.state.indexes import SAND_OF
from models.state.job_state import JobState


def examine(state: JobState, material_id: str) -> Iterator[Finding]:
    """Hold the sand placed against the sand delivered, both as loose volume."""
    used = state.current(SAND_OF, material_id)
    placed_pl = total_pl(state, "placed", material_id) if used else None
    came_pl = total_pl(state, "delivered", material_id) if used else None
    if placed_pl is not None and came_pl is not None and placed_pl > came_pl:
        yield make_finding(
            "more_placed_than_delivered",
            material_id,
            used[-1:],
            material_id=material_id,
            placed_pl=placed_pl,
            delivered_pl=came_pl,
        )


CHECK = Check(
    id="more_placed_than_delivered",
    severity=Severity.FIX,
    problem="More sand is logged as placed than was delivered.",
    why="A load in is missing from the book, or a load placed is counted twice: the bill and "
    "the stock are both wrong.",
    cure="Go through the tickets of the day and log the one that is missing, or strike the "
    "load that is too many.",
    message="{material_id}: {placed_pl:volume} placed, {delivered_pl:volume} delivered.",
    watches={
        "sand_placed": material_of_entry,
        "delivery": material_of_entry,
        "material": material_of_entry,
        "box_weighing": material_of_entry,
        "bulking_test": material_of_entry,
    },
    subjects=lambda state: state.every_name(SAND_OF),
    examine=examine,
)
