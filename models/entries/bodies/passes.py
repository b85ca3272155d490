"""Entries of slit work: passes, probes, turf, sand, water, pipe."""

from __future__ import annotations

from typing import ClassVar, Literal, Self

from pydantic import Field, model_validator

from models.entries.body import Body
from models.plan.field_types import Count, Label, Minutes, Pl, Span, Typed, Ug, Words

Moisture = Literal["dry", "damp", "wet"]


class PassCut(Body):
    """One drive of the machine along its lines."""

    kind: ClassVar[str] = "pass"

    pass_id: Label = Field(description="name of the pass, such as G7-03; kept by a correction")
    surface_id: Label = Field(description="surface it was cut on")
    line_ids: tuple[Label, ...] = Field(min_length=1, description="lines it cut, leg by leg")
    machine_id: str = Field(default="", max_length=80, description="machine that cut it")
    length_nm: Span = Field(description="length of one leg's cut as measured, nm")
    length_typed: Typed = Field(default="", description="length as typed")
    shift_nm: Span | None = Field(
        default=None, description="shift from the pass before as measured, nm"
    )
    shift_typed: Typed = Field(default="", description="shift as typed")
    run_min: Minutes | None = Field(default=None, description="machine time it took, minutes")
    note: Words = Field(default="", description="remarks")


class Probe(Body):
    """One depth reading, with the width where it was taken."""

    kind: ClassVar[str] = "probe"

    pass_id: Label = Field(description="pass it belongs to")
    line_id: Label = Field(description="line it was taken on")
    along_nm: Span = Field(description="distance from the line's start, nm")
    along_typed: Typed = Field(default="", description="distance as typed")
    depth_nm: Span = Field(description="depth below finished turf, nm")
    depth_typed: Typed = Field(default="", description="depth as typed")
    width_nm: Span | None = Field(default=None, description="width at the surface, nm")
    width_typed: Typed = Field(default="", description="width as typed")


class TurfStrip(Body):
    """The turf strip over lines: lifted, put back, rolled."""

    kind: ClassVar[str] = "turf_strip"

    surface_id: Label = Field(description="surface")
    pass_id: str = Field(default="", max_length=80, description="pass whose lines these are")
    line_ids: tuple[Label, ...] = Field(min_length=1, description="lines")
    step: Literal["lifted", "put_back", "rolled"] = Field(description="what was done")


class SandPlaced(Body):
    """Sand put into the slits of a pass, by hopper, volume or mass."""

    kind: ClassVar[str] = "sand_placed"

    surface_id: Label = Field(description="surface")
    pass_id: str = Field(default="", max_length=80, description="pass, or empty for the surface")
    material_id: Label = Field(description="which sand")
    volume_pl: Pl | None = Field(default=None, description="loose volume placed, pl")
    mass_ug: Ug | None = Field(default=None, description="mass placed, ug")
    amount_typed: Typed = Field(default="", description="amount as typed")
    hoppers_tenths: Count | None = Field(
        default=None, description="hopper loads it came in, tenths of a load"
    )
    moisture: Moisture = Field(default="dry", description="how the sand felt")

    @model_validator(mode="after")
    def _has_an_amount(self) -> Self:
        """Either a volume or a mass was measured; one of them is the record."""
        if (self.volume_pl is None) == (self.mass_ug is None):
            raise ValueError("sand placed needs either a volume or a mass, not both")
        return self


class WateredIn(Body):
    """Sand of a pass watered in."""

    kind: ClassVar[str] = "watered_in"

    surface_id: Label = Field(description="surface")
    pass_id: str = Field(default="", max_length=80, description="pass, or empty for the surface")
    note: Words = Field(default="", description="remarks")


class PipeLaid(Body):
    """Pipe laid in a line or a collector, and from which coil."""

    kind: ClassVar[str] = "pipe_laid"

    surface_id: str = Field(default="", max_length=80, description="surface, for a piped slit")
    line_id: str = Field(default="", max_length=80, description="line, for a piped slit")
    collector_id: str = Field(default="", max_length=80, description="collector, for its pipe")
    material_id: Label = Field(description="which pipe")
    coil_id: str = Field(default="", max_length=80, description="coil it came from")
    length_nm: Span = Field(description="length used, nm")
    length_typed: Typed = Field(default="", description="length as typed")
    connected: bool = Field(default=False, description="joined to the collector")
    end_capped: bool = Field(default=False, description="cap put on the high end")
