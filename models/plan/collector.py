"""Design of a collector: grade, tolerances, cover and layers."""

from __future__ import annotations

from fractions import Fraction
from typing import Literal

from pydantic import Field

from models.plan.field_types import Coordinate, Nm, Span
from models.plan.record import Record

Layer = Literal["bedding", "pipe", "tracer_wire", "surround", "fabric", "sand", "sod"]

LAYER_ORDER: tuple[Layer, ...] = (
    "bedding",
    "pipe",
    "tracer_wire",
    "surround",
    "fabric",
    "sand",
    "sod",
)


class StationLevel(Record):
    """A level at a station, such as finished ground over the collector."""

    station_nm: Nm = Field(description="station along the collector, nm")
    level_nm: Nm = Field(description="elevation above the job's datum, nm")


class PlanPoint(Record):
    """A point of an outline or a collector's path."""

    x_nm: Coordinate = Field(description="east of the local origin, nm")
    y_nm: Coordinate = Field(description="north of the local origin, nm")


class RunEnd(Record):
    """Where a collector gives its water: to an outlet, or to another collector at a station."""

    outlet_id: str = Field(default="", max_length=80, description="outlet that it runs to")
    collector_id: str = Field(default="", max_length=80, description="collector that it joins")
    station_nm: Nm | None = Field(default=None, description="station on the collector joined, nm")
    match: Literal["obvert", "invert", "drop"] = Field(
        default="obvert", description="what stands level where the two meet"
    )
    drop_nm: Nm = Field(default=0, description="invert over the one it joins, for a drop, nm")
    fitting: Literal["wye", "tee", "structure", "direct", "unknown"] = Field(
        default="unknown", description="what joins the two"
    )
    structure_id: str = Field(default="", max_length=80, description="structure that they meet in")


class CollectorDesign(Record):
    """Design line of a collector and the limits it is accepted by."""

    stationed_from: Literal["outlet", "head"] = Field(description="end that station zero is at")
    start_nm: Nm = Field(description="station of its first point, nm")
    length_nm: Span = Field(description="length along the collector, nm")
    start_invert_nm: Nm = Field(description="design invert at the first station, nm above datum")
    fall_nm: Nm = Field(description="fall in the direction of flow over run_nm, nm")
    run_nm: Span = Field(gt=0, description="run that fall_nm belongs to, nm")
    high_nm: Span = Field(description="invert allowed above design, nm")
    low_nm: Span = Field(description="invert allowed below design, nm")
    least_grade_fall_nm: Nm = Field(description="least fall of a reach over run_nm, nm")
    shot_every_nm: Span = Field(description="longest allowed gap between invert shots, nm")
    bore_nm: Span = Field(description="inside diameter of the pipe, nm")
    outside_nm: Span = Field(description="outside diameter of the pipe, nm")
    trench_width_nm: Span = Field(description="trench width, nm")
    bedding_nm: Span = Field(description="design bedding under the pipe, nm")
    bedding_least_nm: Span = Field(description="least bedding accepted, nm")
    cover_least_nm: Span = Field(description="least cover over the obvert, nm")
    protection_depth_nm: Span = Field(
        description="trench depth from which protection must be noted, nm"
    )
    layers: tuple[Layer, ...] = Field(default=LAYER_ORDER, description="layers, bottom up")
    ground: tuple[StationLevel, ...] = Field(default=(), description="finished ground over it")
    path: tuple[PlanPoint, ...] = Field(default=(), description="its course on the plan")

    @property
    def end_nm(self) -> int:
        """Station of its last point."""
        return self.start_nm + self.length_nm

    @property
    def outlet_station_nm(self) -> int:
        """Station of the end that its water leaves by."""
        return self.start_nm if self.stationed_from == "outlet" else self.end_nm

    def away_nm(self, station_nm: int) -> int:
        """Distance of a station from the end that its water leaves by."""
        return abs(station_nm - self.outlet_station_nm)

    def invert_nm(self, station_nm: int) -> Fraction:
        """Design invert at a station."""
        climb = 1 if self.stationed_from == "outlet" else -1
        along_nm = climb * (station_nm - self.start_nm)
        return self.start_invert_nm + Fraction(self.fall_nm, self.run_nm) * along_nm
