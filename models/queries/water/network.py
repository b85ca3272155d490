"""Network of a job's pipes, from its plan or as laid, and what of it reaches an outlet.

Nothing of it is typed: it follows from collectors, the joints of laid-out lines and outlets.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

from models.entries.bodies.outlets import Outlet
from models.entries.bodies.surfaces import Collector, Surface
from models.entries.kind_names import COLLECTOR, DRAINAGE_TERMS, LAYOUT, OUTLET, SURFACE
from models.queries.grade.laid_pipe import LaidPipe, laid_pipe
from models.queries.levelling.elevations import ground_at
from models.queries.water.drained_area import drained_m2
from models.queries.water.tailwater import tailwater_of
from models.science.water.network import Network, NetworkReach, circle_in
from models.science.water.pipe_run import ROUGHNESS
from models.state.job_state import JobState

_FOOT_NM = 304_800_000
_MILLIONTHS = 10**6
_PLAIN_ROUGHNESS = ROUGHNESS["corrugated plastic, 3 to 8 in"]

Invert = Callable[[int], Fraction]


@dataclass(frozen=True, slots=True)
class ReachPlace:
    """Where a reach lies: its collector, and the stations of its lower and upper end."""

    collector_id: str
    lower_nm: int
    upper_nm: int


@dataclass(frozen=True, slots=True)
class JobNetwork:
    """Network of a job, with what its nodes and reaches are.

    ``floors_nm`` are floors of joined slits and ``grounds_nm`` finished ground, by node;
    ``outlets`` are the outlets by their nodes; ``unplaced`` are surfaces whose joints are
    not laid out, so that their water is taken as coming in at the head.
    """

    network: Network
    places: Mapping[str, ReachPlace]
    floors_nm: Mapping[str, int]
    grounds_nm: Mapping[str, int]
    outlets: Mapping[str, Outlet]
    unplaced: frozenset[str]


def network_as_planned(state: JobState) -> JobNetwork:
    """Network by the design of every collector, worked out once for each state."""
    return _remembered(state, "network_planned", lambda name: None)


def network_as_laid(state: JobState) -> JobNetwork:
    """Network with every invert that was shot in place of the design's."""
    return _remembered(state, "network_laid", lambda name: laid_pipe(state, name))


def outlet_of_run(state: JobState, collector_id: str) -> Outlet | None:
    """Outlet that a collector leads to, through others where it joins them."""
    ends = _run_ends(state)
    if circle_in({name: end for name, end in ends.items() if end in ends}):
        return None
    name = collector_id
    while name in ends:
        collector = state.latest(COLLECTOR, name)
        joins = collector.joins if isinstance(collector, Collector) else None
        if joins is not None and joins.outlet_id:
            return state.latest(OUTLET, joins.outlet_id)
        name = ends[name]
    return None


def outlet_of_line(state: JobState, surface_id: str, line_id: str) -> Outlet | None:
    """Outlet that the water of a piped slit reaches in the plan, or None."""
    surface = state.latest(SURFACE, surface_id)
    if not isinstance(surface, Surface):
        return None
    if surface.outlet_id:
        return state.latest(OUTLET, surface.outlet_id)
    joints = _joints(state, surface)
    if not surface.collector_id or (joints is not None and line_id not in joints):
        return None
    return outlet_of_run(state, surface.collector_id)


def reaches_outlet(state: JobState, surface_id: str, line_id: str) -> bool:
    """Whether a path of reaches leads from a line to an outlet that the plan has."""
    return outlet_of_line(state, surface_id, line_id) is not None


def lines_without_outlet(state: JobState, surface: Surface) -> tuple[tuple[str, ...], Fraction]:
    """Piped slits of a surface that reach no outlet, and their share of its drained area.

    A surface without piped slits is drained by its collector, or not at all.
    """
    piped = [line for line in surface.lines if line.use == "piped_slit"]
    if not piped:
        way_out = surface.outlet_id and state.latest(OUTLET, surface.outlet_id)
        reached = way_out or outlet_of_run(state, surface.collector_id)
        return (), Fraction(0 if reached else 1)
    lost = [one for one in piped if not reaches_outlet(state, surface.surface_id, one.line_id)]
    whole_nm = sum(line.length_nm for line in piped)
    share = Fraction(sum(line.length_nm for line in lost), whole_nm) if whole_nm else Fraction(0)
    return tuple(line.line_id for line in lost), share


