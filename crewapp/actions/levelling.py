"""What the crew does with the laser and the collector."""

from __future__ import annotations

from crewapp.actions.writing import write
from crewapp.open_job import Changed, OpenJob
from models.errors import CrewError


class UnknownSetupError(CrewError, LookupError):
    """A shot names a setup that has not been logged."""

    code = "actions.unknown_setup"
    sentence = "Nothing was written: there is no setup {setup_id} yet. Log the setup first."


class UnknownPointError(CrewError, LookupError):
    """A backsight is on a point whose elevation nobody knows."""

    code = "actions.unknown_point"
    sentence = (
        "Nothing was written: {point} is neither a benchmark nor a turning point read before. "
        "Known points are {points}."
    )


def next_setup_id(job: OpenJob) -> str:
    """Name for the next setup: L1, L2 and so on."""
    used = set(job.state.all_names("setup"))
    number = len(used) + 1
    while f"L{number}" in used:
        number += 1
    return f"L{number}"


def set_up_laser(
    job: OpenJob,
    *,
    on_point: str,
    backsight_nm: int | None,
    backsight_typed: str = "",
    setup_id: str = "",
    collector_id: str = "",
    instrument: str = "",
    plane: str = "level",
    fall_nm: int = 0,
    run_nm: int = 1,
    at_station_nm: int = 0,
    reading_error_nm: int = 1_524_000,
    calibrated_on: str | None = None,
) -> Changed:
    """Log a setup with its backsight; a graded plane states its fall.

    ``reading_error_nm`` is by default half of a hundredth of a foot.

    Raises
    ------
    UnknownPointError
        If the point is neither a benchmark nor a turning point; nothing is written.
    """
    known = [*job.state.all_names("benchmark"), *job.state.all_names("turning_named")]
    if on_point not in known:
        raise UnknownPointError(point=on_point, points=", ".join(known) or "none yet")
    return write(
        job,
        "setup",
        setup_id=setup_id or next_setup_id(job),
        collector_id=collector_id,
        instrument=instrument,
        on_point=on_point,
        backsight_nm=backsight_nm,
        backsight_typed=backsight_typed,
        plane=plane,
        fall_nm=fall_nm,
        run_nm=run_nm,
        at_station_nm=at_station_nm,
        reading_error_nm=reading_error_nm,
        calibrated_on=calibrated_on,
    )


def read_turning_point(
    job: OpenJob, *, setup_id: str, point_id: str, foresight_nm: int, foresight_typed: str = ""
) -> Changed:
    """Log the foresight on a turning point."""
    _need_setup(job, setup_id)
    return write(
        job,
        "turning_point",
        setup_id=setup_id,
        point_id=point_id,
        foresight_nm=foresight_nm,
        foresight_typed=foresight_typed,
    )


def check_setup(
    job: OpenJob, *, setup_id: str, on_point: str, reading_nm: int, reading_typed: str = ""
) -> Changed:
    """Log a check shot on a benchmark."""
    _need_setup(job, setup_id)
    return write(
        job,
        "check_shot",
        setup_id=setup_id,
        on_point=on_point,
        reading_nm=reading_nm,
        reading_typed=reading_typed,
    )


def shoot_grade(
    job: OpenJob,
    *,
    setup_id: str,
    collector_id: str,
    station_nm: int,
    on: str,
    reading_nm: int,
    reading_typed: str = "",
    station_typed: str = "",
) -> Changed:
    """Log a rod reading at a station of a collector."""
    _need_setup(job, setup_id)
    return write(
        job,
        "grade_shot",
        setup_id=setup_id,
        collector_id=collector_id,
        station_nm=station_nm,
        station_typed=station_typed,
        on=on,
        reading_nm=reading_nm,
        reading_typed=reading_typed,
    )


def check_layer(
    job: OpenJob,
    *,
    collector_id: str,
    from_nm: int,
    to_nm: int,
    layer: str,
    thickness_nm: int | None = None,
    thickness_typed: str = "",
    continuous: bool | None = None,
    note: str = "",
) -> Changed:
    """Log a layer of the collector placed and looked at."""
    return write(
        job,
        "layer_check",
        collector_id=collector_id,
        from_nm=min(from_nm, to_nm),
        to_nm=max(from_nm, to_nm),
        layer=layer,
        thickness_nm=thickness_nm,
        thickness_typed=thickness_typed,
        continuous=continuous,
        note=note,
    )


def release_hold(
    job: OpenJob, *, collector_id: str, from_nm: int, to_nm: int, released_by: str, note: str = ""
) -> Changed:
    """Give leave to cover a length of the collector."""
    return write(
        job,
        "hold_point",
        collector_id=collector_id,
        from_nm=min(from_nm, to_nm),
        to_nm=max(from_nm, to_nm),
        released_by=released_by,
        note=note,
    )


def note_protection(
    job: OpenJob,
    *,
    collector_id: str,
    from_nm: int,
    to_nm: int,
    depth_nm: int,
    protection: str,
    judged_by: str,
    depth_typed: str = "",
) -> Changed:
    """Log how people in the trench are kept safe."""
    return write(
        job,
        "trench_protection",
        collector_id=collector_id,
        from_nm=min(from_nm, to_nm),
        to_nm=max(from_nm, to_nm),
        depth_nm=depth_nm,
        depth_typed=depth_typed,
        protection=protection,
        judged_by=judged_by,
    )


def _need_setup(job: OpenJob, setup_id: str) -> None:
    if job.state.latest("setup", setup_id) is None:
        raise UnknownSetupError(setup_id=setup_id)
