"""Inputs of a surface's drainage estimate, gathered from its plan and its shots."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from fractions import Fraction

from models.counted import CountedNoun
from models.entries.bodies.planning import DrainageTerms
from models.entries.bodies.surfaces import Collector, Surface
from models.entries.kind_names import COLLECTOR, DRAINAGE_TERMS, SURFACE
from models.errors import CrewError
from models.plan.pattern import SlitPattern
from models.queries.grade.laid_pipe import LaidReach, laid_pipe
from models.queries.water.collector_gates import CollectorGates, collector_gates
from models.queries.water.drainage_soil import SoilBetween, soil_between
from models.queries.water.drained_area import area_m2, drained_m2
from models.queries.water.network import lines_without_outlet, network_as_planned
from models.science.grade.reach_grade import Reach
from models.science.quality.verdict import Verdict
from models.science.water.gates import SlitGrid
from models.science.water.pipe_run import ReachFlow, run_flows
from models.state.job_state import JobState
from models.units.job_units import Figures, figures_of

UM_PER_MM, MILLIONTHS = 1000, 10**6


class SurfaceUnknownError(CrewError, LookupError):
    """A surface was named that the job does not have."""

    code = "drainage.surface"
    sentence = "There is no surface {surface_id} in this job. Its surfaces are: {known}."


@dataclass(frozen=True, slots=True)
class SlitPipe:
    """The pipe in the piped slits; the longest of them takes the most water."""

    bore_nm: int
    grade: Fraction
    longest_nm: int
    spacing_nm: int


@dataclass(frozen=True, slots=True)
class CollectorPipe:
    """A collector as designed; ``share_m2`` is the surface that its water comes off.

    All that drains through its last reach counts, as if it were this surface: the flow over
    ``share_m2`` is then a depth over it.
    """

    collector_id: str
    bore_nm: int
    grade: Fraction
    share_m2: float | None


@dataclass(frozen=True, slots=True)
class LaidCollector:
    """A collector as its inverts show it, reach by reach."""

    collector_id: str
    flows: tuple[ReachFlow, ...]
    is_whole: bool


@dataclass(frozen=True, slots=True)
class DrainageInputs:
    """Inputs of a surface's drainage estimate."""

    surface_id: str
    name: str
    terms: DrainageTerms | None = None
    grid: SlitGrid | None = None
    is_crossed: bool = False
    slit_pipe: SlitPipe | None = None
    collector: CollectorPipe | None = None
    laid: LaidCollector | None = None
    gates: CollectorGates | None = None
    laid_gates: CollectorGates | None = None
    lost_lines: tuple[str, ...] = ()
    lost_share: Fraction = Fraction(0)
    soil: SoilBetween | None = None
    run_on: float = 1.0
    figures: Figures = field(default_factory=Figures)
    missing: tuple[str, ...] = ()

    @property
    def roughness(self) -> float:
        """Manning's n of the pipes."""
        return self.terms.roughness_millionths / MILLIONTHS if self.terms else 0.0

    @property
    def is_lost(self) -> bool:
        """Whether none of its water reaches an outlet in the plan."""
        return self.lost_share == 1

    @property
    def takes_silt(self) -> bool:
        """Whether fine soil may get into the pipes."""
        return self.terms is None or self.terms.takes_silt


def drainage_inputs(state: JobState, surface_id: str) -> DrainageInputs:
    """Gather what a surface's drainage is estimated from.

    Raises
    ------
    SurfaceUnknownError
        If the job has no such surface.
    """
    surface = state.latest(SURFACE, surface_id)
    if not isinstance(surface, Surface):
        known = ", ".join(state.every_name(SURFACE)) or "none yet"
        raise SurfaceUnknownError(surface_id=surface_id[:40], known=known)
    job = state.job
    figures = figures_of(job.unit_system, job.station_style) if job else Figures()
    terms = state.latest(DRAINAGE_TERMS, surface_id)
    if not isinstance(terms, DrainageTerms):
        why = (
            f"{surface_id} has no drainage terms: the conductivity of its sand, the roughness of "
            "its pipes and the rain are not known, so no gate is estimated."
        )
        return DrainageInputs(surface_id, surface.name, figures=figures, missing=(why,))
    missing: list[str] = []
    own_m2 = area_m2(surface)
    drained = drained_m2(state, surface)
    grid = _grid(surface, terms, missing)
    pipe = _slit_pipe(surface, terms, missing)
    collector = _collector(state, surface, missing)
    laid = _laid(state, surface, terms, figures, missing)
    gates = collector_gates(state, surface.collector_id, is_laid=False) if collector else None
    lost_lines, lost_share = lines_without_outlet(state, surface)
    run_on = drained / own_m2 if own_m2 and drained else 1.0
    if collector is not None and gates is not None and collector.share_m2:
        collector = replace(collector, share_m2=gates.area_m2 / run_on)
        missing.extend(_assumed(state, surface, gates))
    return DrainageInputs(
        surface_id,
        surface.name,
        terms,
        grid,
        is_crossed=surface.sand_slits is not None and surface.piped_slits is not None,
        slit_pipe=pipe,
        collector=collector,
        laid=laid,
        gates=gates,
        laid_gates=collector_gates(state, surface.collector_id, is_laid=True) if laid else None,
        lost_lines=lost_lines,
        lost_share=lost_share,
        soil=soil_between(surface, terms, missing),
        run_on=run_on,
        figures=figures,
        missing=tuple(missing),
    )


