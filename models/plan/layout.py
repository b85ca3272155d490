"""Layout of lines over a surface: the terms they were laid by, and the drives."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field

from models.plan.collector import PlanPoint
from models.plan.field_types import Count, Label, Nm, Span
from models.plan.line import LineUse
from models.plan.record import Record

Bearing = Annotated[int, Field(strict=True, ge=0, lt=360_000_000)]
"""Bearing clockwise from the plane's north, in millionths of a degree."""


class PlannedKeepOut(Record):
    """A place that no line may enter, with the clearance kept round it."""

    name: str = Field(default="", max_length=80, description="what it is, such as irrigation box")
    ring: tuple[PlanPoint, ...] = Field(min_length=3, description="its edge, in order, not closed")
    islands: tuple[tuple[PlanPoint, ...], ...] = Field(
        default=(), description="places within it where lines are cut all the same"
    )
    clearance_nm: Span = Field(default=0, description="clearance kept round it, nm")


class LayoutTerms(Record):
    """What was asked of the lines of one use."""

    use: LineUse = Field(description="sand slits or piped slits")
    spacing_nm: Span = Field(gt=0, description="distance between neighbouring lines, nm")
    bearing_udeg: Bearing = Field(default=0, description="bearing of the lines, udeg")
    least_nm: Span = Field(default=0, description="a shorter piece is a stub and dropped, nm")
    first_nm: Span | None = Field(
        default=None, description="first line in from the left edge, nm; None serves both alike"
    )
    machine_id: str = Field(default="", max_length=80, description="machine it was planned for")
    legs: Count = Field(default=1, ge=1, description="cutting blades of the machine")
    leg_spacing_nm: Span = Field(default=0, description="distance between its legs, nm")
    turning_radius_nm: Span = Field(default=0, description="least turning radius, nm")


class PlannedDrive(Record):
    """One planned drive of the machine: which lines, which way."""

    number: Count = Field(ge=1, description="place in the driving order, from 1")
    use: LineUse = Field(description="sand slits or piped slits")
    block: Count = Field(default=0, description="block of the interleave, from 0")
    shift: Count = Field(default=0, description="shift within its block, from 0")
    is_along: bool = Field(default=True, description="driven from line starts to line ends")
    legs: tuple[tuple[Label, ...], ...] = Field(
        min_length=1, description="lines each leg cuts, in driving order; an idle leg has none"
    )
    start: PlanPoint = Field(description="where the machine's middle begins")
    end: PlanPoint = Field(description="where the machine's middle ends")
    driven_nm: Span = Field(description="length of the drive, nm")
    across_nm: Nm = Field(description="offset of the machine's middle from the left edge, nm")
    turn_nm: Span = Field(default=0, description="headland driving to the next drive, nm")

    @property
    def line_ids(self) -> tuple[str, ...]:
        """Every line of the drive, leg by leg."""
        return tuple(name for leg in self.legs for name in leg)


class DroppedStub(Record):
    """A piece too short to cut, listed so that nobody looks for it."""

    use: LineUse = Field(description="sand slits or piped slits")
    number: Count = Field(description="number of the line it would have been part of")
    start: PlanPoint = Field(description="where it would begin")
    end: PlanPoint = Field(description="where it would end")
    length_nm: Span = Field(description="its length, nm")


class PlannedEnd(Record):
    """Where a piped slit meets the collector."""

    number: Count = Field(description="number of the joint, from the collector's first station")
    line_id: Label = Field(description="piped slit")
    station_nm: Nm = Field(description="station on the collector, nm")
    at: PlanPoint = Field(description="where it lies")
    gap_nm: Span = Field(default=0, description="pipe needed from the line's end to it, nm")
    goes_through: bool = Field(default=False, description="the line runs across the collector")
