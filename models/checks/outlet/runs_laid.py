"""Collectors with pipe in them, and the outlets that they run to."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from models.checks.finding import Subjects
from models.entries import id_fields
from models.entries.bodies.collector_work import OutletSeen
from models.entries.bodies.outlets import Outlet
from models.entries.bodies.passes import PipeLaid
from models.entries.bodies.surfaces import Collector
from models.entries.envelope import AnyEntry, Entry
from models.entries.kind_names import COLLECTOR, OUTLET
from models.state.indexes import PIPE_IN_COLLECTOR
from models.state.job_state import JobState

NEARLY_NM = 304_800_000
"""Pipe that is short of its run by no more than a foot is all of it: common practice."""


def runs_to(state: JobState, outlet_id: str) -> Iterator[tuple[Collector, list[Entry[PipeLaid]]]]:
    """Yield collectors that end at an outlet, each with the entries of its pipe."""
    for name in state.every_name(COLLECTOR):
        run = state.latest(COLLECTOR, name)
        if isinstance(run, Collector) and run.joins and run.joins.outlet_id == outlet_id:
            yield run, state.current(PIPE_IN_COLLECTOR, name)


def pipe_of_last_reach(state: JobState, outlet_id: str) -> Entry[PipeLaid] | None:
    """Return the entry with which the first collector to an outlet was laid whole, if one is."""
    for run, pipes in runs_to(state, outlet_id):
        left_nm = run.design.length_nm - NEARLY_NM
        for pipe in pipes:
            left_nm -= pipe.body.length_nm
            if left_nm <= 0:
                return pipe
    return None


def outlet_entry(state: JobState, outlet_id: str) -> AnyEntry | None:
    """Return the newest plan of an outlet."""
    planned = state.current(OUTLET, outlet_id)
    return planned[-1] if planned else None


def outlet_of(entry: AnyEntry) -> Outlet:
    """Return what an entry plans of an outlet."""
    assert isinstance(entry.body, Outlet)  # of the index of outlets
    return entry.body


def every_outlet(state: JobState) -> Iterable[str]:
    """Every outlet that has a plan."""
    return state.every_name(OUTLET)


def outlet_of_entry(state: JobState, entry: AnyEntry) -> Iterable[str]:
    """Outlet that an entry names, as subject."""
    body = entry.body
    return (body.outlet_id,) if isinstance(body, Outlet | OutletSeen) else ()


def outlets_of_run(state: JobState, entry: AnyEntry) -> Iterable[str]:
    """Every outlet, for an entry about a collector: its plan may have led elsewhere before."""
    return every_outlet(state) if id_fields.collector_id_of(entry.body) else ()


LAID_TO: dict[str, Subjects] = {
    "outlet": outlet_of_entry,
    "collector": outlets_of_run,
    "pipe_laid": outlets_of_run,
}
"""What tells of the pipe that leads to an outlet."""


def seen_as(state: JobState, entry: AnyEntry) -> Iterable[str]:
    """Outlets that an entry tells of by their own names or those of their collectors."""
    return every_outlet(state)
