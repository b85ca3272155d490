"""How a laser setup hangs from a benchmark, by way of the turning points between them."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from operator import attrgetter

from models.entries import id_fields
from models.entries.bodies.job import Benchmark
from models.entries.bodies.levels import LaserSetup, TurningPoint
from models.entries.envelope import AnyEntry, Entry
from models.entries.index import B, Index
from models.entries.kind_names import BENCHMARK, SETUP, TURNING_POINT
from models.state.indexes import CHECKS_ON, SETUPS, SETUPS_ON, SHOTS_FROM, TURNING_NAMED
from models.state.job_state import JobState
from models.units.spec import FOOT_NM

LONGEST_ROD_NM = 25 * FOOT_NM
"""Longest telescoping rod in the trade, 25 ft (7.62 m): common practice, no source.
A book doesn't say how long a job's rod is, so this is the one reading no rod gives."""

order_of = attrgetter("lc", "id")
"""Place of an entry in the book."""


@dataclass(frozen=True, slots=True)
class Chain:
    """Setups from one back to the benchmark that it hangs from.

    ``setups`` and ``turnings`` run backwards, the one asked for first.
    ``benchmark`` is empty when the chain ends on a point that nobody knows;
    ``lost_at`` then holds the setups that stand on such a point.
    """

    setups: tuple[Entry[LaserSetup], ...]
    turnings: tuple[Entry[TurningPoint], ...]
    benchmark: str
    lost_at: frozenset[str]

    @property
    def is_sound(self) -> bool:
        """Whether every reading of it is there and could have been read on a rod."""
        return bool(self.benchmark) and all(map(is_on_rod, self._readings()))

    def _readings(self) -> Iterable[int | None]:
        for entry in self.setups:
            yield entry.body.backsight_nm
        for turning in self.turnings:
            yield turning.body.foresight_nm


def is_on_rod(reading_nm: int | None) -> bool:
    """Whether a reading is there and within what a rod can show; its ends count as within."""
    return reading_nm is not None and 0 <= reading_nm <= LONGEST_ROD_NM


def is_graded(setup: LaserSetup) -> bool:
    """Whether the plane is dialled to a grade, so that its height needs a station."""
    return setup.plane == "graded" and setup.fall_nm != 0


def _level_setup_of(state: JobState, turning: AnyEntry | None) -> str:
    """Setup that a turning point was read from; empty where that sweeps no one height."""
    if turning is None or not isinstance(turning.body, TurningPoint):
        return ""
    entry = newest(state, SETUP, turning.body.setup_id)
    setup = entry.body if entry is not None else None
    is_sloping = isinstance(setup, LaserSetup) and is_graded(setup)
    return "" if is_sloping else turning.body.setup_id


def newest(state: JobState, index: Index[B, str], name: str) -> Entry[B] | None:
    """The newest current entry that an index holds under a name."""
    filed = state.current(index, name)
    return filed[-1] if filed else None


def chain_of(state: JobState, setup_id: str) -> Chain:
    """Follow a setup back to its benchmark, or to where the way is lost."""
    setups: list[Entry[LaserSetup]] = []
    turnings: list[Entry[TurningPoint]] = []
    passed: list[str] = []
    benchmark, lost = "", frozenset[str]()
    while True:
        entry = newest(state, SETUP, setup_id)
        if entry is None or not isinstance(entry.body, LaserSetup):
            lost = frozenset(passed[-1:])
            break
        if setup_id in passed:
            lost = frozenset(passed[passed.index(setup_id) :])
            break
        passed.append(setup_id)
        setups.append(entry)
        if newest(state, BENCHMARK, entry.body.on_point) is not None:
            benchmark = entry.body.on_point
            break
        turning = newest(state, TURNING_NAMED, entry.body.on_point)
        read_from = _level_setup_of(state, turning)
        if turning is None or not read_from:
            lost = frozenset({setup_id})
            break
        turnings.append(turning)
        setup_id = read_from
    return Chain(tuple(setups), tuple(turnings), benchmark, lost)


def setups_on(state: JobState, point: str) -> set[str]:
    """Names of the setups whose backsight is on a point."""
    return {body.setup_id for body in state.bodies(SETUPS_ON, point)}


def hanging_from(state: JobState, setups: Iterable[str]) -> set[str]:
    """Setups given, and all that hang from turning points read from them."""
    found: set[str] = set()
    ahead = list(setups)
    while ahead:
        setup_id = ahead.pop()
        if setup_id not in found:
            found.add(setup_id)
            for turning in state.bodies(TURNING_POINT, setup_id):
                ahead.extend(setups_on(state, turning.point_id))
    return found


def is_over(state: JobState, setup_id: str) -> bool:
    """Whether the laser has been moved since: the same tablet has a newer setup."""
    own = newest(state, SETUP, setup_id)
    if own is None:
        return True
    for entry in reversed(state.current(SETUPS)):
        if entry.id == own.id:
            return False
        if entry.stream == own.stream:
            return True
    return True


def setups_affected(state: JobState, entry: AnyEntry) -> set[str]:
    """Setups whose height an entry of levelling may change."""
    body = entry.body
    if isinstance(body, Benchmark):
        return hanging_from(state, setups_on(state, body.benchmark_id))
    own = {id_fields.setup_id_of(body)}
    if isinstance(body, TurningPoint):
        own |= setups_on(state, body.point_id)
    return hanging_from(state, own)


def runs_affected(state: JobState, entry: AnyEntry) -> set[str]:
    """Setups whose height or proof an entry may change, and those that they hang from."""
    touched = setups_affected(state, entry)
    if isinstance(entry.body, Benchmark):
        point = entry.body.benchmark_id
        touched |= {body.setup_id for body in state.bodies(CHECKS_ON, point)}
    for setup_id in tuple(touched):
        touched |= {setup.body.setup_id for setup in chain_of(state, setup_id).setups}
    return touched


def collectors_affected(state: JobState, entry: AnyEntry) -> set[str]:
    """Collectors with shots whose elevation an entry of levelling may change."""
    return {
        shot.collector_id
        for setup_id in setups_affected(state, entry)
        for shot in state.bodies(SHOTS_FROM, setup_id)
    }
