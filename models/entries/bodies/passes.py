"""Entries of slit work: passes, probes, turf, sand, water, pipe."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from itertools import pairwise
from types import MappingProxyType
from typing import Annotated, ClassVar, Literal, Self

from pydantic import Field, model_validator

from models.entries.body import Body
from models.entries.shows import DEEPEST_NM, Quantity, Shows
from models.plan.field_types import Count, Label, Minutes, Nm, Pl, Span, Typed, Ug, Words
from models.plan.record import Record

Moisture = Literal["dry", "damp", "wet"]
MOISTURE = Shows(label="Moisture", quantity=Quantity.CHOICE, column="moisture")
SURFACE = Shows(label="Surface", quantity=Quantity.NAME, column="surface", choices="surface")
MATERIAL = Shows(label="Material", quantity=Quantity.NAME, column="material", choices="material")
COLLECTOR = Shows(
    label="Collector", quantity=Quantity.NAME, column="collector", choices="collector"
)
COIL = Shows(label="Coil", quantity=Quantity.NAME, column="coil")
NOTE = Shows(label="Note", quantity=Quantity.WORDS, column="note", said="{value}")
_PASS = Shows(label="Pass", quantity=Quantity.NAME, column="pass", choices="pass")
LINE = Shows(label="Line", quantity=Quantity.NAME, column="line", notes="lines")
LINES = Shows(label="Lines", quantity=Quantity.NAMES, column="lines")


MOST_LEGS = 24
"""Legs that one machine may have."""


class PieceCut(Record):
    """What one leg cut of one line on a pass, from where its blade went in to where it came out."""

    line_id: Label = Field(description="line it lies in")
    leg: Annotated[int, Field(strict=True, ge=0, le=MOST_LEGS)] = Field(
        default=0, description="leg that cut it, from 1 at the left along the bearing; 0 not known"
    )
    from_nm: Nm = Field(description="where it begins, from the planned start of the line, nm")
    to_nm: Nm = Field(description="where it ends, from the planned start of the line, nm")
    by: Literal["measured", "drive", "plan", "old"] = Field(
        description="what its length rests on: typed for itself, the drive's, stakes of the plan"
    )
    typed: Typed = Field(default="", description="its length as typed, where it was")

    @property
    def length_nm(self) -> int:
        """Length of the piece, nm."""
        return self.to_nm - self.from_nm


class PassCut(Body):
    """One drive of the machine along its lines, and the pieces of slit that it cut.

    The length is the drive's, as measured: from where the first blade went in to where the
    last came out. ``pieces`` are what that comes to in each line, by the plan of the day on
    which it was written. A pass without them is an old one, which gave one length for every
    leg.
    """

    kind: ClassVar[str] = "pass"
    left_out: ClassVar[frozenset[str]] = frozenset(
        {"operator", "pieces", "drive_number", "is_along"}
    )
    needs: ClassVar[Mapping[str, str]] = MappingProxyType({"pieces": "pass.pieces"})

    pass_id: Annotated[Label, _PASS] = Field(
        description="name of the pass, such as G7-03; kept by a correction"
    )
    surface_id: Annotated[Label, replace(SURFACE, order=-1)] = Field(
        description="surface it was cut on"
    )
    line_ids: Annotated[tuple[Label, ...], LINES] = Field(
        min_length=1, description="lines it cut, leg by leg"
    )
    machine_id: Annotated[
        str,
        Shows(label="Machine", quantity=Quantity.NAME, column="machine", choices="machine"),
    ] = Field(default="", max_length=80, description="machine that cut it")
    operator: Annotated[
        str,
        Shows(
            label="Operator",
            quantity=Quantity.NAME,
            column="operator",
            line="by {value}",
            said="by {value}",
            asks="Who drove?",
            choices="person",
        ),
    ] = Field(default="", max_length=80, description="who drove the machine")
    length_nm: Annotated[Span, Shows(label="Length", quantity=Quantity.LENGTH, column="length")] = (
        Field(description="length driven as measured, first blade in to last blade out, nm")
    )
    length_typed: Annotated[
        Typed,
        Shows(
            label="Length as typed",
            quantity=Quantity.WORDS,
            column="length_typed",
            in_notes=False,
        ),
    ] = Field(default="", description="length as typed")
    shift_nm: Annotated[
        Span | None,
        Shows(label="Shift", quantity=Quantity.DEPTH, column="shift", said="shift {value}"),
    ] = Field(default=None, description="shift from the pass before as measured, nm")
    shift_typed: Typed = Field(default="", description="shift as typed")
    run_min: Annotated[
        Minutes | None,
        Shows(label="Time", quantity=Quantity.MINUTES, column="run", in_notes=False),
    ] = Field(default=None, description="machine time it took, minutes")
    note: Annotated[Words, NOTE] = Field(default="", description="remarks")
    pieces: tuple[PieceCut, ...] = Field(
        default=(), description="what was cut, leg by leg; empty in an old pass"
    )
    drive_number: Count = Field(default=0, description="planned drive that it follows; 0 none")
    is_along: bool | None = Field(
        default=None, description="driven from the start of its lines to their end"
    )

    @model_validator(mode="after")
    def _pieces_are_of_its_lines(self) -> Self:
        """Its pieces lie in its lines, have a length, and none lies on another."""
        if not self.pieces:
            return self
        if {one.line_id for one in self.pieces} != set(self.line_ids):
            raise ValueError("the pieces of a pass have to lie in its lines, each with one")
        for one in self.pieces:
            if one.length_nm <= 0:
                raise ValueError(f"the piece in {one.line_id} has to end after it begins")
        in_order = sorted(self.pieces, key=lambda one: (one.line_id, one.from_nm))
        for one, after in pairwise(in_order):
            if one.line_id == after.line_id and after.from_nm < one.to_nm:
                raise ValueError(f"two pieces in {one.line_id} lie on each other")
        return self


class Probe(Body):
    """One depth reading, with the width where it was taken."""

    kind: ClassVar[str] = "probe"

    pass_id: Annotated[Label, _PASS] = Field(description="pass it belongs to")
    line_id: Annotated[Label, LINE] = Field(description="line it was taken on")
    along_nm: Annotated[
        Span,
        Shows(label="Along the line", quantity=Quantity.LENGTH, column="along", notes="at"),
    ] = Field(description="distance from the line's start, nm")
    along_typed: Typed = Field(default="", description="distance as typed")
    depth_nm: Annotated[
        Span,
        Shows(label="Depth", quantity=Quantity.DEPTH, column="depth", within=(1, DEEPEST_NM)),
    ] = Field(description="depth below finished turf, nm")
    depth_typed: Annotated[
        Typed,
        Shows(
            label="Depth as typed", quantity=Quantity.WORDS, column="depth_typed", in_notes=False
        ),
    ] = Field(default="", description="depth as typed")
    width_nm: Annotated[
        Span | None,
        Shows(
            label="Width",
            quantity=Quantity.DEPTH,
            column="width",
            within=(1, DEEPEST_NM),
            said="width {value}",
        ),
    ] = Field(default=None, description="width at the surface, nm")
    width_typed: Annotated[
        Typed,
        Shows(
            label="Width as typed", quantity=Quantity.WORDS, column="width_typed", in_notes=False
        ),
    ] = Field(default="", description="width as typed")


class TurfStrip(Body):
    """The turf strip over lines: lifted, put back, rolled."""

    kind: ClassVar[str] = "turf_strip"
    left_out: ClassVar[frozenset[str]] = frozenset({"sod_nm", "sod_typed"})

    surface_id: Annotated[Label, SURFACE] = Field(description="surface")
    pass_id: Annotated[str, _PASS] = Field(
        default="", max_length=80, description="pass whose lines these are"
    )
    line_ids: Annotated[tuple[Label, ...], LINES] = Field(min_length=1, description="lines")
    step: Annotated[
        Literal["lifted", "put_back", "rolled"],
        Shows(label="Step", quantity=Quantity.CHOICE, column="step"),
    ] = Field(description="what was done")
    sod_nm: Annotated[
        Span | None,
        Shows(
            label="Sod",
            quantity=Quantity.DEPTH,
            column="sod",
            line="sod {value}",
            said="sod {value}",
            within=(0, DEEPEST_NM),
        ),
    ] = Field(default=None, description="thickness of the turf that goes back, nm")
    sod_typed: Typed = Field(default="", description="thickness as typed")


class SandPlaced(Body):
    """Sand put into the slits of a pass, by hopper, volume or mass."""

    kind: ClassVar[str] = "sand_placed"

    surface_id: Annotated[Label, SURFACE] = Field(description="surface")
    pass_id: Annotated[str, _PASS] = Field(
        default="", max_length=80, description="pass, or empty for the surface"
    )
    material_id: Annotated[Label, MATERIAL] = Field(description="which sand")
    volume_pl: Pl | None = Field(default=None, description="loose volume placed, pl")
    mass_ug: Ug | None = Field(default=None, description="mass placed, ug")
    amount_typed: Typed = Field(default="", description="amount as typed")
    hoppers_tenths: Count | None = Field(
        default=None, description="hopper loads it came in, tenths of a load"
    )
    moisture: Annotated[Moisture, MOISTURE] = Field(default="dry", description="how the sand felt")

    @model_validator(mode="after")
    def _has_an_amount(self) -> Self:
        """Either a volume or a mass was measured; one of them is the record."""
        if (self.volume_pl is None) == (self.mass_ug is None):
            raise ValueError("sand placed needs either a volume or a mass, not both")
        return self


class WateredIn(Body):
    """Sand of a pass watered in."""

    kind: ClassVar[str] = "watered_in"

    surface_id: Annotated[Label, SURFACE] = Field(description="surface")
    pass_id: Annotated[str, _PASS] = Field(
        default="", max_length=80, description="pass, or empty for the surface"
    )
    note: Annotated[Words, NOTE] = Field(default="", description="remarks")


class PipeLaid(Body):
    """Pipe laid in a line or a collector, and from which coil."""

    kind: ClassVar[str] = "pipe_laid"

    surface_id: Annotated[str, SURFACE] = Field(
        default="", max_length=80, description="surface, for a piped slit"
    )
    line_id: Annotated[str, LINE] = Field(
        default="", max_length=80, description="line, for a piped slit"
    )
    collector_id: Annotated[str, COLLECTOR] = Field(
        default="", max_length=80, description="collector, for its pipe"
    )
    material_id: Annotated[Label, MATERIAL] = Field(description="which pipe")
    coil_id: Annotated[str, replace(COIL, said="from {value}")] = Field(
        default="", max_length=80, description="coil it came from"
    )
    length_nm: Annotated[Span, Shows(label="Length", quantity=Quantity.LENGTH, column="length")] = (
        Field(description="length used, nm")
    )
    length_typed: Typed = Field(default="", description="length as typed")
    connected: Annotated[
        bool,
        Shows(label="Connected", quantity=Quantity.YES_NO, column="connected", said="connected"),
    ] = Field(default=False, description="joined to the collector")
    end_capped: Annotated[
        bool,
        Shows(label="End capped", quantity=Quantity.YES_NO, column="capped", said="end capped"),
    ] = Field(default=False, description="cap put on the high end")
