"""Text of a surface's drainage estimate, in words and in the job's units."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction

from models.queries.water.collector_gates import CollectorGates
from models.queries.water.drainage_inputs import DrainageInputs, SlitPipe
from models.queries.water.drainage_soil import UM_PER_MM, SoilBetween
from models.queries.water.surface_drainage import GateSet, PipeSpeed, SurfaceDrainage
from models.science.water.gates import Gate, SlitGrid
from models.science.water.manning import full_flow_m3_per_s
from models.science.water.pipe_run import FT_M
from models.science.water.widening import Lever, RainGone, Widening
from models.units import round_half_even
from models.units.job_units import Figures

MM_PER_IN = 25.4
GAL_PER_MIN = 231 * 0.0254**3 / 60
"""One US gallon a minute [m3/s]."""

SOIL = "what the soil between the piped slits carries"
NOT_KNOWN = "not known"
_MOST_NAMES = 6
_M2_PER_RATE = 3.6e6
"""Square metres that give a cubic metre a second at a millimetre an hour."""
NEVER = "never, by this measure: a reach that is flat or runs backwards has to be laid again"


@dataclass(frozen=True, slots=True)
class GateLine:
    """Text of a gate; ``governs`` marks the narrowest, ``how`` is its arithmetic."""

    gate: str
    rate: str
    governs: bool
    how: str


@dataclass(frozen=True, slots=True)
class GateText:
    """Text of a set of gates; ``soil`` says what the soil would do by itself."""

    title: str
    lines: tuple[GateLine, ...]
    governs: str
    wider: tuple[str, ...]
    gone: str
    warnings: tuple[str, ...]
    runs: str = ""
    soil: str = ""


def show_rate(mm_per_h: float | None, figures: Figures) -> str:
    """A depth of water an hour: ``1.25 in/h`` or ``32 mm/h``."""
    if mm_per_h is None:
        return NOT_KNOWN
    return f"{mm_per_h / MM_PER_IN:.2f} in/h" if figures.is_us else f"{mm_per_h:.1f} mm/h"


def show_depth(mm: float, figures: Figures) -> str:
    """A depth of rain: ``1.00 in`` or ``25 mm``."""
    return f"{mm / MM_PER_IN:.2f} in" if figures.is_us else f"{mm:.1f} mm"


def show_speed(m_per_s: float, figures: Figures) -> str:
    """A velocity: ``1.34 ft/s`` or ``0.41 m/s``."""
    return f"{m_per_s / FT_M:.2f} ft/s" if figures.is_us else f"{m_per_s:.2f} m/s"


def show_flow(m3_per_s: float, figures: Figures) -> str:
    """A flow: ``52.3 gal/min`` or ``3.30 L/s``."""
    if figures.is_us:
        return f"{m3_per_s / GAL_PER_MIN:.1f} gal/min"
    return f"{m3_per_s * 1000:.2f} L/s"


def show_hours(hours: float) -> str:
    """A time: ``1 h 20 min``; a begun minute counts whole."""
    minutes = -int(-(hours * 60) // 1)
    whole, rest = divmod(minutes, 60)
    return f"{whole} h {rest} min" if whole else f"{rest} min"


def gate_texts(drainage: SurfaceDrainage) -> list[GateText]:
    """The gates as designed, and as laid where the collector has been shot."""
    texts = [_text("as designed", drainage.designed, drainage)]
    if drainage.laid is not None and drainage.inputs.laid is not None:
        what = drainage.inputs.laid.collector_id
        texts.append(_text(f"with {what} as laid", drainage.laid, drainage))
    return texts


def _text(title: str, gates: GateSet, drainage: SurfaceDrainage) -> GateText:
    inputs = drainage.inputs
    is_laid = gates is drainage.laid
    lines = tuple(
        GateLine(
            one.gate.value,
            show_rate(one.rate_mm_per_h, inputs.figures),
            one.gate is gates.governs,
            _how(one.gate, drainage, is_laid) if one.rate_mm_per_h is not None else "",
        )
        for one in gates.rates
    )
    if inputs.soil is not None:
        lines += (_soil_line(inputs.soil, inputs.figures),)
    return GateText(
        title,
        lines,
        _governs(gates, inputs.figures),
        tuple(_wider(one, inputs) for one in gates.widenings),
        _gone(gates, drainage),
        tuple(_warning(one, inputs.figures) for one in gates.speeds if one.warnings),
        _runs(gates, inputs),
        _soil_alone(gates, inputs),
    )


def _runs(gates: GateSet, inputs: DrainageInputs) -> str:
    """How full the collector runs meanwhile."""
    if gates.runs is None or inputs.collector is None:
        return ""
    speed = show_speed(gates.runs.velocity_m_per_s, inputs.figures)
    share = f"{gates.runs.fill * 100:.0f} %"
    return f"{inputs.collector.collector_id} then runs {share} of its bore deep, at {speed}."


def _soil_line(soil: SoilBetween, figures: Figures) -> GateLine:
    """What walks through the soil: beside the gates, and so never the one that governs."""
    conductivity = show_rate(soil.soil_um_per_h / UM_PER_MM, figures)
    how = (
        f"Hooghoudt: {conductivity} of the soil, head {figures.depth(soil.head_nm)}, impermeable "
        f"layer {figures.depth(soil.below_nm)} under the slits, {figures.depth(soil.spacing_nm)} "
        "apart"
    )
    return GateLine(SOIL, show_rate(soil.rate_mm_per_h, figures), False, how)


def _soil_alone(gates: GateSet, inputs: DrainageInputs) -> str:
    """How close piped slits would be if the soil alone had to pass what governs."""
    if inputs.soil is None:
        return ""
    said = "The soil is a way beside the slits and governs nothing"
    if not gates.rate_mm_per_h:
        return f"{said}."
    rate = show_rate(gates.rate_mm_per_h, inputs.figures)
    apart_nm = inputs.soil.spacing_for_nm(gates.rate_mm_per_h)
    if apart_nm is None:
        return f"{said}; alone it could not pass {rate} at any spacing of the piped slits."
    apart = inputs.figures.depth(apart_nm)
    return f"{said}; alone it would pass {rate} with piped slits {apart} apart."


def _how(gate: Gate, drainage: SurfaceDrainage, is_laid: bool) -> str:
    inputs = drainage.inputs
    grid, pipe = inputs.grid, inputs.slit_pipe
    gates = inputs.laid_gates if is_laid else inputs.gates
    if gate is Gate.INTAKE and grid is not None:
        return _intake_how(grid, inputs.figures)
    if gate is Gate.CARRY and grid is not None:
        return _carry_how(grid, inputs.figures)
    if gate is Gate.PIPE and pipe is not None:
        return _pipe_how(pipe, inputs)
    if gate is Gate.COLLECTOR and gates is not None:
        return _collector_how(gates, inputs.figures)
    return ""


def _intake_how(grid: SlitGrid, figures: Figures) -> str:
    conductivity = show_rate(grid.conductivity_mm_per_h, figures)
    width, apart = figures.depth(grid.width_nm), figures.depth(grid.spacing_nm)
    return f"{conductivity} of the sand x {width} / {apart}"


def _carry_how(grid: SlitGrid, figures: Figures) -> str:
    conductivity = show_rate(grid.conductivity_mm_per_h, figures)
    width, apart = figures.depth(grid.width_nm), figures.depth(grid.spacing_nm)
    depth, piped = figures.depth(grid.depth_nm), figures.depth(grid.piped_spacing_nm)
    return f"4 x {conductivity} x {width} / {apart} x ({depth} / {piped})\u00b2"


def _pipe_how(pipe: SlitPipe, inputs: DrainageInputs) -> str:
    figures = inputs.figures
    flow = full_flow_m3_per_s(pipe.bore_nm, pipe.grade, inputs.roughness)
    bore, length = figures.depth(pipe.bore_nm), figures.length(pipe.longest_nm)
    grade = figures.grade(round_half_even(pipe.grade * 1_000_000))
    return (
        f"{show_flow(flow, figures)} in {bore} at {grade}, n {inputs.roughness:g}, off "
        f"{length} x {figures.depth(pipe.spacing_nm)}"
    )


def _collector_how(gates: CollectorGates, figures: Figures) -> str:
    """The reach that governs, or the outlet, and up to which rates it goes on giving."""
    place, water = gates.place, gates.reach
    if place is None or water is None:
        told = f"what {gates.outlet.outlet_id} takes, off {_area(gates.joined_m2, figures)}"
    else:
        reach = water.reach
        ends = sorted((place.lower_nm, place.upper_nm))
        where = f"{place.collector_id} {' to '.join(map(figures.station, ends))}"
        grade = figures.grade(round_half_even(reach.grade * 1_000_000))
        told = (
            f"{show_flow(water.full_m3_per_s, figures)} in {figures.depth(reach.bore_nm)} at "
            f"{grade}, {where}, n {reach.roughness:g}"
        )
        if gates.gate.rate_mm_per_h > 0 and water.flow_m3_per_s > 0:
            off = water.flow_m3_per_s / gates.gate.rate_mm_per_h * _M2_PER_RATE
            told += f", off {_area(off, figures)}"
        if gates.is_drowned and gates.tailwater is not None:
            stands = f"{figures.level(gates.tailwater.level_nm)} ({gates.tailwater.source})"
            told += f"; the water at {gates.outlet.outlet_id}, {stands}, stands back into it"
    beside = [
        f"{one.limit.value}: up to {show_rate(one.rate_mm_per_h, figures)}" for one in gates.beside
    ]
    return "; ".join([told, *beside])


def no_outlet_text(inputs: DrainageInputs) -> str:
    """Sentence on the part of a surface without a way out in the plan; "" where there is none."""
    if not inputs.lost_share:
        return ""
    names = inputs.lost_lines or (inputs.surface_id,)
    first, rest = names[:_MOST_NAMES], len(names) - _MOST_NAMES
    listed = ", ".join(first) + (f" and {rest} more" if rest > 0 else "")
    reach = "reaches" if len(names) == 1 else "reach"
    share = f"{float(inputs.lost_share) * 100:.0f} % of {inputs.surface_id} has no way out"
    if inputs.is_lost:
        share = f"nothing of {inputs.surface_id} has a way out"
    return f"{listed} {reach} no outlet: {share} in this plan, and no time is claimed for it."


def _area(m2: float, figures: Figures) -> str:
    return f"{m2 / FT_M**2:,.0f} ft\u00b2" if figures.is_us else f"{m2:,.0f} m\u00b2"


def _governs(gates: GateSet, figures: Figures) -> str:
    if gates.governs is None:
        return "No gate is known."
    unknown = [one.gate.value for one in gates.rates if one.rate_mm_per_h is None]
    rate = show_rate(gates.rate_mm_per_h, figures)
    said = f"{gates.governs.value.capitalize()} governs, at {rate}"
    return f"{said}; not judged: {', '.join(unknown)}." if unknown else f"{said}."


def _gone(gates: GateSet, drainage: SurfaceDrainage) -> str:
    figures = drainage.inputs.figures
    if not drainage.rain_mm:
        return "No rain is stated."
    rain = f"{show_depth(drainage.rain_mm, figures)} in {show_hours(drainage.rain_h)}"
    if drainage.inputs.is_lost:
        return f"{rain}: no time is claimed, for none of it has a way out in this plan."
    if gates.gone is None:
        return f"{rain} has left: {NEVER if gates.governs else NOT_KNOWN}."
    return f"{rain} has left {_gone_words(gates.gone, figures)}."


def _gone_words(gone: RainGone, figures: Figures) -> str:
    if gone.after_h <= 0:
        return "as it stops; none stands on the surface"
    stands = show_depth(gone.standing_mm, figures)
    return f"{show_hours(gone.after_h)} after it stops; at most {stands} stands on the surface"


def _wider(widening: Widening, inputs: DrainageInputs) -> str:
    rate = show_rate(widening.rate_mm_per_h, inputs.figures)
    size = _size_of(widening.lever, inputs)
    to = f"x {widening.factor:.2f}"
    if size is not None:
        now_nm, show = size
        to = f"{show(now_nm)} to {show(round(now_nm * widening.factor))}"
    return f"{widening.lever.value}: {to} gives {rate}; then {widening.next_gate.value} governs too"


def _size_of(lever: Lever, inputs: DrainageInputs) -> tuple[int, Callable[[int], str]] | None:
    """What a lever is now, and how it is shown; None where it is shown as a factor."""
    figures = inputs.figures
    sizes: dict[Lever, int] = {}
    grades: dict[Lever, Fraction] = {}
    if inputs.grid is not None:
        sizes[Lever.SPACING] = inputs.grid.spacing_nm
        sizes[Lever.WIDTH] = inputs.grid.width_nm
        sizes[Lever.DEPTH] = inputs.grid.depth_nm
        sizes[Lever.PIPED_SPACING] = inputs.grid.piped_spacing_nm
    if inputs.slit_pipe is not None:
        sizes[Lever.PIPE_BORE] = inputs.slit_pipe.bore_nm
        grades[Lever.PIPE_GRADE] = inputs.slit_pipe.grade
    if inputs.collector is not None:
        sizes[Lever.COLLECTOR_BORE] = inputs.collector.bore_nm
    if lever in sizes:
        return sizes[lever], figures.depth
    if lever in grades:
        return round_half_even(grades[lever] * 1_000_000), figures.grade
    return None


def _warning(speed: PipeSpeed, figures: Figures) -> str:
    velocity = show_speed(speed.velocity_m_per_s, figures)
    why = " and ".join(str(one) for one in speed.warnings)
    return f"{speed.where} runs full at {velocity}: {why}."
