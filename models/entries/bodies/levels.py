"""Entries of levelling: setups, turning points, check shots, grade shots."""

from __future__ import annotations

from typing import Annotated, ClassVar, Literal

from pydantic import Field

from models.entries.bodies.passes import COLLECTOR
from models.entries.body import Body
from models.entries.shows import Quantity, Shows
from models.plan.field_types import IsoDay, Label, Nm, Span, Typed, Words

_SETUP = Shows(label="Setup", quantity=Quantity.NAME, column="setup", choices="setup")
_POINT = Shows(label="Point", quantity=Quantity.NAME, column="point")
_ROD = Shows(label="Rod reading", quantity=Quantity.LEVEL, column="reading")


def _far(label: str) -> Shows:
    """Mark of the length of a sight."""
    return Shows(
        label=label,
        quantity=Quantity.LENGTH,
        column="sight",
        line="sight {value}",
        said="sight {value}",
    )


ShotOn = Literal["trench_floor", "bedding", "invert", "obvert", "ground", "hub"]


class LaserSetup(Body):
    """The laser or level set up, with its backsight on a known point."""

    kind: ClassVar[str] = "setup"
    left_out: ClassVar[frozenset[str]] = frozenset(
        {"instrument_id", "stands_at_nm", "backsight_far_nm"}
    )

    setup_id: Annotated[Label, _SETUP] = Field(description="name of the setup, such as L3")
    collector_id: Annotated[str, COLLECTOR] = Field(
        default="", max_length=80, description="collector it serves"
    )
    instrument: Annotated[Words, Shows(label="Laser in words", quantity=Quantity.WORDS)] = Field(
        default="", description="which instrument"
    )
    on_point: Annotated[Label, _POINT] = Field(
        description="benchmark or turning point the backsight is on"
    )
    backsight_nm: Annotated[
        Nm | None, Shows(label="Backsight", quantity=Quantity.LEVEL, column="reading")
    ] = Field(default=None, description="backsight rod reading, nm")
    backsight_typed: Typed = Field(default="", description="backsight as typed")
    plane: Annotated[Literal["level", "graded"], Shows(label="Plane", quantity=Quantity.CHOICE)] = (
        Field(default="level", description="plane it sweeps")
    )
    fall_nm: Annotated[Nm, Shows(label="Dialled fall", quantity=Quantity.LENGTH)] = Field(
        default=0, description="dialled fall in the flow over run_nm, nm"
    )
    run_nm: Annotated[Span, Shows(label="Run of the fall", quantity=Quantity.LENGTH)] = Field(
        default=1, gt=0, description="run that fall_nm belongs to, nm"
    )
    at_station_nm: Annotated[
        Nm, Shows(label="Station of the backsight", quantity=Quantity.STATION, column="station")
    ] = Field(default=0, description="station of the backsight point along the collector, nm")
    reading_error_nm: Annotated[Span, Shows(label="Readings good to", quantity=Quantity.LENGTH)] = (
        Field(default=1_524_000, description="a reading is good to plus or minus this, nm")
    )
    calibrated_on: Annotated[IsoDay | None, Shows(label="Calibrated on", quantity=Quantity.DAY)] = (
        Field(default=None, description="day it was last calibrated")
    )
    instrument_id: Annotated[
        str, Shows(label="Laser", quantity=Quantity.NAME, column="instrument", choices="instrument")
    ] = Field(default="", max_length=80, description="instrument of the job that was set up")
    stands_at_nm: Annotated[
        Nm | None,
        Shows(
            label="Station of the laser",
            quantity=Quantity.STATION,
            column="laser at",
            line="laser at {value}",
            said="laser at {value}",
        ),
    ] = Field(default=None, description="station of the instrument along the collector, nm")
    backsight_far_nm: Annotated[Span | None, _far("Length of the backsight")] = Field(
        default=None, description="length of the backsight, nm"
    )


class TurningPoint(Body):
    """A foresight on a point that the next setup will look back on."""

    kind: ClassVar[str] = "turning_point"
    left_out: ClassVar[frozenset[str]] = frozenset({"far_nm"})

    setup_id: Annotated[Label, _SETUP] = Field(description="setup it was read from")
    point_id: Annotated[Label, _POINT] = Field(description="name of the turning point")
    foresight_nm: Annotated[
        Nm, Shows(label="Foresight", quantity=Quantity.LEVEL, column="reading")
    ] = Field(description="rod reading, nm")
    foresight_typed: Typed = Field(default="", description="reading as typed")
    far_nm: Annotated[Span | None, _far("Length of the foresight")] = Field(
        default=None, description="length of the foresight, nm"
    )


class CheckShot(Body):
    """A reading on a point of known elevation, to prove the setup."""

    kind: ClassVar[str] = "check_shot"
    left_out: ClassVar[frozenset[str]] = frozenset({"far_nm"})

    setup_id: Annotated[Label, _SETUP] = Field(description="setup it was read from")
    on_point: Annotated[Label, _POINT] = Field(description="benchmark the rod stood on")
    reading_nm: Annotated[Nm, _ROD] = Field(description="rod reading, nm")
    reading_typed: Typed = Field(default="", description="reading as typed")
    far_nm: Annotated[Span | None, _far("Length of the sight")] = Field(
        default=None, description="length of the sight, nm"
    )


class GradeShot(Body):
    """A rod reading at a station of a collector."""

    kind: ClassVar[str] = "grade_shot"

    setup_id: Annotated[Label, _SETUP] = Field(description="setup it was read from")
    collector_id: Annotated[Label, COLLECTOR] = Field(description="collector")
    station_nm: Annotated[
        Nm, Shows(label="Station", quantity=Quantity.STATION, column="station")
    ] = Field(description="station along the collector, nm")
    station_typed: Typed = Field(default="", description="station as typed")
    on: Annotated[ShotOn, Shows(label="On", quantity=Quantity.CHOICE, column="on")] = Field(
        description="what the rod stood on"
    )
    reading_nm: Annotated[Nm, _ROD] = Field(description="rod reading, nm")
    reading_typed: Typed = Field(default="", description="reading as typed")
