"""Entries of the lasers and levels themselves: which there are, what befell them, peg tests."""

from __future__ import annotations

from dataclasses import replace
from typing import Annotated, ClassVar, Literal

from pydantic import Field

from models.entries.bodies.passes import NOTE
from models.entries.body import Body
from models.entries.shows import Quantity, Shows
from models.plan.field_types import Count, IsoDay, Label, Nm, Span, Typed, Words

_INSTRUMENT = Shows(
    label="Laser", quantity=Quantity.NAME, column="instrument", choices="instrument"
)

InstrumentSort = Literal["rotating_laser", "pipe_laser", "automatic_level", "digital_level"]


class Instrument(Body):
    """A laser or level of the job, and what its maker says of it."""

    kind: ClassVar[str] = "instrument"

    instrument_id: Annotated[Label, replace(_INSTRUMENT, order=-1)] = Field(
        description="name of the instrument on this job"
    )
    what: Annotated[
        InstrumentSort, Shows(label="Sort", quantity=Quantity.CHOICE, column="what", order=-1)
    ] = Field(description="which sort of instrument")
    serial: Annotated[
        str,
        Shows(label="Number", quantity=Quantity.NAME, column="serial", said="number {value}"),
    ] = Field(default="", max_length=80, description="number on its plate")
    plane_asec10: Annotated[
        Count | None,
        Shows(label="Stated error", quantity=Quantity.ARC_SECONDS, column="arc seconds"),
    ] = Field(
        default=None,
        description="stated error of its plane or line of sight, tenths of an arc second",
    )
    rod_step_nm: Annotated[
        Span, Shows(label="Read to", quantity=Quantity.LEVEL, column="read to", order=-1)
    ] = Field(description="what its rod or detector is read to, nm")
    peg_limit_millionths: Annotated[
        Count | None, Shows(label="Peg limit", quantity=Quantity.COUNT, column="peg limit")
    ] = Field(
        default=None, description="largest error a peg test may show, millionths of the distance"
    )
    peg_every_days: Annotated[
        Count, Shows(label="Peg days", quantity=Quantity.COUNT, column="peg days")
    ] = Field(default=30, description="days that a peg test holds")
    calibrated_on: Annotated[
        IsoDay | None,
        Shows(
            label="Calibrated on",
            quantity=Quantity.DAY,
            column="calibrated on",
            said="calibrated {value}",
        ),
    ] = Field(default=None, description="day it was last calibrated")


class InstrumentEvent(Body):
    """Something that befell an instrument; one that was dropped needs a peg test."""

    kind: ClassVar[str] = "instrument_event"

    instrument_id: Annotated[Label, _INSTRUMENT] = Field(description="instrument")
    what: Annotated[
        Literal["dropped", "serviced", "calibrated", "other"],
        Shows(label="What befell it", quantity=Quantity.CHOICE, column="step"),
    ] = Field(description="what befell")
    note: Annotated[Words, NOTE] = Field(default="", description="remarks")


def _rod(column: str) -> Shows:
    """A rod reading of a peg test, by its column."""
    return Shows(label=column.capitalize(), quantity=Quantity.LEVEL, column=column)


def _distance(column: str) -> Shows:
    """A distance from the second setup of a peg test, by its column."""
    return Shows(label=column.capitalize(), quantity=Quantity.LENGTH, column=column)


class PegTest(Body):
    """A two-peg test: pegs A and B read from midway, then from a setup close to one of them."""

    kind: ClassVar[str] = "peg_test"

    instrument_id: Annotated[Label, _INSTRUMENT] = Field(description="instrument that was tested")
    mid_a_nm: Annotated[Nm, _rod("midway a")] = Field(description="reading on A from midway, nm")
    mid_a_typed: Typed = Field(default="", description="reading on A from midway as typed")
    mid_b_nm: Annotated[Nm, _rod("midway b")] = Field(description="reading on B from midway, nm")
    mid_b_typed: Typed = Field(default="", description="reading on B from midway as typed")
    end_a_nm: Annotated[Nm, _rod("end a")] = Field(
        description="reading on A from the second setup, nm"
    )
    end_a_typed: Typed = Field(default="", description="second reading on A as typed")
    end_b_nm: Annotated[Nm, _rod("end b")] = Field(
        description="reading on B from the second setup, nm"
    )
    end_b_typed: Typed = Field(default="", description="second reading on B as typed")
    to_a_nm: Annotated[Span, _distance("to a")] = Field(
        description="distance from the second setup to A, nm"
    )
    to_a_typed: Typed = Field(default="", description="distance to A as typed")
    to_b_nm: Annotated[Span, _distance("to b")] = Field(
        description="distance from the second setup to B, nm"
    )
    to_b_typed: Typed = Field(default="", description="distance to B as typed")
    note: Annotated[Words, NOTE] = Field(default="", description="remarks")
