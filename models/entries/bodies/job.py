"""Entries that set up a job: who, where, with what."""

from __future__ import annotations

from typing import Annotated, ClassVar, Literal

from pydantic import Field

from models.entries.body import Body
from models.entries.shows import Quantity, Shows
from models.plan.field_types import Count, GramsPerM3, IsoDay, Label, Nm, Pl, Span, Typed, Ug, Words

MaterialUse = Literal["sand", "gravel", "pipe", "fabric", "wire", "sod"]


class Job(Body):
    """The job itself: its name, its owner and how figures are shown."""

    kind: ClassVar[str] = "job"
    left_out: ClassVar[frozenset[str]] = frozenset({"confidence_percent"})

    job_id: Label = Field(description="short name that never changes; every entry carries it")
    name: Label = Field(description="name of the job")
    site: Words = Field(default="", description="where the site is, in words")
    owner: Words = Field(default="", description="who the day sheet goes to")
    contractor: Words = Field(default="", description="whose crew does the work")
    zone: Label = Field(default="UTC", description="IANA name of the site's time zone")
    unit_system: Literal["us", "metric"] = Field(default="us", description="units shown")
    station_style: Literal["us_100ft", "metric_1000m", "metric_100m"] = Field(
        default="us_100ft", description="how stations are written"
    )
    datum: Words = Field(default="", description="what elevations are measured from")
    planned_finish: IsoDay | None = Field(default=None, description="day the work is due to end")
    confidence_percent: Literal[90, 95, 99] = Field(
        default=95, description="how sure a verdict on a level must be to be called proven, %"
    )


class Benchmark(Body):
    """A point of known elevation."""

    kind: ClassVar[str] = "benchmark"
    left_out: ClassVar[frozenset[str]] = frozenset({"sd_nm"})

    benchmark_id: Annotated[Label, Shows(label="Point", quantity=Quantity.NAME, column="point")] = (
        Field(description="name of the benchmark, such as BM1")
    )
    elevation_nm: Annotated[
        Nm, Shows(label="Elevation", quantity=Quantity.LEVEL, column="reading")
    ] = Field(description="elevation above the job's datum, nm")
    elevation_typed: Typed = Field(default="", description="elevation as typed")
    where: Annotated[Words, Shows(label="Where", quantity=Quantity.WORDS, column="where")] = Field(
        default="", description="how to find it"
    )
    sd_nm: Annotated[
        Span,
        Shows(
            label="Good to",
            quantity=Quantity.LENGTH,
            column="good to",
            line="good to {value}",
            said="good to {value}",
        ),
    ] = Field(default=0, description="standard deviation of the elevation, nm")


class Material(Body):
    """A material of the job and how much of it the plan needs."""

    kind: ClassVar[str] = "material"

    material_id: Label = Field(description="name of the material on this job")
    use: MaterialUse = Field(description="what it is used for")
    about: Words = Field(default="", description="size, grading, source, in words")
    bulk_density_g_per_m3: GramsPerM3 | None = Field(
        default=None, description="loose bulk density as weighed, g per cubic metre"
    )
    coil_nm: Span | None = Field(default=None, description="length of a new coil, nm")
    hopper_pl: Pl | None = Field(default=None, description="volume of one full hopper, pl")
    planned_mass_ug: Ug | None = Field(default=None, description="mass the plan needs, ug")
    planned_volume_pl: Pl | None = Field(default=None, description="volume the plan needs, pl")
    planned_length_nm: Span | None = Field(default=None, description="length the plan needs, nm")
    suitable: bool = Field(default=True, description="false when its test says not to use it")
    test_note: Words = Field(default="", description="what its test said")


class LocateTicket(Body):
    """Permission to dig from the utility marking service, with its dates."""

    kind: ClassVar[str] = "locate_ticket"

    ticket: Annotated[Label, Shows(label="Ticket", quantity=Quantity.NAME, column="ticket")] = (
        Field(description="number of the locate ticket")
    )
    covers: Annotated[Words, Shows(label="Covers", quantity=Quantity.WORDS, column="where")] = (
        Field(default="", description="ground it covers, in words")
    )
    surfaces: Annotated[tuple[Label, ...], Shows(label="Surfaces", quantity=Quantity.NAMES)] = (
        Field(
            default=(), description="surfaces and collectors it covers; empty means the whole site"
        )
    )
    valid_from: Annotated[
        IsoDay, Shows(label="Valid from", quantity=Quantity.DAY, column="valid from")
    ] = Field(description="first day of digging it allows")
    expires_on: Annotated[
        IsoDay, Shows(label="Expires on", quantity=Quantity.DAY, column="expires on")
    ] = Field(description="last day of digging it allows")


class Person(Body):
    """One of the crew."""

    kind: ClassVar[str] = "person"

    person_id: Label = Field(description="short name, as called on site")
    name: Label = Field(description="full name")
    role: Words = Field(default="", description="what they do")


class Machine(Body):
    """A machine: a slit cutter with its legs, a trencher, a carrier."""

    kind: ClassVar[str] = "machine"
    left_out: ClassVar[frozenset[str]] = frozenset(
        {
            *("deepest_nm", "blade", "blade_radius_nm", "width_nm", "front_nm", "rear_nm"),
            *("turning_radius_nm", "depth_sd_nm", "filling"),
        }
    )

    machine_id: Label = Field(description="name of the machine")
    about: Words = Field(default="", description="make of blade, width, remarks")
    legs: Count = Field(default=0, description="cutting blades; 0 when it cuts no slits")
    leg_spacing_nm: Span = Field(default=0, description="distance between its legs, nm")
    deepest_nm: Span | None = Field(
        default=None, description="deepest that its blades cut below finished turf, nm"
    )
    blade: Literal["disc", "chain", "vibrating", "unknown"] = Field(
        default="unknown", description="what cuts; a disc leaves ramps at the ends of a slit"
    )
    blade_radius_nm: Span = Field(
        default=0, description="cutting radius of a disc, nm; 0 takes ends as square"
    )
    width_nm: Span = Field(
        default=0, description="width over its wheels or tracks, nm; 0 not known"
    )
    front_nm: Span = Field(default=0, description="from the blades to its front, nm")
    rear_nm: Span = Field(default=0, description="from the blades to its back, nm")
    turning_radius_nm: Span = Field(default=0, description="least turning radius, nm")
    depth_sd_nm: Span = Field(
        default=4_762_500, description="usual spread of its depth readings about their mean, nm"
    )
    filling: Literal["hopper", "behind", "none"] = Field(
        default="none", description="how it fills slits, if it does"
    )

    @property
    def round_blade_nm(self) -> int:
        """Radius of a blade that leaves ramps, nm; 0 for one that is not known to."""
        return self.blade_radius_nm if self.blade == "disc" else 0
