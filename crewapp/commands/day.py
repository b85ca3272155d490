"""Commands of the day: hours, weather, delays, notes, signatures."""

from __future__ import annotations

from dataclasses import dataclass

from crewapp.commands.command import Command

Strokes = tuple[tuple[tuple[int, int], ...], ...]
"""Lines of a signature as drawn: each a run of points, x and y."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LogHours(Command):
    """Log the hours of a person or a machine."""

    of: str
    who: str
    run_min: int
    idle_min: int = 0
    down_min: int = 0
    note: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class LogWeather(Command):
    """Log weather and ground as they are now."""

    sky: str
    ground: str
    low_tenths_c: int | None = None
    high_tenths_c: int | None = None
    temperature_typed: str = ""
    rain_nm: int | None = None
    rain_typed: str = ""
    wind: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class LogDelay(Command):
    """Log time lost and why."""

    cause: str
    lost_min: int
    start_min: int | None = None
    note: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class EndDelay(Command):
    """Log a delay that ends now and began at ``since_ms``, or at ``start_min`` of the day."""

    cause: str
    since_ms: int
    start_min: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class LogUtility(Command):
    """Log a pipe, a cable or a stone met in the ground, whole or hit."""

    event: str
    what: str
    where: str
    x_nm: int | None = None
    y_nm: int | None = None
    depth_nm: int | None = None
    depth_typed: str = ""
    action: str = ""
    placed_by: str | None = None
    lat_ndeg: int | None = None
    lon_ndeg: int | None = None
    placed_sd_nm: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class LogNote(Command):
    """Log a note; one that needs the owner stands at the top of the sheet."""

    text: str
    needs_owner: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class LogPhoto(Command):
    """Log a photo that is kept as a file named by its content."""

    sha256: str
    suffix: str = "jpg"
    caption: str = ""
    where: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanTomorrow(Command):
    """Log what tomorrow needs."""

    work: str = ""
    must_be_clear: str = ""
    sand_ug: int | None = None
    sand_typed: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class SignDay(Command):
    """Keep a signature as drawn, over the entries of a day as they stand."""

    day: str
    role: str
    name: str
    meaning: str
    strokes: Strokes


@dataclass(frozen=True, slots=True, kw_only=True)
class CloseDay(Command):
    """Close a day over its entries as they stand."""

    day: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ReopenDay(Command):
    """Take up a closed day again; its sheet gets a new revision."""

    day: str
    why: str
