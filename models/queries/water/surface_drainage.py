"""Gates of water on a surface, in one unit, as designed and with the collector as laid.

All of it is an estimate: every figure that is shown carries ``ESTIMATE`` beside it. What
is not known is told in a sentence and its gate left out, never guessed.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from models.queries.water.drainage_inputs import (
    CollectorPipe,
    DrainageInputs,
    LaidCollector,
    drainage_inputs,
)
from models.science.water.gates import (
    ESTIMATE,
    Gate,
    carry_mm_per_h,
    governing_gate,
    intake_mm_per_h,
    pipe_mm_per_h,
    strip_area_m2,
)
from models.science.water.manning import full_flow_m3_per_s, full_velocity_m_per_s
from models.science.water.part_full import PartFull, part_full
from models.science.water.pipe_run import (
    ReachFlow,
    VelocityWarning,
    flow_from_area_m3_per_s,
    velocity_warnings,
    worst_reach,
)
from models.science.water.widening import (
    Lever,
    RainGone,
    Widening,
    can_be_cut,
    rain_gone,
    widenings,
)
from models.state.job_state import JobState

NM_PER_MM = 1_000_000


@dataclass(frozen=True, slots=True)
class GateRate:
    """Rate of a gate: ``rate_mm_per_h`` of water over the surface, None where not known."""

    gate: Gate
    rate_mm_per_h: float | None


@dataclass(frozen=True, slots=True)
class PipeSpeed:
    """Velocity of a pipe that runs full, and what is wrong with it; ``where`` says which pipe."""

    where: str
    velocity_m_per_s: float
    warnings: tuple[VelocityWarning, ...]


@dataclass(frozen=True, slots=True)
class GateSet:
    """Gates of a surface: which governs, what would widen it, how soon the rain is gone.

    ``runs`` is how the collector runs at the rate of the gate that governs, by its flattest
    known grade; None where it carries nothing, or is the gate itself and so runs full.
    """

    rates: tuple[GateRate, ...]
    governs: Gate | None
    widenings: tuple[Widening, ...]
    gone: RainGone | None
    speeds: tuple[PipeSpeed, ...]
    runs: PartFull | None = None

    @property
    def rate_mm_per_h(self) -> float | None:
        """Rate of the gate that governs."""
        return next((one.rate_mm_per_h for one in self.rates if one.gate is self.governs), None)


@dataclass(frozen=True, slots=True)
class SurfaceDrainage:
    """The estimate of a surface's drainage.

    ``laid`` is None until the collector has two inverts shot. ``worst`` is the reach as
    laid that governs. ``rain_mm`` is the stated rain as it counts on the surface, run-on
    from outside included.
    """

    surface_id: str
    name: str
    designed: GateSet
    laid: GateSet | None
    worst: ReachFlow | None
    rain_mm: float
    rain_h: float
    missing: tuple[str, ...]
    inputs: DrainageInputs
    estimate: str = ESTIMATE


def surface_drainage(state: JobState, surface_id: str) -> SurfaceDrainage:
    """Estimate the drainage of a surface as the job stands.

    Raises
    ------
    models.queries.water.drainage_inputs.SurfaceUnknownError
        If the job has no such surface.
    """
    return reckon_drainage(drainage_inputs(state, surface_id))


def reckon_drainage(inputs: DrainageInputs) -> SurfaceDrainage:
    """Estimate the drainage of a surface from gathered inputs."""
    rain_mm, rain_h = _rain(inputs)
    slits = _slit_rates(inputs)
    pipes = _slit_pipe_speed(inputs)
    rates, speeds = dict(slits), list(pipes)
    collector = inputs.collector
    if collector is not None and collector.share_m2 and inputs.gates is not None:
        rates[Gate.COLLECTOR] = inputs.gates.rate_mm_per_h * inputs.run_on
    if collector is not None:
        speed = full_velocity_m_per_s(collector.bore_nm, collector.grade, inputs.roughness)
        speeds.append(_speed(f"{collector.collector_id} as designed", speed, inputs))
    designed = _gate_set(inputs, rates, speeds, rain_mm, rain_h)
    if collector is not None:
        designed = replace(designed, runs=_runs(inputs, designed, collector, collector.grade))
    worst = worst_reach(inputs.laid.flows) if inputs.laid and inputs.laid.flows else None
    laid = None
    if inputs.laid and worst and collector and collector.share_m2 and inputs.laid_gates:
        rates = {**slits, Gate.COLLECTOR: inputs.laid_gates.rate_mm_per_h * inputs.run_on}
        speeds = [*pipes, *_laid_speeds(inputs, inputs.laid)]
        laid = _gate_set(inputs, rates, speeds, rain_mm, rain_h)
        laid = replace(laid, runs=_runs(inputs, laid, collector, worst.reach.grade))
    return SurfaceDrainage(
        inputs.surface_id,
        inputs.name,
        designed,
        laid,
        worst,
        rain_mm,
        rain_h,
        inputs.missing,
        inputs,
    )


def _rain(inputs: DrainageInputs) -> tuple[float, float]:
    """The stated rain as it counts on the surface [mm], and how long it lasts [h]."""
    if inputs.terms is None:
        return 0.0, 0.0
    depth = inputs.terms.rain_nm / NM_PER_MM * inputs.run_on
    return depth, inputs.terms.rain_min / 60


def _slit_rates(inputs: DrainageInputs) -> dict[Gate, float]:
    """What the slits let in, carry sideways and take off in their pipes."""
    rates: dict[Gate, float] = {}
    if inputs.grid is not None:
        rates[Gate.INTAKE] = intake_mm_per_h(inputs.grid)
        if inputs.is_crossed:
            rates[Gate.CARRY] = carry_mm_per_h(inputs.grid)
    pipe = inputs.slit_pipe
    if pipe is not None and not inputs.is_lost:
        flow = full_flow_m3_per_s(pipe.bore_nm, pipe.grade, inputs.roughness)
        rates[Gate.PIPE] = pipe_mm_per_h(flow, strip_area_m2(pipe.longest_nm, pipe.spacing_nm))
    return rates


def _slit_pipe_speed(inputs: DrainageInputs) -> list[PipeSpeed]:
    pipe = inputs.slit_pipe
    if pipe is None:
        return []
    speed = full_velocity_m_per_s(pipe.bore_nm, pipe.grade, inputs.roughness)
    return [_speed(f"a piped slit of {inputs.surface_id}", speed, inputs)]


def _laid_speeds(inputs: DrainageInputs, laid: LaidCollector) -> list[PipeSpeed]:
    """Velocity of each reach as laid that falls with the flow."""
    station = inputs.figures.station
    return [
        _speed(
            f"{laid.collector_id} from {station(one.reach.start_nm)} "
            f"to {station(one.reach.end_nm)} as laid",
            one.velocity_m_per_s,
            inputs,
        )
        for one in laid.flows
        if one.velocity_m_per_s > 0
    ]


def _speed(where: str, velocity: float, inputs: DrainageInputs) -> PipeSpeed:
    return PipeSpeed(where, velocity, tuple(velocity_warnings(velocity, inputs.takes_silt)))


def _gate_set(
    inputs: DrainageInputs,
    rates: dict[Gate, float],
    speeds: Sequence[PipeSpeed],
    rain_mm: float,
    rain_h: float,
) -> GateSet:
    shown = tuple(GateRate(gate, rates.get(gate)) for gate in Gate)
    governs = governing_gate(rates) if rates else None
    if governs is None or rates[governs] <= 0:
        return GateSet(shown, governs, (), None, tuple(speeds))
    wider = [one for one in widenings(rates) if _can_be(one, inputs)]
    is_timed = rain_mm > 0 and not inputs.is_lost
    gone = rain_gone(rain_mm, rain_h, rates[governs]) if is_timed else None
    return GateSet(shown, governs, tuple(wider), gone, tuple(speeds))


def _runs(
    inputs: DrainageInputs, gates: GateSet, collector: CollectorPipe, grade: Fraction
) -> PartFull | None:
    """Depth in a collector when the surfaces on it pass water at the rate that governs."""
    rate, share_m2 = gates.rate_mm_per_h, collector.share_m2
    if not rate or not share_m2 or gates.governs is Gate.COLLECTOR or grade <= 0:
        return None
    flow = flow_from_area_m3_per_s(share_m2, rate)
    return part_full(flow, collector.bore_nm, grade, inputs.roughness)


def _can_be(widening: Widening, inputs: DrainageInputs) -> bool:
    """Whether a lever can be moved so far, and moves what governs."""
    if widening.lever in {Lever.COLLECTOR_BORE, Lever.COLLECTOR_GRADE}:
        return inputs.gates is not None and inputs.gates.is_by_size
    return inputs.grid is None or can_be_cut(widening, inputs.grid)
