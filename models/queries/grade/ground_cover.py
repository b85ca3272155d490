"""Ground over a collector: as shot, or as planned where nobody has shot it."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Callable
from fractions import Fraction

from models.entries.bodies.surfaces import Collector
from models.entries.kind_names import COLLECTOR
from models.queries.grade.laid_pipe import newest_shots
from models.science.levelling.laser_plane import Length
from models.state.job_state import JobState

Ground = Callable[[int], Length | None]
"""Ground at a station, or None where neither a shot nor the plan has any."""


def ground_over(state: JobState, collector_id: str) -> Ground:
    """Finished ground over a collector: the newest shot at a station, else the plan's.

    The plan's ground is straight between its levels and ends with them.
    """
    key = ("ground", collector_id)
    if key not in state.memo:
        state.memo[key] = _ground_over(state, collector_id)
    found: Ground = state.memo[key]
    return found


def _ground_over(state: JobState, collector_id: str) -> Ground:
    shots = newest_shots(state, collector_id).get("ground", {})
    collector = state.latest(COLLECTOR, collector_id)
    ground = collector.design.ground if isinstance(collector, Collector) else ()
    levels = sorted((level.station_nm, level.level_nm) for level in ground)
    stations = [station_nm for station_nm, _ in levels]

    def ground_at(station_nm: int) -> Length | None:
        if station_nm in shots:
            return shots[station_nm].level_nm
        place = bisect_left(stations, station_nm)
        if place < len(levels) and stations[place] == station_nm:
            return levels[place][1]
        if not 0 < place < len(levels):
            return None
        (start, low_nm), (end, high_nm) = levels[place - 1], levels[place]
        return low_nm + Fraction((station_nm - start) * (high_nm - low_nm), end - start)

    return ground_at
