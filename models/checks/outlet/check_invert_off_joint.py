"""invert_off_joint: a pipe was laid off the level of what it joins."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace
from fractions import Fraction

from models.checks.affected_together import LEVELS, every_collector, whole_nm
from models.checks.finding import Check, Finding, Severity, Subjects, make_finding
from models.entries.bodies.surfaces import Collector
from models.entries.envelope import AnyEntry
from models.entries.kind_names import COLLECTOR, OUTLET
from models.plan.collector import RunEnd
from models.queries.grade.laid_pipe import LaidShot, laid_pipe
from models.queries.water.tailwater import invert_of
from models.science.water.network import Match, arriving_invert_nm
from models.state.job_state import JobState


def _shot_at(state: JobState, collector_id: str, station_nm: int) -> LaidShot | None:
    """Shot on the invert of a collector at a station."""
    pipe = laid_pipe(state, collector_id)
    shots = pipe.shots if pipe is not None else ()
    return next((one for one in shots if one.at.station_nm == station_nm), None)


def _examine(state: JobState, subject: str) -> Iterator[Finding]:
    run = state.latest(COLLECTOR, subject)
    if not isinstance(run, Collector) or run.joins is None:
        return
    design, joins = run.design, run.joins
    own = _shot_at(state, subject, design.outlet_station_nm)
    wanted = _wanted(state, design.bore_nm, joins) if own is not None else None
    if own is None or wanted is None:
        return
    off = own.at.level_nm - wanted[0]
    is_high = not joins.outlet_id and off > design.high_nm
    if is_high or -off > design.low_nm:
        found = make_finding(
            CHECK.id,
            subject,
            [*wanted[1], own.at.entry],
            collector_id=subject,
            other=joins.outlet_id or joins.collector_id,
            off_nm=whole_nm(abs(off)),
        )
        yield replace(found, saying="high" if is_high else "low")


def _wanted(state: JobState, bore_nm: int, joins: RunEnd) -> tuple[Fraction, list[AnyEntry]] | None:
    """Invert at which a pipe has to arrive, and the shot that it rests on, if on one."""
    outlet = state.latest(OUTLET, joins.outlet_id) if joins.outlet_id else None
    if outlet is not None:
        level = invert_of(state, outlet)
        return None if level is None else (Fraction(level.level_nm), [])
    other = state.latest(COLLECTOR, joins.collector_id)
    if not isinstance(other, Collector) or joins.station_nm is None:
        return None
    shot = _shot_at(state, joins.collector_id, joins.station_nm)
    at = other.design.invert_nm(joins.station_nm) if shot is None else Fraction(shot.at.level_nm)
    match = Match(joins.match)
    wanted = arriving_invert_nm(at, other.design.bore_nm, bore_nm, match, joins.drop_nm)
    return wanted, [shot.at.entry] if shot is not None else []


def _and_what_joins(subjects: Subjects) -> Subjects:
    """Collectors that an entry touches, and those that run into them."""

    def touched(state: JobState, entry: AnyEntry) -> Iterable[str]:
        names = set(subjects(state, entry))
        yield from sorted(names)
        for name in every_collector(state):
            run = state.latest(COLLECTOR, name)
            if isinstance(run, Collector) and run.joins and run.joins.collector_id in names:
                yield name

    return touched


def _all(state: JobState, entry: AnyEntry) -> Iterable[str]:
    """Every collector, for a level of an outlet."""
    return every_collector(state)


CHECK = Check(
    id="invert_off_joint",
    severity=Severity.STOP,
    problem="A pipe was laid off the level of what it joins.",
    why="Laid low it stands full of what comes back; laid high it does not meet the joint.",
    cure="Lay its last pipe again to the level of the joint, or have another joint agreed.",
    message="The end of {collector_id} lies {off_nm:fine} too low for {other}.",
    messages={
        "low": "The end of {collector_id} lies {off_nm:fine} too low for {other}.",
        "high": "The end of {collector_id} lies {off_nm:fine} too high for {other}.",
    },
    watches={
        **{kind: _and_what_joins(subjects) for kind, subjects in LEVELS.items()},
        "outlet": _all,
        "outlet_seen": _all,
    },
    subjects=every_collector,
    examine=_examine,
)
