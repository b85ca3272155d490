"""Features in the ground, as plain frozen values in the job's local plane.

Places are whole nanometres east and north of the plane's origin; a level is nanometres above
the job's datum, there only where it was measured. Writers and prints read these and nothing
else, so that every output of an as-built tells the same facts. What was struck, and what was
overtaken by a newer reading of the same place, stands apart in ``AsBuilt.void_readings``.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction

from models.science.quality.verdict import Verdict
from models.science.shapes.projection import LocalProjection
from models.units.job_units import Figures
from sync.papers.asbuilt.features.answers import ReadingAnswer
from sync.papers.asbuilt.features.course import ByPosition
from sync.papers.asbuilt.features.course import Course as Course
from sync.papers.asbuilt.features.course import Place as Place
from sync.papers.asbuilt.features.station_features import InvertShot, ReleasedStretch, StationMark


class LineStatus(StrEnum):
    """Status of a line; a later word says more than the one before."""

    PLANNED = "planned"
    CUT = "cut"
    PIPED = "piped"
    ACCEPTED = "accepted"
    """Out of tolerance somewhere, and every such reading accepted or waived by somebody."""
    OUT = "out"
    """Out of tolerance somewhere, and nobody has accepted it."""


@dataclass(frozen=True, slots=True)
class KeepOut:
    """Where no line was to go, with the clearance kept round it."""

    name: str
    ring: Course
    islands: tuple[Course, ...]
    clearance_nm: int


@dataclass(frozen=True, slots=True)
class SurfaceArea:
    """A green, field or fairway; lengths are the sums over its lines."""

    surface_id: str
    name: str
    use: str
    outline: Course
    keep_outs: tuple[KeepOut, ...]
    setback_nm: int
    n_lines: int
    planned_nm: int
    cut_nm: int
    note: str


@dataclass(frozen=True, slots=True)
class LineAsCut:
    """A line: its course as planned, and what was done on it.

    ``start`` and ``end`` are None for a line that was cut though no plan has it. ``cut_nm`` is
    what lies there of it, counted once; what was cut again or beyond it stands apart. ``cut``
    are the stretches that are cut, from its planned start. ``sand_pl`` and ``sand_ug`` are its
    share of the sand of its passes.
    """

    surface_id: str
    line_id: str
    use: str
    status: LineStatus
    start: Place | None
    end: Place | None
    planned_nm: int | None
    pass_ids: tuple[str, ...]
    days: tuple[str, ...]
    cut_nm: int
    again_nm: int
    beyond_nm: int
    cut: tuple[tuple[int, int], ...]
    n_probes: int
    n_out: int
    least_nm: int | None
    mean_nm: Fraction | None
    most_nm: int | None
    low_nm: int | None
    high_nm: int | None
    pipe_nm: int
    pipe_materials: tuple[str, ...]
    is_connected: bool
    is_end_capped: bool
    sand_pl: Fraction
    sand_ug: Fraction
    spacing_nm: int

    @property
    def n_in_tolerance(self) -> int:
        """Probes within their limits in depth and width."""
        return self.n_probes - self.n_out


@dataclass(frozen=True, slots=True)
class ProbeAt:
    """A depth reading in force, at its place along the line's planned course."""

    surface_id: str
    line_id: str
    pass_id: str
    use: str
    along_nm: int
    at: Place | None
    depth_nm: int
    depth_typed: str
    low_nm: int | None
    high_nm: int | None
    width_nm: int | None
    verdict: Verdict
    answered: ReadingAnswer
    day: str
    author: str


