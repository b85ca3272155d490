"""Entries of tests of a material: sieve sheets, weighed boxes, bulking."""

from __future__ import annotations

from typing import Annotated, ClassVar, Self

from pydantic import Field, model_validator

from models.entries.bodies.passes import MATERIAL, MOISTURE, Moisture
from models.entries.body import Body
from models.entries.shows import Quantity, Shows
from models.plan.field_types import Count, Label, Pl, Span, Typed, Ug, Words
from models.plan.record import Record


class SieveWeight(Record):
    """What one sieve held back, or the pan below the last."""

    opening_um: Count = Field(description="opening of the sieve, um; 0 is the pan")
    retained_mg: Annotated[int, Field(strict=True, ge=0, le=10**10)] = Field(
        description="mass held back, mg; shares in thousandths of a percent serve as well"
    )


class SieveTest(Body):
    """A sieve sheet of a material."""

    kind: ClassVar[str] = "sieve_test"

    material_id: Label = Field(description="which material")
    weights: tuple[SieveWeight, ...] = Field(min_length=2, description="the largest sieve first")
    edition: str = Field(default="", max_length=80, description="published table it is held to")
    laboratory: Words = Field(default="", description="who sieved it, and the sheet's number")
    note: Words = Field(default="", description="remarks")


class BoxWeighing(Body):
    """A box of known volume filled loose and weighed."""

    kind: ClassVar[str] = "box_weighing"

    material_id: Annotated[Label, MATERIAL] = Field(description="which material")
    volume_pl: Annotated[Pl, Shows(label="Volume", quantity=Quantity.VOLUME, column="volume")] = (
        Field(gt=0, description="volume of the box, pl")
    )
    volume_typed: Typed = Field(default="", description="volume as typed")
    mass_ug: Annotated[Ug, Shows(label="Mass", quantity=Quantity.MASS, column="mass")] = Field(
        gt=0, description="mass of what filled it, less the box, ug"
    )
    mass_typed: Typed = Field(default="", description="mass as typed")
    moisture: Annotated[Moisture, MOISTURE] = Field(default="dry", description="how it felt")


class BulkingTest(Body):
    """Height of moist sand in a jar, and of the same sand under water."""

    kind: ClassVar[str] = "bulking_test"

    material_id: Annotated[Label, MATERIAL] = Field(description="which sand")
    moist_nm: Annotated[Span, Shows(label="Moist", quantity=Quantity.DEPTH, column="moist")] = (
        Field(gt=0, description="height of the moist sand, nm")
    )
    moist_typed: Typed = Field(default="", description="height as typed")
    flooded_nm: Annotated[
        Span, Shows(label="Flooded", quantity=Quantity.DEPTH, column="flooded")
    ] = Field(gt=0, description="height of the same sand flooded, nm")
    flooded_typed: Typed = Field(default="", description="height as typed")

    @model_validator(mode="after")
    def _moist_stands_higher(self) -> Self:
        """Sand under water takes the room of dry sand, never more than moist."""
        if self.flooded_nm > self.moist_nm:
            raise ValueError("flooded sand cannot stand higher than the same sand moist")
        return self
