"""Entries of the blades of a machine: when they were changed, sharpened or set."""

from __future__ import annotations

from typing import Annotated, ClassVar, Literal

from pydantic import Field

from models.entries.bodies.passes import NOTE
from models.entries.body import Body
from models.entries.shows import Quantity, Shows
from models.plan.field_types import Count, Label, Words

BladeWork = Literal["changed", "sharpened", "depth_set", "wheel_set"]


class BladeSet(Body):
    """Blades that were changed, sharpened or set: their depths are watched anew from here."""

    kind: ClassVar[str] = "blade_set"

    machine_id: Annotated[
        Label,
        Shows(label="Machine", quantity=Quantity.NAME, column="machine", choices="machine"),
    ] = Field(description="machine")
    leg: Annotated[Count, Shows(label="Leg", quantity=Quantity.COUNT, column="leg")] = Field(
        default=0, le=24, description="which leg, from 1 at the left; 0 is all of them"
    )
    what: Annotated[
        BladeWork, Shows(label="What was done", quantity=Quantity.CHOICE, column="step")
    ] = Field(description="what was done")
    note: Annotated[Words, NOTE] = Field(default="", description="remarks")
