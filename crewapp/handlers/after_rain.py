"""Handlers of rain, clearing, ring tests, top-ups and repairs after the job."""

from __future__ import annotations

from dataclasses import asdict

from crewapp.commands.after_rain import (
    LogInfiltration,
    LogRain,
    LogRepair,
    LogSurfaceCondition,
    TopUpSand,
)
from crewapp.handlers.entries import write
from crewapp.handlers.known_places import need_collector, need_surface
from crewapp.handlers.loads import need_material
from crewapp.job.dispatch import handles
from crewapp.job.open_job import JobChanges, OpenJob
from models.entries.bodies.after_rain import (
    InfiltrationTest,
    LevelReading,
    Rain,
    Repair,
    SandTopUp,
    SurfaceSeen,
)
from models.errors import CrewError


class RepairWithoutPlaceError(CrewError, ValueError):
    """A repair was to be written down that names no place."""

    code = "after_rain.no_place"
    sentence = (
        "Nothing was written: the repair names no place. A surface, a line on it, or a "
        "collector would be accepted."
    )


@handles(LogRain)
def log_rain(job: OpenJob, command: LogRain) -> JobChanges:
    """Log one rain as read from a gauge, with the times at which it began and stopped.

    Raises
    ------
    EntryRefusedError
        If a figure does not fit, or it stopped before it began; nothing is written.
    """
    return write(
        job,
        Rain(
            depth_nm=command.depth_nm,
            depth_typed=command.depth_typed,
            began_ms=command.began_ms,
            stopped_ms=command.stopped_ms,
            gauge=command.gauge,
            note=command.note,
        ),
    )


@handles(LogSurfaceCondition)
def log_surface_condition(job: OpenJob, command: LogSurfaceCondition) -> JobChanges:
    """Log how a surface, or a plot of it, is seen to be: now, unless a time is given.

    Raises
    ------
    UnknownPlaceError, EntryRefusedError
        If there is no such surface, or a word does not fit; nothing is written.
    """
    need_surface(job, command.surface_id)
    return write(
        job,
        SurfaceSeen(
            surface_id=command.surface_id,
            plot=command.plot,
            condition=command.condition,
            seen_ms=job.clock.now().at_ms if command.seen_ms is None else command.seen_ms,
            note=command.note,
        ),
    )


@handles(LogInfiltration)
def log_infiltration(job: OpenJob, command: LogInfiltration) -> JobChanges:
    """Log a ring test with its readings, in the order of time.

    Raises
    ------
    UnknownPlaceError, EntryRefusedError
        If there is no such surface, or a figure does not fit; nothing is written.
    """
    need_surface(job, command.surface_id)
    return write(
        job,
        InfiltrationTest(
            surface_id=command.surface_id,
            where=command.where,
            when=command.when,
            method=command.method,
            inner_nm=command.inner_nm,
            driven_nm=command.driven_nm,
            readings=tuple(LevelReading(**asdict(one)) for one in command.readings),
            note=command.note,
        ),
    )


@handles(TopUpSand)
def top_up_sand(job: OpenJob, command: TopUpSand) -> JobChanges:
    """Log sand added where slits had settled: on the lines named, or all over.

    Raises
    ------
    UnknownPlaceError, UnknownLineError, UnknownMaterialError, EntryRefusedError
        If the job has no such place or sand, or there is no one amount; nothing is written.
    """
    need_surface(job, command.surface_id, command.line_ids)
    need_material(job, command.material_id)
    return write(
        job,
        SandTopUp(
            surface_id=command.surface_id,
            line_ids=command.line_ids,
            material_id=command.material_id,
            volume_pl=command.volume_pl,
            mass_ug=command.mass_ug,
            amount_typed=command.amount_typed,
            settled_nm=command.settled_nm,
            settled_typed=command.settled_typed,
            note=command.note,
        ),
    )


@handles(LogRepair)
def log_repair(job: OpenJob, command: LogRepair) -> JobChanges:
    """Log what somebody did: flushed, cleaned, repaired or replaced, and where.

    Raises
    ------
    RepairWithoutPlaceError, UnknownPlaceError, UnknownLineError, EntryRefusedError
        If it names no place, or one that the job does not have; nothing is written.
    """
    if not (command.surface_id or command.collector_id):
        raise RepairWithoutPlaceError
    if command.surface_id:
        need_surface(job, command.surface_id, (command.line_id,) if command.line_id else ())
    if command.collector_id:
        need_collector(job, command.collector_id)
    return write(
        job,
        Repair(
            surface_id=command.surface_id,
            line_id=command.line_id,
            collector_id=command.collector_id,
            station_nm=command.station_nm,
            done=command.did,
            why=command.why,
            note=command.note,
        ),
    )
