"""tailwater_over_invert: water seen at the outlet stands over the end of its pipe."""

from __future__ import annotations

from collections.abc import Iterator

from models.checks.affected_together import whole_nm
from models.checks.finding import Check, Finding, Severity, make_finding
from models.checks.outlet.runs_laid import (
    every_outlet,
    outlet_entry,
    outlet_of_entry,
    outlets_of_run,
    runs_to,
)
from models.entries.kind_names import OUTLET_SEEN
from models.state.job_state import JobState


def _examine(state: JobState, subject: str) -> Iterator[Finding]:
    """Hold the newest water seen against the design; planned water is the plan audit's."""
    seen = [one for one in state.current(OUTLET_SEEN, subject) if one.body.water_nm is not None]
    planned = outlet_entry(state, subject)
    if not seen or planned is None:
        return
    water_nm = seen[-1].body.water_nm or 0
    for run, _ in runs_to(state, subject):
        design = run.design
        over = water_nm - design.invert_nm(design.outlet_station_nm)
        if over > 0:
            yield make_finding(
                CHECK.id,
                subject,
                [planned, seen[-1]],
                place=run.collector_id,
                outlet_id=subject,
                collector_id=run.collector_id,
                above_nm=whole_nm(over),
            )


CHECK = Check(
    id="tailwater_over_invert",
    severity=Severity.FIX,
    problem="Water at an outlet stands over the end of the pipe that runs to it.",
    why="The pipe stands full from its end up: it carries less, and silt settles in it.",
    cure="Find out how often the water stands so high; let it down, or have the end raised.",
    message="The water seen at {outlet_id} stands {above_nm:depth} over the end of {collector_id}.",
    watches={
        "outlet": outlet_of_entry,
        "collector": outlets_of_run,
        "outlet_seen": outlet_of_entry,
    },
    subjects=every_outlet,
    examine=_examine,
)