@dataclass(frozen=True, slots=True)
class CollectorRun:
    """A collector: its course as planned, and the pipe as shot.

    ``laid`` runs over the invert shots by growing station and keeps the bends of the course
    between them, with levels straight between neighbouring shots; empty with fewer than two.
    """

    collector_id: str
    name: str
    outlet: str
    stationed_from: str
    course: Course
    start_nm: int
    length_nm: int
    laid: Course
    marks: tuple[StationMark, ...]
    bore_nm: int
    outside_nm: int
    design_grade: Fraction
    laid_grade: Fraction | None
    pipe_nm: int
    pipe_materials: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class JointAt:
    """Where a piped slit meets the collector; ``is_made`` once somebody wrote so."""

    surface_id: str
    line_id: str
    collector_id: str
    number: int
    station_nm: int
    at: Place
    gap_nm: int
    goes_through: bool
    is_made: bool


@dataclass(frozen=True, slots=True)
class UtilityFeature:
    """A utility met in the ground; ``by_position`` where the tablet's position placed it."""

    event: str
    what: str
    where: str
    at: Place | None
    depth_nm: int | None
    depth_typed: str
    action: str
    day: str
    author: str
    by_position: ByPosition | None = None


@dataclass(frozen=True, slots=True)
class OutletAt:
    """An outlet as it was last seen, where the tablet was, else where it is planned.

    ``caution`` is the danger of bad air, for one that people could lean into.
    """

    outlet_id: str
    flows: str
    note: str
    at: Place | None
    by_position: ByPosition | None
    day: str
    author: str
    invert_nm: int | None = None
    water_nm: int | None = None
    caution: str = ""


@dataclass(frozen=True, slots=True)
class PermanentMark:
    """A point to measure from in ten years."""

    point_id: str
    where: str
    at: Place | None


@dataclass(frozen=True, slots=True)
class TieMeasured:
    """A distance from a permanent point; ``by_plan_nm`` is the same by coordinates."""

    tied: str
    name: str
    surface_id: str
    line_id: str
    collector_id: str
    point_id: str
    point: Place | None
    end: Place | None
    distance_nm: int
    distance_typed: str
    by_plan_nm: int | None
    day: str


@dataclass(frozen=True, slots=True)
class PhotoTaken:
    """A photo by the name of its file, and where it was taken in words."""

    sha256: str
    suffix: str
    caption: str
    where: str
    day: str
    author: str

    @property
    def file_name(self) -> str:
        """Name of its file."""
        return f"{self.sha256}.{self.suffix}"


@dataclass(frozen=True, slots=True)
class VoidReading:
    """A reading that does not stand: struck, or overtaken by a newer one of the same place."""

    how: str
    kind: str
    surface_id: str
    line_id: str
    collector_id: str
    at: Place | None
    said: str
    reason: str
    by: str
    instead: str
    day: str
    author: str


@dataclass(frozen=True, slots=True)
class AsBuilt:
    """Features of a job that the outputs of an as-built draw and list."""

    job_id: str
    job_name: str
    site: str
    owner: str
    contractor: str
    datum: str
    figures: Figures
    projection: LocalProjection | None
    origin_found: str
    first_day: str
    last_day: str
    surfaces: tuple[SurfaceArea, ...]
    lines: tuple[LineAsCut, ...]
    probes: tuple[ProbeAt, ...]
    collectors: tuple[CollectorRun, ...]
    inverts: tuple[InvertShot, ...]
    joints: tuple[JointAt, ...]
    released: tuple[ReleasedStretch, ...]
    utilities: tuple[UtilityFeature, ...]
    points: tuple[PermanentMark, ...]
    ties: tuple[TieMeasured, ...]
    photos: tuple[PhotoTaken, ...]
    outlets: tuple[OutletAt, ...]
    void_readings: tuple[VoidReading, ...]

    @property
    def is_us(self) -> bool:
        """Whether figures are in feet and inches."""
        return self.figures.is_us

    @property
    def cut_nm(self) -> int:
        """Length of slit done of the whole plan, as the day sheets count it."""
        return sum(line.cut_nm for line in self.lines if line.planned_nm is not None)

    @property
    def off_plan_nm(self) -> int:
        """Length of slit that was cut and no plan has, as the day sheets count it."""
        return sum(line.cut_nm for line in self.lines if line.planned_nm is None)
