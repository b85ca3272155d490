"""Entries that plan the ground: surfaces with their lines, and collectors."""

from __future__ import annotations

from typing import ClassVar, Literal

from pydantic import Field

from models.entries.body import Body
from models.plan.collector import CollectorDesign, PlanPoint
from models.plan.line import PlannedLine
from models.plan.pattern import SlitPattern
from models.plan.quantities import Label, Words


class Surface(Body):
    """A green, field or fairway with its patterns and every planned line."""

    kind: ClassVar[str] = "surface"

    surface_id: Label = Field(description="short name of the surface, such as G7")
    name: Label = Field(description="name of the surface")
    use: Literal["green", "field", "fairway"] = Field(description="what it is")
    outline: tuple[PlanPoint, ...] = Field(default=(), description="edge, in order, not closed")
    sand_slits: SlitPattern | None = Field(default=None, description="pattern of its sand slits")
    piped_slits: SlitPattern | None = Field(default=None, description="pattern of its piped slits")
    lines: tuple[PlannedLine, ...] = Field(default=(), description="every planned line")
    collector_id: str = Field(default="", max_length=80, description="collector it drains to")
    note: Words = Field(default="", description="remarks")


class Collector(Body):
    """A collector line and its design."""

    kind: ClassVar[str] = "collector"

    collector_id: Label = Field(description="short name of the collector, such as C1")
    name: Label = Field(description="name of the collector")
    outlet: Words = Field(default="", description="what it runs to")
    design: CollectorDesign = Field(description="its design line and limits")
