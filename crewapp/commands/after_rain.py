"""Commands of what is seen, measured and repaired after rain and after the job."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from crewapp.commands.command import Command


@dataclass(frozen=True, slots=True, kw_only=True)
class LogRain(Command):
    """Log one rain as read from a gauge, with the times at which it began and stopped."""

    depth_nm: int
    stopped_ms: int
    began_ms: int | None = None
    depth_typed: str = ""
    gauge: str = ""
    note: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class LogSurfaceCondition(Command):
    """Log how a surface, or a plot of it, is seen to be: now, unless a time is given."""

    surface_id: str
    condition: str
    seen_ms: int | None = None
    plot: str = ""
    note: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class RingLevel:
    """Water level in a ring: seconds since the first, and to what it was filled up then."""

    after_s: int
    level_nm: int
    level_typed: str = ""
    refilled_to_nm: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class LogInfiltration(Command):
    """Log a ring test with its readings, in the order of time."""

    surface_id: str
    when: str
    method: str
    inner_nm: int
    readings: Sequence[RingLevel]
    where: str = ""
    driven_nm: int = 0
    note: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class TopUpSand(Command):
    """Log sand added where slits had settled: on the lines named, or all over."""

    surface_id: str
    material_id: str
    line_ids: tuple[str, ...] = ()
    volume_pl: int | None = None
    mass_ug: int | None = None
    amount_typed: str = ""
    settled_nm: int | None = None
    settled_typed: str = ""
    note: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class LogRepair(Command):
    """Log what somebody did: flushed, cleaned, repaired or replaced, and where."""

    did: str
    surface_id: str = ""
    line_id: str = ""
    collector_id: str = ""
    station_nm: int | None = None
    why: str = ""
    note: str = ""
