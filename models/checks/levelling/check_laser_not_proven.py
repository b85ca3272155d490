"""laser_not_proven: a hold point was released on shots of a laser that no peg test proves."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from models.checks.affected_together import INSTRUMENT_SETUPS, every_setup, replacing_shot
from models.checks.finding import Check, Finding, Severity, make_finding
from models.entries import id_fields
from models.entries.bodies.levels import GradeShot
from models.entries.envelope import AnyEntry
from models.entries.kind_names import GRADE_SHOT, HOLD_POINT
from models.queries.levelling.peg_tests import LaserProof, unproven_laser
from models.queries.levelling.setup_chain import setups_affected
from models.queries.levelling.setup_proof import BEFORE_ALL, shots_since
from models.state.indexes import SHOTS_FROM
from models.state.job_state import JobState
from models.units.station import StationRange

_PIPE = frozenset({"trench_floor", "bedding", "invert", "obvert"})


def _shot_along(state: JobState, entry: AnyEntry) -> Iterable[str]:
    """Setups with shots along the collector of a hold point."""
    shots = state.bodies(GRADE_SHOT, id_fields.collector_id_of(entry.body))
    return {shot.setup_id for shot in shots}


def _examine(state: JobState, subject: str) -> Iterator[Finding]:
    if not state.current(SHOTS_FROM, subject):
        return
    proof = unproven_laser(state, subject)
    if proof is None or proof.doubt is None:
        return
    shots: dict[str, list[tuple[GradeShot, AnyEntry]]] = {}
    for entry in shots_since(state, subject, BEFORE_ALL, is_run=False):
        shot = entry.body
        if shot.setup_id == subject and shot.on in _PIPE:
            shots.setdefault(shot.collector_id, []).append((shot, entry))
    for collector_id, along in shots.items():
        yield from _under_holds(state, proof, subject, collector_id, along)


def _under_holds(
    state: JobState,
    proof: LaserProof,
    subject: str,
    collector_id: str,
    shots: list[tuple[GradeShot, AnyEntry]],
) -> Iterator[Finding]:
    """The shots of one collector that a released hold point rests on."""
    rests: dict[str, AnyEntry] = {}
    stations: list[int] = []
    for hold in state.current(HOLD_POINT, collector_id):
        released = StationRange.between(hold.body.from_nm, hold.body.to_nm)
        for shot, entry in shots:
            if released.holds(shot.station_nm):
                rests |= {entry.id: entry, hold.id: hold}
                stations.append(shot.station_nm)
    if stations:
        yield make_finding(
            CHECK.id,
            subject,
            list(rests.values()),
            place=collector_id,
            setup_id=subject,
            collector_id=collector_id,
            from_nm=min(stations),
            to_nm=max(stations),
            instrument=proof.name,
            doubt=str(proof.doubt),
        )


CHECK = Check(
    id="laser_not_proven",
    severity=Severity.STOP,
    problem="Leave to cover was given on shots of a laser that no peg test proves.",
    why="A laser that was knocked sweeps a plane that is off and looks like a good one; what "
    "is covered on its word can't be seen again. A job that has no instrument written down "
    "is not asked for peg tests.",
    cure="Peg-test the laser now, before anything is covered: if it passes and was not "
    "adjusted since, the shots stand. If it fails, shoot again with one that passes.",
    message="{collector_id} from {from_nm:station} to {to_nm:station} was released on shots from "
    "{setup_id}, and {instrument} is not proven: {doubt}.",
    watches={
        "grade_shot": replacing_shot,
        "hold_point": _shot_along,
        **dict.fromkeys(("setup", "turning_point", "benchmark"), setups_affected),
        **INSTRUMENT_SETUPS,
    },
    subjects=every_setup,
    examine=_examine,
)
