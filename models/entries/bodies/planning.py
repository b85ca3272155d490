"""Entries of planning: the plane drawn in, how lines were laid, what is reckoned with."""

from __future__ import annotations

from typing import Annotated, ClassVar, Literal

from pydantic import Field

from models.entries.bodies.passes import COLLECTOR, LINE, SURFACE
from models.entries.body import Body
from models.entries.shows import Quantity, Shows
from models.plan.field_types import (
    Coordinate,
    Count,
    GramsPerM3,
    Label,
    Latitude,
    Longitude,
    Minutes,
    Pl,
    Span,
    Ug,
    Words,
)
from models.plan.layout import DroppedStub, LayoutTerms, PlannedDrive, PlannedEnd, PlannedKeepOut

_POINT = Shows(label="Point", quantity=Quantity.NAME, column="point", choices="permanent_point")

Permille = Annotated[int, Field(strict=True, ge=0, le=10_000)]
"""Share in whole thousandths."""


class LocalPlane(Body):
    """Where the origin of the job's plane lies on the Earth; its y axis points true north."""

    kind: ClassVar[str] = "local_plane"

    lon_ndeg: Longitude = Field(
        description="longitude of the origin, WGS 84, billionths of a degree, east positive"
    )
    lat_ndeg: Latitude = Field(
        description="latitude of the origin, WGS 84, billionths of a degree, north positive"
    )
    how: Words = Field(default="", description="how the origin was found, and how well")


class SurfaceLayout(Body):
    """How the lines of a surface were laid, kept so that nothing need be laid again."""

    kind: ClassVar[str] = "layout"

    surface_id: Label = Field(description="surface whose lines these are")
    setback_nm: Span = Field(default=0, description="edge that lines keep off, nm")
    keep_outs: tuple[PlannedKeepOut, ...] = Field(default=(), description="where no line may go")
    terms: tuple[LayoutTerms, ...] = Field(default=(), description="what was asked, by use")
    drives: tuple[PlannedDrive, ...] = Field(default=(), description="drives in driving order")
    stubs: tuple[DroppedStub, ...] = Field(default=(), description="pieces too short to cut")
    ends: tuple[PlannedEnd, ...] = Field(default=(), description="joints at the collector")
    unjoined: tuple[Label, ...] = Field(
        default=(), description="piped slits that do not reach the collector"
    )
    crossings: Count = Field(default=0, description="places where a piped slit crosses a sand slit")
    reach_nm: Span | None = Field(
        default=None,
        description="an end this near to the collector is meant to join it, nm; "
        "None is the setback and one spacing of the piped slits",
    )
    source: Words = Field(default="", description="what the outline was read from")

    @property
    def gaps_nm(self) -> dict[str, int]:
        """Pipe that leads on from each joined slit to the collector, by the slit's line, nm."""
        return {end.line_id: end.gap_nm for end in self.ends}


class TakeoffTerms(Body):
    """What the take-off reckons with: waste, swell, loads, rates."""

    kind: ClassVar[str] = "takeoff_terms"

    overbreak_permille: Permille = Field(
        default=0, description="cut beyond the design section, thousandths"
    )
    swell_permille: Permille = Field(default=0, description="swell of spoil once dug, thousandths")
    sand_waste_permille: Permille = Field(
        default=0, description="sand spilt or left over, thousandths"
    )
    sand_bulking_permille: Permille = Field(
        default=0, description="bulking of moist sand, thousandths"
    )
    gravel_waste_permille: Permille = Field(
        default=0, description="gravel spilt or left over, thousandths"
    )
    gravel_density_g_per_m3: GramsPerM3 | None = Field(
        default=None, description="loose bulk density of gravel, g per cubic metre"
    )
    pipe_waste_permille: Permille = Field(
        default=0, description="pipe cut off and lost, thousandths"
    )
    sand_truck_ug: Ug | None = Field(default=None, description="sand a truck brings, ug")
    gravel_truck_ug: Ug | None = Field(default=None, description="gravel a truck brings, ug")
    spoil_truck_pl: Pl | None = Field(default=None, description="loose spoil a truck hauls, pl")
    turf_strip_nm: Span = Field(default=0, description="turf strip lifted over a slit, nm")
    slit_coil_nm: Span | None = Field(default=None, description="coil of the slits' pipe, nm")
    collector_coil_nm: Span | None = Field(
        default=None, description="coil or stick of the collector's pipe, nm"
    )
    surround_over_nm: Span = Field(default=0, description="gravel over the collector's pipe, nm")
    fabric_lap_nm: Span = Field(default=0, description="overlap of filter fabric, nm")
    sod_nm: Span = Field(default=0, description="thickness of sod over the collector, nm")
    wire_slack_permille: Permille = Field(
        default=0, description="slack of the tracer wire, thousandths"
    )
    wire_tails_nm: Span = Field(default=0, description="tracer wire brought up at the ends, nm")
    sand_slit_a_day_nm: Span | None = Field(default=None, description="sand slits in a day, nm")
    piped_slit_a_day_nm: Span | None = Field(default=None, description="piped slits in a day, nm")
    collector_a_day_nm: Span | None = Field(default=None, description="collector in a day, nm")
    sand_lead_days: Count = Field(default=1, description="days from calling for sand to its coming")