def node_of(collector_id: str, station_nm: int) -> str:
    """Name of the node at a station of a collector."""
    return f"{collector_id}@{station_nm}"


def _joints(state: JobState, surface: Surface) -> Mapping[str, int] | None:
    """Station of each line's joint; None where nothing was laid out."""
    layout = state.latest(LAYOUT, surface.surface_id)
    if layout is None or not (layout.ends or layout.unjoined):
        return None
    return {end.line_id: end.station_nm for end in layout.ends}


def _run_ends(state: JobState) -> dict[str, str]:
    """What every collector of the plan joins: another collector, or "" for an outlet or none."""
    ends = {}
    for name in state.every_name(COLLECTOR):
        collector = state.latest(COLLECTOR, name)
        if isinstance(collector, Collector):
            ends[name] = collector.joins.collector_id if collector.joins else ""
    return ends


def _remembered(
    state: JobState, name: str, laid_of: Callable[[str], LaidPipe | None]
) -> JobNetwork:
    key = (name, "")
    if key not in state.memo:
        state.memo[key] = _Build(state, laid_of).made()
    found: JobNetwork = state.memo[key]
    return found


class _Build:
    """A network being put together from the parts of a plan."""

    def __init__(self, state: JobState, laid_of: Callable[[str], LaidPipe | None]) -> None:
        self.state = state
        self.runs: dict[str, Collector] = {}
        for name in state.every_name(COLLECTOR):
            run = state.latest(COLLECTOR, name)
            if isinstance(run, Collector) and run.design.bore_nm and run.design.length_nm:
                self.runs[name] = run
        ends = {name: run.joins.collector_id for name, run in self.runs.items() if run.joins}
        for name in circle_in({name: end for name, end in ends.items() if end in self.runs}):
            del self.runs[name]  # refused by the audit; a book of before may hold it
        self.inverts = {name: _inverts(run, laid_of(name)) for name, run in self.runs.items()}
        self.stations = {name: self._ends_of(run, laid_of(name)) for name, run in self.runs.items()}
        self.areas: dict[str, float] = {}
        self.floors: dict[str, int] = {}
        self.unplaced: set[str] = set()

    def made(self) -> JobNetwork:
        """Return the network of all parts."""
        for name in self.state.every_name(SURFACE):
            surface = self.state.latest(SURFACE, name)
            if isinstance(surface, Surface) and surface.collector_id in self.runs:
                self._take_surface(surface)
        for run in self.runs.values():
            joins = run.joins
            if joins is not None and joins.station_nm is not None:
                self._add_station(joins.collector_id, joins.station_nm)
        outlets, tailwaters = self._outlets()
        reaches = [one for name in self.runs for one in self._reaches(name)]
        network = Network(tuple(reach for reach, _ in reaches), tailwaters, self.areas)
        places = {reach.reach_id: place for reach, place in reaches}
        return JobNetwork(
            network, places, self.floors, self._grounds(), outlets, frozenset(self.unplaced)
        )

    @staticmethod
    def _ends_of(run: Collector, laid: LaidPipe | None) -> set[int]:
        design = run.design
        shot = {one.at.station_nm for one in laid.shots} if laid else set()
        inside = {at for at in shot if design.start_nm <= at <= design.end_nm}
        return {design.start_nm, design.end_nm} | inside

    def _add_station(self, collector_id: str, station_nm: int) -> str:
        """A node at a station, moved to the run's end where it lies off it."""
        if collector_id in self.runs:
            design = self.runs[collector_id].design
            station_nm = min(max(station_nm, design.start_nm), design.end_nm)
            self.stations[collector_id].add(station_nm)
        return self._node(collector_id, station_nm)

    def _node(self, collector_id: str, station_nm: int) -> str:
        """Node at a station; a run's lower end is the place that it joins."""
        run = self.runs.get(collector_id)
        if run is None or run.joins is None or station_nm != run.design.outlet_station_nm:
            return node_of(collector_id, station_nm)
        joins = run.joins
        return joins.outlet_id or self._add_station(joins.collector_id, joins.station_nm or 0)

    def _take_surface(self, surface: Surface) -> None:
        """Let the water of a surface in where its piped slits join, else at the head."""
        own = surface.collector_id
        run = self.runs[own]
        area = drained_m2(self.state, surface) or 0.0
        joints = _joints(self.state, surface)
        if joints is None:
            self.unplaced.add(surface.surface_id)
            design = run.design
            head_nm = design.end_nm if design.stationed_from == "outlet" else design.start_nm
            self._let_in(node_of(own, head_nm), area)
            return
        piped = [line for line in surface.lines if line.use == "piped_slit"]
        whole_nm = sum(line.length_nm for line in piped)
        pattern = surface.piped_slits
        for line in piped:
            if line.line_id not in joints:
                continue
            station_nm = joints[line.line_id]
            node = self._add_station(own, station_nm)
            self._let_in(node, area * line.length_nm / whole_nm if whole_nm else 0.0)
            ground = ground_at(run, station_nm)
            if pattern is not None and pattern.depth_nm and ground is not None:
                floor = int(ground - pattern.depth_nm)
                self.floors[node] = min(floor, self.floors.get(node, floor))

    def _let_in(self, node: str, area: float) -> None:
        self.areas[node] = self.areas.get(node, 0.0) + area

    def _outlets(self) -> tuple[dict[str, Outlet], dict[str, int | None]]:
        outlets: dict[str, Outlet] = {}
        tailwaters: dict[str, int | None] = {}
        for run in self.runs.values():
            outlet_id = run.joins.outlet_id if run.joins else ""
            outlet = self.state.latest(OUTLET, outlet_id) if outlet_id else None
            if outlet is not None:
                outlets[outlet_id] = outlet
                water = tailwater_of(self.state, outlet)
                tailwaters[outlet_id] = water.level_nm if water else None
        return outlets, tailwaters

    def _reaches(self, name: str) -> Iterator[tuple[NetworkReach, ReachPlace]]:
        """The reaches of a run, from its outlet end up."""
        run, invert = self.runs[name], self.inverts[name]
        design = run.design
        stations = sorted(self.stations[name], key=design.away_nm)
        for lower_nm, upper_nm in pairwise(stations):
            is_last = lower_nm == design.outlet_station_nm
            reach = NetworkReach(
                f"{name} {lower_nm} {upper_nm}",
                node_of(name, upper_nm),
                self._node(name, lower_nm),
                abs(upper_nm - lower_nm),
                invert(upper_nm),
                invert(lower_nm),
                design.bore_nm,
                self._roughness(name),
                is_joined=is_last and run.joins is not None and not run.joins.outlet_id,
            )
            yield reach, ReachPlace(name, lower_nm, upper_nm)

    def _roughness(self, collector_id: str) -> float:
        """Manning's n of a run: of a surface that drains to it, else of any, else the table's."""
        found = []
        for name in self.state.every_name(DRAINAGE_TERMS):
            terms = self.state.latest(DRAINAGE_TERMS, name)
            surface = self.state.latest(SURFACE, name)
            if terms is not None and terms.roughness_millionths:
                is_own = isinstance(surface, Surface) and surface.collector_id == collector_id
                found.append((not is_own, name, terms.roughness_millionths / _MILLIONTHS))
        return min(found)[2] if found else _PLAIN_ROUGHNESS

    def _grounds(self) -> dict[str, int]:
        """Finished ground less a foot at every node of a run; no limit where the pipe is there."""
        grounds = {}
        for name, run in self.runs.items():
            for station_nm in self.stations[name]:
                ground = ground_at(run, station_nm)
                crown = run.design.invert_nm(station_nm) + run.design.bore_nm
                if ground is not None and ground - _FOOT_NM >= crown:
                    grounds[self._node(name, station_nm)] = int(ground) - _FOOT_NM
        return grounds


def _inverts(run: Collector, laid: LaidPipe | None) -> Invert:
    """Invert along a run: between shots straight, beyond them by the design's grade."""
    design = run.design
    shots = [(one.at.station_nm, Fraction(one.at.level_nm)) for one in laid.shots] if laid else []
    if not shots:
        return design.invert_nm

    def level_nm(station_nm: int) -> Fraction:
        for (low_at, low), (high_at, high) in pairwise(shots):
            if low_at <= station_nm <= high_at:
                return low + (high - low) * Fraction(station_nm - low_at, high_at - low_at)
        nearest, level = shots[0] if station_nm < shots[0][0] else shots[-1]
        return level + design.invert_nm(station_nm) - design.invert_nm(nearest)

    return level_nm
