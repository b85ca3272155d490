"""Entries that plan the ground: surfaces with their lines, and collectors."""

from __future__ import annotations

from functools import cached_property
from typing import ClassVar, Literal, NamedTuple

from pydantic import Field

from models.entries.body import Body
from models.plan.collector import CollectorDesign, PlanPoint, RunEnd
from models.plan.field_types import Label, Words
from models.plan.line import LineUse, PlannedLine, rows_of
from models.plan.pattern import SlitPattern


class LinePlace(NamedTuple):
    """A line of a plan, its pattern, and its row among the lines of its use, from 0."""

    line: PlannedLine
    pattern: SlitPattern | None
    number: int


class Surface(Body):
    """A green, field or fairway with its patterns and every planned line."""

    kind: ClassVar[str] = "surface"
    left_out: ClassVar[frozenset[str]] = frozenset({"outlet_id"})

    surface_id: Label = Field(description="short name of the surface, such as G7")
    name: Label = Field(description="name of the surface")
    use: Literal["green", "field", "fairway"] = Field(description="what it is")
    outline: tuple[PlanPoint, ...] = Field(default=(), description="edge, in order, not closed")
    sand_slits: SlitPattern | None = Field(default=None, description="pattern of its sand slits")
    piped_slits: SlitPattern | None = Field(default=None, description="pattern of its piped slits")
    lines: tuple[PlannedLine, ...] = Field(default=(), description="every planned line")
    collector_id: str = Field(default="", max_length=80, description="collector it drains to")
    outlet_id: str = Field(
        default="",
        max_length=80,
        description="outlet that its piped slits run to without a collector",
    )
    note: Words = Field(default="", description="remarks")

    def pattern_of(self, use: LineUse) -> SlitPattern | None:
        """Pattern of a use of line, or None where the plan has none."""
        return self.sand_slits if use == "sand_slit" else self.piped_slits

    @cached_property
    def courses(self) -> dict[LineUse, tuple[str, ...]]:
        """Names of the lines of each use, in the order of the plan."""
        uses: dict[LineUse, list[str]] = {"sand_slit": [], "piped_slit": []}
        for line in self.lines:
            uses[line.use].append(line.line_id)
        return {use: tuple(names) for use, names in uses.items()}

    @cached_property
    def places(self) -> dict[str, LinePlace]:
        """Every line by its name."""
        numbers: dict[str, int] = {}
        for use in self.courses:
            lines = [line for line in self.lines if line.use == use]
            pattern = self.pattern_of(use)
            rows = rows_of(lines, pattern.spacing_nm if pattern is not None else 0)
            numbers |= {line.line_id: row for line, row in zip(lines, rows, strict=True)}
        return {
            line.line_id: LinePlace(line, self.pattern_of(line.use), numbers[line.line_id])
            for line in self.lines
        }


class Collector(Body):
    """A collector line and its design."""

    kind: ClassVar[str] = "collector"
    left_out: ClassVar[frozenset[str]] = frozenset({"joins"})

    collector_id: Label = Field(description="short name of the collector, such as C1")
    name: Label = Field(description="name of the collector")
    outlet: Words = Field(default="", description="what it runs to, in words")
    design: CollectorDesign = Field(description="its design line and limits")
    joins: RunEnd | None = Field(default=None, description="outlet or collector that it runs to")