class UnitPrice(Body):
    """A price as somebody typed it; none comes with the app."""

    kind: ClassVar[str] = "unit_price"

    item: Label = Field(description="item of the take-off, by its name")
    price_cents: Annotated[int, Field(strict=True, ge=0, le=10**12)] = Field(
        description="price, hundredths of the money used"
    )
    per: Annotated[str, Field(min_length=1, max_length=40)] = Field(
        description="what it buys, with its unit, such as 1 ton or 100 ft"
    )
    note: Words = Field(default="", description="whose price, and of when")


class DrainageTerms(Body):
    """What the estimate of a surface's drainage reckons with."""

    kind: ClassVar[str] = "drainage_terms"
    left_out: ClassVar[frozenset[str]] = frozenset({"soil_um_per_h", "impermeable_depth_nm"})

    surface_id: Label = Field(description="surface")
    sand_um_per_h: Annotated[int, Field(strict=True, gt=0, le=10**8)] = Field(
        description="saturated conductivity of the sand in the slits, um per hour"
    )
    roughness_millionths: Annotated[int, Field(strict=True, gt=0, le=100_000)] = Field(
        description="Manning's n of the pipes, millionths"
    )
    rain_nm: Span = Field(description="depth of the rain reckoned with, nm")
    rain_min: Minutes = Field(description="how long it lasts, minutes")
    drained_area_mm2: Annotated[int, Field(strict=True, ge=0, le=10**15)] | None = Field(
        default=None, description="area that drains here, mm2; None is the surface itself"
    )
    pipe_bore_nm: Span | None = Field(
        default=None, description="inside diameter of the pipe in the piped slits, nm"
    )
    pipe_fall_millionths: Annotated[int, Field(strict=True, ge=0, le=1_000_000)] | None = Field(
        default=None, description="least fall of a piped slit towards its end, millionths"
    )
    takes_silt: bool = Field(default=True, description="fine soil may get into the pipes")
    soil_um_per_h: Annotated[int, Field(strict=True, gt=0, le=10**8)] | None = Field(
        default=None,
        description="saturated conductivity of the soil between the piped slits, um per hour",
    )
    impermeable_depth_nm: Span | None = Field(
        default=None, description="depth of the impermeable layer under the surface, nm"
    )
    source: Words = Field(default="", description="where these figures come from")


class PermanentPoint(Body):
    """A point that will still be there in ten years, to measure ties from."""

    kind: ClassVar[str] = "permanent_point"

    point_id: Annotated[Label, _POINT] = Field(description="short name, such as PP1")
    where: Annotated[
        str,
        Field(min_length=1, max_length=4000),
        Shows(label="Where", quantity=Quantity.WORDS, column="where"),
    ] = Field(description="what it is and how to find it")
    x_nm: Annotated[
        Coordinate | None, Shows(label="East", quantity=Quantity.LEVEL, column="east")
    ] = Field(default=None, description="east of the local origin, nm, where it was measured in")
    y_nm: Annotated[
        Coordinate | None, Shows(label="North", quantity=Quantity.LEVEL, column="north")
    ] = Field(default=None, description="north of the local origin, nm, where it was measured in")


class Tie(Body):
    """A measured distance from a permanent point to something in the ground."""

    kind: ClassVar[str] = "tie"

    tied: Annotated[
        Literal["line_start", "line_end", "collector_outlet", "collector_head", "other"],
        Shows(label="Tied", quantity=Quantity.CHOICE, column="tied"),
    ] = Field(description="what is tied")
    surface_id: Annotated[str, SURFACE] = Field(
        default="", max_length=80, description="surface, for a line's end"
    )
    line_id: Annotated[str, LINE] = Field(
        default="", max_length=80, description="line, for a line's end"
    )
    collector_id: Annotated[str, COLLECTOR] = Field(
        default="", max_length=80, description="collector, for its end"
    )
    what: Annotated[Words, Shows(label="What", quantity=Quantity.WORDS, column="what")] = Field(
        default="", description="what it is, where it is something else"
    )
    point_id: Annotated[Label, _POINT] = Field(description="permanent point it is measured from")
    distance_nm: Annotated[
        Span, Shows(label="Distance", quantity=Quantity.LENGTH, column="distance")
    ] = Field(description="distance as measured, level, nm")
    distance_typed: Annotated[str, Field(max_length=40)] = Field(
        default="", description="distance as typed"
    )
