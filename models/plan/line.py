"""One planned slit in local plane coordinates."""

from __future__ import annotations

from typing import Literal

from pydantic import BaseModel, ConfigDict, Field

from models.plan.quantities import Label, Nm, Span

LineUse = Literal["sand_slit", "piped_slit"]


class PlannedLine(BaseModel):
    """A straight slit from its start to its end, as drawn on the plan."""

    model_config = ConfigDict(frozen=True, extra="forbid")

    line_id: Label = Field(description="name of the line on its surface, such as S07 or P02")
    use: LineUse = Field(description="sand slit, or slit with a pipe on its floor")
    x1_nm: Nm = Field(description="start, east of the local origin, nm")
    y1_nm: Nm = Field(description="start, north of the local origin, nm")
    x2_nm: Nm = Field(description="end, east of the local origin, nm")
    y2_nm: Nm = Field(description="end, north of the local origin, nm")
    length_nm: Span = Field(description="planned length, nm")
