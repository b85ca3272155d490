"""Entries of what comes in and what goes out."""

from __future__ import annotations

from typing import ClassVar, Self

from pydantic import Field, model_validator

from models.entries.bodies.passes import Moisture
from models.entries.body import Body
from models.plan.field_types import Label, Pl, Span, Typed, Ug, Words


class Delivery(Body):
    """A load of material in, with its ticket."""

    kind: ClassVar[str] = "delivery"

    material_id: Label = Field(description="what was delivered")
    ticket: str = Field(default="", max_length=80, description="number on the ticket")
    mass_ug: Ug | None = Field(default=None, description="net mass, ug")
    volume_pl: Pl | None = Field(default=None, description="volume, pl")
    length_nm: Span | None = Field(default=None, description="length, nm")
    amount_typed: Typed = Field(default="", description="amount as typed")
    coil_id: str = Field(default="", max_length=80, description="name given to the coil")
    moisture: Moisture | None = Field(default=None, description="how the sand felt")
    note: Words = Field(default="", description="remarks")

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

    surface_id: str = Field(default="", max_length=80, description="surface it came from")
    volume_pl: Pl = Field(description="loose volume, pl")
    volume_typed: Typed = Field(default="", description="volume as typed")
    to: Words = Field(default="", description="where it was taken")
