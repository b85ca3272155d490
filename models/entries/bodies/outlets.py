"""Entries that plan where water leaves a job: outlets, and the structures on its way."""

from __future__ import annotations

from typing import ClassVar, Final, Literal

from pydantic import Field

from models.entries.body import Body
from models.plan.collector import PlanPoint
from models.plan.field_types import IsoDay, Label, MicrolitresPerSecond, Nm, Span, Words

BAD_AIR: Final = (
    "DANGER: bad air gathers in a chamber and gives no sign. Nobody goes in or leans in until "
    "the air has been tested and a second person stands at the top with a way to call for help."
)
"""Caution that heads every text about a chamber; common practice, no source."""


class Outlet(Body):
    """Where a network of pipes gives its water away, and by whose leave."""

    kind: ClassVar[str] = "outlet"

    outlet_id: Label = Field(description="short name of the outlet, such as O1")
    name: Label = Field(description="name of the outlet")
    what: Literal["daylight", "ditch", "basin", "existing_drain", "sump_pump", "soakaway"] = Field(
        description="what it gives its water to"
    )
    at: PlanPoint | None = Field(default=None, description="where it lies")
    invert_nm: Nm | None = Field(
        default=None, description="invert of what it gives its water to, nm above datum"
    )
    rim_nm: Nm | None = Field(default=None, description="its rim, nm above datum")
    bore_nm: Span | None = Field(default=None, description="inside diameter of a pipe there, nm")
    capacity_ul_per_s: MicrolitresPerSecond | None = Field(
        default=None, description="flow that it takes, as somebody stated, uL/s"
    )
    capacity_source: Words = Field(default="", description="who stated that, and where")
    tailwater_nm: Nm | None = Field(
        default=None, description="water that stands there, nm above datum"
    )
    tailwater_source: Words = Field(default="", description="how that is known")
    permission: Literal["not_asked", "asked", "given", "not_needed"] = Field(
        default="not_asked", description="leave to give water there"
    )
    permission_by: Words = Field(default="", description="who gives leave")
    permission_ref: Words = Field(default="", description="number or letter of the leave")
    permission_until: IsoDay | None = Field(default=None, description="last day of the leave")
    is_chamber: bool = Field(default=False, description="whether people could go in")
    guard: Literal["none", "flap", "rodent_screen", "grate"] = Field(
        default="none", description="what keeps water and animals out of its end"
    )

    @property
    def has_bad_air(self) -> bool:
        """Whether bad air may gather in it."""
        return self.is_chamber or self.what in {"basin", "sump_pump"}


class Structure(Body):
    """A manhole, basin, cleanout or box on the way of the water."""

    kind: ClassVar[str] = "structure"

    structure_id: Label = Field(description="short name of the structure, such as MH1")
    what: Literal["manhole", "basin", "cleanout", "valve_box", "inlet", "other"] = Field(
        description="what it is"
    )
    at: PlanPoint | None = Field(default=None, description="where it lies")
    rim_nm: Nm | None = Field(default=None, description="its rim, nm above datum")
    invert_nm: Nm | None = Field(default=None, description="its lowest invert, nm above datum")
    is_existing: bool = Field(default=False, description="whether it was there before the job")
    about: Words = Field(default="", description="what else there is to know of it")

    @property
    def has_bad_air(self) -> bool:
        """Whether bad air may gather in it."""
        return self.what in {"manhole", "basin"}
