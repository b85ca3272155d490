"""Pipe that a re-lay had better leave where it is: joints that were made, and what is covered."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Iterator, Sequence

from models.entries.bodies.collector_work import HoldPoint, LayerCheck
from models.entries.bodies.planning import SurfaceLayout
from models.entries.bodies.surfaces import Collector
from models.entries.envelope import AnyEntry, Entry
from models.entries.keys import line_key
from models.entries.kind_names import COLLECTOR, HOLD_POINT, LAYER_CHECK, LAYOUT, SURFACE
from models.plan.collector import LAYER_ORDER
from models.queries.grade.laid_pipe import LaidPipe
from models.state.indexes import PIPE_IN_LINE
from models.state.job_state import JobState
from models.units.station import StationRange

_COVERING = frozenset(LAYER_ORDER[LAYER_ORDER.index("surround") :])
"""Layers that lie on the pipe."""


def made_joints(state: JobState, collector_id: str) -> dict[str, int]:
    """Stations of the joints of a collector that pipe was joined at, by the name that joins.

    Those are slits whose pipe is laid and joined, and collectors that are planned to join.
    """
    found: dict[str, int] = {}
    for surface_id in state.every_name(LAYOUT):
        layout, surface = state.latest(LAYOUT, surface_id), state.latest(SURFACE, surface_id)
        if surface is None or surface.collector_id != collector_id:
            continue
        for end in layout.ends if isinstance(layout, SurfaceLayout) else ():
            pipes = state.bodies(PIPE_IN_LINE, line_key(surface_id, end.line_id))
            if any(pipe.connected for pipe in pipes):
                found[end.line_id] = end.station_nm
    for name in state.every_name(COLLECTOR):
        other = state.latest(COLLECTOR, name)
        joins = other.joins if isinstance(other, Collector) else None
        at_nm = joins.station_nm if joins and joins.collector_id == collector_id else None
        if at_nm is not None:
            found[name] = at_nm
    return found


def covered_stretches(state: JobState, collector_id: str, shot: AnyEntry) -> list[StationRange]:
    """Stretches that were released, or covered by surround or more, after a shot was taken."""
    taken = state.place_of(shot)
    return [
        StationRange.between(entry.body.from_nm, entry.body.to_nm)
        for entry in _covers(state, collector_id)
        if state.place_of(entry) > taken
    ]


def _covers(state: JobState, collector_id: str) -> Iterator[Entry[HoldPoint] | Entry[LayerCheck]]:
    yield from state.current(HOLD_POINT, collector_id)
    for entry in state.current(LAYER_CHECK, collector_id):
        if entry.body.layer in _COVERING:
            yield entry


def covered_shots(state: JobState, collector_id: str, pipe: LaidPipe) -> list[int]:
    """Numbers of the shots of a pipe that are covered since they were taken."""
    return [
        number
        for number, shot in enumerate(pipe.shots)
        if any(
            stretch.holds(shot.at.station_nm)
            for stretch in covered_stretches(state, collector_id, shot.at.entry)
        )
    ]


def shots_beside(stations_nm: Sequence[int], station_nm: int) -> set[int]:
    """Numbers of the shots that hold a station where it is: its own, else those on either side."""
    low = bisect_left(stations_nm, station_nm)
    if bisect_right(stations_nm, station_nm) > low:
        return {low}
    return {number for number in (low - 1, low) if 0 <= number < len(stations_nm)}
