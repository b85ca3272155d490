"""Entries of levelling: setups, turning points, check shots, grade shots."""

from __future__ import annotations

from typing import ClassVar, Literal

from pydantic import Field

from models.entries.body import Body
from models.plan.field_types import IsoDay, Label, Nm, Span, Typed, Words

ShotOn = Literal["trench_floor", "bedding", "invert", "obvert", "ground", "hub"]


class LaserSetup(Body):
    """The laser or level set up, with its backsight on a known point."""

    kind: ClassVar[str] = "setup"
    left_out: ClassVar[frozenset[str]] = frozenset({"instrument_id"})

    setup_id: Label = Field(description="name of the setup, such as L3")
    collector_id: str = Field(default="", max_length=80, description="collector it serves")
    instrument: Words = Field(default="", description="which instrument")
    on_point: Label = Field(description="benchmark or turning point the backsight is on")
    backsight_nm: Nm | None = Field(default=None, description="backsight rod reading, nm")
    backsight_typed: Typed = Field(default="", description="backsight as typed")
    plane: Literal["level", "graded"] = Field(default="level", description="plane it sweeps")
    fall_nm: Nm = Field(default=0, description="dialled fall in the flow over run_nm, nm")
    run_nm: Span = Field(default=1, gt=0, description="run that fall_nm belongs to, nm")
    at_station_nm: Nm = Field(
        default=0, description="station of the backsight point along the collector, nm"
    )
    reading_error_nm: Span = Field(
        default=1_524_000, description="a reading is good to plus or minus this, nm"
    )
    calibrated_on: IsoDay | None = Field(default=None, description="day it was last calibrated")
    instrument_id: str = Field(
        default="", max_length=80, description="instrument of the job that was set up"
    )


class TurningPoint(Body):
    """A foresight on a point that the next setup will look back on."""

    kind: ClassVar[str] = "turning_point"

    setup_id: Label = Field(description="setup it was read from")
    point_id: Label = Field(description="name of the turning point")
    foresight_nm: Nm = Field(description="rod reading, nm")
    foresight_typed: Typed = Field(default="", description="reading as typed")


class CheckShot(Body):
    """A reading on a point of known elevation, to prove the setup."""

    kind: ClassVar[str] = "check_shot"

    setup_id: Label = Field(description="setup it was read from")
    on_point: Label = Field(description="benchmark the rod stood on")
    reading_nm: Nm = Field(description="rod reading, nm")
    reading_typed: Typed = Field(default="", description="reading as typed")


class GradeShot(Body):
    """A rod reading at a station of a collector."""

    kind: ClassVar[str] = "grade_shot"

    setup_id: Label = Field(description="setup it was read from")
    collector_id: Label = Field(description="collector")
    station_nm: Nm = Field(description="station along the collector, nm")
    station_typed: Typed = Field(default="", description="station as typed")
    on: ShotOn = Field(description="what the rod stood on")
    reading_nm: Nm = Field(description="rod reading, nm")
    reading_typed: Typed = Field(default="", description="reading as typed")
