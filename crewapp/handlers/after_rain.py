"""What is written down after the job: rain, how the ground cleared, tests, top-ups, repairs."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from crewapp.handlers.entries import write
from crewapp.handlers.known_places import need_collector, need_surface
from crewapp.handlers.loads import need_material
from crewapp.job.open_job import Changed, OpenJob
from models.errors import CrewError


class RepairWithoutPlaceError(CrewError, ValueError):
    """A repair was to be written down that names no place."""

    code = "after_rain.no_place"
    sentence = (
        "Nothing was written: the repair names no place. A surface, a line on it, or a "
        "collector would be accepted."
    )


def log_rain(
    job: OpenJob,
    *,
    depth_nm: int,
    stopped_ms: int,
    began_ms: int | None = None,
    depth_typed: str = "",
    gauge: str = "",
    note: str = "",
) -> Changed:
    """Log one rain as read from a gauge, with the times at which it began and stopped.

    Raises
    ------
    EntryRefusedError
        If a figure does not fit, or it stopped before it began; nothing is written.
    """
    return write(
        job,
        "rain",
        depth_nm=depth_nm,
        depth_typed=depth_typed,
        began_ms=began_ms,
        stopped_ms=stopped_ms,
        gauge=gauge,
        note=note,
    )


def see_surface(
    job: OpenJob,
    *,
    surface_id: str,
    condition: str,
    seen_ms: int | None = None,
    plot: str = "",
    note: str = "",
) -> Changed:
    """Log how a surface, or a plot of it, is seen to be: now, unless a time is given.

    Raises
    ------
    UnknownPlaceError, EntryRefusedError
        If there is no such surface, or a word does not fit; nothing is written.
    """
    need_surface(job, surface_id)
    return write(
        job,
        "surface_seen",
        surface_id=surface_id,
        plot=plot,
        condition=condition,
        seen_ms=job.clock.now().at_ms if seen_ms is None else seen_ms,
        note=note,
    )


def log_infiltration(
    job: OpenJob,
    *,
    surface_id: str,
    when: str,
    method: str,
    inner_nm: int,
    readings: Sequence[dict[str, Any]],
    where: str = "",
    driven_nm: int = 0,
    note: str = "",
) -> Changed:
    """Log a ring test with its readings, each ``after_s``, ``level_nm``, ``level_typed``.

    A reading after which the ring was filled up also has ``refilled_to_nm``.

    Raises
    ------
    UnknownPlaceError, EntryRefusedError
        If there is no such surface, or a figure does not fit; nothing is written.
    """
    need_surface(job, surface_id)
    return write(
        job,
        "infiltration_test",
        surface_id=surface_id,
        where=where,
        when=when,
        method=method,
        inner_nm=inner_nm,
        driven_nm=driven_nm,
        readings=tuple(readings),
        note=note,
    )


def top_up_sand(
    job: OpenJob,
    *,
    surface_id: str,
    material_id: str,
    line_ids: tuple[str, ...] = (),
    volume_pl: int | None = None,
    mass_ug: int | None = None,
    amount_typed: str = "",
    settled_nm: int | None = None,
    settled_typed: str = "",
    note: str = "",
) -> Changed:
    """Log sand added where slits had settled: on the lines named, or all over.

    Raises
    ------
    UnknownPlaceError, UnknownLineError, UnknownMaterialError, EntryRefusedError
        If the job has no such place or sand, or there is no one amount; nothing is written.
    """
    need_surface(job, surface_id, line_ids)
    need_material(job, material_id)
    return write(
        job,
        "sand_top_up",
        surface_id=surface_id,
        line_ids=line_ids,
        material_id=material_id,
        volume_pl=volume_pl,
        mass_ug=mass_ug,
        amount_typed=amount_typed,
        settled_nm=settled_nm,
        settled_typed=settled_typed,
        note=note,
    )


def log_repair(
    job: OpenJob,
    *,
    did: str,
    surface_id: str = "",
    line_id: str = "",
    collector_id: str = "",
    station_nm: int | None = None,
    why: str = "",
    note: str = "",
) -> Changed:
    """Log what somebody did: flushed, cleaned, repaired or replaced, and where.

    Raises
    ------
    RepairWithoutPlaceError, UnknownPlaceError, UnknownLineError, EntryRefusedError
        If it names no place, or one that the job does not have; nothing is written.
    """
    if not (surface_id or collector_id):
        raise RepairWithoutPlaceError
    if surface_id:
        need_surface(job, surface_id, (line_id,) if line_id else ())
    if collector_id:
        need_collector(job, collector_id)
    return write(
        job,
        "repair",
        surface_id=surface_id,
        line_id=line_id,
        collector_id=collector_id,
        station_nm=station_nm,
        done=did,
        why=why,
        note=note,
    )
