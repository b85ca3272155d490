"""The slit pattern of a surface and what is allowed of it."""

from __future__ import annotations

from typing import ClassVar, Literal

from pydantic import Field

from models.plan.field_types import Count, Span
from models.plan.record import Record


class SlitPattern(Record):
    """Spacing, size and tolerances of one use of line on one surface."""

    left_out: ClassVar[frozenset[str]] = frozenset({"sod_nm", "ends"})

    spacing_nm: Span = Field(description="distance between neighbouring lines, nm")
    width_nm: Span = Field(description="design width, nm")
    width_tolerance_nm: Span = Field(description="allowed either side of the width, nm")
    depth_nm: Span = Field(description="design depth below finished turf, nm")
    under_nm: Span = Field(description="allowed less than the depth, nm")
    over_nm: Span = Field(description="allowed more than the depth, nm")
    probe_every_nm: Span = Field(description="longest allowed gap between probes on a line, nm")
    probe_end_nm: Span = Field(description="a probe is wanted within this of each end, nm")
    sand_least_permille: Count = Field(
        default=900, description="least sand placed, thousandths of the volume cut"
    )
    sand_most_permille: Count = Field(
        default=1200, description="most sand placed, thousandths of the volume cut"
    )
    pipe_outside_nm: Span = Field(default=0, description="outside diameter of its pipe, nm; 0 none")
    sod_nm: Span | None = Field(
        default=None, description="turf that goes back into the slit, nm; 0 none, None not said"
    )
    ends: Literal["ramps_inside", "full_depth_inside"] = Field(
        default="ramps_inside",
        description="what a line's ends are: where a round blade comes out of the turf, or where "
        "full depth reaches, so that the cut runs one ramp on",
    )

    @property
    def least_depth_nm(self) -> int:
        """Shallowest depth that is in tolerance, nm."""
        return self.depth_nm - self.under_nm

    @property
    def most_depth_nm(self) -> int:
        """Deepest depth that is in tolerance, nm."""
        return self.depth_nm + self.over_nm
