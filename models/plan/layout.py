"""Layout of lines over a surface: the terms they were laid by, and the drives."""

from __future__ import annotations

from collections.abc import Sequence
from math import cos, hypot, pi, sin
from typing import Annotated, ClassVar, Literal, Self

from pydantic import Field, model_validator

from models.plan.collector import PlanPoint
from models.plan.field_types import Count, Label, Nm, Span
from models.plan.line import LineUse
from models.plan.record import Record

Bearing = Annotated[int, Field(strict=True, ge=0, lt=360_000_000)]
"""Bearing clockwise from the plane's north, in millionths of a degree."""


KeepOutKind = Literal["no_cut", "no_wheels", "mind"]
_DRAWN_CORNERS = 64


class PlannedKeepOut(Record):
    """A place that no line may enter, with the clearance kept round it."""

    left_out: ClassVar[frozenset[str]] = frozenset(
        {
            *("keep_out_id", "kind", "ring", "at", "radius_nm", "path", "half_nm"),
            *("depth_nm", "source"),
        }
    )

    keep_out_id: str = Field(default="", max_length=80, description="short name, such as K1")
    name: str = Field(default="", max_length=80, description="what it is, such as irrigation box")
    kind: KeepOutKind = Field(
        default="no_cut",
        description="no_cut lifts the blade; no_wheels keeps wheels off too; mind is cut over, "
        "since it lies deeper than the slit",
    )
    ring: tuple[PlanPoint, ...] = Field(
        default=(), min_length=3, description="its edge, in order, not closed"
    )
    islands: tuple[tuple[PlanPoint, ...], ...] = Field(
        default=(), description="places within it where lines are cut all the same"
    )
    at: PlanPoint | None = Field(default=None, description="middle, where it is a circle")
    radius_nm: Span | None = Field(default=None, description="radius, where it is a circle, nm")
    path: tuple[PlanPoint, ...] = Field(
        default=(), min_length=2, description="course, where it is a corridor"
    )
    half_nm: Span | None = Field(
        default=None, description="half the width, where it is a corridor, nm"
    )
    clearance_nm: Span = Field(default=0, description="clearance kept round it, nm")
    depth_nm: Span | None = Field(
        default=None, description="depth of its top below finished turf, nm; None not known"
    )
    source: str = Field(default="", max_length=80, description="what it was read from")

    @model_validator(mode="after")
    def _has_one_shape(self) -> Self:
        """A ring, a circle or a corridor: exactly one, and whole."""
        given = (bool(self.ring), self.at is not None, bool(self.path))
        if sum(given) != 1 or (bool(self.radius_nm), bool(self.half_nm)) != given[1:]:
            raise ValueError(
                "a keep-out needs one shape: a ring of three points or more, a middle with a "
                "radius, or a course of two points or more with half its width"
            )
        return self

    @property
    def is_cut_over(self) -> bool:
        """Whether lines run across it all the same."""
        return self.kind == "mind"

    @property
    def edge(self) -> tuple[PlanPoint, ...]:
        """Edge as drawings show it, with chords for what is round; no line is clipped to it."""
        if self.at is not None:
            return _circle(self.at, self.radius_nm or 0)
        return _around(self.path, self.half_nm or 0) if self.path else self.ring


def _circle(at: PlanPoint, radius_nm: int) -> tuple[PlanPoint, ...]:
    """Points round a middle."""
    angles = (2 * pi * number / _DRAWN_CORNERS for number in range(_DRAWN_CORNERS))
    return tuple(
        PlanPoint(
            x_nm=at.x_nm + round(radius_nm * cos(angle)),
            y_nm=at.y_nm + round(radius_nm * sin(angle)),
        )
        for angle in angles
    )


def _around(path: Sequence[PlanPoint], half_nm: int) -> tuple[PlanPoint, ...]:
    """Edge of a corridor: along one side of its course, and back along the other."""
    return (*_beside(path, half_nm), *_beside(path[::-1], half_nm))


def _beside(path: Sequence[PlanPoint], half_nm: int) -> list[PlanPoint]:
    """Places to the right of a course, at each end of each of its sides."""
    found = []
    for start, end in zip(path, path[1:], strict=False):
        way_x, way_y = end.x_nm - start.x_nm, end.y_nm - start.y_nm
        length = hypot(way_x, way_y) or 1.0
        off_x, off_y = round(way_y / length * half_nm), round(-way_x / length * half_nm)
        found += [PlanPoint(x_nm=one.x_nm + off_x, y_nm=one.y_nm + off_y) for one in (start, end)]
    return found


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


class PlannedPiece(Record):
    """What one leg is to cut of one line on a drive."""

    leg: Count = Field(ge=1, description="leg, from 1 at the left along the bearing")
    line_id: Label = Field(description="line it cuts")
    from_nm: Span = Field(description="where it begins along the drive as driven, nm")
    to_nm: Span = Field(description="where it ends along the drive as driven, nm")


class PlannedDrive(Record):
    """One planned drive of the machine: which lines, which way."""

    left_out: ClassVar[frozenset[str]] = frozenset({"pieces"})

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
    pieces: tuple[PlannedPiece, ...] = Field(
        default=(), description="what each leg cuts, from where the drive's first blade goes in"
    )

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
