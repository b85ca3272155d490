"""Entries of what came after: rain, how the surface cleared, tests, topping up, repairs."""

from __future__ import annotations

from typing import Annotated, ClassVar, Literal, Self

from pydantic import Field, model_validator

from models.entries.bodies.passes import COLLECTOR, LINE, LINES, MATERIAL, SURFACE
from models.entries.body import Body
from models.entries.shows import Quantity, Shows
from models.plan.field_types import Label, Nm, Pl, Span, Typed, Ug, Words
from models.plan.record import Record

_NOTE = Shows(label="Note", quantity=Quantity.WORDS, column="note")

TimeMs = Annotated[int, Field(strict=True, ge=0, le=2**53)]
"""A moment, UTC, milliseconds since 1970."""

Seconds = Annotated[int, Field(strict=True, ge=0, le=7 * 24 * 3600)]


class Rain(Body):
    """One rain, as read from a gauge."""

    kind: ClassVar[str] = "rain"

    depth_nm: Annotated[Span, Shows(label="Depth", quantity=Quantity.DEPTH, column="depth")] = (
        Field(description="depth in the gauge, nm")
    )
    depth_typed: Typed = Field(default="", description="depth as typed")
    began_ms: Annotated[
        TimeMs | None, Shows(label="Began", quantity=Quantity.MOMENT, column="began")
    ] = Field(default=None, description="when it began, UTC ms")
    stopped_ms: Annotated[
        TimeMs, Shows(label="Stopped", quantity=Quantity.MOMENT, column="stopped")
    ] = Field(description="when it stopped, UTC ms")
    gauge: Annotated[Words, Shows(label="Gauge", quantity=Quantity.WORDS, column="gauge")] = Field(
        default="", description="which gauge, and where it stands"
    )
    note: Annotated[Words, _NOTE] = Field(default="", description="remarks")

    @model_validator(mode="after")
    def _stops_after_it_began(self) -> Self:
        """A rain that stops before it began is a slip in a time."""
        if self.began_ms is not None and self.stopped_ms < self.began_ms:
            raise ValueError("the rain stopped before it began")
        return self


class SurfaceSeen(Body):
    """How a surface, or a small plot of it, was seen to be at a time."""

    kind: ClassVar[str] = "surface_seen"

    surface_id: Annotated[Label, SURFACE] = Field(description="surface")
    plot: Annotated[Words, Shows(label="Plot", quantity=Quantity.WORDS, column="where")] = Field(
        default="", description="which part of it; empty is all of it"
    )
    condition: Annotated[
        Literal["standing_water", "clear", "playable"],
        Shows(label="Condition", quantity=Quantity.CHOICE, column="condition"),
    ] = Field(description="water stands, none stands, or fit to play on")
    seen_ms: Annotated[TimeMs, Shows(label="Seen", quantity=Quantity.MOMENT, column="seen")] = (
        Field(description="when it was seen so, UTC ms")
    )
    note: Annotated[Words, _NOTE] = Field(default="", description="remarks")


class LevelReading(Record):
    """Water level in a ring, at a time since the test began."""

    after_s: Seconds = Field(description="time since the test began, seconds")
    level_nm: Nm = Field(description="height of the water above the ground in the ring, nm")
    level_typed: Typed = Field(default="", description="level as typed")
    refilled_to_nm: Nm | None = Field(
        default=None, description="height it was filled up to after this reading, nm"
    )


class InfiltrationTest(Body):
    """A ring set into the surface, and how fast water left it."""

    kind: ClassVar[str] = "infiltration_test"

    surface_id: Annotated[Label, SURFACE] = Field(description="surface")
    where: Annotated[Words, Shows(label="Where", quantity=Quantity.WORDS, column="where")] = Field(
        default="", description="where on it, and over a slit or between slits"
    )
    when: Annotated[
        Literal["before", "after"], Shows(label="When", quantity=Quantity.CHOICE, column="when")
    ] = Field(description="before or after the drainage was put in")
    method: Annotated[
        Literal["single_ring", "double_ring"],
        Shows(label="Method", quantity=Quantity.CHOICE, column="method"),
    ] = Field(description="one ring, or two")
    inner_nm: Annotated[Span, Shows(label="Ring", quantity=Quantity.DEPTH, column="ring")] = Field(
        gt=0, description="inside diameter of the ring, the inner of two, nm"
    )
    driven_nm: Annotated[Span, Shows(label="Driven", quantity=Quantity.DEPTH, column="driven")] = (
        Field(default=0, description="how deep the ring was driven, nm")
    )
    readings: Annotated[
        tuple[LevelReading, ...],
        Shows(label="Readings", quantity=Quantity.READINGS, column="readings"),
    ] = Field(min_length=2, description="in the order of time")
    note: Annotated[Words, _NOTE] = Field(
        default="", description="remarks, such as wetted beforehand"
    )

    @model_validator(mode="after")
    def _time_goes_on(self) -> Self:
        """Readings out of order would give a rate below nothing."""
        times = [reading.after_s for reading in self.readings]
        if any(late <= early for early, late in zip(times, times[1:], strict=False)):
            raise ValueError("each reading is later than the one before")
        return self


class SandTopUp(Body):
    """Sand added later where the slits had settled."""

    kind: ClassVar[str] = "sand_top_up"

    surface_id: Annotated[Label, SURFACE] = Field(description="surface")
    line_ids: Annotated[tuple[Label, ...], LINES] = Field(
        default=(), description="lines; none means all over"
    )
    material_id: Annotated[Label, MATERIAL] = Field(description="which sand")
    volume_pl: Pl | None = Field(default=None, description="loose volume, pl")
    mass_ug: Ug | None = Field(default=None, description="mass, ug")
    amount_typed: Typed = Field(default="", description="amount as typed")
    settled_nm: Annotated[
        Span | None, Shows(label="Settled", quantity=Quantity.DEPTH, column="settled")
    ] = Field(default=None, description="how far the sand had sunk, nm")
    settled_typed: Typed = Field(default="", description="settlement as typed")
    note: Annotated[Words, _NOTE] = Field(default="", description="remarks")

    @model_validator(mode="after")
    def _has_an_amount(self) -> Self:
        """Either a volume or a mass was measured; one of them is the record."""
        if (self.volume_pl is None) == (self.mass_ug is None):
            raise ValueError("a top-up needs either a volume or a mass, not both")
        return self


class Repair(Body):
    """Something flushed, cleaned, repaired or replaced after the job."""

    kind: ClassVar[str] = "repair"

    surface_id: Annotated[str, SURFACE] = Field(
        default="", max_length=80, description="surface, where it was on one"
    )
    line_id: Annotated[str, LINE] = Field(
        default="", max_length=80, description="line, where it was on one"
    )
    collector_id: Annotated[str, COLLECTOR] = Field(
        default="", max_length=80, description="collector, where it was on"
    )
    station_nm: Annotated[
        Nm | None, Shows(label="Station", quantity=Quantity.STATION, column="station")
    ] = Field(default=None, description="station on the collector, nm")
    done: Annotated[
        Literal["flushed", "cleaned", "repaired", "replaced", "looked_at"],
        Shows(label="Done", quantity=Quantity.CHOICE, column="step"),
    ] = Field(description="what was done")
    why: Annotated[Words, Shows(label="Why", quantity=Quantity.WORDS, column="what")] = Field(
        default="", description="what was wrong"
    )
    note: Annotated[Words, _NOTE] = Field(default="", description="remarks")
