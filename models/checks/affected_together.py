"""Maps an entry to the setups and collectors whose checks must run again."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from models.checks.finding import Subjects
from models.entries import id_fields
from models.entries.bodies.levels import GradeShot
from models.entries.envelope import AnyEntry
from models.entries.kind_names import COLLECTOR, GRADE_SHOT, SETUP
from models.queries.levelling.peg_tests import setups_of_instrument
from models.queries.levelling.setup_chain import collectors_affected, order_of, runs_affected
from models.science.levelling.laser_plane import Length
from models.state.indexes import SETUPS, SHOTS_FROM
from models.state.job_state import JobState
from models.units import round_half_even


def collector_of_entry(state: JobState, entry: AnyEntry) -> Iterable[str]:
    """Collector that an entry names, as subject."""
    return (id_fields.collector_id_of(entry.body),)


def every_collector(state: JobState) -> Iterable[str]:
    """Every collector that has a plan."""
    return state.every_name(COLLECTOR)


LEVELS: Mapping[str, Subjects] = {
    "grade_shot": collector_of_entry,
    "collector": collector_of_entry,
    "setup": collectors_affected,
    "turning_point": collectors_affected,
    "benchmark": collectors_affected,
}
"""What elevations along a collector rest on."""


def _shot_by(state: JobState, entry: AnyEntry) -> Iterable[str]:
    """Collectors with shots that hang from setups of the instrument that an entry names."""
    return {
        shot.collector_id
        for setup_id in setups_of_instrument(state, id_fields.instrument_id_of(entry.body))
        for shot in state.bodies(SHOTS_FROM, setup_id)
    }


def _all_collectors(state: JobState, entry: AnyEntry) -> Iterable[str]:
    """Every collector: the job says how sure a verdict must be."""
    return every_collector(state)


PROVEN_LEVELS: Mapping[str, Subjects] = {
    **LEVELS,
    "instrument": _shot_by,
    "instrument_event": _shot_by,
    "peg_test": _shot_by,
    "job": _all_collectors,
}
"""Kinds that verdicts on a collector rest on: its elevations, and how sure they are."""


def setup_of_entry(state: JobState, entry: AnyEntry) -> Iterable[str]:
    """Setup that an entry names, as subject."""
    return (id_fields.setup_id_of(entry.body),)


def every_setup(state: JobState) -> Iterable[str]:
    """Every setup that is in force in the book."""
    return state.every_name(SETUP)


def setups_by(state: JobState, entry: AnyEntry) -> Iterable[str]:
    """Setups of the instrument that an entry names, and those that hang from them."""
    return setups_of_instrument(state, id_fields.instrument_id_of(entry.body))


def _any_setup(state: JobState, entry: AnyEntry) -> Iterable[str]:
    """Every setup: a new instrument concerns those that name none as well."""
    return every_setup(state)


INSTRUMENT_SETUPS: Mapping[str, Subjects] = {
    "instrument": _any_setup,
    "instrument_event": setups_by,
    "peg_test": setups_by,
}
"""What tells of the laser of a setup."""


def whole_nm(length: Length) -> int:
    """Whole nanometres of a length, ties to even, as a fact of a finding."""
    return round_half_even(length.numerator, length.denominator)


def ids_of(entries: Iterable[AnyEntry]) -> tuple[str, ...]:
    """Ids of entries in the order of the book, newest last."""
    return tuple(entry.id for entry in sorted(entries, key=order_of))


def newest_day(entries: Iterable[AnyEntry]) -> str:
    """Day of the newest of some entries."""
    return max(entries, key=order_of).day


def replacing_shot(state: JobState, entry: AnyEntry) -> Iterable[str]:
    """Setups that a shot hangs from, and those of other shots at its station."""
    own = entry.body
    touched = runs_affected(state, entry)
    if isinstance(own, GradeShot):
        for other in state.current(GRADE_SHOT, own.collector_id):
            shot = other.body
            if shot.station_nm == own.station_nm and shot.setup_id not in touched:
                touched |= runs_affected(state, other)
    return touched


def in_ppm(fall: Length, run_nm: int = 1) -> int:
    """Parts per million of a grade, ties to even, as a fact of a finding."""
    return round_half_even(1_000_000 * fall, run_nm)


def runs_and_setup_before(state: JobState, entry: AnyEntry) -> Iterable[str]:
    """Setups that a setup concerns, and the one that it ends: the one before on its tablet."""
    affected = runs_affected(state, entry)
    for other in reversed(state.current(SETUPS)):
        if other.stream == entry.stream and state.place_of(other) < state.place_of(entry):
            return {*affected, other.body.setup_id}
    return affected


PROOFS: Mapping[str, Subjects] = {
    "grade_shot": replacing_shot,
    **dict.fromkeys(("check_shot", "setup", "turning_point", "benchmark"), runs_affected),
}
"""What check shots prove or put in doubt."""