def _grid(surface: Surface, terms: DrainageTerms, missing: list[str]) -> SlitGrid | None:
    """The slits that water gets in by, and the piped slits it walks to."""
    sand, piped = surface.sand_slits, surface.piped_slits
    first = sand or piped
    if first is None or not _has_sizes(first):
        missing.append(
            f"{surface.surface_id} has no slits with a width, a depth and a spacing: "
            "what they let in and carry is left out."
        )
        return None
    if sand is None:
        missing.append(f"{surface.surface_id} has no sand slits: water gets in by its piped ones.")
    elif piped is None:
        missing.append(
            f"{surface.surface_id} has no piped slits: how far a sand slit carries water is "
            "not known, and that gate is left out."
        )
    apart_nm = piped.spacing_nm if piped is not None and piped.spacing_nm else first.spacing_nm
    return SlitGrid(
        first.width_nm,
        first.depth_nm,
        first.spacing_nm,
        apart_nm,  # without piped slits the carry is left out, and the intake asks for none
        terms.sand_um_per_h / UM_PER_MM,
    )


def _has_sizes(pattern: SlitPattern) -> bool:
    return 0 < pattern.width_nm < pattern.spacing_nm and pattern.depth_nm > 0


def _slit_pipe(surface: Surface, terms: DrainageTerms, missing: list[str]) -> SlitPipe | None:
    pattern = surface.piped_slits
    runs_nm = [line.length_nm for line in surface.lines if line.use == "piped_slit"]
    if pattern is None:
        return None
    if (
        not terms.pipe_bore_nm
        or not terms.pipe_fall_millionths
        or not runs_nm
        or not pattern.spacing_nm
    ):
        missing.append(
            f"The pipes in the slits of {surface.surface_id} need a bore, a fall and their "
            "lines: what a piped slit carries is left out."
        )
        return None
    grade = Fraction(terms.pipe_fall_millionths, MILLIONTHS)
    return SlitPipe(terms.pipe_bore_nm, grade, max(runs_nm), pattern.spacing_nm)


def _collector(state: JobState, surface: Surface, missing: list[str]) -> CollectorPipe | None:
    if surface.outlet_id and not surface.collector_id:
        missing.append(
            f"{surface.surface_id} gives its water to {surface.outlet_id} without a collector: "
            "what that takes is left out."
        )
        return None
    collector = state.latest(COLLECTOR, surface.collector_id) if surface.collector_id else None
    if not isinstance(collector, Collector) or collector.design.bore_nm <= 0:
        missing.append(
            f"{surface.surface_id} names no collector with a bore: what it carries is left out."
        )
        return None
    design = collector.design
    share = _share_m2(state, surface, collector.collector_id, missing)
    grade = Fraction(design.fall_nm, design.run_nm)
    return CollectorPipe(collector.collector_id, design.bore_nm, grade, share)


def _share_m2(
    state: JobState, surface: Surface, collector_id: str, missing: list[str]
) -> float | None:
    """Area over which a collector's whole flow is this surface's depth of water."""
    drained: list[float] = []
    for name in state.every_name(SURFACE):
        other = state.latest(SURFACE, name)
        if not isinstance(other, Surface) or other.collector_id != collector_id:
            continue
        area = drained_m2(state, other)
        if area is None:
            missing.append(
                f"{name} drains to {collector_id} too, but has no outline and no drained area: "
                "what the collector carries can't be shared out and is left out."
                if name != surface.surface_id
                else f"{name} has no outline and no drained area: what the collector carries "
                "over it is left out."
            )
            return None
        drained.append(area)
    own, own_drained = area_m2(surface), drained_m2(state, surface)
    if own is None or own_drained is None:
        return own_drained and sum(drained)
    return sum(drained) * own / own_drained


def _assumed(state: JobState, surface: Surface, gates: CollectorGates) -> Iterator[str]:
    """What the water on its way through the collector is taken to do, for want of a figure."""
    if surface.surface_id in network_as_planned(state).unplaced:
        yield (
            f"Where the piped slits of {surface.surface_id} join {surface.collector_id} is not "
            "laid out: all their water is taken as coming in at its head."
        )
    if gates.tailwater is None:
        yield (
            f"No water level is known at {gates.outlet.outlet_id}: it is taken as standing "
            "below the pipe."
        )


def _laid(
    state: JobState,
    surface: Surface,
    terms: DrainageTerms,
    figures: Figures,
    missing: list[str],
) -> LaidCollector | None:
    """The collector as its invert shots show it; None before two of them."""
    pipe = laid_pipe(state, surface.collector_id) if surface.collector_id else None
    if pipe is None or not pipe.reaches or pipe.design.bore_nm <= 0:
        return None
    reaches = [_reach(reach) for reach in pipe.reaches]
    roughness = terms.roughness_millionths / MILLIONTHS
    flows = run_flows(reaches, pipe.design.bore_nm, roughness)
    start_nm, end_nm = reaches[0].start_nm, reaches[-1].end_nm
    design = pipe.design
    is_whole = start_nm <= design.start_nm and end_nm >= design.start_nm + design.length_nm
    own = surface.collector_id
    if not is_whole:
        missing.append(
            f"{own} is shot from {figures.station(start_nm)} to {figures.station(end_nm)} alone: "
            "as laid holds for that part."
        )
    unsure = [one for one in reaches if one.verdict in {Verdict.WITHIN, Verdict.BEYOND}]
    if unsure:
        missing.append(
            f"{len(unsure)} of {CountedNoun(len(reaches)):reach|reaches} "
            f"of {own} hold as read alone: what they "
            "carry is no surer than their grade."
        )
    return LaidCollector(own, tuple(flows), is_whole)


def _reach(reach: LaidReach) -> Reach:
    start_nm, end_nm = reach.low.at.station_nm, reach.high.at.station_nm
    return Reach(start_nm, end_nm, reach.fall_nm, reach.proof.verdict)
