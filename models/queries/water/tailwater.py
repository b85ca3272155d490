"""Water and invert at an outlet: as last measured there, else as planned."""

from __future__ import annotations

from dataclasses import dataclass

from models.entries.bodies.outlets import Outlet
from models.entries.kind_names import OUTLET_SEEN
from models.state.job_state import JobState


@dataclass(frozen=True, slots=True)
class OutletLevel:
    """A level at an outlet, and where it is known from."""

    level_nm: int
    source: str


def tailwater_of(state: JobState, outlet: Outlet) -> OutletLevel | None:
    """Level of the water at an outlet; None where nobody says, which counts as below it."""
    for entry in reversed(state.current(OUTLET_SEEN, outlet.outlet_id)):
        if entry.body.water_nm is not None:
            return OutletLevel(entry.body.water_nm, f"seen on {entry.day}")
    if outlet.tailwater_nm is None:
        return None
    return OutletLevel(outlet.tailwater_nm, outlet.tailwater_source or "as planned")


def invert_of(state: JobState, outlet: Outlet) -> OutletLevel | None:
    """Invert of what an outlet gives its water to; None where nobody says."""
    for entry in reversed(state.current(OUTLET_SEEN, outlet.outlet_id)):
        if entry.body.invert_nm is not None:
            return OutletLevel(entry.body.invert_nm, f"seen on {entry.day}")
    return None if outlet.invert_nm is None else OutletLevel(outlet.invert_nm, "as planned")
