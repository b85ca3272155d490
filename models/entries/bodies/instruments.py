"""Entries of the lasers and levels themselves: which there are, what befell them, peg tests."""

from __future__ import annotations

from typing import ClassVar, Literal

from pydantic import Field

from models.entries.body import Body
from models.plan.field_types import Count, IsoDay, Label, Nm, Span, Typed, Words

InstrumentSort = Literal["rotating_laser", "pipe_laser", "automatic_level", "digital_level"]


class Instrument(Body):
    """A laser or level of the job, and what its maker says of it."""

    kind: ClassVar[str] = "instrument"

    instrument_id: Label = Field(description="name of the instrument on this job")
    what: InstrumentSort = Field(description="which sort of instrument")
    serial: str = Field(default="", max_length=80, description="number on its plate")
    plane_asec10: Count | None = Field(
        default=None,
        description="stated error of its plane or line of sight, tenths of an arc second",
    )
    rod_step_nm: Span = Field(description="what its rod or detector is read to, nm")
    peg_limit_millionths: Count | None = Field(
        default=None, description="largest error a peg test may show, millionths of the distance"
    )
    peg_every_days: Count = Field(default=30, description="days that a peg test holds")
    calibrated_on: IsoDay | None = Field(default=None, description="day it was last calibrated")


class InstrumentEvent(Body):
    """Something that befell an instrument; one that was dropped needs a peg test."""

    kind: ClassVar[str] = "instrument_event"

    instrument_id: Label = Field(description="instrument")
    what: Literal["dropped", "serviced", "calibrated", "other"] = Field(description="what befell")
    note: Words = Field(default="", description="remarks")


class PegTest(Body):
    """A two-peg test: pegs A and B read from midway, then from a setup close to one of them."""

    kind: ClassVar[str] = "peg_test"

    instrument_id: Label = Field(description="instrument that was tested")
    mid_a_nm: Nm = Field(description="reading on A from midway, nm")
    mid_a_typed: Typed = Field(default="", description="reading on A from midway as typed")
    mid_b_nm: Nm = Field(description="reading on B from midway, nm")
    mid_b_typed: Typed = Field(default="", description="reading on B from midway as typed")
    end_a_nm: Nm = Field(description="reading on A from the second setup, nm")
    end_a_typed: Typed = Field(default="", description="second reading on A as typed")
    end_b_nm: Nm = Field(description="reading on B from the second setup, nm")
    end_b_typed: Typed = Field(default="", description="second reading on B as typed")
    to_a_nm: Span = Field(description="distance from the second setup to A, nm")
    to_a_typed: Typed = Field(default="", description="distance to A as typed")
    to_b_nm: Span = Field(description="distance from the second setup to B, nm")
    to_b_typed: Typed = Field(default="", description="distance to B as typed")
    note: Words = Field(default="", description="remarks")
