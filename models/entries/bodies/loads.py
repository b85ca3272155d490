"""Entries of what comes in and what goes out."""

from __future__ import annotations

from dataclasses import replace
from typing import Annotated, ClassVar, Self

from pydantic import Field, model_validator

from models.entries.bodies.passes import COIL, MATERIAL, MOISTURE, NOTE, SURFACE, Moisture
from models.entries.body import Body
from models.entries.shows import Quantity, Shows
from models.plan.field_types import Label, Pl, Span, Typed, Ug, Words


class Delivery(Body):
    """A load of material in, with its ticket."""

    kind: ClassVar[str] = "delivery"

    material_id: Annotated[Label, MATERIAL] = Field(description="what was delivered")
    ticket: Annotated[str, Shows(label="Ticket", quantity=Quantity.NAME, column="ticket")] = Field(
        default="", max_length=80, description="number on the ticket"
    )
    mass_ug: Ug | None = Field(default=None, description="net mass, ug")
    volume_pl: Pl | None = Field(default=None, description="volume, pl")
    length_nm: Span | None = Field(default=None, description="length, nm")
    amount_typed: Typed = Field(default="", description="amount as typed")
    coil_id: Annotated[str, replace(COIL, said="coil {value}")] = Field(
        default="", max_length=80, description="name given to the coil"
    )
    moisture: Annotated[Moisture | None, MOISTURE] = Field(
        default=None, description="how the sand felt"
    )
    note: Annotated[Words, NOTE] = Field(default="", description="remarks")

    @model_validator(mode="after")
    def _has_one_amount(self) -> Self:
        """A ticket states one figure: a mass, a volume or a length."""
        given = [self.mass_ug, self.volume_pl, self.length_nm]
        if sum(amount is not None for amount in given) != 1:
            raise ValueError("a delivery needs exactly one of mass, volume or length")
        return self


class SpoilAway(Body):
    """A load of spoil taken away."""

    kind: ClassVar[str] = "spoil"

    surface_id: Annotated[str, replace(SURFACE, said="{value}")] = Field(
        default="", max_length=80, description="surface it came from"
    )
    volume_pl: Annotated[Pl, Shows(label="Amount", quantity=Quantity.VOLUME, column="amount")] = (
        Field(description="loose volume, pl")
    )
    volume_typed: Typed = Field(default="", description="volume as typed")
    to: Annotated[
        Words, Shows(label="To", quantity=Quantity.WORDS, column="where", said="to {value}")
    ] = Field(default="", description="where it was taken")
