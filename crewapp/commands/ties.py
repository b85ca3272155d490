"""Commands of permanent points, ties and outlets."""

from __future__ import annotations

from dataclasses import dataclass

from crewapp.commands.command import Command


@dataclass(frozen=True, slots=True, kw_only=True)
class AddPermanentPoint(Command):
    """Log a point that will still be there in ten years; it is named unless a name is given."""

    where: str
    point_id: str = ""
    x_nm: int | None = None
    y_nm: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class TieEnd(Command):
    """Log the level distance from a permanent point to an end of a line or collector."""

    tied: str
    point_id: str
    distance_nm: int
    distance_typed: str = ""
    surface_id: str = ""
    line_id: str = ""
    collector_id: str = ""
    what: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class LogOutlet(Command):
    """Log an outlet as it is seen: by its own name, else by that of its collector."""

    outlet_id: str
    flows: str
    note: str = ""
    invert_nm: int | None = None
    invert_typed: str = ""
    water_nm: int | None = None
    water_typed: str = ""
    placed_by: str | None = None
    lat_ndeg: int | None = None
    lon_ndeg: int | None = None
    placed_sd_nm: int | None = None
