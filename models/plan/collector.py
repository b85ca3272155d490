"""Design of a collector: grade, tolerances, cover and layers."""

from __future__ import annotations

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
