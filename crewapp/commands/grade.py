"""Commands of levels, layers and hold points along a collector."""

from __future__ import annotations

from dataclasses import dataclass

from crewapp.commands.command import Command


@dataclass(frozen=True, slots=True, kw_only=True)
class SetUpLaser(Command):
    """Log a setup with its backsight; a graded plane states its fall."""

    on_point: str
    backsight_nm: int | None
    backsight_typed: str = ""
    setup_id: str = ""
    collector_id: str = ""
    instrument: str = ""
    plane: str = "level"
    fall_nm: int = 0
    run_nm: int = 1
    at_station_nm: int = 0
    reading_error_nm: int = 1_524_000
    calibrated_on: str | None = None
    instrument_id: str = ""
    stands_at_nm: int | None = None
    backsight_far_nm: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadTurningPoint(Command):
    """Log the foresight on a turning point."""

    setup_id: str
    point_id: str
    foresight_nm: int
    foresight_typed: str = ""
    far_nm: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class CheckSetup(Command):
    """Log a check shot on a benchmark."""

    setup_id: str
    on_point: str
    reading_nm: int
    reading_typed: str = ""
    far_nm: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class ShootGrade(Command):
    """Log a rod reading at a station of a collector."""

    setup_id: str
    collector_id: str
    station_nm: int
    on: str
    reading_nm: int
    reading_typed: str = ""
    station_typed: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class CheckLayer(Command):
    """Log a layer of the collector placed and looked at."""

    collector_id: str
    from_nm: int
    to_nm: int
    layer: str
    thickness_nm: int | None = None
    thickness_typed: str = ""
    continuous: bool | None = None
    note: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class ReleaseHold(Command):
    """Give leave to cover a length of the collector."""

    collector_id: str
    from_nm: int
    to_nm: int
    released_by: str
    note: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class NoteProtection(Command):
    """Log how people in the trench are kept safe."""

    collector_id: str
    from_nm: int
    to_nm: int
    depth_nm: int
    protection: str
    judged_by: str
    depth_typed: str = ""
